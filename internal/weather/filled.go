package weather

// nightFrom and nightTo are the clock hours in which freezes mostly fall, by
// their beginning.
const nightFrom, nightTo = 1, 7

// noteFilled counts the hours whose dry bulb the publisher filled in. Where most
// nights are such hours, as at airports that close in the evening, ignoring them
// would lose real freezes: there they count like observed ones.
func (s *Series) noteFilled(flagged bool) {
	if !flagged {
		return
	}
	filled, night, filledNight := 0, 0, 0
	for i := range s.Hours {
		isNight := s.Start(i).Hour() >= nightFrom && s.Start(i).Hour() < nightTo
		if isNight {
			night++
		}
		if s.Hours[i].Filled {
			filled++
			if isNight {
				filledNight++
			}
		}
	}
	n := Note{Kind: NoteFilled, Count: filled, Want: len(s.Hours)}
	if 2*filledNight > night {
		n.Kind = NoteFilledNights
		for i := range s.Hours {
			s.Hours[i].Filled = false
		}
	}
	s.note(n)
}

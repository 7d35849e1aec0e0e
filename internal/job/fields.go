package job

// text, choice and yesNo reach the fields of a job that hold words.

func text(field func(*Job) *string) func(*Job) word {
	return choice(field)
}

func choice[T ~string](field func(*Job) *T) func(*Job) word {
	return func(j *Job) word {
		p := field(j)
		return word{
			get: func() string { return string(*p) },
			set: func(s string) { *p = T(s) },
		}
	}
}

func yesNo(field func(*Job) *bool) func(*Job) word {
	return func(j *Job) word {
		p := field(j)
		return word{
			get: func() string {
				if *p {
					return "yes"
				}
				return "no"
			},
			set: func(s string) { *p = s == "yes" },
		}
	}
}

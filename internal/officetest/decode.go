package officetest

import (
	"encoding/json"
	"strconv"
)

func decodeRows(rows [][]json.RawMessage) ([][]any, error) {
	out := make([][]any, len(rows))
	for i, row := range rows {
		out[i] = make([]any, len(row))
		for j, raw := range row {
			v, err := decodeValue(raw)
			if err != nil {
				return nil, err
			}
			out[i][j] = v
		}
	}
	return out, nil
}

// decodeValue reads one cell's value: a number, a text, true, false, null or
// {"error": text}.
func decodeValue(raw json.RawMessage) (any, error) {
	switch raw[0] {
	case 'n':
		return nil, nil
	case 't', 'f':
		return raw[0] == 't', nil
	case '"':
		var s string
		err := json.Unmarshal(raw, &s)
		return s, err
	case '{':
		var e struct{ Error string }
		err := json.Unmarshal(raw, &e)
		return CellError(e.Error), err
	}
	return strconv.ParseFloat(string(raw), 64)
}

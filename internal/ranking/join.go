package ranking

import (
	"cmp"
	"fmt"
	"reflect"
	"slices"
	"strconv"
	"strings"

	"github.com/evapbook/evapbook/internal/hint"
)

// Join reads the parts of a sharded run, in any order, and gives the table of
// the whole run. Parts of different runs, a part given twice and missing parts
// are errors.
func Join(paths []string) (*Table, error) {
	whole := &Table{}
	from := map[Shard]string{}
	for _, path := range paths {
		t, err := readPart(path)
		if err != nil {
			return nil, err
		}
		if other, ok := from[t.Shard]; ok {
			return nil, hint.With(fmt.Errorf("%s: part %s, as is %s", path, t.Shard, other), "give each part once")
		}
		if len(from) == 0 {
			whole.About = t.About
		} else if what := differs(whole.About, t.About); what != "" {
			return nil, hint.With(fmt.Errorf("%s: of another run than %s: %s differ", path, paths[0], what), "run all parts with the same program, files and inputs")
		}
		from[t.Shard] = path
		whole.Rows = append(whole.Rows, t.Rows...)
		whole.Left = append(whole.Left, t.Left...)
	}
	if err := complete(from, whole.Shard.N); err != nil {
		return nil, err
	}
	whole.Shard = Whole
	slices.SortStableFunc(whole.Rows, compareRows)
	slices.SortStableFunc(whole.Left, func(a, b LeftOut) int { return cmp.Compare(a.Order, b.Order) })
	return whole, nil
}

// differs names what two parts of one run must have in common and have not.
func differs(a, b About) string {
	switch {
	case a.Shard.N != b.Shard.N:
		return "the numbers of parts"
	case a.List != b.List || a.Files != b.Files:
		return "the lists of weather files"
	case a.Version != b.Version:
		return "the versions of the program"
	case a.Job != b.Job:
		return "the stated inputs"
	case a.Weather != b.Weather:
		return "the ways of reading the files"
	case !reflect.DeepEqual(a.Axes, b.Axes):
		return "the varied inputs"
	}
	return ""
}

func complete(from map[Shard]string, n int) error {
	var missing []string
	for i := 1; i <= n; i++ {
		if from[Shard{i, n}] == "" {
			missing = append(missing, strconv.Itoa(i))
		}
	}
	if len(missing) == 0 {
		return nil
	}
	return hint.With(fmt.Errorf("of %d parts these are missing: %s", n, strings.Join(missing, ", ")), "run them again with --shard and join all parts")
}

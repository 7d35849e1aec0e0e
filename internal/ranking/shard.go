package ranking

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"strconv"
	"strings"

	"github.com/evapbook/evapbook/internal/hint"
)

// Shard is part I of N of a run, I from 1: it takes every N-th file, so that
// large and small files, and regions, spread evenly.
type Shard struct {
	I int `json:"i"`
	N int `json:"n"`
}

// Whole is a run in one piece.
var Whole = Shard{1, 1}

// ParseShard reads "3/16".
func ParseShard(text string) (Shard, error) {
	a, b, _ := strings.Cut(text, "/")
	i, err1 := strconv.Atoi(a)
	n, err2 := strconv.Atoi(b)
	if err1 != nil || err2 != nil || i < 1 || i > n {
		return Shard{}, hint.With(fmt.Errorf("%s is not a part such as 3/16", text), "the first part is 1/16, the last 16/16")
	}
	return Shard{i, n}, nil
}

// String is the spelling ParseShard reads.
func (s Shard) String() string { return fmt.Sprintf("%d/%d", s.I, s.N) }

// Takes says whether the file at a place in the run belongs to the part.
func (s Shard) Takes(order int) bool { return order%s.N == s.I-1 }

// fingerprint is the SHA-256 of the names of files, in order.
func fingerprint(files []File) string {
	h := sha256.New()
	for _, f := range files {
		fmt.Fprintf(h, "%s\n", f.Name)
	}
	return hex.EncodeToString(h.Sum(nil))
}

package main

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// Lines as go 1.26 writes them, shortened.
const (
	passes = `{"Action":"run","Package":"m/a","Test":"TestGood"}
{"Action":"output","Package":"m/a","Test":"TestGood","Output":"=== RUN   TestGood\n"}
{"Action":"output","Package":"m/a","Test":"TestGood","Output":"chatter\n"}
{"Action":"pass","Package":"m/a","Test":"TestGood","Elapsed":12}
{"Action":"output","Package":"m/a","Output":"PASS\n"}
{"Action":"output","Package":"m/a","Output":"ok  \tm/a\t0.1s\n"}
{"Action":"pass","Package":"m/a","Elapsed":0.1}
`
	skips = `{"Action":"output","Package":"m/b","Test":"TestReal","Output":"=== RUN   TestReal\n"}
{"Action":"output","Package":"m/b","Test":"TestReal","Output":"    b_test.go:7: SKIPPED: no ../shared\n"}
{"Action":"output","Package":"m/b","Test":"TestReal","Output":"--- SKIP: TestReal (0.00s)\n"}
{"Action":"skip","Package":"m/b","Test":"TestReal","Elapsed":0}
{"Action":"output","Package":"m/b","Output":"ok  \tm/b\t0.1s\n"}
{"Action":"pass","Package":"m/b","Elapsed":0.1}
`
	fails = `{"Action":"output","Package":"m/c","Test":"TestBad","Output":"    c_test.go:9: want 2\n"}
{"Action":"fail","Package":"m/c","Test":"TestBad","Elapsed":0}
{"Action":"output","Package":"m/c","Output":"FAIL\tm/c\t0.1s\n"}
{"Action":"fail","Package":"m/c","Elapsed":0.1}
`
	panics = `{"Action":"output","Package":"m/c","Output":"panic: x\n"}
{"Action":"output","Package":"m/c","Output":"FAIL\tm/c\t0.1s\n"}
{"Action":"fail","Package":"m/c","Elapsed":0.1}
`
	noBuild = `{"ImportPath":"m/d","Action":"build-output","Output":"d.go:3: undefined: x\n"}
{"ImportPath":"m/d","Action":"build-fail"}
{"Action":"output","Package":"m/d","Output":"FAIL\tm/d [build failed]\n"}
{"Action":"fail","Package":"m/d","Elapsed":0,"FailedBuild":"m/d"}
`
	noTests = `{"Action":"output","Package":"m/e","Output":"?   \tm/e\t[no test files]\n"}
{"Action":"skip","Package":"m/e","Elapsed":0}
`
)

func TestReport(t *testing.T) {
	for name, c := range map[string]struct {
		in     string
		strict bool
		ok     bool
		has    []string
	}{
		"all well":            {passes, true, true, []string{"ok  \tm/a", "a.TestGood: 12 s", "\n1 passed, 0 failed, 0 skipped\n"}},
		"cut off":             {`{"Action":"start","Package":"m/z"}` + "\n" + passes, false, false, []string{"FAIL m/z: its tests began", "\n1 passed, 1 failed, 0 skipped\n"}},
		"skipped":             {passes + skips, false, true, []string{"b.TestReal: SKIPPED: no ../shared", "\n1 passed, 0 failed, 1 skipped\n"}},
		"skipped, not to be":  {passes + skips, true, false, []string{"b.TestReal: SKIPPED: no ../shared", "\n1 passed, 1 failed, 0 skipped\n"}},
		"failed":              {passes + fails, false, false, []string{"c_test.go:9: want 2", "FAIL\tm/c", "\n1 passed, 1 failed, 0 skipped\n"}},
		"failed outside":      {passes + panics, false, false, []string{"panic: x", "\n1 passed, 1 failed, 0 skipped\n"}},
		"not built":           {passes + noBuild, false, false, []string{"d.go:3: undefined: x", "\n1 passed, 1 failed, 0 skipped\n"}},
		"no tests anywhere":   {noTests, false, false, []string{"\n0 passed, 0 failed, 0 skipped\n"}},
		"a package without":   {passes + noTests, true, true, []string{"[no test files]"}},
		"go's own complaints": {"go: no such module\n" + passes, false, true, []string{"go: no such module"}},
		"nothing":             {"", false, false, nil},
	} {
		var out strings.Builder
		ok := report(strings.NewReader(c.in), &out, c.strict)
		assert.Equal(t, c.ok, ok, name)
		for _, text := range c.has {
			assert.Contains(t, out.String(), text, name)
		}
		assert.NotContains(t, out.String(), "chatter", name)
	}
}

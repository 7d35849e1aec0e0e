// Command mutants plants small faults in a copy of the calculation's source,
// one at a time, and runs the quick tests on each: a fault that no test sees is
// a check that is missing.
//
//	go run ./tools/mutants [-n 200] [-seed 1] [-slice 1/8] [-match regexp] [-own] [-list]
//
// The faults of a seed are a sample by hash, so that an edit elsewhere leaves
// most of it as it was. Nothing is written into the tree: the tests are built
// with go test -overlay. A fault that changes nothing anyone could see is
// listed in equivalent.txt with its reason.
package main

import (
	"bufio"
	_ "embed"
	"flag"
	"fmt"
	"hash/fnv"
	"math"
	"os"
	"regexp"
	"slices"
	"strings"
	"sync"
	"time"
)

// areas are the packages that carry the calculation. Of those below workbook
// only the text of cell formulas is changed.
var areas = []string{"psychro", "cooler", "house", "refrigeration", "season", "climate", "money", "units", "weather", "workbook"}

// wanted is the share of faults that are no equivalents the tests must catch.
const wanted = 0.9

//go:embed equivalent.txt
var equivalentText string

func main() {
	n := flag.Int("n", 200, "faults in the sample")
	seed := flag.Int("seed", 1, "another seed is another sample")
	slice := flag.String("slice", "1/1", "only this part of the sample, as 2/8")
	match := flag.String("match", "", "only faults whose line in the report matches this")
	own := flag.Bool("own", false, "run only the tests of the changed package, and of formula text the proofs: quick, and the stricter question")
	list := flag.Bool("list", false, "print the sample and plant nothing")
	workers := flag.Int("workers", 2, "faults tried at a time")
	flag.Parse()
	if err := run(*n, *seed, *slice, *match, *own, *list, *workers); err != nil {
		fmt.Fprintln(os.Stderr, "mutants:", err)
		os.Exit(1)
	}
}

func run(n, seed int, slice, match string, own, list bool, workers int) error {
	filter, err := regexp.Compile(match)
	if err != nil {
		return err
	}
	var part, parts int
	if _, err := fmt.Sscanf(slice, "%d/%d", &part, &parts); err != nil || part < 1 || part > parts {
		return fmt.Errorf("-slice %q: a part and a number of parts, as 2/8", slice)
	}
	all, err := faults("internal")
	if err != nil {
		return err
	}
	chosen := sample(all, n, seed)
	chosen = slices.DeleteFunc(chosen, func(f fault) bool { return !filter.MatchString(f.String()) })
	var mine []fault
	for i, f := range chosen {
		if i%parts == part-1 {
			mine = append(mine, f)
		}
	}
	if list {
		for _, f := range mine {
			fmt.Println(f)
		}
		fmt.Printf("%d faults of %d possible ones\n", len(mine), len(all))
		return nil
	}
	tests, err := newTests(own)
	if err != nil {
		return err
	}
	defer tests.close()
	return report(mine, tryAll(mine, tests, workers))
}

// sample takes n faults, from each area by the square root of how many it has.
func sample(all []fault, n, seed int) []fault {
	byArea := map[string][]fault{}
	for _, f := range all {
		byArea[f.area] = append(byArea[f.area], f)
	}
	var sum float64
	for _, fs := range byArea {
		sum += math.Sqrt(float64(len(fs)))
	}
	var out []fault
	for _, area := range areas {
		fs := byArea[area]
		slices.SortFunc(fs, func(a, b fault) int {
			x, y := a.rank(seed), b.rank(seed)
			switch {
			case x < y:
				return -1
			case x > y:
				return 1
			default:
				return strings.Compare(a.String(), b.String())
			}
		})
		share := math.Sqrt(float64(len(fs))) / sum
		out = append(out, fs[:min(len(fs), int(math.Round(share*float64(n))))]...)
	}
	return out
}

func (f fault) rank(seed int) uint64 {
	h := fnv.New64a()
	fmt.Fprintf(h, "%d %s", seed, f)
	return h.Sum64()
}

func tryAll(faults []fault, tests *tests, workers int) []outcome {
	out, equivalent := make([]outcome, len(faults)), equivalents()
	next := make(chan int)
	var wg sync.WaitGroup
	for range workers {
		wg.Go(func() {
			for i := range next {
				began := time.Now()
				_, listed := equivalent[faults[i].String()]
				out[i] = tests.try(faults[i], listed)
				fmt.Fprintf(os.Stderr, "%d/%d %4.0f s  %-9s %s (%s)\n", i+1, len(faults), time.Since(began).Seconds(), out[i].verdict, faults[i], out[i].by)
			}
		})
	}
	for i := range faults {
		next <- i
	}
	close(next)
	wg.Wait()
	return out
}

// report prints what became of the faults, by area; too few caught is an error.
func report(faults []fault, outcomes []outcome) error {
	equivalent := equivalents()
	count := map[string]map[verdict]int{}
	total := map[verdict]int{}
	for i, f := range faults {
		v := outcomes[i].verdict
		if reason, listed := equivalent[f.String()]; listed {
			if v == caught {
				fmt.Printf("LISTED AS EQUIVALENT, YET CAUGHT by %s\n  %s\n  %s\n", outcomes[i].by, f, reason)
			} else {
				v = same
			}
		}
		if count[f.area] == nil {
			count[f.area] = map[verdict]int{}
		}
		count[f.area][v]++
		total[v]++
		if v == survived {
			fmt.Printf("survived: %s\n", f)
		}
	}
	fmt.Printf("%-14s %8s %10s %8s %11s\n", "", caught, same, survived, unbuilt)
	row := func(name string, c map[verdict]int) {
		fmt.Printf("%-14s %8d %10d %8d %11d\n", name, c[caught], c[same], c[survived], c[unbuilt])
	}
	for _, area := range areas {
		if count[area] != nil {
			row(area, count[area])
		}
	}
	row("all", total)
	meant := total[caught] + total[survived]
	if meant == 0 {
		return nil
	}
	share := float64(total[caught]) / float64(meant)
	fmt.Printf("%.1f %% of the faults that change something were caught\n", 100*share)
	if share < wanted {
		return fmt.Errorf("fewer than %.0f %% caught", 100*wanted)
	}
	return nil
}

// equivalents are the faults known to change nothing, with the reason: a fault
// as the report prints it, and below it an indented line.
func equivalents() map[string]string {
	known := map[string]string{}
	var last string
	lines := bufio.NewScanner(strings.NewReader(equivalentText))
	for lines.Scan() {
		switch line := lines.Text(); {
		case strings.HasPrefix(line, "#") || line == "":
		case strings.HasPrefix(line, "\t"):
			known[last] += strings.TrimSpace(line)
		default:
			last = line
			known[last] = ""
		}
	}
	return known
}

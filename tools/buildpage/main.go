// Command buildpage makes the page: a static folder for any web host.
//
//	go run ./tools/buildpage -o out/page
package main

import (
	"flag"
	"fmt"
	"os"

	"github.com/evapbook/evapbook/internal/page/build"
	"github.com/evapbook/evapbook/tools/licences"
)

func main() {
	folder := flag.String("o", "out/page", "folder to make; what was in it goes")
	flag.Parse()
	files, err := build.To(*folder, "")
	if err != nil {
		fmt.Fprintln(os.Stderr, "buildpage:", err)
		os.Exit(1)
	}
	if err := papers(*folder); err != nil {
		fmt.Fprintln(os.Stderr, "buildpage:", err)
		os.Exit(1)
	}
	total := 0
	for _, f := range files {
		fmt.Printf("%10d  %s\n", f.Bytes, f.Name)
		total += f.Bytes
	}
	fmt.Printf("%10d  bytes before any town is chosen\n", total)
}

// papers puts beside the page what goes with a program that is handed on. No
// browser loads them.
func papers(folder string) error {
	modules, err := licences.Linked(".", licences.Builds())
	if err != nil {
		return err
	}
	return licences.Copy(".", folder, modules)
}

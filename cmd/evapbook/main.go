// Command evapbook tells what an evaporative cooler will do for a house in a
// climate, at an altitude, and writes it down as a workbook of live formulas.
package main

import (
	"os"

	"github.com/evapbook/evapbook/internal/cli"
)

func main() {
	os.Exit(cli.Run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr))
}

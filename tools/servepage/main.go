// Command servepage serves the page made by make page, for a look at it:
//
//	go run ./tools/servepage
package main

import (
	"flag"
	"fmt"
	"net"
	"net/http"
	"os"
	"path/filepath"

	"github.com/evapbook/evapbook/internal/page/serve"
)

func main() {
	folder := flag.String("folder", "out/page", "the page, as make page makes it")
	address := flag.String("address", "localhost:8030", "where to serve it")
	flag.Parse()
	if err := run(*folder, *address); err != nil {
		fmt.Fprintln(os.Stderr, "servepage:", err)
		os.Exit(1)
	}
}

func run(folder, address string) error {
	if _, err := os.Stat(filepath.Join(folder, "index.html")); err != nil {
		return fmt.Errorf("%w\nhint: make page", err)
	}
	l, err := net.Listen("tcp", address)
	if err != nil {
		return err
	}
	fmt.Printf("http://%s/\n", l.Addr())
	return http.Serve(l, serve.Folder(folder))
}

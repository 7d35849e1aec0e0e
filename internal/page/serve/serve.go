// Package serve serves the folder of the page as any web host would, with the
// headers we recommend to hosts.
package serve

import (
	"net/http"
	"path"
)

// Policy is the Content-Security-Policy of the page, the same as in its HTML:
// nothing but our own files, no inline code or style, nothing sent anywhere.
// The header covers the workers too and forbids frames, which HTML cannot.
const Policy = "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; img-src 'self'; connect-src 'self'; worker-src 'self'; manifest-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"

// types of the files that not every system knows.
var types = map[string]string{
	".bin": "application/octet-stream", ".webmanifest": "application/manifest+json", ".js": "text/javascript; charset=utf-8",
	".svg": "image/svg+xml", ".css": "text/css; charset=utf-8", ".html": "text/html; charset=utf-8",
}

// Folder serves a folder made by package build.
func Folder(folder string) http.Handler {
	files := http.FileServer(http.Dir(folder))
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		h := w.Header()
		h.Set("Content-Security-Policy", Policy)
		h.Set("X-Content-Type-Options", "nosniff")
		h.Set("Referrer-Policy", "no-referrer")
		h.Set("Cache-Control", "no-cache") // ask each time whether a file has changed
		if t := types[path.Ext(r.URL.Path)]; t != "" {
			h.Set("Content-Type", t)
		}
		files.ServeHTTP(w, r)
	})
}

// Package site holds the page itself: HTML, CSS and modules of JavaScript, as
// they are served. Build puts the program and the weather beside them.
package site

import "embed"

// Files are those that are served as they stand.
//
//go:embed index.html *.css *.js *.svg *.webmanifest
var Files embed.FS

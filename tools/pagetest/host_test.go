package pagetest

import (
	"net"
	"net/http"
	"net/http/httptest"
	"regexp"
	"strings"
	"sync"
	"testing"

	"github.com/evapbook/evapbook/internal/page/serve"
)

// host serves the page and is the proxy of the browser: a request to anybody
// else comes here too, is refused and remembered.
type host struct {
	address string // of the server, host and port
	server  *httptest.Server

	mu    sync.Mutex
	bytes map[string]int // sent, by path
	other []string       // requests that were not for us
	gone  string         // ending of paths that are not found; empty: none
}

// browserOwn are hosts that Chromium calls of its own accord, whatever page is
// open. That the page itself does not is shown by its policy, which the browser
// enforces and whose breaches the console would tell.
var browserOwn = regexp.MustCompile(`\.(google|googleapis|gvt1)\.com(:\d+)?$`)

func newHost(t testing.TB, folder string) *host {
	h := &host{bytes: map[string]int{}}
	files := serve.Folder(folder)
	h.server = httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if r.Host != h.address {
			if !browserOwn.MatchString(r.Host) {
				h.mu.Lock()
				h.other = append(h.other, r.Method+" "+r.Host+r.URL.Path)
				h.mu.Unlock()
			}
			http.Error(w, "not here", http.StatusForbidden)
			return
		}
		if gone := h.lacking(); gone != "" && strings.HasSuffix(r.URL.Path, gone) {
			http.NotFound(w, r)
			return
		}
		r.URL.Scheme, r.URL.Host = "", ""
		c := &counted{ResponseWriter: w}
		files.ServeHTTP(c, r)
		h.mu.Lock()
		h.bytes[r.URL.Path] += c.bytes
		h.mu.Unlock()
	}))
	t.Cleanup(h.close)
	_, port, _ := net.SplitHostPort(strings.TrimPrefix(h.server.URL, "http://"))
	h.address = "localhost:" + port
	return h
}

// close ends the server; the browser then has no network at all.
func (h *host) close() {
	h.server.CloseClientConnections()
	h.server.Close()
}

// elsewhere lists requests to other hosts.
func (h *host) elsewhere() []string {
	h.mu.Lock()
	defer h.mu.Unlock()
	return append([]string{}, h.other...)
}

// sent is how many bytes went to the browser.
func (h *host) sent() (total int) {
	h.mu.Lock()
	defer h.mu.Unlock()
	for _, n := range h.bytes {
		total += n
	}
	return total
}

// counted counts what is sent.
type counted struct {
	http.ResponseWriter
	bytes int
}

func (c *counted) Write(b []byte) (int, error) {
	n, err := c.ResponseWriter.Write(b)
	c.bytes += n
	return n, err
}

// lack makes files that end so not be found.
func (h *host) lack(ending string) {
	h.mu.Lock()
	defer h.mu.Unlock()
	h.gone = ending
}

func (h *host) lacking() string {
	h.mu.Lock()
	defer h.mu.Unlock()
	return h.gone
}

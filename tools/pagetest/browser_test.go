// Package pagetest checks the page in a real browser: Debian's Chromium, without
// a window, driven over its own protocol.
package pagetest

import (
	"context"
	"fmt"
	"iter"
	"os"
	"path/filepath"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/browser"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/evapbook/evapbook/internal/officetest"
	"github.com/evapbook/evapbook/internal/page/build"
)

// folder is the page as make page makes it, made once for all tests.
var folder = sync.OnceValues(func() (string, error) {
	folder := filepath.Join("..", "..", "out", "page")
	_, err := build.To(folder, "")
	return folder, err
})

// tab is one page in a browser of its own. All its requests, wherever they go,
// come to one host, which is both web server and proxy.
type tab struct {
	testing.TB
	ctx   context.Context
	host  *host
	saved string // folder that downloads go to

	mu     sync.Mutex
	errors []string // what the console complained of
}

// open starts a browser with a window of a size and opens the page at a
// fragment; it returns when the page is ready.
func open(t testing.TB, width, height int, fragment string) *tab {
	t.Helper()
	officetest.Require(t, officetest.Chromium)
	made, err := folder()
	require.NoError(t, err)
	b := &tab{TB: t, host: newHost(t, made), saved: t.TempDir()}
	options := []chromedp.ExecAllocatorOption{
		chromedp.ExecPath("chromium"), chromedp.WindowSize(width, height),
		chromedp.ProxyServer(b.host.address), chromedp.Flag("proxy-bypass-list", "<-loopback>"),
	}
	if os.Getuid() == 0 {
		options = append(options, chromedp.NoSandbox)
	}
	ctx, stop := chromedp.NewContext(context.Background(), chromedp.WithAllocatorOptions(options...))
	t.Cleanup(stop)
	b.ctx = ctx
	go b.listen(chromedp.Console(ctx))
	b.run(chromedp.EmulateViewport(int64(width), int64(height)))
	_, err = chromedp.Call(ctx, browser.SetDownloadBehavior, browser.SetDownloadBehaviorParams{
		Behavior: browser.SetDownloadBehaviorBehaviorAllow, DownloadPath: b.saved})
	require.NoError(t, err)
	_, err = chromedp.Call(ctx, page.AddScriptToEvaluateOnNewDocument, page.AddScriptToEvaluateOnNewDocumentParams{
		Source: `document.addEventListener("answered", (event) => window.lastAnswer = event.detail, true)`})
	require.NoError(t, err)
	b.load(fragment)
	t.Cleanup(func() { assert.Empty(t, b.host.elsewhere(), "requests to other hosts") })
	return b
}

func (b *tab) load(fragment string) {
	b.Helper()
	b.run(chromedp.Navigate("about:blank"), chromedp.Navigate("http://"+b.host.address+"/"+fragment))
	b.wait(`document.documentElement.dataset.ready === "yes"`)
}

func (b *tab) listen(console iter.Seq2[chromedp.ConsoleMessage, error]) {
	for m, err := range console {
		if err != nil {
			return // the browser is gone
		}
		if m.IsException() || m.Type == chromedp.ConsoleError || m.Type == chromedp.ConsoleWarning {
			b.mu.Lock()
			b.errors = append(b.errors, m.String())
			b.mu.Unlock()
		}
	}
}

// complaints are what the console has complained of so far.
func (b *tab) complaints() []string {
	b.mu.Lock()
	defer b.mu.Unlock()
	return append([]string{}, b.errors...)
}

func (b *tab) run(actions ...chromedp.Action[chromedp.Void]) {
	b.Helper()
	require.NoError(b, chromedp.Do(b.ctx, actions...))
}

// wait returns once an expression is true.
func (b *tab) wait(expression string) {
	b.Helper()
	_, err := chromedp.Run(b.ctx, chromedp.Poll[bool](expression, chromedp.WithPollingTimeout(5*time.Minute)))
	if err != nil {
		text, _ := chromedp.Run(b.ctx, chromedp.Evaluate[string](`document.body.innerText`))
		require.NoError(b, err, "%s\nconsole: %v\npage: %s", expression, b.complaints(), text)
	}
}

// value is what an expression gives, awaited.
func value[V any](b *tab, expression string) V {
	b.Helper()
	v, err := chromedp.Run(b.ctx, chromedp.Evaluate[V](expression, chromedp.EvalAwaitPromise))
	require.NoError(b, err, expression)
	return v
}

// answered waits until the answer to all that is entered is there.
func (b *tab) answered() {
	b.Helper()
	b.wait(`window.lastAnswer !== undefined && document.documentElement.dataset.busy === "no"`)
}

// enter types a value into a field and leaves it.
func (b *tab) enter(key, text string) {
	b.Helper()
	value[bool](b, fmt.Sprintf(`(() => {
		const e = document.getElementById(%q);
		for (let p = e.closest("details"); p; p = p.parentElement.closest("details")) p.open = true;
		e.focus(); e.value = %q; e.dispatchEvent(new Event("change", {bubbles: true}));
		return true;
	})()`, key, text))
}

// download waits for a file that was asked for.
func (b *tab) download(name string) []byte {
	b.Helper()
	path := filepath.Join(b.saved, name)
	for start := time.Now(); time.Since(start) < 5*time.Minute; time.Sleep(50 * time.Millisecond) {
		if info, err := os.Stat(path); err == nil && info.Size() > 0 {
			if _, err := os.Stat(path + ".crdownload"); err != nil {
				text, err := os.ReadFile(path)
				require.NoError(b, err)
				return text
			}
		}
	}
	b.Fatalf("no file %s came", name)
	return nil
}

// picture keeps what the page looks like in out/page-pictures, to be looked at.
func (b *tab) picture(name string) {
	b.Helper()
	png, err := chromedp.Run(b.ctx, chromedp.FullScreenshot(100))
	require.NoError(b, err)
	b.keep(name+".png", png)
}

func (b *tab) keep(name string, content []byte) {
	b.Helper()
	dir := filepath.Join("..", "..", "out", "page-pictures")
	require.NoError(b, os.MkdirAll(dir, 0o755))
	require.NoError(b, os.WriteFile(filepath.Join(dir, name), content, 0o644))
}

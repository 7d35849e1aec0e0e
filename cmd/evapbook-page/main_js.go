// Command evapbook-page is the program as a browser runs it, in a worker: it
// gives package page to JavaScript and waits. Build it with GOOS=js GOARCH=wasm;
// make page does.
//
// In JavaScript, evapbook(name, json, file) makes a call and gives
// {ok, json, file}; file is a Uint8Array or null. While a workbook is written,
// evapbookProgress(bytes, about) is called.
package main

import (
	"syscall/js"

	"github.com/evapbook/evapbook/internal/page"
)

func main() {
	p := page.Page{Progress: func(bytes, about int) { js.Global().Call("evapbookProgress", bytes, about) }}
	js.Global().Set("evapbook", js.FuncOf(func(_ js.Value, args []js.Value) any {
		json, file, ok := p.Call(args[0].String(), []byte(args[1].String()), bytesOf(args[2]))
		return map[string]any{"ok": ok, "json": string(json), "file": arrayOf(file)}
	}))
	select {} // calls come as long as the worker lives
}

// bytesOf copies a Uint8Array; null is no bytes.
func bytesOf(v js.Value) []byte {
	if v.IsNull() || v.IsUndefined() {
		return nil
	}
	b := make([]byte, v.Length())
	js.CopyBytesToGo(b, v)
	return b
}

func arrayOf(b []byte) any {
	if b == nil {
		return nil
	}
	v := js.Global().Get("Uint8Array").New(len(b))
	js.CopyBytesToJS(v, b)
	return v
}

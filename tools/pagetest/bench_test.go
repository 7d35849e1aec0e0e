package pagetest

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
)

// BenchmarkAnswer is the time from a changed input to its answer on the page,
// warm, the charts drawn.
func BenchmarkAnswer(b *testing.B) {
	t := open(b, 1280, 900, "#weather=sample&units=ip")
	t.answered()
	const change = `new Promise((done) => {
		const e = document.getElementById("in-house.floor_area");
		document.getElementById("answer").addEventListener("answered", () => requestAnimationFrame(() => done(true)), {once: true});
		e.value = e.value === "1,500" ? "1,600" : "1,500";
		e.dispatchEvent(new Event("change"));
	})`
	for range 10 {
		value[bool](t, change) // warm
	}
	for b.Loop() {
		value[bool](t, change)
	}
}

// BenchmarkStart is the time from nothing to the first answer: the program
// loaded, the sample read and computed.
func BenchmarkStart(b *testing.B) {
	t := open(b, 1280, 900, "#weather=sample&units=ip")
	for b.Loop() {
		t.load("#weather=sample&units=ip")
		t.answered()
	}
}

// BenchmarkWorkbook is from the click to the file: a worker started, the weather
// read once more, the workbook written.
func BenchmarkWorkbook(b *testing.B) {
	t := open(b, 1280, 900, "#weather=sample&units=ip")
	t.answered()
	name := value[string](t, `window.lastAnswer.file`) + ".xlsx"
	for b.Loop() {
		value[bool](t, `(document.getElementById("get-book").click(), true)`)
		t.download(name)
		require.NoError(b, os.Remove(filepath.Join(t.saved, name)))
		t.wait(`!document.getElementById("get-book").disabled`)
	}
}

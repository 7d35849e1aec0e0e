package cli

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"runtime"
	"strings"

	"github.com/inconshreveable/mousetrap"
	"golang.org/x/term"

	"github.com/evapbook/evapbook/internal/hint"
	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/places"
	"github.com/evapbook/evapbook/internal/units"
)

// ownWindow tells whether the program was started by a double click or a file
// dropped on it, in a window that closes when it ends. Only Windows does that.
var ownWindow = mousetrap.StartedByExplorer

// atTerminal tells whether a person sits at both ends.
func (s *streams) atTerminal() bool {
	in, ok1 := s.in.(*os.File)
	out, ok2 := s.out.(*os.File)
	return ok1 && ok2 && term.IsTerminal(int(in.Fd())) && term.IsTerminal(int(out.Fd()))
}

// keepWindow waits for a key before the window closes.
func (s *streams) keepWindow() {
	fmt.Fprint(s.err, "\nPress Enter to close this window. ")
	bufio.NewReader(s.in).ReadString('\n')
}

// talk is the first conversation: what a person is asked who starts the program
// without arguments. It ends in the command that somebody else would type.
type talk struct {
	*streams
	lines *bufio.Reader
}

var errTalkEnded = errors.New("stopped; nothing was written")

func (s *streams) talk() error {
	t := &talk{s, bufio.NewReader(s.in)}
	t.say("What will an evaporative cooler do for your house? Three questions; Enter takes\nthe answer in brackets. Coolers are opened with the power off, on a roof only by\nthose who are safe there.\n\n")
	args, name, err := t.where()
	if err != nil {
		return err
	}
	area, err := t.input("house.floor_area", "Cooled floor area, such as 1500 ft2 or 140 m2", func(text string) string {
		if bareNumber.MatchString(text) {
			return text + " ft2"
		}
		return text
	})
	if err != nil {
		return err
	}
	kind, err := t.input("cooler.kind", "Kind of cooler: direct, indirect or two-stage", wholeKind)
	if err != nil {
		return err
	}
	path, err := freeName(outputFolder(), name)
	if err != nil {
		return err
	}
	args = append(args, "--floor-area", area, "--cooler", kind, "-o", path)
	t.say("\n")
	write := newWriteCmd(s)
	write.SetArgs(args)
	write.SilenceErrors, write.SilenceUsage = true, true
	if err := write.Execute(); err != nil {
		return err
	}
	t.say("\nThe same again: evapbook write %s\n\n", shellWords(args))
	return t.offer(path)
}

func (t *talk) say(format string, a ...any) { fmt.Fprintf(t.out, format, a...) }

// ask gives the trimmed answer to a question.
func (t *talk) ask(question, usual string) (string, error) {
	if usual != "" {
		question += " [" + usual + "]"
	}
	t.say("%s: ", question)
	line, err := t.lines.ReadString('\n')
	if err != nil && strings.TrimSpace(line) == "" {
		t.say("\n")
		return "", errTalkEnded
	}
	answer := strings.Trim(strings.TrimSpace(line), `"'`) // a file dragged into the window
	if answer == "" {
		return usual, nil
	}
	return answer, nil
}

// where asks for a town or a weather file until there is one. It gives the
// arguments of write and a name for the workbook.
func (t *talk) where() (args []string, name string, err error) {
	usual := ""
	for {
		answer, err := t.ask("Town and state, or a weather file", usual)
		if err != nil {
			return nil, "", err
		}
		if answer == "" {
			t.say("  such as Reno, NV\n")
			continue
		}
		if info, err := os.Stat(answer); err == nil && !info.IsDir() {
			base := filepath.Base(answer)
			return []string{answer}, strings.TrimSuffix(base, filepath.Ext(base)), nil
		}
		s, err := places.Site(answer, math.NaN())
		if err != nil {
			t.correct(err, "")
			continue
		}
		if n := s.Place.Namesakes(); n != "" && s.Place.Name != usual {
			t.say("  %s\n", n)
			usual = s.Place.Name
			continue
		}
		t.say("  %s, %s; weather of %s\n", s.Place.Name, units.Altitude.Show(s.Elevation(), units.IP), s.Candidates[0].Named(units.IP))
		return []string{"--place", s.Place.Name}, s.Place.Name, nil
	}
}

// correct says what is wrong with an answer, but for a beginning that the
// question makes clear, and what would do.
func (t *talk) correct(err error, beginning string) {
	t.say("  %s\n", strings.TrimPrefix(err.Error(), beginning))
	for _, h := range hint.Of(err) {
		t.say("  %s\n", h)
	}
}

var bareNumber = regexp.MustCompile(`^[\d.,]+$`)

// wholeKind writes out the first letters of a kind of cooler.
func wholeKind(text string) string {
	text = strings.ToLower(text)
	for _, k := range []job.CoolerKind{job.Direct, job.Indirect, job.TwoStage} {
		if strings.HasPrefix(string(k), text) || strings.HasPrefix(strings.ReplaceAll(string(k), "-", " "), text) {
			return string(k)
		}
	}
	return text
}

// input asks for an input until the answer is possible; its default is the
// usual answer.
func (t *talk) input(key, question string, complete func(string) string) (string, error) {
	j := job.New()
	usual := strings.ReplaceAll(j.Get(key, units.IP), "²", "2")
	for {
		answer, err := t.ask(question, usual)
		if err != nil {
			return "", err
		}
		answer = complete(answer)
		if err = j.Set(key, answer); err == nil {
			return answer, nil
		}
		t.correct(err, key+": ")
	}
}

// outputFolder is where the workbook goes: the current folder; where the program
// was started by a double click, the folder it stands in.
func outputFolder() string {
	if ownWindow() {
		if program, err := os.Executable(); err == nil {
			return filepath.Dir(program)
		}
	}
	return ""
}

// freeName is a path in a folder at which no file is yet.
func freeName(folder, name string) (string, error) {
	j := job.New()
	j.Site.Name = name
	base := filepath.Join(folder, j.FileName())
	for n := 1; n < 1000; n++ {
		path := base + ".xlsx"
		if n > 1 {
			path = fmt.Sprintf("%s-%d.xlsx", base, n)
		}
		if _, err := os.Lstat(path); errors.Is(err, fs.ErrNotExist) {
			return path, nil
		}
	}
	return "", fmt.Errorf("%s.xlsx and a thousand more exist", base)
}

// offer opens the workbook if that is wanted.
func (t *talk) offer(path string) error {
	full, err := filepath.Abs(path)
	if err != nil {
		full = path
	}
	t.say("The workbook is %s\n", full)
	answer, err := t.ask("Open it now, yes or no", "yes")
	if err != nil || !strings.HasPrefix(strings.ToLower(answer), "y") {
		return nil
	}
	if err := openWith(full); err != nil {
		t.say("It could not be opened from here (%v): open it from its folder.\n", err)
	}
	return nil
}

// openWith hands a file to the program the system opens it with.
func openWith(path string) error {
	name, args := "xdg-open", []string{path}
	switch runtime.GOOS {
	case "windows":
		name, args = "rundll32", []string{"url.dll,FileProtocolHandler", path}
	case "darwin":
		name = "open"
	}
	c := exec.Command(name, args...)
	c.Stdout, c.Stderr = io.Discard, io.Discard
	detach(c)
	return c.Start()
}

// shellWords writes arguments as they are typed.
func shellWords(args []string) string {
	out := make([]string, len(args))
	for i, a := range args {
		if strings.ContainsAny(a, " ,'&()") {
			a = `"` + a + `"`
		}
		out[i] = a
	}
	return strings.Join(out, " ")
}

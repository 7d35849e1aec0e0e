package officetest

import (
	"bufio"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"time"
)

// RequestTimeout bounds each request to LibreOffice; past it the office
// process is ended and the request fails.
const RequestTimeout = 15 * time.Minute

// A Session is one workbook open in a LibreOffice process of its own. It works
// on a copy: the file itself is not changed. Not for use by several goroutines.
type Session struct {
	// Sheets are the sheets' names in tab order.
	Sheets []string
	// Seconds are the times of the last request's steps, for the curious.
	Seconds map[string]float64

	path    string // of the workbook
	folder  string // for large answers
	command *exec.Cmd
	in      io.WriteCloser
	out     *bufio.Reader
	errors  *tail
}

// answer is one line from recalc.py.
type answer struct {
	Ready    bool
	Sheets   []string
	Failed   string
	Seconds  map[string]float64
	Names    map[string]json.RawMessage
	Formulas int
	Pages    map[string]int
}

// Open starts LibreOffice and opens the workbook without recalculating it: the
// values first seen are those in the file. The error is [ErrNotInstalled]
// (wrapped) where LibreOffice or its Python bridge is missing.
func Open(path string) (*Session, error) {
	if err := Installed(LibreOffice); err != nil {
		return nil, err
	}
	script, err := tool("recalc", "recalc.py")
	if err != nil {
		return nil, err
	}
	path, err = filepath.Abs(path)
	if err != nil {
		return nil, err
	}
	if _, err := os.Stat(path); err != nil {
		return nil, err
	}
	folder, err := os.MkdirTemp("", "office-")
	if err != nil {
		return nil, err
	}
	s := &Session{path: path, folder: folder, errors: &tail{}}
	if err := s.start(script); err != nil {
		os.RemoveAll(folder)
		return nil, err
	}
	return s, nil
}

func (s *Session) start(script string) error {
	s.command = exec.Command(python(), script, s.path)
	s.command.Stderr = s.errors
	out, err := s.command.StdoutPipe()
	if err != nil {
		return err
	}
	if s.in, err = s.command.StdinPipe(); err != nil {
		return err
	}
	if err := s.command.Start(); err != nil {
		return err
	}
	s.out = bufio.NewReader(out)
	ready, err := s.read()
	if err != nil {
		s.stop()
		return fmt.Errorf("officetest: open %s: %w", s.path, err)
	}
	s.Sheets = ready.Sheets
	return nil
}

// ask sends one request and waits for its answer.
func (s *Session) ask(request map[string]any) (*answer, error) {
	request["timeout"] = RequestTimeout.Seconds()
	line, err := json.Marshal(request)
	if err != nil {
		return nil, fmt.Errorf("officetest: %w", err)
	}
	if _, err := s.in.Write(append(line, '\n')); err != nil {
		return nil, fmt.Errorf("officetest: %w%s", err, s.errors.hint())
	}
	a, err := s.read()
	if err != nil {
		return nil, fmt.Errorf("officetest: %w", err)
	}
	if a.Failed != "" {
		return nil, fmt.Errorf("officetest: %s: %s", filepath.Base(s.path), a.Failed)
	}
	return a, nil
}

func (s *Session) read() (*answer, error) {
	line, err := s.out.ReadBytes('\n')
	if err != nil {
		return nil, fmt.Errorf("recalc.py ended%s", s.errors.hint())
	}
	var a answer
	if err := json.Unmarshal(line, &a); err != nil {
		return nil, fmt.Errorf("recalc.py answered %.80q: %w", line, err)
	}
	s.Seconds = a.Seconds
	return &a, nil
}

// Close ends LibreOffice and removes the temporary files.
func (s *Session) Close() error {
	err := s.stop()
	return errors.Join(err, os.RemoveAll(s.folder))
}

func (s *Session) stop() error {
	s.in.Close() // recalc.py closes the office and ends when its input does
	if err := s.command.Wait(); err != nil {
		return fmt.Errorf("officetest: recalc.py: %w%s", err, s.errors.hint())
	}
	return nil
}

// tail keeps the end of what recalc.py writes to standard error.
type tail struct{ text []byte }

func (t *tail) Write(p []byte) (int, error) {
	t.text = append(t.text, p...)
	if extra := len(t.text) - 2000; extra > 0 {
		t.text = t.text[extra:]
	}
	return len(p), nil
}

func (t *tail) hint() string {
	if len(t.text) == 0 {
		return ""
	}
	return ": " + string(t.text)
}

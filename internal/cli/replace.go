package cli

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"os/signal"
	"path/filepath"
	"syscall"
)

// writer writes outputs whole or not at all.
type writer struct {
	force    bool      // replace files that exist
	standard io.Writer // where the output called - goes
	patient  bool      // the caller heeds interrupts, and waits for the file
}

// pending is an output that stands whole under a temporary name.
type pending struct {
	output
	target
	temporary string
	placed    bool // it has its own name now
}

// file writes one file.
func (w writer) file(path string, write func(io.Writer) error) error {
	return w.files([]output{{path: path, write: write}})
}

// files writes each file through a temporary one beside it and gives them
// their names when all are whole, so that a failure, or an interrupt, leaves
// none behind.
func (w writer) files(outputs []output) error {
	left := newLeftovers(w.patient)
	defer left.forget()
	cleared := map[string]bool{}
	var all []*pending
	for _, o := range outputs {
		if o.path == standard {
			continue
		}
		if folder := filepath.Dir(realPath(o.path)); !cleared[folder] {
			cleared[folder] = true
			removeStale(folder)
		}
		p, err := w.temporary(o, left)
		if err != nil {
			return err
		}
		all = append(all, p)
	}
	for _, o := range outputs {
		if o.path == standard {
			if err := o.write(w.standard); err != nil {
				return fmt.Errorf("standard output: %w", err)
			}
		}
	}
	return w.place(all)
}

// place gives all files their names. Where one cannot have it, those that were
// not there before are taken away again.
func (w writer) place(all []*pending) (err error) {
	for _, p := range all {
		if err = w.rename(p); err != nil {
			break
		}
		p.placed = true
	}
	if err != nil {
		for _, p := range all {
			if p.placed && p.info == nil {
				os.Remove(p.real)
			}
		}
	}
	return err
}

// rename gives one file its name. Unless forced it is linked, which, other than
// renaming, fails where somebody has made a file of that name meanwhile.
func (w writer) rename(p *pending) error {
	if !w.force {
		err := os.Link(p.temporary, p.real)
		if err == nil {
			return nil // the temporary name goes with the other leftovers
		}
		if _, there := os.Lstat(p.real); errors.Is(err, fs.ErrExist) || there == nil {
			return exists(p.path)
		}
		// a file system without links, such as that of a memory stick
	}
	if err := os.Rename(p.temporary, p.real); err != nil {
		return unwritable(p.path, err)
	}
	return nil
}

// temporary writes an output beside its place, with the permissions of the file
// it replaces, else those that new files have (umask).
func (w writer) temporary(o output, left *leftovers) (*pending, error) {
	t, err := targetOf(o.path)
	if err != nil {
		return nil, err
	}
	if t.info != nil && !w.force {
		return nil, exists(o.path)
	}
	f, err := createTemporary(t.real, left)
	if err != nil {
		return nil, unwritable(o.path, err)
	}
	err = o.write(f)
	if err == nil && t.info != nil {
		err = f.Chmod(t.info.Mode().Perm())
	}
	if err == nil {
		err = f.Sync()
	}
	closed := f.Close()
	if err == nil {
		err = closed
	}
	var at *fs.PathError
	switch {
	case errors.As(err, &at) && at.Path == f.Name():
		return nil, unwritable(o.path, at) // whose name is known to us alone
	case err != nil:
		return nil, fmt.Errorf("%s: %w", o.path, err)
	}
	return &pending{output: o, target: t, temporary: f.Name()}, nil
}

// leftovers are the temporary files of a call. They go when it ends and when
// the program is told to stop.
type leftovers struct {
	names   chan []string // a lock with what it guards
	signals chan os.Signal
}

func newLeftovers(patient bool) *leftovers {
	l := &leftovers{make(chan []string, 1), make(chan os.Signal, 1)}
	l.names <- nil
	if patient {
		return l
	}
	signal.Notify(l.signals, os.Interrupt, syscall.SIGTERM)
	go func() {
		s, told := <-l.signals
		if !told {
			return
		}
		for _, name := range <-l.names { // and nobody makes another
			os.Remove(name)
		}
		os.Exit(exitSignal + signalNumber(s))
	}()
	return l
}

// exitSignal and the signal's number are the exit status, as shells count it.
const exitSignal = 128

func signalNumber(s os.Signal) int {
	if n, ok := s.(syscall.Signal); ok {
		return int(n)
	}
	return 0
}

// create makes a new file, unless the program is being stopped.
func (l *leftovers) create(name string) (*os.File, error) {
	names := <-l.names
	f, err := os.OpenFile(name, os.O_RDWR|os.O_CREATE|os.O_EXCL, 0o666)
	if err == nil {
		names = append(names, name)
	}
	l.names <- names
	return f, err
}

// forget removes what is left: nothing, of files that were renamed.
func (l *leftovers) forget() {
	signal.Stop(l.signals)
	close(l.signals)
	names := <-l.names
	for _, name := range names {
		os.Remove(name)
	}
	l.names <- nil
}

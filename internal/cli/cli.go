// Package cli is the command line: it reads flags and files, calls the
// packages that do the work, and writes what they return.
//
// The rules of the interface: results go to standard output, everything else
// to standard error, in lower case and without a full stop. An error says what
// is wrong and where, then a hint. Exit status 0 is done, 1 failed, 2 wrong
// usage, 3 done but for files of many that were left out. A file is written under another name and renamed when whole, and
// never replaces one that exists unless told to.
package cli

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"github.com/evapbook/evapbook/internal/hint"
)

// Exit statuses.
const (
	exitDone    = 0
	exitFailed  = 1
	exitUsage   = 2
	exitLeftOut = 3 // done, but for files that were left out
)

// usageError is a mistake in how the command was called, as against in what
// it was given.
type usageError struct{ error }

func (e usageError) Unwrap() error { return e.error }

func usagef(format string, a ...any) error { return usageError{fmt.Errorf(format, a...)} }

// streams are where a command reads and writes.
type streams struct {
	in       io.Reader
	out, err io.Writer
}

// Run executes the command line and returns its exit status.
func Run(args []string, in io.Reader, out, errOut io.Writer) int {
	s := &streams{in, out, errOut}
	if ownWindow() {
		defer s.keepWindow()
	}
	cobra.MousetrapHelpText = "" // a double click is answered by a conversation
	root := newRootCmd(s)
	root.SetArgs(defaultVerb(root, args))
	root.SetIn(in)
	root.SetOut(out)
	root.SetErr(errOut)
	err := root.Execute()
	if err == nil {
		return exitDone
	}
	var at *fs.PathError
	if errors.As(err, &at) && at.Path == os.Stdout.Name() {
		err = fmt.Errorf("standard output: cannot write: %w", at.Err)
	}
	fmt.Fprintf(errOut, "evapbook: %s\n", hint.Text(err))
	var usage usageError
	if errors.As(err, &usage) {
		return exitUsage
	}
	var leftOut leftOutError
	if errors.As(err, &leftOut) {
		return exitLeftOut
	}
	return exitFailed
}

// defaultVerb lets a weather file dropped on the program be written: where the
// first argument is a file and no command, the command is write.
func defaultVerb(root *cobra.Command, args []string) []string {
	if len(args) == 0 || strings.HasPrefix(args[0], "-") {
		return args
	}
	if cmd, _, err := root.Find(args[:1]); err == nil && cmd != root {
		return args
	}
	if info, err := os.Stat(args[0]); err == nil && !info.IsDir() {
		return append([]string{"write"}, besideDropped(args)...)
	}
	return args
}

// besideDropped names the workbook of files dropped on the program: after the
// first of them, beside it. Which folder the program works in is then the
// system's choice, and nobody would look there.
func besideDropped(args []string) []string {
	if !ownWindow() || slices.ContainsFunc(args, func(a string) bool { return strings.HasPrefix(a, "-") }) {
		return args
	}
	folder, base := filepath.Split(args[0])
	path, err := freeName(folder, strings.TrimSuffix(base, filepath.Ext(base)))
	if err != nil {
		return args
	}
	return append(slices.Clone(args), "-o", path)
}

// Tree is all commands, for those who write about them: manual pages.
func Tree() *cobra.Command {
	return newRootCmd(&streams{strings.NewReader(""), io.Discard, io.Discard})
}

func newRootCmd(s *streams) *cobra.Command {
	root := &cobra.Command{
		Use:   "evapbook",
		Short: "What will an evaporative cooler do for this house, in this climate, at this altitude?",
		Long: `evapbook reads an hourly weather file, works out hour by hour what an evaporative
cooler does for a house there, and writes a workbook of live formulas: the air it
can supply, the hours it holds and the hours it does not, water, energy and cost
beside a refrigerated air conditioner.`,
		SilenceErrors: true,
		SilenceUsage:  true,
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) > 0 {
				return noSuchVerb(cmd, args[0])
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, _ []string) error {
			if s.atTerminal() {
				return s.talk()
			}
			return cmd.Help()
		},
	}
	root.PersistentPreRunE = func(cmd *cobra.Command, args []string) error { return noEmpties(cmd, args) }
	root.SetFlagErrorFunc(func(cmd *cobra.Command, err error) error {
		advice := cmd.CommandPath() + " --help lists the flags"
		if err.Error() == "unknown flag: --version" || strings.HasPrefix(err.Error(), "unknown shorthand flag: 'v'") {
			advice = "evapbook version prints it"
		}
		return hint.With(usagef("%w", err), "%s", advice)
	})
	root.CompletionOptions.HiddenDefaultCmd = true
	root.AddCommand(newWriteCmd(s), newInspectCmd(s), newRankCmd(s), newCalendarCmd(s), newReadingCmd(s), newPlacesCmd(s), newJobCmd(s), newVersionCmd(s))
	return root
}

// noEmpties refuses flags and arguments that are there and empty, as a script
// leaves them whose variable is not set: the default would be taken for them, of
// the weather the invented sample.
func noEmpties(cmd *cobra.Command, args []string) error {
	if strings.HasPrefix(cmd.Name(), cobra.ShellCompRequestCmd) {
		return nil // of a word that is still to be typed
	}
	const advice = "give a value or leave it out; in a script, is its variable set?"
	for _, a := range args {
		if strings.TrimSpace(a) == "" {
			return hint.With(usagef("an argument is empty"), advice)
		}
	}
	var err error
	cmd.Flags().Visit(func(f *pflag.Flag) {
		all := []string{f.Value.String()}
		if list, ok := f.Value.(pflag.SliceValue); ok {
			all = list.GetSlice()
		}
		for _, v := range all {
			if strings.TrimSpace(v) == "" && err == nil {
				err = hint.With(usagef("--%s: is empty", f.Name), advice)
			}
		}
	})
	return err
}

// noSuchVerb tells a file that is not there from a command that does not exist.
func noSuchVerb(cmd *cobra.Command, arg string) error {
	if strings.ContainsAny(arg, "./\\") {
		if _, err := os.Stat(arg); errors.Is(err, fs.ErrNotExist) {
			return hint.With(fmt.Errorf("%s: no such file", arg), "check the spelling and the folder")
		}
		return usagef("%s is not a weather file that can be read", arg)
	}
	advice := "evapbook --help lists the commands"
	if close := cmd.SuggestionsFor(arg); len(close) > 0 {
		advice = "did you mean " + close[0] + "?"
	}
	return hint.With(usagef("no command and no file is called %q", arg), "%s", advice)
}

// exactArgs and friends of cobra count arguments; usageArgs marks their errors
// as wrong usage.
func usageArgs(check cobra.PositionalArgs) cobra.PositionalArgs {
	return func(cmd *cobra.Command, args []string) error {
		if err := check(cmd, args); err != nil {
			return hint.With(usagef("%w", err), "usage is %s", cmd.UseLine())
		}
		return nil
	}
}

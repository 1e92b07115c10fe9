// Command threepost plans, checks and prints how a kiln is loaded.
//
// See `threepost --help`, and the README for the file it works on.
package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"runtime/debug"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"
)

// version is set when a release is built.
var version = "built from source"

// Exit codes, one for each way a command can end.
const (
	exitFine       = 0 // no problem
	exitProblems   = 1 // problems in the load; with --strict, open watches too
	exitUsage      = 2 // the command's words are off
	exitUnreadable = 3 // the document, the list or a file cannot be read or written
	exitInternal   = 4 // the program's own fault
)

// ending is how a command ends when it is not fine: a code and, where there is
// something left to say, a sentence.
type ending struct {
	code int
	err  error
}

func (e ending) Error() string {
	if e.err == nil {
		return ""
	}
	return e.err.Error()
}

func (e ending) Unwrap() error { return e.err }

// unreadable ends a command whose file cannot be read or written.
func unreadable(err error) error { return ending{exitUnreadable, err} }

// usage ends a command whose words are off.
func usage(format string, args ...any) error { return ending{exitUsage, fmt.Errorf(format, args...)} }

func main() { os.Exit(run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr)) }

// run is the whole program with its ends as arguments.
func run(args []string, in io.Reader, out, errs io.Writer) (code int) {
	defer func() {
		if r := recover(); r != nil {
			fmt.Fprintf(errs, "This is a fault of the program, not of your load, and nothing was written: %v\n%s", r, debug.Stack())
			code = exitInternal
		}
	}()
	root := rootCommand(&terminal{in: in, out: out, errs: errs})
	root.SetArgs(args)
	root.SetIn(in)
	root.SetOut(out)
	root.SetErr(errs)
	err := root.Execute()
	if err == nil {
		return exitFine
	}
	var e ending
	if !errors.As(err, &e) {
		e = ending{exitUsage, err}
	}
	if e.err != nil {
		fmt.Fprintln(errs, e.err)
		if e.code == exitUsage {
			fmt.Fprintln(errs, "See `threepost --help`.")
		}
	}
	return e.code
}

// terminal is where a command reads and writes.
type terminal struct {
	in        io.Reader
	out, errs io.Writer
	json      bool
}

// say prints a line.
func (t *terminal) say(format string, args ...any) { fmt.Fprintf(t.out, format+"\n", args...) }

// flagUsage says in our words which flag is off.
func flagUsage(err error) error {
	var value *pflag.InvalidValueError
	var missing *pflag.ValueRequiredError
	var unknown *pflag.NotExistError
	switch {
	case errors.As(err, &value):
		return usage("--%s does not take %q", value.GetFlag().Name, value.GetValue())
	case errors.As(err, &missing):
		return usage("--%s wants a value after it", missing.GetFlag().Name)
	case errors.As(err, &unknown):
		if letters := unknown.GetSpecifiedShortnames(); letters != "" {
			return usage("there is no flag -%s", unknown.GetSpecifiedName())
		}
		return usage("there is no flag --%s", unknown.GetSpecifiedName())
	}
	return usage("%w", err)
}

func rootCommand(t *terminal) *cobra.Command {
	root := &cobra.Command{
		Use:   "threepost",
		Short: "Plan, check and print how a kiln is loaded",
		Long: `Threepost plans which pot stands where in a kiln, on which shelf, on which
posts, so that nothing glazed touches anything and the lid closes. It checks
every clearance and prints a sheet to tape on the lid while loading.

Without a verb it opens the page on this computer, on the loads in the folder
Threepost of the home folder; see threepost open.

A load is one text file. Exit codes: 0 no problem, 1 problems, 2 usage,
3 unreadable document, 4 a fault of the program.`,
		Example: `  threepost new october.toml --kiln "457 x 457" --cone 6
  threepost add october.toml "12 mugs 100 x 85" "6 bowls 75 x 150" "vase 220 x 110"
  threepost plan october.toml
  threepost sheet october.toml --out october.pdf`,
		Version:       version,
		SilenceErrors: true,
		SilenceUsage:  true,
		RunE: func(cmd *cobra.Command, _ []string) error {
			return t.page(cmd.Context(), "", pageFlags{})
		},
	}
	root.PersistentFlags().BoolVar(&t.json, "json", false, "print JSON, as the README describes it")
	root.SetFlagErrorFunc(func(_ *cobra.Command, err error) error { return flagUsage(err) })
	root.AddCommand(openCommand(t), newCommand(t), addCommand(t), importCommand(t), exportCommand(t), planCommand(t), firingsCommand(t), checkCommand(t),
		roomCommand(t), fitCommand(t), weightsCommand(t), sheetCommand(t), papersCommand(t), stepsCommand(t), pictureCommand(t), formatCommand(t), schemaCommand(t))
	return root
}

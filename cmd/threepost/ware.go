package main

import (
	"errors"
	"fmt"
	"io"
	"strings"

	"github.com/spf13/cobra"

	"threepost/cmd/internal/files"
	"threepost/layout"
	"threepost/layout/document"
	"threepost/layout/measure"
	"threepost/layout/silhouette"
	"threepost/layout/warelist"
)

func addCommand(t *terminal) *cobra.Command {
	return &cobra.Command{
		Use:   "add LOAD ROW...",
		Short: "Add pots to the ware list, one row an argument",
		Long: `Adds rows in the short form: a count, a name, the height, then across (or length
and width). A row of a name that is there already, with the same measures,
adds to its count. With - the rows are read from standard input, one a line.`,
		Example: `  threepost add october.toml "12 mugs 100 x 85" "vase 220 x 110, runny, owner Ida"
  threepost add october.toml - < list.txt`,
		Args: atLeast(2, `threepost add october.toml "12 mugs 100 x 85"`),
		RunE: func(_ *cobra.Command, args []string) error {
			o, err := open(args[0])
			if err != nil {
				return err
			}
			text := strings.Join(args[1:], "\n")
			if len(args) == 2 && args[1] == "-" {
				data, err := io.ReadAll(io.LimitReader(t.in, files.Most))
				if err != nil {
					return unreadable(err)
				}
				text = string(data)
			}
			rows, err := warelist.Parse(text, o.load.Units)
			if err != nil {
				return unreadable(err)
			}
			return t.addRows(o, rows)
		},
	}
}

func importCommand(t *terminal) *cobra.Command {
	return &cobra.Command{
		Use:   "import LOAD LIST.csv",
		Short: "Add the rows of a CSV file to the ware list",
		Long: `Reads a CSV file with a header row: name, count, height, across and more, in any
order. Comma, semicolon or tab; a decimal comma where the separator allows it.`,
		Example: "  threepost import october.toml pots.csv",
		Args:    atLeast(2, "threepost import october.toml pots.csv"),
		RunE: func(_ *cobra.Command, args []string) error {
			o, err := open(args[0])
			if err != nil {
				return err
			}
			var all []layout.Ware
			for _, path := range args[1:] {
				data, err := files.Read(path)
				if err != nil {
					return unreadable(err)
				}
				rows, err := warelist.ReadCSV(path, data, o.load.Units)
				if err != nil {
					return unreadable(err)
				}
				all = append(all, rows...)
			}
			return t.addRows(o, all)
		},
	}
}

// added is the JSON of add and import.
type added struct {
	Rows  int `json:"rows"`
	Pots  int `json:"pots"`
	Total int `json:"total"`
}

// addRows adds rows to the ware list and saves the load.
func (t *terminal) addRows(o *opened, rows []layout.Ware) error {
	if len(rows) == 0 {
		return usage("there is no row to add; write one like \"12 mugs 100 x 85\"")
	}
	l := o.load.Clone()
	a := added{Rows: len(rows)}
	for _, w := range rows {
		if err := addRow(l, w); err != nil {
			return unreadable(err)
		}
		a.Pots += w.Count
	}
	for _, w := range l.Ware {
		a.Total += w.Count
	}
	if a.Total > document.MostPots || len(l.Ware) > document.MostRows {
		return unreadable(fmt.Errorf("%d pots in %d rows are more than a load holds: %d pots in %d rows",
			a.Total, len(l.Ware), document.MostPots, document.MostRows))
	}
	if err := o.save(o.path, l); err != nil {
		return err
	}
	if t.json {
		return t.answer(a)
	}
	for _, w := range rows {
		t.say("%s", describe(w, l.Units))
	}
	t.say("%s in the list.", silhouette.Counted(a.Total, "pot"))
	return nil
}

// addRow adds one row, or adds its count to a row of the same name and measures.
func addRow(l *layout.Load, w layout.Ware) error {
	old := l.WareOf(layout.Pot{Ware: w.Name})
	if old == nil {
		if l.ConesOf(layout.Pot{Ware: w.Name}) != nil {
			return fmt.Errorf("%q is a cone pack already; give the pots another name", w.Name)
		}
		l.Ware = append(l.Ware, w)
		return nil
	}
	if !alike(*old, w, l.Units) {
		return fmt.Errorf("there is a row %q already, and it differs; give this one another name, or change the row in the file", w.Name)
	}
	if old.Count == 1 {
		l.NumberLone(w.Name)
	}
	old.Count += w.Count
	return nil
}

// alike says whether two rows differ in nothing but their counts.
func alike(a, b layout.Ware, units measure.Units) bool {
	a.Count = b.Count
	return warelist.Format(a, units) == warelist.Format(b, units)
}

// describe tells a row with what is assumed about it.
func describe(w layout.Ware, units measure.Units) string {
	line := warelist.Format(w, units)
	if _, assumed, err := silhouette.Fill(w); err == nil && len(assumed) > 0 {
		line += "  (assumed: " + strings.Join(assumed, ", ") + ")"
	}
	return line
}

func exportCommand(t *terminal) *cobra.Command {
	var out string
	cmd := &cobra.Command{
		Use:     "export LOAD",
		Short:   "Write the ware list as CSV",
		Example: "  threepost export october.toml --out pots.csv",
		Args:    one("LOAD"),
		RunE: func(_ *cobra.Command, args []string) error {
			o, err := open(args[0])
			if err != nil {
				return err
			}
			if t.json {
				return usage("export writes CSV; leave --json out")
			}
			return t.write(out, warelist.WriteCSV(o.load))
		},
	}
	cmd.Flags().StringVar(&out, "out", "", "file to write; standard output when not given")
	return cmd
}

// write puts bytes into a file, or on standard output where none is named.
func (t *terminal) write(path string, data []byte) error {
	if path == "" || path == "-" {
		if _, err := t.out.Write(data); err != nil {
			return unreadable(errors.New("standard output was closed before all was written"))
		}
		return nil
	}
	if err := files.Write(path, data); err != nil {
		return unreadable(err)
	}
	t.say("Written to %s.", path)
	return nil
}

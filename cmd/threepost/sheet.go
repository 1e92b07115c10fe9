package main

import (
	"bytes"
	"errors"
	"fmt"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"threepost/cmd/internal/files"
	"threepost/cmd/internal/paper"
	"threepost/layout/clearance"
	"threepost/layout/silhouette"
	"threepost/render/drawing"
	"threepost/render/sheet"
)

// paperFlags are how paper is wanted.
type paperFlags struct {
	out, paper, units, words string
	dpi                      float64
}

func (f *paperFlags) add(cmd *cobra.Command) {
	cmd.Flags().StringVar(&f.out, "out", "", "file to write, .pdf, .svg or .png; LOAD.pdf when not given")
	cmd.Flags().StringVar(&f.paper, "paper", "A4", "A4 or Letter")
	cmd.Flags().StringVar(&f.units, "units", "", "mm or in; the load's own when not given")
	cmd.Flags().StringVar(&f.words, "words", "US", "US or UK words")
	cmd.Flags().Float64Var(&f.dpi, "dpi", 150, "dots per inch of .png pictures")
}

func sheetCommand(t *terminal) *cobra.Command {
	var f paperFlags
	var parts []string
	cmd := &cobra.Command{
		Use:   "sheet LOAD",
		Short: "Write the loading sheet to tape on the lid while loading",
		Long: `Writes the front page, the board list and a page for the levels in the order of
setting. Take it off before switching on. A .pdf holds all pages; of .svg and
.png there is one file a page.`,
		Example: "  threepost sheet october.toml --out october.pdf\n  threepost sheet october.toml --paper Letter --units in --parts front,levels",
		Args:    one("LOAD"),
		RunE: func(_ *cobra.Command, args []string) error {
			return t.paper(args[0], f, parts, ".pdf")
		},
	}
	f.add(cmd)
	cmd.Flags().StringSliceVar(&parts, "parts", []string{"front", "boards", "levels"}, "what to print: front, boards, levels")
	return cmd
}

func papersCommand(t *terminal) *cobra.Command {
	var f paperFlags
	var measuring bool
	cmd := &cobra.Command{
		Use:   "papers LOAD",
		Short: "Write 1:1 shelf papers, or the measuring sheet",
		Long: `Writes each level at 1:1, tiled over sheets with marks to lay them together, to
set a level on a table before loading. Paper stays out of the kiln. With
--measuring it writes the sheet that pots are measured on instead. Print at
100 % and measure the line at the foot.`,
		Example: "  threepost papers october.toml --out shelves.pdf\n  threepost papers october.toml --measuring --out measure.pdf",
		Args:    one("LOAD"),
		RunE: func(_ *cobra.Command, args []string) error {
			part := "papers"
			if measuring {
				part = "measuring"
			}
			return t.paper(args[0], f, []string{part}, "."+part+".pdf")
		},
	}
	f.add(cmd)
	cmd.Flags().BoolVar(&measuring, "measuring", false, "the sheet that pots are measured on")
	return cmd
}

// written is the JSON of what was put on paper.
type written struct {
	Pages int      `json:"pages"`
	Files []string `json:"files"`
}

// paper makes the named parts and writes them.
func (t *terminal) paper(path string, f paperFlags, parts []string, suffix string) error {
	o, err := open(path)
	if err != nil {
		return err
	}
	opts, err := f.options(o, parts)
	if err != nil {
		return err
	}
	b, err := o.build()
	if err != nil {
		return err
	}
	report := clearance.Check(b)
	if opts.Parts.Front {
		opts.Beside = paper.Beside(b.Load, report, opts.Units)
	}
	pages, err := paper.Pages(b, report, opts)
	switch {
	case errors.Is(err, paper.ErrNoLevels):
		return usage("%s has no levels yet; plan it first: threepost plan %s", path, path)
	case errors.Is(err, paper.ErrNoPots): // papers of shelves on which nothing stands
		return usage("%s has no pots on its levels: there is nothing to print", path)
	case err != nil:
		return unreadable(err)
	}
	if f.out == "" {
		f.out = strings.TrimSuffix(path, filepath.Ext(path)) + suffix
	}
	names, err := writePages(f.out, opts.Fonts, o.load.Title, pages, f.dpi)
	if err != nil {
		return err
	}
	if t.json {
		return t.answer(written{len(pages), names})
	}
	t.say("%s written to %s.", silhouette.Counted(len(pages), "page"), strings.Join(names, ", "))
	if report.Problems > 0 {
		t.say("%s in this load; see `threepost check %s`.", headline(report), path)
	}
	return nil
}

// options reads the flags.
func (f *paperFlags) options(o *opened, parts []string) (sheet.Options, error) {
	opts, err := paper.Wanted{Parts: parts, Paper: f.paper, Units: f.units, Words: f.words}.Options(o.load)
	if field := (paper.Refused{}); errors.As(err, &field) {
		if field.Field == "parts" && len(parts) == 0 {
			return opts, usage("--parts names nothing; write front, boards, levels or some of them")
		}
		return opts, usage("--%s: %w", field.Field, err)
	}
	if err != nil {
		return opts, err
	}
	if !(f.dpi >= 20 && f.dpi <= 600) {
		return opts, usage("--dpi is from 20 to 600")
	}
	opts.Fonts, err = drawing.LoadFonts()
	return opts, err
}

// writePages writes a document, or one picture a page, by the file's ending.
func writePages(out string, fonts *drawing.Fonts, title string, pages []drawing.Page, dpi float64) ([]string, error) {
	ext := strings.ToLower(filepath.Ext(out))
	if ext == ".pdf" {
		var buf bytes.Buffer
		if err := drawing.PDF(&buf, fonts, drawing.Document{Title: title, Pages: pages}); err != nil {
			return nil, ending{exitInternal, err}
		}
		if err := files.Write(out, buf.Bytes()); err != nil {
			return nil, unreadable(err)
		}
		return []string{out}, nil
	}
	var names []string
	for i, p := range pages {
		var buf bytes.Buffer
		var err error
		switch ext {
		case ".svg":
			err = drawing.SVG(&buf, fonts, p)
		case ".png":
			err = drawing.PNG(&buf, fonts, p, dpi)
		default:
			return nil, usage("%s: paper is written as .pdf, .svg or .png", out)
		}
		if err != nil {
			return nil, ending{exitInternal, err}
		}
		name := out
		if len(pages) > 1 {
			name = fmt.Sprintf("%s-%d%s", strings.TrimSuffix(out, filepath.Ext(out)), i+1, filepath.Ext(out))
		}
		if err := files.Write(name, buf.Bytes()); err != nil {
			return nil, unreadable(err)
		}
		names = append(names, name)
	}
	return names, nil
}

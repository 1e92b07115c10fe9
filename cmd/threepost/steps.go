package main

import (
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"threepost/cmd/internal/files"
	"threepost/layout/measure"
	"threepost/layout/session"
	"threepost/layout/silhouette"
	"threepost/render/kilnside"
)

// writtenSteps is the JSON of steps that were saved.
type writtenSteps struct {
	Steps int    `json:"steps"`
	File  string `json:"file"`
}

func stepsCommand(t *terminal) *cobra.Command {
	var out, units, words string
	cmd := &cobra.Command{
		Use:   "steps LOAD",
		Short: "Write the steps at the kiln as one file for a phone",
		Long: `Writes the page at the kiln into one .html file: one act a screen, ticked off
with a knuckle. The file needs no network and no program: send it to a phone and
open it there. Answers for pots that turn out too tall are worked out ahead.`,
		Example: "  threepost steps october.toml\n  threepost steps october.toml --words UK --out october-kiln.html",
		Args:    one("LOAD"),
		RunE: func(_ *cobra.Command, args []string) error {
			return t.steps(args[0], out, units, words)
		},
	}
	cmd.Flags().StringVar(&out, "out", "", "file to write, .html; LOAD.kiln.html when not given")
	cmd.Flags().StringVar(&units, "units", "", "mm or in; the load's own when not given")
	cmd.Flags().StringVar(&words, "words", "US", "US or UK words")
	return cmd
}

// steps saves the page at the kiln.
func (t *terminal) steps(path, out, units, words string) error {
	o, b, err := openBuilt(path)
	if err != nil {
		return err
	}
	said, err := measure.ParseWords(words)
	if err != nil {
		return usage("--words: %w", err)
	}
	in := o.load.Units
	if units != "" {
		if in, err = measure.ParseUnits(units); err != nil {
			return usage("--units: %w", err)
		}
	}
	if out == "" {
		out = strings.TrimSuffix(path, filepath.Ext(path)) + ".kiln.html"
	}
	if ext := strings.ToLower(filepath.Ext(out)); ext != ".html" && ext != ".htm" {
		return usage("%s: the steps are written as .html", out)
	}
	if len(b.Levels) == 0 {
		return usage("%s has no levels yet; plan it first: threepost plan %s", path, path)
	}
	open, err := session.Open(string(o.text), path)
	if err != nil {
		return unreadable(err)
	}
	open.SetWords(said)
	if in != o.load.Units {
		if _, err := open.SetUnits(string(in)); err != nil {
			return unreadable(err)
		}
		b, _ = open.Built()
	}
	all := kilnside.Of(b, open.Order(), in, said)
	all.WorkAhead(open, said)
	data, err := kilnside.Saved(&all)
	if err != nil {
		return ending{exitInternal, err}
	}
	if err := files.Write(out, data); err != nil {
		return unreadable(err)
	}
	if t.json {
		return t.answer(writtenSteps{len(all.Steps), out})
	}
	t.say("%s written to %s.", silhouette.Counted(len(all.Steps), "step"), out)
	return nil
}

package main

import (
	"bufio"
	"fmt"
	"io"
	"path/filepath"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/spf13/cobra"

	"threepost/cmd/internal/files"
	"threepost/layout/begin"
	"threepost/layout/document"
	"threepost/layout/measure"
)

// newFlags are the answers that begin a load; empty ones are asked for on a
// terminal and assumed elsewhere.
type newFlags struct {
	kiln, shelves, posts, cone, stage, title, units string
	front, ask                                      bool
}

func newCommand(t *terminal) *cobra.Command {
	var f newFlags
	cmd := &cobra.Command{
		Use:   "new LOAD",
		Short: "Begin a load: kiln size, shelves, posts and one cone",
		Long: `Begins a load file. Four things are asked, each with a flag of its own; what is
not answered is assumed, told, and can be changed in the file:

  --kiln     "457 x 457" (round: across x height), "sided 12 712 x 686",
             "oval 838 x 584 x 572", "rectangle 520 x 550 x 710"
             (width x depth x height)
  --shelves  "1 round 410 x 16, 6 half round 410 x 16, 4 rectangle 460 x 600 x 18"
             (count, shape, size, thickness)
  --posts    "6 of 13, 25, 50, 100, 150, 200; 6 spacers of 6"
  --cone     "6"

With --ask the questions are put one by one.`,
		Example: `  threepost new october.toml --ask
  threepost new october.toml --kiln "457 x 457" --cone 6
  threepost new october.toml --kiln "sided 12 28 in x 27 in" --cone 04 --stage bisque`,
		Args: one("LOAD"),
		RunE: func(_ *cobra.Command, args []string) error { return t.begin(args[0], f) },
	}
	cmd.Flags().StringVar(&f.kiln, "kiln", "", "inside of the kiln")
	cmd.Flags().StringVar(&f.shelves, "shelves", "", "shelves owned")
	cmd.Flags().StringVar(&f.posts, "posts", "", "posts owned")
	cmd.Flags().StringVar(&f.cone, "cone", "", "cone of the firing")
	cmd.Flags().StringVar(&f.stage, "stage", "glaze", "glaze, bisque, refire or lustre")
	cmd.Flags().StringVar(&f.title, "title", "", "title; the file's name when not given")
	cmd.Flags().StringVar(&f.units, "units", "mm", "mm or in")
	cmd.Flags().BoolVar(&f.front, "front", false, "the kiln opens at the front")
	cmd.Flags().BoolVar(&f.ask, "ask", false, "ask for what no flag answers")
	return cmd
}

// begin writes a new load from flags and answers.
func (t *terminal) begin(path string, f newFlags) error {
	units, err := measure.ParseUnits(f.units)
	if err != nil {
		return usage("--units: %w", err)
	}
	if f.ask {
		if err := t.ask(&f); err != nil {
			return err
		}
	}
	if f.kiln == "" {
		return usage(`say how large the kiln is inside, like --kiln "457 x 457", or answer questions with --ask`)
	}
	if f.cone == "" {
		return usage("say which cone is fired, like --cone 6, or answer questions with --ask")
	}
	l, told, err := begin.Load(begin.Answers{Kiln: f.kiln, Shelves: f.shelves, Posts: f.posts, Cone: f.cone, Stage: f.stage, Front: f.front, Units: units})
	if err != nil {
		return usage("%w", err)
	}
	if l.Title = f.title; l.Title == "" {
		l.Title = titleFrom(path)
	}
	text := document.Format(l)
	if _, err := document.Parse(path, text); err != nil {
		return usage("this makes no load: %w", err)
	}
	if err := files.Create(path, text); err != nil {
		return unreadable(err)
	}
	if t.json {
		return t.answer(struct {
			Written string   `json:"written"`
			Assumed []string `json:"assumed"`
		}{path, told})
	}
	t.say("%s is begun: %s, %s.", path, l.Title, l.Firing.Cone.DescribeIn(units))
	for _, a := range told {
		t.say("Assumed: %s", hang(a, 9))
	}
	mugs := "12 mugs 100 x 85"
	if units == measure.Inches {
		mugs = "12 mugs 4 x 3 3/8"
	}
	t.say("Add pots: threepost add %s %q", path, mugs)
	return nil
}

// titleFrom makes a title of a file's name: october-glaze.toml, October glaze.
func titleFrom(path string) string {
	name := strings.TrimSuffix(filepath.Base(path), filepath.Ext(path))
	name = strings.TrimSpace(strings.NewReplacer("-", " ", "_", " ").Replace(name))
	if name == "" {
		return "A load"
	}
	first, size := utf8.DecodeRuneInString(name)
	return string(unicode.ToUpper(first)) + name[size:]
}

// question is one thing asked, with an example.
type question struct {
	ask, example string
	into         *string
}

// ask puts the questions that no flag has answered.
func (t *terminal) ask(f *newFlags) error {
	in := bufio.NewReader(io.LimitReader(t.in, 1<<16))
	for _, q := range []question{
		{"How large is the kiln inside", "457 x 457 (round: across x height), or sided 12 712 x 686", &f.kiln},
		{"Which shelves do you own", "1 round 410 x 16, 6 half round 410 x 16; leave empty to assume some", &f.shelves},
		{"Which posts do you own", "6 of 13, 25, 50, 100; 6 spacers of 6; leave empty to assume some", &f.posts},
		{"Which cone is fired", "6", &f.cone},
	} {
		if *q.into != "" {
			continue
		}
		fmt.Fprintf(t.out, "%s?\n  such as %s\n> ", q.ask, q.example)
		line, err := in.ReadString('\n')
		if err != nil && line == "" {
			return usage("the questions were not answered to the end; nothing was written")
		}
		*q.into = strings.TrimSpace(line)
	}
	return nil
}

package main

import (
	"bufio"
	"fmt"
	"io"
	"path/filepath"
	"regexp"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/spf13/cobra"

	"threepost/cmd/internal/files"
	"threepost/layout"
	"threepost/layout/document"
	"threepost/layout/measure"
	"threepost/layout/silhouette"
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
	l, told, err := f.load(units)
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

// load turns the answers into a load, with a sentence for everything assumed.
func (f *newFlags) load(units measure.Units) (*layout.Load, []string, error) {
	l := &layout.Load{Units: units}
	var err error
	if l.Kiln, err = parseKiln(f.kiln, units); err != nil {
		return nil, nil, err
	}
	l.Kiln.Opens = layout.Top
	if f.front {
		l.Kiln.Opens = layout.Front
	}
	if l.Firing.Cone, err = measure.ParseCone(f.cone); err != nil {
		return nil, nil, err
	}
	l.Firing.Stage = layout.Stage(f.stage)
	var told []string
	say := func(mm float64) string { return measure.SayLength(mm, units, measure.Nearest) }
	if f.shelves != "" {
		if l.Furniture.Shelves, err = parseShelves(f.shelves, units); err != nil {
			return nil, nil, err
		}
	} else {
		l.Furniture.Shelves = assumedShelves(l.Kiln)
		for _, s := range l.Furniture.Shelves {
			told = append(told, fmt.Sprintf("%s, %s thick.", silhouette.Counted(s.Count, s.Name+" shelf"), say(s.Thick)))
		}
	}
	if f.posts != "" {
		if l.Furniture.Posts, err = parsePosts(f.posts, units); err != nil {
			return nil, nil, err
		}
	} else {
		l.Furniture.Posts = assumedPosts(units)
		heights := ""
		for i, p := range l.Furniture.Posts {
			if i > 0 {
				heights += ", "
			}
			heights += measure.FormatLengthTo(p.Height, units, measure.Nearest, measure.PostGrain)
		}
		told = append(told, "six each of posts "+heights+".")
	}
	told = append(told, "no probe and no spyhole; write them under [kiln] when there are any.")
	return l, told, nil
}

// sizes parts the lengths of a size.
var sizes = regexp.MustCompile(`\s*(?:x|×|by)\s*`)

// parseSizes reads n lengths apart by x.
func parseSizes(text string, n int, units measure.Units) ([]float64, error) {
	parts := sizes.Split(strings.TrimSpace(text), -1)
	if len(parts) != n {
		return nil, fmt.Errorf("%q gives %s, and %d are wanted", text, silhouette.Counted(len(parts), "size"), n)
	}
	out := make([]float64, n)
	for i, p := range parts {
		mm, err := measure.ParsePositive(p, units)
		if err != nil {
			return nil, err
		}
		out[i] = mm
	}
	return out, nil
}

// parseKiln reads the inside of a kiln.
func parseKiln(text string, units measure.Units) (layout.Kiln, error) {
	k := layout.Kiln{}
	text = strings.TrimSpace(text)
	word, rest, _ := strings.Cut(text, " ")
	var err error
	var v []float64
	switch word {
	case "sided":
		var sides int
		number, size, _ := strings.Cut(strings.TrimSpace(rest), " ")
		if _, err := fmt.Sscanf(number, "%d", &sides); err != nil || sides < 3 || sides > 64 {
			return k, fmt.Errorf("%q: after sided comes the number of sides, then across flats x height, like \"sided 12 712 x 686\"", text)
		}
		if v, err = parseSizes(size, 2, units); err != nil {
			return k, err
		}
		k.Chamber, k.Height = layout.Shape{Kind: layout.Sided, Sides: sides, Across: v[0]}, v[1]
	case "oval", "rectangle":
		if v, err = parseSizes(rest, 3, units); err != nil {
			return k, err
		}
		k.Chamber, k.Height = layout.Shape{Kind: layout.ShapeKind(word), Width: v[0], Depth: v[1]}, v[2]
	default:
		if word == "round" {
			text = rest
		}
		if v, err = parseSizes(text, 2, units); err != nil {
			return k, err
		}
		k.Chamber, k.Height = layout.Shape{Kind: layout.Round, Across: v[0]}, v[1]
	}
	_, err = k.Chamber.Outline()
	return k, err
}

// shelfForm is a row of the shelf list: count, shape, sizes.
var shelfForm = regexp.MustCompile(`^(\d{1,3})\s+(round|half round|rectangle|oval|half oval)\s+(.+)$`)

// parseShelves reads "1 round 410 x 16, 6 half round 410 x 16".
func parseShelves(text string, units measure.Units) ([]layout.ShelfKind, error) {
	var out []layout.ShelfKind
	names := map[string]int{}
	for _, row := range strings.FieldsFunc(text, func(r rune) bool { return r == ',' || r == ';' }) {
		m := shelfForm.FindStringSubmatch(strings.TrimSpace(row))
		if m == nil {
			return nil, fmt.Errorf("%q is no row of shelves; write count, shape, size and thickness, like \"6 half round 410 x 16\"", strings.TrimSpace(row))
		}
		s := layout.ShelfKind{}
		fmt.Sscanf(m[1], "%d", &s.Count)
		s.Shape.Kind = layout.ShapeKind(m[2])
		n := 3
		if m[2] == "round" || m[2] == "half round" {
			n = 2
		}
		v, err := parseSizes(m[3], n, units)
		if err != nil {
			return nil, err
		}
		s.Thick = v[n-1]
		if n == 2 {
			s.Shape.Across = v[0]
			if m[2] == "half round" {
				s.Shape.Depth = v[0]/2 - 3 // the saw's cut, common practice
			}
		} else {
			s.Shape.Width, s.Shape.Depth = v[0], v[1]
		}
		s.Name = map[string]string{"round": "full", "half round": "half", "rectangle": "slab", "oval": "full", "half oval": "half"}[m[2]]
		if names[s.Name]++; names[s.Name] > 1 {
			s.Name = fmt.Sprintf("%s %d", s.Name, names[s.Name])
		}
		out = append(out, s)
	}
	return out, nil
}

// postForm is a part of the post list: count, then heights.
var postForm = regexp.MustCompile(`^(\d{1,3})\s+(posts of|spacers of|of|posts|spacers)\s+(.+)$`)

// parsePosts reads "6 of 13, 25, 50; 6 spacers of 6".
func parsePosts(text string, units measure.Units) ([]layout.PostKind, error) {
	var out []layout.PostKind
	for _, part := range strings.Split(text, ";") {
		m := postForm.FindStringSubmatch(strings.TrimSpace(part))
		if m == nil {
			return nil, fmt.Errorf("%q is no list of posts; write count and heights, like \"6 of 13, 25, 50\"", strings.TrimSpace(part))
		}
		count := 0
		fmt.Sscanf(m[1], "%d", &count)
		for _, h := range strings.Split(m[3], ",") {
			mm, err := measure.ParsePositive(h, units)
			if err != nil {
				return nil, err
			}
			out = append(out, layout.PostKind{Height: mm, Count: count, Spacer: strings.HasPrefix(m[2], "spacers"),
				Section: layout.Section{Kind: layout.SquareSection, Width: 38}})
		}
	}
	return out, nil
}

// assumedShelves is what a newcomer is assumed to own: one full shelf and six
// halves, 47 less than the kiln across, 16 thick (common practice).
func assumedShelves(k layout.Kiln) []layout.ShelfKind {
	const less, thick = 47, 16
	c := k.Chamber
	switch c.Kind {
	case layout.Rectangle:
		return []layout.ShelfKind{{Name: "full", Shape: layout.Shape{Kind: layout.Rectangle, Width: c.Width - less, Depth: c.Depth - less}, Thick: thick, Count: 4}}
	case layout.Oval:
		return []layout.ShelfKind{{Name: "full", Shape: layout.Shape{Kind: layout.Oval, Width: c.Width - less, Depth: c.Depth - less}, Thick: thick, Count: 4}}
	}
	across := float64(int(c.Across - less))
	return []layout.ShelfKind{
		{Name: "full", Shape: layout.Shape{Kind: layout.Round, Across: across}, Thick: thick, Count: 1},
		{Name: "half", Shape: layout.Shape{Kind: layout.HalfRound, Across: across, Depth: across/2 - 3}, Thick: thick, Count: 6},
	}
}

// assumedPosts is six each of usual heights, and six spacers.
func assumedPosts(units measure.Units) []layout.PostKind {
	heights := []float64{6, 13, 25, 50, 100, 150, 200}
	if units == measure.Inches {
		heights = []float64{6.35, 12.7, 25.4, 50.8, 101.6, 152.4, 203.2}
	}
	var out []layout.PostKind
	for i, h := range heights {
		out = append(out, layout.PostKind{Height: h, Count: 6, Spacer: i == 0, Section: layout.Section{Kind: layout.SquareSection, Width: 38}})
	}
	return out
}

package main

import (
	"bytes"
	"fmt"
	"path/filepath"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"threepost/cmd/internal/files"
	"threepost/layout/stacks"
	"threepost/render/raster"
	"threepost/render/scene"
)

// pictureFlags are how a picture is wanted.
type pictureFlags struct {
	out, from, level, colour, size string
	cut, dark                      bool
}

func pictureCommand(t *terminal) *cobra.Command {
	var f pictureFlags
	cmd := &cobra.Command{
		Use:   "picture LOAD",
		Short: "Write a picture of the load in 3D",
		Long: `Draws the load as it stands, as the page does, into a PNG. With --level the
levels above that one are lifted away; with --cut the near half is cut off. With
--colour the ware tells owner, glaze, mass or findings, by hatch as well as by
colour; what they mean is said below.`,
		Example: "  threepost picture october.toml\n  threepost picture october.toml --from top --level \"left 2\" --out left-2.png\n  threepost picture october.toml --from \"spyhole 1\"",
		Args:    one("LOAD"),
		RunE:    func(_ *cobra.Command, args []string) error { return t.picture(args[0], f) },
	}
	cmd.Flags().StringVar(&f.out, "out", "", "file to write, .png; LOAD.png when not given")
	cmd.Flags().StringVar(&f.from, "from", "stand", "where it is seen from: stand, front, left, right, top or \"spyhole 1\"")
	cmd.Flags().StringVar(&f.level, "level", "", "the highest level that is shown: \"left 2\"")
	cmd.Flags().StringVar(&f.colour, "colour", "clay", "what the ware's colour tells: clay, owner, glaze, mass or findings")
	cmd.Flags().StringVar(&f.size, "size", "1280x800", "width x height in px")
	cmd.Flags().BoolVar(&f.cut, "cut", false, "cut the near half off")
	cmd.Flags().BoolVar(&f.dark, "dark", false, "on a dark ground")
	return cmd
}

// pictured is the JSON of a written picture.
type pictured struct {
	File   string      `json:"file"`
	Width  int         `json:"width"`
	Height int         `json:"height"`
	Legend []legendKey `json:"legend,omitempty"`
}

// legendKey is what one colour and hatch means.
type legendKey struct {
	Means string `json:"means"`
	Hatch string `json:"hatch"`
	Pots  int    `json:"pots"`
}

// picture draws a load and writes it.
func (t *terminal) picture(path string, f pictureFlags) error {
	w, h, err := pictureSize(f.size)
	if err != nil {
		return err
	}
	if f.out == "" {
		f.out = strings.TrimSuffix(path, filepath.Ext(path)) + ".png"
	}
	if strings.ToLower(filepath.Ext(f.out)) != ".png" {
		return usage("%s: a picture is written as .png", f.out)
	}
	o, b, err := openBuilt(path)
	if err != nil {
		return err
	}
	opts, err := f.options(b)
	if err != nil {
		return err
	}
	opts.Units = o.load.Units
	s, cam, cut, err := f.view(b, opts, scene.Screen{W: float64(w), H: float64(h)})
	if err != nil {
		return err
	}
	img, err := raster.Draw(s, cam, raster.Options{Width: w, Height: h, Samples: samplesOf(w, h), Cut: cut})
	if err != nil {
		return usage("--size: %w", err)
	}
	var buf bytes.Buffer
	if err := raster.PNG(&buf, img); err != nil {
		return ending{exitInternal, err}
	}
	if err := files.Write(f.out, buf.Bytes()); err != nil {
		return unreadable(err)
	}
	return t.sayPicture(pictured{File: f.out, Width: w, Height: h, Legend: legendOf(s)})
}

// sayPicture tells what was written and what its colours mean.
func (t *terminal) sayPicture(p pictured) error {
	if t.json {
		return t.answer(p)
	}
	t.say("%s written, %d x %d px.", p.File, p.Width, p.Height)
	for _, k := range p.Legend {
		t.say("  %-16s %s: %d", k.Hatch, k.Means, k.Pots)
	}
	return nil
}

// samplesOf is how fine the edges are: large pictures have small px.
func samplesOf(w, h int) int {
	if w*h > 4<<20 {
		return 1
	}
	return 2
}

// options reads what is shown.
func (f *pictureFlags) options(b *stacks.Built) (scene.Options, error) {
	opts := scene.Options{Dark: f.dark, Colour: scene.WareColour(f.colour)}
	known := false
	var words []string
	for _, c := range scene.WareColours() {
		known = known || c == opts.Colour
		words = append(words, string(c))
	}
	if !known {
		return opts, usage("--colour: %q is none; write %s", f.colour, strings.Join(words, ", "))
	}
	if f.level == "" {
		return opts, nil
	}
	var names []string
	for i := range b.Levels {
		if b.Levels[i].Name == f.level {
			opts.Up = i + 1
			return opts, nil
		}
		names = append(names, strconv.Quote(b.Levels[i].Name))
	}
	if len(names) == 0 {
		return opts, usage("--level: the load has no levels yet")
	}
	return opts, usage("--level: %q is no level of this load; write one of %s", f.level, strings.Join(names, ", "))
}

// view makes the scene and puts the camera where it is wanted.
func (f *pictureFlags) view(b *stacks.Built, opts scene.Options, screen scene.Screen) (*scene.Scene, scene.Camera, *scene.Plane, error) {
	var cam scene.Camera
	n, inside, err := spyholeOf(f.from, b)
	if err != nil {
		return nil, cam, nil, err
	}
	opts.Kiln = inside || len(b.Levels) == 0 || f.cut
	opts.Sight = f.cut && !inside
	s := scene.Build(b, opts)
	box := s.Box
	bearing := map[string]float64{"left": 270, "right": 90}[f.from]
	if bearing == 0 {
		bearing = 180
	}
	cut := scene.CutBefore(bearing)
	if box.Empty() || f.cut {
		box = box.With(s.Kiln)
	}
	if f.cut {
		box = cut.Keeps(box)
	}
	switch {
	case inside:
		cam, _ = scene.Through(b, n)
	case f.from == "stand":
		cam = scene.Stand(b, box, screen)
	case f.from == "front", f.from == "left", f.from == "right":
		cam = scene.Side(bearing, box, screen)
	case f.from == "top":
		cam = scene.Top(box, screen)
	default:
		return nil, cam, nil, usage("--from: %q is no place to stand; write stand, front, left, right, top or \"spyhole 1\"", f.from)
	}
	if !f.cut || inside {
		return s, cam, nil, nil
	}
	return s, cam, &cut, nil
}

// spyholeOf reads "spyhole 2" as the index of a spyhole.
func spyholeOf(from string, b *stacks.Built) (n int, inside bool, err error) {
	text, found := strings.CutPrefix(from, "spyhole")
	if !found {
		return 0, false, nil
	}
	n, err = strconv.Atoi(strings.TrimSpace(text))
	if strings.TrimSpace(text) == "" {
		n, err = 1, nil
	}
	if err != nil || n < 1 || n > len(b.Spies) {
		holes := "the kiln has none"
		if len(b.Spies) == 1 {
			holes = "the kiln has one"
		} else if len(b.Spies) > 1 {
			holes = fmt.Sprintf("the kiln has %d", len(b.Spies))
		}
		return 0, false, usage("--from: there is no %q; %s", from, holes)
	}
	return n - 1, true, nil
}

// pictureSize reads "1280x800".
func pictureSize(text string) (w, h int, err error) {
	a, b, found := strings.Cut(strings.ToLower(strings.ReplaceAll(text, "×", "x")), "x")
	if found {
		var errA, errB error
		w, errA = strconv.Atoi(strings.TrimSpace(a))
		h, errB = strconv.Atoi(strings.TrimSpace(b))
		if errA == nil && errB == nil && w >= 16 && h >= 16 && w <= 8000 && h <= 8000 && w*h <= raster.MostPixels {
			return w, h, nil
		}
	}
	return 0, 0, usage("--size: %q is no size; write width x height in px, 16x16 to 8000x4000", text)
}

// legendOf is the legend in words.
func legendOf(s *scene.Scene) []legendKey {
	var list []legendKey
	for _, k := range s.Legend {
		list = append(list, legendKey{k.Mark.Label, k.Mark.Hatch.Words(), k.Count})
	}
	return list
}

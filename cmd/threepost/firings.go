package main

import (
	"context"
	"errors"
	"fmt"
	"os"
	"os/signal"
	"path/filepath"
	"sort"
	"strings"

	"github.com/spf13/cobra"

	"threepost/cmd/internal/files"
	"threepost/layout"
	"threepost/layout/document"
	"threepost/layout/firings"
	"threepost/layout/measure"
	"threepost/layout/silhouette"
)

// firingsFlags are what a split is asked for.
type firingsFlags struct {
	seed     uint64
	work     int64
	most     int
	share    bool
	together bool
	upTo     string
	bisque   string
	write    string
	replace  bool
}

func firingsCommand(t *terminal) *cobra.Command {
	var f firingsFlags
	cmd := &cobra.Command{
		Use:   "firings LOAD [OTHER-KILN...]",
		Short: "Split a waiting list into firings that are compatible and full",
		Long: `Splits the ware of one load or more into firings: a list larger than the kiln,
ware for several cones, raw ware beside glazed. Every load named is a kiln with
its furniture and the ware that waits there; all ware is one list. Must-go pots
are fired first, full firings before part-full ones, what waits longest before
what came later. What goes in no firing is told with the reason.

A kiln fires what its load says and anything cooler. --up-to tells how hot all
of them go; raw ware is fired to cone 04 unless a load or --bisque says
otherwise. Firings come one after another, each with all furniture of its kiln.
--together fires all kilns at the same time, round by round.
--share-furniture says that the loads list one box: alike rows are the same
pieces. Together, the box is divided among the kilns of a round.

--write puts every firing into a folder as a load of its own, planned, with the
comments of its rows, and what waits as waits.toml. The loads themselves stay as
they are.`,
		Example: `  threepost firings table.toml
  threepost firings table.toml --write november
  threepost firings heron.toml wren.toml --together --share-furniture`,
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) == 0 {
				return usage("firings takes a load or more; write threepost firings table.toml")
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, args []string) error { return t.split(cmd.Context(), args, f) },
	}
	cmd.Flags().Uint64Var(&f.seed, "seed", 1, "start of the random streams")
	cmd.Flags().Int64Var(&f.work, "work", firings.EachWork, "work of each plan that is tried")
	cmd.Flags().IntVar(&f.most, "most", firings.MostFirings, "make so many firings at most")
	cmd.Flags().BoolVar(&f.share, "share-furniture", false, "all loads list one box of shelves and posts")
	cmd.Flags().BoolVar(&f.together, "together", false, "all kilns are fired at the same time")
	cmd.Flags().StringVar(&f.upTo, "up-to", "", "the cone that every kiln goes up to")
	cmd.Flags().StringVar(&f.bisque, "bisque", "", "the cone that raw ware is fired to")
	cmd.Flags().StringVar(&f.write, "write", "", "write every firing and what waits into this folder")
	cmd.Flags().BoolVar(&f.replace, "replace", false, "with --write: firings that are in the folder already may be written over")
	return cmd
}

func (t *terminal) split(ctx context.Context, paths []string, f firingsFlags) error {
	if f.work < 1 || f.work > 1e9 || f.most < 1 || f.most > firings.MostFirings {
		return usage("--work is 1 to 1000000000, --most 1 to %d", firings.MostFirings)
	}
	studio, opened, err := studioOf(paths, f)
	if err != nil {
		return err
	}
	if f.write != "" {
		if err := roomFor(f.write, f.replace); err != nil {
			return err
		}
	}
	answer, err := t.splitting(ctx, studio, f)
	if err != nil {
		return err
	}
	where := keptSplit{}
	if f.write != "" {
		if where, err = writeSplit(studio, opened, answer, f); err != nil {
			return err
		}
	}
	if t.json {
		if err := t.answer(splitAnswer(studio, answer, where)); err != nil {
			return err
		}
	} else {
		t.tellSplit(studio, answer, where)
	}
	for _, g := range answer.Firings {
		if g.Report.Problems > 0 {
			return ending{code: exitProblems}
		}
	}
	return nil
}

// studioOf opens the loads of a studio.
func studioOf(paths []string, f firingsFlags) (firings.Studio, []*opened, error) {
	s := firings.Studio{Share: f.share, Together: f.together}
	for _, c := range []struct {
		flag, text string
		to         *measure.Cone
	}{{"--up-to", f.upTo, &s.UpTo}, {"--bisque", f.bisque, &s.Bisque}} {
		if c.text == "" {
			continue
		}
		cone, err := measure.ParseCone(c.text)
		if err != nil {
			return s, nil, usage("%s: %w", c.flag, err)
		}
		*c.to = cone
	}
	if len(paths) > firings.MostKilns {
		return s, nil, usage("%d loads are named; at most %d can be split at once", len(paths), firings.MostKilns)
	}
	var all []*opened
	names := map[string]bool{}
	for i, path := range paths {
		for _, other := range paths[:i] {
			if sameFile(path, other) {
				return s, nil, usage("%s is named twice; its pots are on the table once", path)
			}
		}
		o, err := open(path)
		if err != nil {
			return s, nil, err
		}
		name := o.load.Kiln.Name
		if name == "" || names[name] {
			name = strings.TrimSuffix(filepath.Base(path), filepath.Ext(path))
		}
		for names[name] {
			name = "other " + name
		}
		names[name] = true
		all = append(all, o)
		s.Kilns = append(s.Kilns, firings.Kiln{Name: name, Load: o.load})
	}
	return s, all, nil
}

// splitting runs the split with a bar; Ctrl-C ends it.
func (t *terminal) splitting(ctx context.Context, s firings.Studio, f firingsFlags) (*firings.Answer, error) {
	if ctx == nil {
		ctx = context.Background()
	}
	ctx, stop := signal.NotifyContext(ctx, os.Interrupt)
	defer stop()
	bar := newProgress(t.errs)
	defer bar.done()
	tell := func(p firings.Progress) bool {
		bar.show(float64(p.Set)/float64(max(1, p.Of)), fmt.Sprintf("%s, %d of %d pots", silhouette.Counted(p.Firings, "firing"), p.Set, p.Of))
		return ctx.Err() == nil
	}
	answer, err := firings.Split(s, firings.Asked{Seed: f.seed, Work: f.work, Most: f.most, Tell: tell})
	switch {
	case errors.Is(err, firings.Stopped{}):
		return nil, ending{exitProblems, errors.New(err.Error() + " Nothing was written.")}
	case err != nil:
		return nil, unreadable(err)
	}
	return answer, nil
}

// keptSplit is where a split was put.
type keptSplit struct {
	firings []string
	waits   string
	stale   []string // of an earlier split, left where they are
}

const waitsFile = "waits.toml"

// ofASplit lists the files in a folder that a split would write over.
func ofASplit(folder string) []string {
	names, _ := filepath.Glob(filepath.Join(folder, "firing-*.toml"))
	if _, err := os.Lstat(filepath.Join(folder, waitsFile)); err == nil {
		names = append(names, filepath.Join(folder, waitsFile))
	}
	sort.Strings(names)
	return names
}

// roomFor makes the folder where it is missing, and refuses one that holds a
// split already.
func roomFor(folder string, replace bool) error {
	if there := ofASplit(folder); len(there) > 0 && !replace {
		return unreadable(fmt.Errorf("%s is there already; choose another folder, or say --replace", there[0]))
	}
	if err := os.MkdirAll(folder, 0o755); err != nil {
		return unreadable(fmt.Errorf("the folder %s cannot be made; check the name", folder))
	}
	return nil
}

// writeSplit writes the firings and what waits: all texts are made before the
// first file is.
func writeSplit(s firings.Studio, from []*opened, a *firings.Answer, f firingsFlags) (keptSplit, error) {
	var w keptSplit
	texts := map[string][]byte{}
	gather := func(name string, kiln int, l *layout.Load) (string, error) {
		path := filepath.Join(f.write, name)
		text, err := document.Gather(l, sources(from, a, kiln)...)
		if err != nil {
			return "", ending{exitInternal, fmt.Errorf("%s was not written: its text would not read back: %w", path, err)}
		}
		texts[path] = text
		return path, nil
	}
	for i, g := range a.Firings {
		name := fmt.Sprintf("firing-%d.toml", i+1)
		if len(a.Firings) > 9 {
			name = fmt.Sprintf("firing-%02d.toml", i+1)
		}
		path, err := gather(name, g.Kiln, g.Load)
		if err != nil {
			return w, err
		}
		w.firings = append(w.firings, path)
	}
	if rest := a.RestLoad(s); rest != nil {
		path, err := gather(waitsFile, 0, rest)
		if err != nil {
			return w, err
		}
		w.waits = path
	}
	for _, path := range ofASplit(f.write) {
		if texts[path] == nil {
			w.stale = append(w.stale, path)
		}
	}
	for _, path := range append(append([]string(nil), w.firings...), w.waits) {
		if path == "" {
			continue
		}
		write := files.Create
		if f.replace {
			write = files.Write
		}
		if err := write(path, texts[path]); err != nil {
			return w, unreadable(err)
		}
	}
	return w, nil
}

// sources are the files whose comments go with a firing of a kiln: all of its
// own load, those of the rows of the others.
func sources(from []*opened, a *firings.Answer, kiln int) []document.Source {
	var out []document.Source
	for k, o := range from {
		out = append(out, document.Source{Text: o.text, Renamed: a.Renamed[k], Ware: k != kiln})
	}
	return out
}

// splitJSON is the JSON of a split.
type splitJSON struct {
	Firings []firingJSON  `json:"firings"`
	Waits   []waitingJSON `json:"waits"`
	Set     int           `json:"set"`
	Of      int           `json:"of"`
	AtLeast int           `json:"at_least,omitempty"`
	Because string        `json:"because,omitempty"`
	Notes   []string      `json:"notes,omitempty"`
	Seed    uint64        `json:"seed"`
	Work    int64         `json:"work"`
	Written string        `json:"written,omitempty"` // what waits
}

type firingJSON struct {
	Kiln     string         `json:"kiln"`
	Round    int            `json:"round"`
	Stage    layout.Stage   `json:"stage"`
	Cone     measure.Cone   `json:"cone,omitempty"`
	Peak     float64        `json:"peak_c"`
	Set      int            `json:"set"`
	Value    float64        `json:"value"`
	Fill     float64        `json:"fill"`
	Problems int            `json:"problems"`
	Watches  int            `json:"watches"`
	Ware     map[string]int `json:"ware"`
	Why      []string       `json:"why"`
	Written  string         `json:"written,omitempty"`
}

type waitingJSON struct {
	Ware   string `json:"ware"`
	Count  int    `json:"count"`
	Kiln   string `json:"kiln"`
	Reason string `json:"reason"`
}

func splitAnswer(s firings.Studio, a *firings.Answer, w keptSplit) splitJSON {
	out := splitJSON{Firings: []firingJSON{}, Waits: []waitingJSON{}, Set: a.Set, Of: a.Of, AtLeast: a.AtLeast, Because: a.Because,
		Notes: a.Notes, Seed: a.Seed, Work: a.Work, Written: w.waits}
	for i, g := range a.Firings {
		j := firingJSON{Kiln: s.Kilns[g.Kiln].Name, Round: g.Round, Stage: g.Load.Firing.Stage, Cone: g.Load.Firing.Cone, Peak: g.Load.Firing.Temperature(),
			Set: g.Set, Value: g.Value, Fill: g.Fill, Problems: g.Report.Problems, Watches: g.Report.Watches, Ware: map[string]int{}, Why: g.Why}
		for _, r := range g.Load.Ware {
			j.Ware[r.Name] = r.Count
		}
		if len(w.firings) > i {
			j.Written = w.firings[i]
		}
		out.Firings = append(out.Firings, j)
	}
	for _, r := range a.Rest {
		out.Waits = append(out.Waits, waitingJSON{r.Ware.Name, r.Ware.Count, s.Kilns[r.Kiln].Name, r.Reason})
	}
	return out
}

// tellSplit prints a split, the firings in order.
func (t *terminal) tellSplit(s firings.Studio, a *firings.Answer, w keptSplit) {
	t.say("%d of %s in %s.", a.Set, silhouette.Counted(a.Of, "pot"), silhouette.Counted(len(a.Firings), "firing"))
	for i, g := range a.Firings {
		head := fmt.Sprintf("%s, %s: %s on %s. %s.", s.Kilns[g.Kiln].Name, firings.SayFiring(g.Load.Firing, g.Load.Units),
			silhouette.Counted(g.Set, "pot"), silhouette.Counted(levelsOf(g.Load), "level"), headline(g.Report))
		if s.Together && len(s.Kilns) > 1 {
			head = fmt.Sprintf("Round %d, ", g.Round) + head
		}
		t.say("firing %-2d %s", i+1, hang(head, 10))
		var ware []string
		for _, r := range g.Load.Ware {
			ware = append(ware, silhouette.Counted(r.Count, r.Name))
		}
		t.say("          %s", hang(strings.Join(ware, ", ")+".", 10))
		t.say("          %s", hang(strings.Join(g.Why, " "), 10))
		if len(w.firings) > i {
			t.say("          %s", w.firings[i])
		}
	}
	hot := false
	for _, r := range a.Rest {
		t.say("waits     %s", hang(silhouette.Counted(r.Ware.Count, r.Ware.Name)+". "+r.Reason, 10))
		hot = hot || r.Hot
	}
	if hot {
		t.say("A kiln goes as hot as its load says; --up-to tells when it goes hotter.")
	}
	if a.AtLeast > 0 {
		t.say("%s", hang(fmt.Sprintf("At least %s: %s.", silhouette.Counted(a.AtLeast, "firing"), a.Because), 0))
	}
	for _, n := range a.Notes {
		t.say("%s", n)
	}
	t.say("Seed %d, work %d for each plan.", a.Seed, a.Work)
	if w.waits != "" {
		t.say("What waits is written to %s.", w.waits)
	}
	for _, path := range w.stale {
		t.say("%s is of an earlier split and was left as it is.", path)
	}
}

func levelsOf(l *layout.Load) int {
	n := 0
	for _, tw := range l.Towers {
		n += len(tw.Levels)
	}
	return n
}

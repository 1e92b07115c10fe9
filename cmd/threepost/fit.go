package main

import (
	"fmt"
	"sort"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"threepost/layout"
	"threepost/layout/edit"
	"threepost/layout/planner"
	"threepost/layout/session"
	"threepost/layout/silhouette"
	"threepost/layout/stacks"
)

// mostFits is how many answers to one question are told, mostAsked how many are
// looked at for them.
const (
	mostFits  = 6
	mostAsked = 12
)

// fitFlags are the one fact that is other than planned, what stands, and what
// is to be written.
type fitFlags struct {
	facts  facts
	loaded []string
	take   int
	out    string
}

func fitCommand(t *terminal) *cobra.Command {
	var f fitFlags
	cmd := &cobra.Command{
		Use:   "fit LOAD",
		Short: "Go on at the kiln when something does not fit",
		Long: `Tells how to go on when one thing is other than planned, the way that changes
least first. What stands stays: --loaded names the last level that is loaded,
with its shelf and all that is under it; levels that the load says stand
already count too. Nothing is written unless --take says which way is taken;
an earlier arrangement is kept beside it as NAME.earlier.toml.

One of: --taller and --wider, a pot or a whole row, then by how much; --no-post
and --no-shelf, what is missing from the box, or cracked; --without, a pot that
stays out; --one-more, a row or a pot in the short form.`,
		Example: `  threepost fit october.toml --loaded bottom --taller "mug 3: 4 mm"
  threepost fit october.toml --loaded "left 1" --loaded "right 1" --no-post "2 of 100"
  threepost fit october.toml --one-more "110 x 95" --take 1 --out changed.toml`,
		Args: one("LOAD"),
		RunE: func(_ *cobra.Command, args []string) error { return t.fit(args[0], f) },
	}
	cmd.Flags().StringArrayVar(&f.loaded, "loaded", nil, "the last level of a tower that is loaded; again for each tower")
	cmd.Flags().StringVar(&f.facts.taller, "taller", "", `a pot or a row is taller: "mug 3: 4 mm"`)
	cmd.Flags().StringVar(&f.facts.wider, "wider", "", `a pot or a row is wider: "mug 3: 4 mm"`)
	cmd.Flags().StringVar(&f.facts.noPost, "no-post", "", `posts are missing: "2 of 100"`)
	cmd.Flags().StringVar(&f.facts.noShelf, "no-shelf", "", `shelves are missing or cracked: "half"`)
	cmd.Flags().StringVar(&f.facts.without, "without", "", `a pot stays out: "mug 3"`)
	cmd.Flags().StringVar(&f.facts.oneMore, "one-more", "", `one more pot: "mug", or "110 x 95"`)
	cmd.Flags().IntVar(&f.take, "take", 0, "write the load as it is after this way")
	cmd.Flags().StringVar(&f.out, "out", "", "with --take, write it to this file instead")
	return cmd
}

func (t *terminal) fit(path string, f fitFlags) error {
	switch {
	case f.take < 0 || f.take > mostFits:
		return usage("--take is from 1 to %d", mostFits)
	case f.out != "" && f.take == 0:
		return usage("--out goes with --take, which says what is written")
	}
	o, err := open(path)
	if err != nil {
		return err
	}
	change, err := f.facts.change(o.load)
	if err != nil {
		return err
	}
	if len(o.load.Towers) == 0 {
		return usage("%s has no levels yet; plan it first: threepost plan %s", path, path)
	}
	b, err := o.build()
	if err != nil {
		return err
	}
	stands, err := loadedTo(b, f.loaded)
	if err != nil {
		return err
	}
	s, err := session.Open(string(o.text), path)
	if err != nil {
		return unreadable(err)
	}
	fitting, err := s.FitStanding(change, stands)
	if err != nil {
		return usage("%w", err)
	}
	a, err := answersOf(fitting, o.load, f.take)
	if err != nil {
		return err
	}
	if len(a.Answers) == 0 {
		a.Why = noWay(stands, f.facts)
	} else if f.take > len(a.Answers) {
		return usage("--take %d: %s", f.take, silhouette.Counted(len(a.Answers), "way")+" in all")
	}
	if a.taken != nil {
		if a.Written, err = o.keepPlan(a.taken, f.out); err != nil {
			return err
		}
	}
	if t.json {
		if err := t.answer(a); err != nil {
			return err
		}
	} else {
		t.tellFit(a, b, stands, f.take)
	}
	if len(a.Answers) == 0 {
		return ending{code: exitProblems}
	}
	return nil
}

// loadedTo is what stands: each tower up to the level that is named, with what
// it stands on, and the levels that the load says stand.
func loadedTo(b *stacks.Built, names []string) (planner.Stands, error) {
	var out planner.Stands
	l := b.Load
	for i := range l.Towers {
		for j, v := range l.Towers[i].Levels {
			if v.Standing {
				if err := out.StandsTo(l, l.Towers[i].Name, j+1); err != nil {
					return out, ending{exitInternal, err}
				}
			}
		}
	}
	for _, name := range names {
		at := levelNamed(b, name)
		if at < 0 {
			var all []string
			for i := range b.Levels {
				all = append(all, b.Levels[i].Name)
			}
			return out, usage("--loaded: the load has no level %q; it has %s", name, strings.Join(all, ", "))
		}
		v := &b.Levels[at]
		if err := out.StandsTo(l, l.Towers[b.Towers[v.Tower].Index].Name, v.Number); err != nil {
			return out, ending{exitInternal, err}
		}
	}
	return out, nil
}

// levelNamed is the level of a name, as plans tell it, or of a tower's name in
// the file and a number; -1: none.
func levelNamed(b *stacks.Built, name string) int {
	name = strings.Join(strings.Fields(name), " ")
	for i := range b.Levels {
		v := &b.Levels[i]
		tower := b.Load.Towers[b.Towers[v.Tower].Index].Name
		if strings.EqualFold(name, v.Name) || strings.EqualFold(name, fmt.Sprint(tower, " ", v.Number)) {
			return i
		}
	}
	return -1
}

// fitAnswer is the JSON of what was found.
type fitAnswer struct {
	Answers []fitWay `json:"answers"`
	Of      int      `json:"of"`
	Written string   `json:"written,omitempty"`
	Why     string   `json:"why,omitempty"` // there is no answer

	taken *layout.Load
}

// fitWay is one way to go on, and what it changes.
type fitWay struct {
	Says   string   `json:"says"`
	Detail string   `json:"detail,omitempty"`
	Was    string   `json:"room_was,omitempty"` // to the lid, in the load's unit
	Now    string   `json:"room_now,omitempty"`
	Set    int      `json:"set"`
	Posts  []string `json:"posts"` // levels that stand on other posts
	Gone   []string `json:"gone"`  // levels that are not set any more
	Moved  []string `json:"moved"` // pots that stand elsewhere
	In     []string `json:"in"`
	Out    []string `json:"out"`

	of int // pots of the ware list after it
}

// noWay is what is said where no way is left.
func noWay(stands planner.Stands, f facts) string {
	loaded := false
	for _, t := range stands.Towers {
		loaded = loaded || t.Levels > 0
	}
	switch {
	case !loaded:
		return "No way was found that breaks no rule. Plan the load anew: threepost plan."
	case f.taller != "" || f.wider != "":
		return "No way was found that keeps what stands and breaks no rule. Take a level down, or leave the pot out."
	}
	return "No way was found that keeps what stands and breaks no rule. Take a level down and ask again."
}

// answersOf gathers the answers in their order, with the load after the one
// that is taken.
func answersOf(f *session.Fitting, l *layout.Load, take int) (fitAnswer, error) {
	out := fitAnswer{Answers: []fitWay{}}
	for _, w := range l.Ware {
		out.Of += w.Count
	}
	seen := map[string]bool{}
	for asked := 0; asked < mostAsked && len(out.Answers) < mostFits; asked++ {
		a, ok := f.Next()
		if !ok {
			break
		}
		turn, err := f.Turn(a)
		if err != nil {
			return out, ending{exitInternal, err}
		}
		after, err := edit.Apply(l, a.Edits...)
		if err != nil {
			return out, ending{exitInternal, err}
		}
		w := fitWay{Says: a.Says, Detail: a.Detail, Was: a.Was, Now: a.Now, Set: a.Set,
			Posts: append([]string{}, turn.Posts...), Gone: append([]string{}, turn.Gone...),
			Moved: inOrder(turn.Moved), In: inOrder(turn.In), Out: inOrder(turn.Out)}
		for _, row := range after.Ware {
			w.of += row.Count
		}
		// The same pots left out for the sake of other posts is no other way.
		if left := fmt.Sprint(w.Moved, w.In, w.Out); len(w.Out) > 0 {
			if seen[left] {
				continue
			}
			seen[left] = true
		}
		if out.Answers = append(out.Answers, w); len(out.Answers) == take {
			out.taken = after
		}
	}
	return out, nil
}

// inOrder is names in the order in which they are counted: mug 6 before mug 10.
func inOrder(names []string) []string {
	names = append([]string{}, names...)
	parts := func(name string) (string, int) {
		if cut := strings.LastIndexByte(name, ' '); cut > 0 {
			if n, err := strconv.Atoi(name[cut+1:]); err == nil {
				return name[:cut], n
			}
		}
		return name, 0
	}
	sort.SliceStable(names, func(i, j int) bool {
		a, n := parts(names[i])
		b, m := parts(names[j])
		return a < b || a == b && n < m
	})
	return names
}

// tellFit prints the answers, or that the taken one is written.
func (t *terminal) tellFit(a fitAnswer, b *stacks.Built, stands planner.Stands, take int) {
	t.say("%s", hang(saysStanding(b, stands), 0))
	if len(a.Answers) == 0 {
		t.say("%s", hang(a.Why, 0))
		return
	}
	for i, w := range a.Answers {
		t.say("%d  %s", i+1, hang(w.Says+".", 3))
		if w.Detail != "" {
			t.say("   %s", hang(w.Detail, 3))
		}
		t.say("   %s", hang(w.changes(b.Load.Kiln.Opens), 3))
	}
	if a.Written != "" {
		t.say("Way %d is written to %s.", take, a.Written)
	}
}

// changes says what a way moves, and what it leaves to the lid.
func (w fitWay) changes(opens layout.Opens) string {
	text := ""
	say := func(what string, names []string) {
		if len(names) > 0 {
			text += what + ": " + fewOf(names) + ". "
		}
	}
	say("Elsewhere", w.Moved)
	say("In", w.In)
	say("Out", w.Out)
	if w.Now != "" {
		lid := "lid"
		if opens == layout.Front {
			lid = "roof"
		}
		text += w.Now + " left to the " + lid
		if w.Was != "" && w.Was != w.Now {
			text += ", was " + w.Was
		}
		text += ". "
	}
	return text + fmt.Sprintf("%d of %s set.", w.Set, silhouette.Counted(w.of, "pot"))
}

// fewOf lists names, the first few where they are many.
func fewOf(names []string) string {
	const few = 6
	if len(names) <= few {
		return strings.Join(names, ", ")
	}
	return fmt.Sprintf("%s and %d more", strings.Join(names[:few-1], ", "), len(names)-few+1)
}

// saysStanding tells what stays.
func saysStanding(b *stacks.Built, stands planner.Stands) string {
	var names []string
	for i := range b.Levels {
		v := &b.Levels[i]
		if at := b.Towers[v.Tower].Index; at < len(stands.Towers) && v.Number <= stands.Towers[at].Levels {
			names = append(names, v.Name)
		}
	}
	if len(names) == 0 {
		return "Nothing stands yet."
	}
	pots := 0
	for i := range b.Pots {
		if b.Pots[i].Ware != nil && stands.Pots[b.Pots[i].Pot] {
			pots++
		}
	}
	return fmt.Sprintf("What stands stays: %s, with %s.", strings.Join(names, ", "), silhouette.Counted(pots, "pot"))
}

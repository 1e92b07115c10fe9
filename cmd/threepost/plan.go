package main

import (
	"context"
	"fmt"
	"os"
	"os/signal"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"threepost/cmd/internal/files"
	"threepost/layout"
	"threepost/layout/bounds"
	"threepost/layout/measure"
	"threepost/layout/planner"
	"threepost/layout/silhouette"
	"threepost/layout/stacks"
)

// planFlags are what a plan is asked for.
type planFlags struct {
	seed    uint64
	work    int64
	seconds float64
	out     string
	dry     bool
	ways    bool
	take    int
	buy     bool
	why     bool
}

// slice is the work between two looks at the clock and the keyboard.
const slice = 2500

func planCommand(t *terminal) *cobra.Command {
	var f planFlags
	cmd := &cobra.Command{
		Use:   "plan LOAD",
		Short: "Decide shelves, posts and places, and write them into the load",
		Long: `Plans the load and writes the arrangement into its file; comments stay. What is
locked or already stands in the kiln stays where it is. An earlier arrangement
is kept beside it as NAME.earlier.toml. Ctrl-C stops and keeps the best so far.

The same load, seed and work give the same plan, to the byte; a run that is
limited by time prints both so that it can be repeated.

Beside the plan stands what nobody can exceed, and what closer gaps would add
at what price. --ways tells up to three plans that differ in how the kiln is
divided, in the number of levels or in their heights; --take writes another.
--buy plans anew with a few more posts or shelves and tells what sets more;
Ctrl-C stops that too and tells what was found so far.
--why tells of each level why it has its height.`,
		Example: `  threepost plan october.toml
  threepost plan october.toml --seconds 30 --seed 7
  threepost plan october.toml --work 200000 --out other.toml`,
		Args: one("LOAD"),
		RunE: func(cmd *cobra.Command, args []string) error { return t.plan(cmd.Context(), args[0], f) },
	}
	cmd.Flags().Uint64Var(&f.seed, "seed", 1, "start of the random streams")
	cmd.Flags().Int64Var(&f.work, "work", 0, "stop after this much work, whatever the time")
	cmd.Flags().Float64Var(&f.seconds, "seconds", 6, "stop after so many seconds, or earlier when all is set")
	cmd.Flags().StringVar(&f.out, "out", "", "write the planned load to this file instead")
	cmd.Flags().BoolVar(&f.dry, "dry", false, "write nothing, only tell")
	cmd.Flags().BoolVar(&f.ways, "ways", false, "tell up to three plans that differ")
	cmd.Flags().IntVar(&f.take, "take", 1, "write this one of the plans that --ways tells")
	cmd.Flags().BoolVar(&f.buy, "buy", false, "tell what furniture would set more")
	cmd.Flags().BoolVar(&f.why, "why", false, "tell why each level has its height")
	return cmd
}

func (t *terminal) plan(ctx context.Context, path string, f planFlags) error {
	if f.work < 0 || !(f.seconds > 0) || f.seconds > 86400 {
		return usage("--work is 0 or more, --seconds more than 0 and at most a day")
	}
	if f.take < 1 || f.take > 3 {
		return usage("--take is 1, 2 or 3")
	}
	o, err := open(path)
	if err != nil {
		return err
	}
	s, err := planner.Start(o.load, f.seed)
	if err != nil {
		return unreadable(fmt.Errorf("%s: %w", path, err))
	}
	if ctx == nil {
		ctx = context.Background()
	}
	stopped := t.search(ctx, s, f)
	p, ok := s.Best()
	if !ok {
		why := s.Refused()
		if why == "" {
			why = "No plan was found in this time. Give it more with --seconds."
			if f.work > 0 {
				why = "No plan was found with this work. Give it more with --work."
			}
		}
		return t.noPlan(s, f.seed, why)
	}
	var ways []*planner.Plan
	if f.ways || f.take > 1 {
		ways = s.Plans()
		if f.take > len(ways) {
			return usage("--take %d: %s in all; give it more with --seconds or --work", f.take, silhouette.Counted(len(ways), "plan"))
		}
		p = ways[f.take-1]
	}
	s.Explain(p)
	where := ""
	if !f.dry {
		if where, err = o.keepPlan(p.Load, f.out); err != nil {
			return err
		}
	}
	b, err := stacks.Build(p.Load)
	if err != nil {
		return ending{exitInternal, err}
	}
	bound, err := planner.Bound(p.Load)
	if err != nil {
		return ending{exitInternal, err}
	}
	price, err := planner.Closer(p)
	if err != nil {
		return ending{exitInternal, err}
	}
	beside := beside{bound: bound, price: price, ways: ways}
	if stopped {
		beside.uncosted = len(p.Wishes) > 0 && p.Set < p.Of
	} else if beside.uncosted, err = t.costWishes(ctx, p); err != nil {
		return ending{exitInternal, err}
	}
	if f.why {
		beside.why = planner.Why(b)
	}
	if f.buy {
		if beside.buying, err = t.buying(ctx, o.load, p); err != nil {
			return ending{exitInternal, err}
		}
	}
	if t.json {
		if err := t.answer(planAnswer(p, b, beside, where)); err != nil {
			return err
		}
	} else {
		t.tellPlan(p, b, beside, where)
	}
	return verdict(p.Report, false)
}

// beside is what is told beside a plan.
type beside struct {
	bound bounds.Bound
	price planner.Price
	ways  []*planner.Plan
	why   []planner.Reason // nil when it was not asked for

	buying *planner.Buying // nil when it was not asked for

	uncosted bool // a person stopped it before it was known what wishes cost
}

// costWishes finds out what each wish costs, and reports whether a person
// stopped it before the end.
func (t *terminal) costWishes(ctx context.Context, p *planner.Plan) (stopped bool, err error) {
	ctx, stop := signal.NotifyContext(ctx, os.Interrupt)
	defer stop()
	bar := newProgress(t.errs)
	defer bar.done()
	looked := 0
	err = planner.CostWishes(p, func() bool {
		bar.show(float64(looked)/float64(len(p.Wishes)), "what the wishes cost")
		looked++
		stopped = stopped || ctx.Err() != nil
		return !stopped
	})
	return stopped, err
}

// noPlan tells why there is none.
func (t *terminal) noPlan(s *planner.Search, seed uint64, why string) error {
	if !t.json {
		t.say("%s", why)
		return ending{code: exitProblems}
	}
	_, of, spent := s.Progress()
	a := planned{Of: of, Seed: seed, Work: spent, Levels: []plannedLevel{}, Waits: []waiting{}, Why: why}
	if err := t.answer(a); err != nil {
		return err
	}
	return ending{code: exitProblems}
}

// keepPlan writes a planned load, and a copy of the file before when that had
// an arrangement of its own.
func (o *opened) keepPlan(l *layout.Load, out string) (string, error) {
	path := o.path
	if out != "" {
		path = out
	}
	if len(o.load.Towers) > 0 && sameFile(path, o.path) {
		if err := files.Write(files.Earlier(path), o.text); err != nil {
			return "", unreadable(err)
		}
	}
	return path, o.save(path, l)
}

// sameFile says whether two names, spelt alike or not, are of one file.
func sameFile(a, b string) bool {
	x, errX := os.Stat(a)
	y, errY := os.Stat(b)
	return a == b || errX == nil && errY == nil && os.SameFile(x, y)
}

// search steps a search until its work or its time is up, and reports whether a
// person stopped it before.
func (t *terminal) search(ctx context.Context, s *planner.Search, f planFlags) (stopped bool) {
	ctx, stop := signal.NotifyContext(ctx, os.Interrupt)
	defer stop()
	bar := newProgress(t.errs)
	defer bar.done()
	start := time.Now()
	for left := f.work; ; left -= slice {
		step := int64(slice)
		if f.work > 0 {
			if left <= 0 {
				return false
			}
			step = min(step, left)
		}
		done := s.Step(step)
		set, of, spent := s.Progress()
		share := time.Since(start).Seconds() / f.seconds
		if f.work > 0 {
			share = float64(spent) / float64(f.work)
		}
		bar.show(share, fmt.Sprintf("%d of %d set", set, of))
		if done || ctx.Err() != nil || f.work == 0 && share >= 1 {
			return !done && ctx.Err() != nil
		}
	}
}

// planned is the JSON of a plan.
type planned struct {
	Set      int            `json:"set"`
	Of       int            `json:"of"`
	Value    float64        `json:"value"`
	Whole    float64        `json:"whole"`
	Problems int            `json:"problems"`
	Watches  int            `json:"watches"`
	Levels   []plannedLevel `json:"levels"`
	Waits    []waiting      `json:"waits"`
	Wishes   []wished       `json:"wishes,omitempty"`
	Seed     uint64         `json:"seed"`
	Work     int64          `json:"work"`
	Bound    *boundAnswer   `json:"bound,omitempty"`
	Closer   *closerAnswer  `json:"closer,omitempty"`
	Ways     []wayAnswer    `json:"ways,omitempty"`
	Heights  []heightAnswer `json:"heights,omitempty"`
	Buy      *buyAnswer     `json:"buy,omitempty"`
	Written  string         `json:"written,omitempty"`
	Why      string         `json:"why,omitempty"` // there is no plan
}

// boundAnswer is what nobody can exceed.
type boundAnswer struct {
	Set   int     `json:"set"`
	Value float64 `json:"value"`
	Says  string  `json:"says,omitempty"` // nothing when all is set
}

// closerAnswer is what closer gaps would add, and their price.
type closerAnswer struct {
	Gap     float64 `json:"gap_mm"`
	More    int     `json:"more"`
	Watches int     `json:"watches"`
	Says    string  `json:"says"`
}

// wayAnswer is one of the plans that differ.
type wayAnswer struct {
	Set     int     `json:"set"`
	Value   float64 `json:"value"`
	Levels  int     `json:"levels"`
	Pieces  int     `json:"pieces"`
	Watches int     `json:"watches"`
	Split   string  `json:"split"`
	Differs string  `json:"differs,omitempty"`
}

type plannedLevel struct {
	Name  string         `json:"name"`
	Down  float64        `json:"down_mm"` // from the rim to the shelf's top
	Takes float64        `json:"takes_mm"`
	Posts string         `json:"posts"` // under its shelf
	Ware  map[string]int `json:"ware"`
}

type waiting struct {
	Ware   string `json:"ware"`
	Count  int    `json:"count"`
	Reason string `json:"reason"`
	LetIn  string `json:"let_in,omitempty"`
}

// wished is a wish and what became of it.
type wished struct {
	Wish string `json:"wish"`
	Kept bool   `json:"kept"`
	Says string `json:"says,omitempty"` // where it is not kept
	Cost string `json:"cost,omitempty"` // what a plan without it sets more
}

func planAnswer(p *planner.Plan, b *stacks.Built, by beside, where string) planned {
	a := planned{Levels: []plannedLevel{}, Set: p.Set, Of: p.Of, Value: p.Value, Whole: p.Whole, Problems: p.Report.Problems, Watches: p.Report.Watches,
		Seed: p.Seed, Work: p.Work, Written: where, Waits: []waiting{},
		Bound: &boundAnswer{by.bound.Count, by.bound.Value, planner.SayBound(by.bound, p)}}
	if by.price.Gap > 0 {
		a.Closer = &closerAnswer{by.price.Gap, by.price.More, by.price.Watches, by.price.Say(p.Load.Units)}
	}
	for _, w := range by.ways {
		a.Ways = append(a.Ways, wayAnswer{w.Set, w.Value, w.Levels, w.Pieces, w.Report.Watches, w.Split, w.Differs})
	}
	a.Heights = answerWhy(b, by.why)
	a.Buy = answerBuying(by.buying)
	for i := range b.Levels {
		v := &b.Levels[i]
		l := plannedLevel{Name: v.Name, Down: b.Height - v.Top, Takes: b.TakesMost(i), Posts: postsUnder(b, v), Ware: map[string]int{}}
		for _, pi := range v.Pots {
			l.Ware[b.Pots[pi].Pot.Ware]++
		}
		a.Levels = append(a.Levels, l)
	}
	for _, w := range p.Waits {
		a.Waits = append(a.Waits, waiting(w))
	}
	for _, w := range p.Wishes {
		a.Wishes = append(a.Wishes, wished{w.Wish, w.Kept, w.Says, w.Cost})
	}
	return a
}

// postsUnder says the posts under a level's shelf: "3 x (100 + 10)".
func postsUnder(b *stacks.Built, v *stacks.Level) string {
	var posts []layout.MakeUp
	for _, i := range v.Posts {
		posts = append(posts, b.Posts[i].MakeUp)
	}
	return stacks.SayPosts(posts, b.Load.Units)
}

// takes says what a level takes: one figure, or the least and the most where the
// sides over it differ.
func takes(b *stacks.Built, level int) string {
	each := b.TakesEach(level)
	say := func(mm float64) string { return measure.FormatLength(mm, b.Load.Units, measure.Down) }
	least, most := say(each[0]), say(each[len(each)-1])
	if least == most {
		return most
	}
	return least + " and " + most
}

// tellPlan prints a plan from the top level down, as one looks into the kiln.
func (t *terminal) tellPlan(p *planner.Plan, b *stacks.Built, by beside, where string) {
	units := p.Load.Units
	say := func(mm float64, r measure.Round) string { return measure.FormatLength(mm, units, r) }
	t.say("%s. %d of %s set on %s.", headline(p.Report), p.Set, silhouette.Counted(p.Of, "pot"), silhouette.Counted(len(b.Levels), "level"))
	for i := len(b.Levels) - 1; i >= 0; i-- {
		v := &b.Levels[i]
		// As on the sheet: down from the rim, or up from the hearth.
		top, way := b.Height-v.Top, "down"
		if p.Load.Kiln.Opens == layout.Front {
			top, way = v.Top, "up"
		}
		t.say("  %-12s %5s %s, takes %4s, shelf on %s", v.Name, say(top, measure.Nearest), way, takes(b, i), postsUnder(b, v))
		if len(v.Pots) > 0 {
			t.say("               %s", hang(standsThere(b, v), 15))
		}
	}
	t.tellWhy(b, by.why)
	for _, f := range p.Report.Findings {
		if f.Grade != layout.Note {
			t.say("%-8s  %s", f.Grade, hang(f.Sentence, 10))
		}
	}
	for _, w := range p.Waits {
		t.say("waits     %s", hang(strings.TrimSpace(silhouette.Counted(w.Count, w.Ware)+". "+w.Reason+" "+w.LetIn), 10))
	}
	for _, w := range p.Wishes {
		t.say("wish      %s", hang(w.Say(), 10))
	}
	if by.uncosted {
		t.say("What the wishes cost was not worked out to the end: it was stopped.")
	}
	if says := planner.SayBound(by.bound, p); says != "" {
		t.say("%s", says)
	}
	if by.price.More > 0 {
		t.say("%s", by.price.Say(units))
	}
	for i, w := range by.ways {
		how := w.Differs
		if how == "" {
			how = strings.ToUpper(w.Split[:1]) + w.Split[1:] + "."
		}
		watches := "no watch"
		if w.Report.Watches > 0 {
			watches = silhouette.Counted(w.Report.Watches, "watch")
		}
		t.say("plan %d    %d set on %s, %s, %s of furniture. %s", i+1, w.Set, silhouette.Counted(w.Levels, "level"), watches, silhouette.Counted(w.Pieces, "piece"), how)
	}
	t.tellBuying(by.buying)
	t.say("Seed %d, work %d.", p.Seed, p.Work)
	if where != "" {
		t.say("Written to %s.", where)
	}
}

// standsThere lists what stands on a level: "12 mugs, 1 vase".
func standsThere(b *stacks.Built, v *stacks.Level) string {
	var names []string
	count := map[string]int{}
	for _, pi := range v.Pots {
		n := b.Pots[pi].Pot.Ware
		if count[n] == 0 {
			names = append(names, n)
		}
		count[n]++
	}
	for i, n := range names {
		if b.Load.WareOf(layout.Pot{Ware: n}) != nil {
			names[i] = silhouette.Counted(count[n], n)
		}
	}
	return strings.Join(names, ", ")
}

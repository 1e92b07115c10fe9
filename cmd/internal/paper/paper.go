package paper

import (
	"errors"
	"fmt"

	"threepost/layout"
	"threepost/layout/bounds"
	"threepost/layout/clearance"
	"threepost/layout/measure"
	"threepost/layout/order"
	"threepost/layout/planner"
	"threepost/layout/stacks"
	"threepost/layout/statics"
	"threepost/render/drawing"
	"threepost/render/sheet"
)

// Wanted is which papers are asked for, in words.
type Wanted struct {
	Parts []string `json:"parts"` // front, boards, levels, papers, measuring
	Paper string   `json:"paper"` // A4, Letter; empty: A4
	Units string   `json:"units"` // mm, in; empty: the load's own
	Words string   `json:"words"` // US, UK; empty: US
}

// Refused tells which of the words is no choice.
type Refused struct {
	Field string // parts, paper, units, words
	Err   error
}

func (r Refused) Error() string { return r.Err.Error() }

func (r Refused) Unwrap() error { return r.Err }

// Refusals of a load that has nothing to print yet.
var (
	ErrNoLevels = errors.New("the load has no levels yet; plan it first")
	ErrNoPots   = errors.New("no pots stand on the levels: there is nothing to print")
)

// Options reads the words. The fonts are left to the caller.
func (w Wanted) Options(l *layout.Load) (sheet.Options, error) {
	opts := sheet.Options{Units: l.Units, Paper: drawing.A4()}
	var err error
	if w.Paper != "" {
		if opts.Paper, err = drawing.PaperNamed(w.Paper); err != nil {
			return opts, Refused{"paper", err}
		}
	}
	if w.Units != "" {
		if opts.Units, err = measure.ParseUnits(w.Units); err != nil {
			return opts, Refused{"units", err}
		}
	}
	if opts.Words, err = measure.ParseWords(w.Words); err != nil {
		return opts, Refused{"words", err}
	}
	for _, p := range w.Parts {
		switch p {
		case "front":
			opts.Parts.Front = true
		case "boards":
			opts.Parts.Boards = true
		case "levels":
			opts.Parts.Levels = true
		case "papers":
			opts.Parts.Papers = true
		case "measuring":
			opts.Parts.Measuring = true
		default:
			return opts, Refused{"parts", fmt.Errorf("%q is no part; write front, boards, levels or some of them", p)}
		}
	}
	if opts.Parts == (sheet.Parts{}) {
		return opts, Refused{"parts", errors.New("nothing is named; write front, boards, levels or some of them")}
	}
	return opts, nil
}

// Beside is what the front page tells beside the arrangement of a load: what
// nobody can exceed, and the price of closer gaps, worked out for it; nothing
// where nothing waits. It takes up to a second. A load of which neither can be
// told, such as one whose furniture makes no level, has none.
func Beside(l *layout.Load, report clearance.Report, units measure.Units) []string {
	plan, err := planner.Given(l, report)
	if err != nil {
		return nil
	}
	plan.Wishes = Wishes(l, units)
	if plan.Set >= plan.Of {
		return Sentences(plan, nil, planner.Price{}, units)
	}
	bound, err := planner.Bound(l)
	if err != nil {
		return nil
	}
	price, err := planner.Closer(plan)
	if err != nil {
		price = planner.Price{}
	}
	return Sentences(plan, &bound, price, units)
}

// Wishes tells what became of a load's wishes in other units than its own.
func Wishes(l *layout.Load, units measure.Units) []planner.Wished {
	told := *l
	told.Units = units
	b, err := stacks.Build(&told)
	if err != nil {
		return nil
	}
	return planner.Wishes(b, clearance.New(b))
}

// Sentences are a bound, a price and the wishes that are not kept or cost
// something as the front page tells them, in units that may be other than the
// load's.
func Sentences(plan *planner.Plan, bound *bounds.Bound, price planner.Price, units measure.Units) []string {
	told := *plan
	load := *plan.Load
	load.Units, told.Load = units, &load
	var out []string
	if bound != nil {
		if says := planner.SayBound(*bound, &told); says != "" {
			out = append(out, says)
		}
	}
	for _, w := range plan.Wishes {
		if !w.Kept || w.Cost != "" {
			out = append(out, w.Say())
		}
	}
	if price.More > 0 {
		out = append(out, price.Say(units))
	}
	return out
}

// Pages makes the pages of a built load. It refuses with ErrNoLevels or
// ErrNoPots where there is nothing to put on them.
func Pages(b *stacks.Built, report clearance.Report, opts sheet.Options) ([]drawing.Page, error) {
	if len(b.Levels) == 0 && opts.Parts != (sheet.Parts{Measuring: true}) {
		return nil, ErrNoLevels
	}
	if opts.Parts == (sheet.Parts{}) || opts.Parts.Levels {
		opts.Why = why(b, opts.Units)
	}
	ord, _ := order.Of(b)
	pages, err := sheet.Make(b, report, ord, statics.Weigh(b), opts)
	if err == nil && len(pages) == 0 {
		return nil, ErrNoPots
	}
	return pages, err
}

// why is for each level why it has its height, in units that may be other than
// the load's: what lies over it, the shelf before the lid.
func why(b *stacks.Built, units measure.Units) map[int]string {
	if units == "" {
		units = b.Load.Units
	}
	out := map[int]string{}
	for _, r := range planner.Why(b) {
		for _, v := range r.Under {
			if out[v] == "" {
				out[v] = r.Brief(b, units)
			}
		}
	}
	return out
}

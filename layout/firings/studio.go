package firings

import (
	"fmt"

	"threepost/layout"
	"threepost/layout/clearance"
	"threepost/layout/measure"
)

// MostKilns is how many kilns one studio may have.
const MostKilns = 12

// MostFirings is how many firings a split may have.
const MostFirings = 60

// Kiln is one kiln of the studio, as a load tells it: chamber, furniture,
// rules, wishes, cone packs, the ware that waits there, and what is fired in it.
// It may fire anything that is not hotter than the load's own firing.
type Kiln struct {
	Name string // told in sentences; each its own
	Load *layout.Load
}

// Studio is the kilns and how they are used.
type Studio struct {
	Kilns []Kiln
	// Share says that all kilns draw on one box of furniture: rows that are
	// alike in two loads are the same pieces, the larger count holds.
	Share bool
	// Together says that all kilns are fired at the same time, round by round;
	// else one firing comes after another. It decides what a shared box is
	// divided among.
	Together bool
	UpTo     measure.Cone // every kiln goes so hot; empty: each as hot as its own load says
	Bisque   measure.Cone // raw ware is fired to it where no load has a bisque firing; empty: 04
}

// bisqueCone is what bisque is fired to where nobody says (common practice: 06
// to 04, more often 04).
const bisqueCone measure.Cone = "04"

// Asked is how much a split may cost, and who watches it.
type Asked struct {
	Seed uint64
	Work int64 // of one trial of one firing, in units of package packing; 0 means EachWork
	Most int   // firings at most; 0 means MostFirings
	// Tell hears how far the split is; it answers false to end it. It may be nil.
	Tell func(Progress) bool
}

// EachWork is the usual work of one trial.
const EachWork = 15000

// Progress is how far a split is.
type Progress struct {
	Firings int // made so far
	Set, Of int // pots in them, and in the waiting list
}

// Stopped is what a split that was ended returns.
type Stopped struct{}

func (Stopped) Error() string { return "The split was stopped before it was done." }

// Firing is one firing of a split.
type Firing struct {
	Kiln  int // into Studio.Kilns
	Round int // from 1; firings of one round burn at the same time
	Load  *layout.Load
	Set   int     // its pots
	Value float64 // of them: litres, or what the loads say
	// Fill is which share of such ware the kiln holds; 1 when some of it had to
	// wait. Below 1 it is an estimate.
	Fill   float64
	Report clearance.Report
	Why    []string // sentences: why it comes here, what is to know
}

// Waiting is a row of which some pots are in no firing.
type Waiting struct {
	Ware   layout.Ware // with the count that waits
	Kiln   int         // whose load it comes from
	Reason string
	Hot    bool // no kiln is told to go as hot as it asks; Studio.UpTo would tell
}

// Answer is a waiting list split into firings.
type Answer struct {
	Firings []Firing
	Rest    []Waiting
	Of      int // pots of the waiting list
	Set     int // pots in firings
	// AtLeast is how many firings anybody needs for the pots that are in these,
	// and why. 0 where there is none.
	AtLeast int
	Because string
	Notes   []string // of the whole: rows that were renamed, packs that were changed
	// Renamed has, for each kiln's load, the rows that are called otherwise now.
	Renamed []map[string]string
	Seed    uint64
	Work    int64 // of each trial
}

// check refuses a studio that nothing can be split for.
func (s Studio) check() error {
	switch {
	case len(s.Kilns) == 0:
		return fmt.Errorf("there is no kiln; name a load")
	case len(s.Kilns) > MostKilns:
		return fmt.Errorf("there are %d kilns; at most %d can be planned for", len(s.Kilns), MostKilns)
	}
	for _, c := range []measure.Cone{s.UpTo, s.Bisque} {
		if c != "" && !c.Known() {
			return fmt.Errorf("cone %s is not on the chart", c)
		}
	}
	return nil
}

package order

import (
	"math"

	"threepost/layout"
	"threepost/layout/stacks"
	"threepost/layout/statics"
)

// settingOf is the order in which the pots of a level are set, as indices into
// Built.Pots: as hands like it, as far as each pot can still be let down and
// the shelf stays in balance. Where a cycle forbids every order, the pot that
// hands like first goes against it.
func settingOf(b *stacks.Built, level int, r *relation, like liking) []int {
	n := len(r.pots)
	need := make([]int, n)
	for i := range need {
		need[i] = len(r.first[i])
	}
	keep := newKeeper(b, level)
	left := append([]int(nil), like.order...)
	out := make([]int, 0, n)
	for len(left) > 0 {
		k := keep.choose(left, need, r.pots)
		i := left[k]
		left = append(left[:k], left[k+1:]...)
		keep.trial.Set(r.pots[i])
		out = append(out, r.pots[i])
		for _, j := range r.after[i] {
			need[j]--
		}
	}
	return out
}

// keeper keeps the shelves of a level in balance while they are loaded.
type keeper struct {
	b     *stacks.Built
	trial *statics.Trial
	least map[int]float64 // by shelf: the margin worth keeping, mm
}

// newKeeper asks of every shelf the rule's margin, or as much less as it has
// bare or when all is set: those no order can better.
func newKeeper(b *stacks.Built, level int) *keeper {
	k := &keeper{b: b, trial: statics.NewTrial(b, level), least: map[int]float64{}}
	want := b.Load.Limits(layout.Balance).Watch
	for _, s := range b.Levels[level].Shelves {
		k.least[s] = math.Min(want, k.trial.Margin(s))
	}
	full := statics.NewTrial(b, level)
	for _, p := range b.Levels[level].Pots {
		full.Set(p)
	}
	for _, s := range b.Levels[level].Shelves {
		k.least[s] = math.Min(k.least[s], full.Margin(s)) - 1e-6
	}
	return k
}

// looked is how many pots are tried at most for one that keeps the balance.
const looked = 64

// choose is the place in left of the pot to set next: the first that is free
// and keeps the balance, else the free one that keeps most of it, else the
// first.
func (k *keeper) choose(left, need, pots []int) int {
	best, most, tried := -1, 0.0, 0
	for at, i := range left {
		if need[i] > 0 {
			continue
		}
		margin, _ := k.trial.With(pots[i])
		short := margin - k.least[k.trial.Shelf(pots[i])]
		if short >= 0 {
			return at
		}
		if best < 0 || short > most+1e-9 {
			best, most = at, short
		}
		if tried++; tried >= looked {
			break
		}
	}
	if best < 0 {
		return 0
	}
	return best
}

// Package firings splits a waiting list into firings: a list larger than the
// kiln, ware of different cones and stages, several kilns of one studio that
// may share a box of furniture.
//
//	waiting list   rows of ware of all loads, each with the firings that suit it
//	               (class.go), by the same judgement as a check: clearance.Fits
//	trials         one kiln, one class, what is left of the furniture: a search
//	               of package planner with so much work (trial.go), again with
//	               the oldest first where that costs little (filled.go)
//	split          the best trial becomes a firing, what it sets leaves the list,
//	               and again: must-go first, full firings before part-full ones,
//	               what waits longest before what came later (split.go)
//	pour           what suits several firings fills the less full (pour.go)
//	rest           what goes in no firing, and why (rest.go)
//
// Every firing is an ordinary load of its own, planned, with exactly the pots
// that stand in it. Beside the split stands a bound: how many firings anybody
// needs for the same pots, from package bounds (atleast.go).
//
// It does not schedule hours or people, and knows no files: the command line
// reads loads and writes them.
//
// The same loads, seed and work give the same firings. Work is counted in units
// of package packing.
package firings

// Package bounds tells how much nobody can set: upper bounds on what a kiln
// holds, with the reason that binds.
//
//	one level     points of a convex plan shape that keep a distance d
//	              number at most 2A/(sqrt3 d^2) + P/(2d) + 1      (oler.go)
//
//	whole kiln    levels of every useful height, on every place, within the
//	              height of its column, the owned shelves and posts; pots on
//	              levels that take them: a linear program        (load.go)
//
// A bound is valid when no arrangement at the same distances holds more. It is
// never exact by luck: the program's value is taken from its dual, which is
// checked, so that rounding can only make a bound larger (simplex.go).
//
// It arranges nothing and knows no document; package planner tells it what
// there is.
package bounds

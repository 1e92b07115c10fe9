// Package bounds tells how much nobody can set: upper bounds on what a kiln
// holds, with the reason that binds.
//
//	one level     points of a convex plan shape that keep a distance d
//	              number at most 2A/(sqrt3 d^2) + P/(2d) + 1      (oler.go)
//
//	mixed pots    the cells of their discs, posts among them, by the sides
//	              that cells can have and the walls they stand at (cells.go);
//	              what pots cover at one height, handles and all   (cuts.go)
//
//	whole kiln    levels of every useful height, on every place, within the
//	              height of its column, the owned shelves and posts; pots on
//	              levels that take them: a linear program (counter.go), cut
//	              down by what shelves hold until nothing breaks it, and
//	              branched over whole numbers of levels         (whole.go)
//
// A bound is valid when no arrangement at the same distances holds more. It is
// never exact by luck: the program's value is taken from its dual, which is
// checked, so that rounding can only make a bound larger (simplex.go). Work is counted in
// multiplications, and what is cut off can only make it larger too.
//
// It arranges nothing and knows no document; package planner tells it what
// there is.
package bounds

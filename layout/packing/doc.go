// Package packing finds where things stand on one shelf, or on one connected
// area: outlines, bodies and needs in, positions out. It knows no kiln, no
// height and no rule; the caller has turned all of those into plain distances.
//
// A Problem says which kinds of things there are (convex plan skeletons in
// their own frame), how far their skeletons must stay apart (Need), how deep
// they must lie in which outlines (Limit), what stands already (Standing), what
// else is in the way (Obstacle) and what is wanted. A Search places as much
// value of the wants as it can; Spread then evens out what does not fill the
// shelf; Insert answers "is there room for one more".
//
//	   _______
//	 /   o   o \       area    an outline, or the union of several
//	| o  ___   o |     kind    o, or an oblong, or a mug with its handle
//	|   |___|    |     need    least distance of two skeletons
//	 \ x   o   / x     x       obstacles: posts, probe, the next shelf
//	   -------
//
// Inside, things are pushed apart: the energy of a layout is the sum of the
// squares of what is missing to every need, and it is lowered by a limited
// memory quasi-Newton method (Nocedal 1980) between hops (swap two things of
// like size, move one into a vacancy, shake, flip). No such layout is ever
// reported: a layout counts only after rounding to the grid, when Check finds
// every need met to within plane.Tolerance.
//
// Lengths are mm, turns degrees clockwise as in package plane. Work is counted
// in units of a thousand looks at a pair of parts, never in time: the same
// problem, seed and work give the same bytes on every machine.
package packing

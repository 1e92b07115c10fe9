// Package plane is the plan side of the geometry: vectors, turns, skeletons
// and outlines, their distances, depths and areas, all in mm and degrees.
//
// It is the only home of deciding arithmetic. A verdict must come out alike
// on every machine, so nothing here may be fused by a compiler: each product
// that is added to something is rounded first, by an explicit float64(...),
// and sines, roots of sums and bearings are plane's own.
//
// The frame: x right, y to the back (12 o'clock). Bearings and turns are
// degrees clockwise:
//
//	          12 o'clock, +y, bearing 0
//	               |
//	bearing 270 ---+--- +x, bearing 90
//	               |
//	          bearing 180
//
// Two kinds of shape:
//
//	Skeleton   point, segment or convex polygon; widened by a radius it is a
//	           slice of a pot. SignedDistance of two, Distance of many kinds.
//	Outline    convex ring of straight edges and arcs: chamber, shelf, foot.
//	           Depth of a point, Distance and SignedDistance of a skeleton.
//
// It does not know heights (package solid), nor what a shape stands for.
package plane

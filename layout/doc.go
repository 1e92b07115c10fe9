// Package layout holds the values a kiln load is made of: the kiln, the
// furniture, the ware, the rules, the wishes, and where everything stands.
//
// It is data and the small questions data can answer about itself. Heights
// (z) are not stored: package stacks derives them from the make-ups. Rules are
// judged in package clearance, arrangements are found in package planner,
// files are read in packages document and warelist.
//
// Frame: right-handed, origin at the centre of the chamber floor, x to the
// right, y to the back (12 o'clock), z up. Lengths are mm, masses kg,
// temperatures C. Turns and bearings are degrees clockwise seen from above;
// turn 0 lays a thing's length along x, and the turn of handled ware is the
// bearing of its first handle.
//
//	       12 (hinge)
//	         y
//	         |
//	9 -------+------- 3   x
//	         |
//	         6 (you stand here)
package layout

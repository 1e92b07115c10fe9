// Package nearby tells which upright boxes lie within reach of a box, without
// looking at all of them: a grid of equal cells, kept up to date one box at a
// time.
//
//	+---+---+---+
//	| a |   | b |     a box is noted in every cell that it touches; a
//	+---+---+---+     question looks at the cells that its own box,
//	| a | q |   |     grown by the reach, touches
//	+---+---+---+
//
// It errs to the near side: what it leaves out is out of reach for certain;
// what it names may still lie farther off than the box shows. Answers come in
// rising order of id, whatever was inserted first. Asking does not change a
// grid, so several may ask at once.
package nearby

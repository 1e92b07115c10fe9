// Package kilnside is the way through a load at the kiln as data: one act a
// step, with its sentence, its picture, what comes next and the room to the
// lid, for the page beside the kiln and for the file that is saved from it.
//
//	stacks.Built, order.Order -> render/steps (sentences) -> Of -> Steps
//	                                                           |-> JSON, the page
//	                                                           '-> Saved, one file
//
//	+--------------------------+
//	| [] Left 2          38 to |   place, room to the lid
//	|    step 3 of 7   the lid |
//	| Ring of 6 mugs           |   the act
//	| From post C by B to A... |   its sentence
//	|   (1)  C  |              |
//	| (2)       |     Done     |   picture, and the half that is Done
//	| (3) B     | then 8 mugs  |
//	+--------------------------+
//
// Package order decides what is done when and beside what, package steps
// chooses the words of a place; this package groups acts into what one pair of
// hands does before looking at the list again. It knows no file, no clock and
// no network.
package kilnside

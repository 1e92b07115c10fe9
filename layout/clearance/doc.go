// Package clearance judges a built load: every rule of the table, over the
// whole kiln in 3D, as findings that name things the way people point at them.
//
// Check answers for the whole load. A Checker keeps what does not change
// between two questions (the tables of needs, the broad phase) and also
// answers Watch for one pot that is being moved.
//
// It changes nothing and offers no mends: package edit applies edits, tries
// mends against Check and attaches those that work. Heights come from package
// stacks, weights from package statics, the order of setting from package
// order.
//
// How gaps are judged. Pots of one kind share a body, so what two pots need
// is tabled by kind, turn and height offset:
//
//	        d >= need[plan]   nothing to say, nothing more computed
//	skeleton distance d
//	        d <  need[plan]   the exact gap is computed and graded
//
// and only pairs that the broad phase brings within reach are looked at.
package clearance

// Package steps tells the order of setting in sentences: what hands do at the
// kiln, level by level, for the legends of the paper and for the phone beside
// the kiln, from one list.
//
//	A B C   posts 3 × (100 + 10). A at 6, C at 12: 59 from the edge; B at 9: 40
//	1-6     mugs round the edge C-B-A, a pencil apart, handle to the one before
//	7       half past 11, one finger from 1, handle to 11
//	stick   across A B C: light over every mug
//	rim     224 down to this shelf; next shelf 95
//	next    half shelf, 6.9 kg; hold at 8 and at 11
//
// Package order decides what is done and beside what; this package chooses
// words. It draws nothing; packages levels and, later, the page do.
package steps

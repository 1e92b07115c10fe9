// Package search plans a load with a fixed number of searches that run beside
// each other, each with its own random streams.
//
//	          slice        slice        slice
//	search 0  |----------->|----------->|      each on a core of its own,
//	search 1  |----------->|----------->|      where there is one
//	                       ^            ^
//	          merged in the order of their numbers
//
// They step in lockstep: a slice ends when all have done its work. What is best
// is decided between slices only, the lower number first when two are equal.
// So the same load, seed and work give the same plan to the byte, on one core
// or on several; a run that was ended by time says how much work it was, and
// that much work gives the same plan again.
//
// When they have ended, both are asked for other ways to stack; so up to three
// plans that differ can be shown side by side.
package search

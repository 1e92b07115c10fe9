// Package statics tells what stands on what and how heavily: balance points,
// the weight on every post, and whether a shelf tips, also while it is loaded.
//
// It judges nothing: package clearance holds the figures against the rules. No
// published load limit per shelf exists, and what bends a shelf for good is
// creep in the heat; so this package gives weights and an estimate of the cold
// elastic sag, and no verdict on strength.
//
// Masses are kg, and so are reactions (kilogram-force); lengths are mm.
//
//	A o-------------o C        o posts
//	   \     x     /           x balance point
//	    \         /            margin: from x to the nearest side,
//	     \       /                     negative outside
//	      \     /
//	       o B
package statics

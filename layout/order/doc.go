// Package order finds the order in which hands load the kiln: which level
// when, which pot before which, where each pot stands beside those already
// standing, and where hands hold a shelf. When no order exists it tells the
// cycle that forbids it.
//
// It gives typed data; package render/steps makes sentences of it.
//
// Pots are let down from above. One that reaches under another's rim has to
// stand there before that other, so a level has a before-relation:
//
//	\     /  | |
//	 \   /   | |      the bowl may come after the cup,
//	  \_/    |_|      the cup cannot come after the bowl
//
//	(here the cup stands partly under the bowl's rim)
package order

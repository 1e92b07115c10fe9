// Package compare tells how plans of one load differ, for people who choose
// between them: a title and a sentence for each, the levels that one has and
// another has not, and the furniture each takes. It judges nothing and ranks
// nothing; all it says is read off the built loads.
//
//	 plan 1          plan 2          plan 3
//	+--------+      +--------+      +--------+
//	|________|      |________|      |        |
//	|___|____|      |/////___|      |___|____|     ///// differs from plan 1
//	|___|____|      |___|____|      |___|____|
//	Two sides,      Tall ware       One level
//	7 levels        low             fewer
//
// It is not for loads of different ware: rows are matched by name.
package compare

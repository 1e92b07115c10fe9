// Package sheet makes the paper of a load: the front page to tape on the lid
// while loading, the list of boards to carry out, and the 1:1 measuring sheet.
// Level pages and shelf papers come from package levels; Make puts all in
// order and numbers them.
//
//	+----------------------------+
//	| October glaze  cone 6 1222 |
//	|####### take this off ######|
//	| 38 to lid  +----+  43 to   |   one label a level, level 1 below,
//	| left 3 ----|    |-- right 3|   each on the hairline of its shelf
//	| 3x(100+10) |    |  3x(75+10)|
//	| left 2 ----|    |-- right 2|
//	|            +----+          |
//	| Fetch  [] 1 full shelf ... |
//	| Before the lid   38 left   |
//	| [] ...           Waits: 6  |
//	| Set by ____   at ___       |
//	+----------------------------+
//
// Long content goes on a second front page, "continued"; type is never made
// smaller and nothing is cut.
package sheet

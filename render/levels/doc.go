// Package levels draws the levels of a load from above: the pages that lie
// beside the kiln while a level is set, with their legends, and the shelf
// papers at 1:1 on which a level is laid out before.
//
//	+-----------------------------+
//	| Left 2 and right 3   14 mugs|
//	|          12 hinge           |
//	|        .---+---.            |   chamber, shelves, posts in solid ink,
//	|       / 1  | 1  \           |   every pot with its order number and
//	|    9 |  2  |  2  | 3        |   the letter of its kind
//	|       \___ | ___/           |
//	|          6 you stand here   |
//	| Left 2        Right 3       |   legends in order of setting
//	| [] A B C ...  [] posts ...  |
//	+-----------------------------+
//
// It decides nothing: places come from package stacks, the order from package
// order, the sentences from package steps, the style from package frame.
package levels

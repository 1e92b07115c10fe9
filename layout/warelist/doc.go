// Package warelist reads and writes ware rows as people type and paste them:
// the short form, one line a row, and CSV from a spreadsheet.
//
// The short form of a row is a count, a name, a size, and what else there is
// to tell, apart by commas or semicolons:
//
//	12 mugs 100 x 85
//	vase 220 x 110, runny, owner Ida
//	2 bakers 60 x 260 x 160, clay buff stoneware cone 6
//	6 bowls 4 1/2 x 3 in; glaze "tin white, thin" cone 6; since 2026-10-01
//	# a line that begins with # says nothing, and so does an empty one
//
// Size: height first, then across, or length and width; apart by x, × or by.
// A figure without a unit takes the unit of the others, else the load's. A
// decimal comma stands between two digits. With a count of more than one the
// name may be in the plural. A name or a text with a comma, a figure or the
// like stands in quotes; a quote mark in it is written twice.
//
// What else there is to tell, in any order:
//
//	as bowl                            silhouette, when the name does not tell it
//	plan oval | rectangle              oblong ware
//	foot 55   knob 20   wall 6         lengths
//	profile 0 x 76 > 95 x 86           height x diameter from the foot up
//	measured                           the profile was measured
//	handle 38 from 20 to 80            reach, lowest, highest; then thick 14, at 180
//	spout 30 from 50 to 90             likewise
//	lid on | lid beside
//	allow high 2   allow wide 3
//	mass 310 g                         of one
//	clay NAME cone 6   glaze NAME cone 6
//	refire, runny, bloats, spits, glazed foot, fuming, fume-sensitive, unglazed
//	cookie | stilt | wads              what it stands on; then 110 wide, 10 high
//	nested 3   adds 25                 a bundle
//	owner NAME   ticket TEXT   since 2026-10-01
//	must | filler   value 4
//	bisqued | raw | damp
//
// In CSV each of these is a column. It knows nothing of kilns and firings;
// package document reads whole loads.
package warelist

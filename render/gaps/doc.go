// Package gaps finds the narrow gaps of levels in plan, as paper and page draw
// them: a bar from drawn line to drawn line, with the figure of the solids.
//
//	.----.  7  .----.
//	| m  |-----|  b |      what stands closer than nine is worth a look
//	'----'     '----'
//
// It draws nothing and places no figure; each page does so in its own units.
package gaps

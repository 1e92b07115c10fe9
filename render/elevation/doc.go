// Package elevation draws the loaded kiln cut through from left to right, as
// seen from where you stand, and pots from the side.
//
//	############  lid, hatched
//	#  \_/ \_/ #  pots: near ware in ink, ware behind the middle in grey
//	#==========#  shelves, black
//	#  |1| |1| #  posts, white, with their height written along them;
//	#  |5| |5| #  spacers black, joints as lines
//	#==========#
//	############  floor
//	    B   A     letters of the lines under it
//
// A View says where on the page and how large; a Silhouette is the side view
// of one pot. Everything is to one scale but the wall's and the lid's
// thickness, which are cut short where the outer line is a hairline.
//
// It judges nothing and lays out no page; package sheet does.
package elevation

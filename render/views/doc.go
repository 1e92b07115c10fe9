// Package views draws the pictures of the page: the kiln cut through, a level
// from above, the table's plank, the box of posts, one pot from the side, the
// grid of the profile editor, how a level's load lies on its posts, the half
// section of the first run, and the pictures of the phone at the kiln.
//
//	Subject (Built, Order, Findings) + options in px
//	           |
//	         Easel                fonts, units, words
//	           |
//	        Picture               marks in CSS px, and its Frame (px <-> mm)
//	           |
//	path, text, group             one to one an SVG element of the page
//
// A picture is data: it holds no colour but what its classes mean, so that
// light, dark and print share it, and every text is already placed: the page
// does no arithmetic. Texts are measured with the fonts the page is set in.
//
// x runs right and y down from the upper left corner of a picture, in CSS px.
// Nothing is judged here: figures come from stacks, order, statics and
// clearance, or as text from who asks.
package views

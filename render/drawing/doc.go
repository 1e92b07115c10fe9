// Package drawing is the paper of Threepost: pages as lists of plain shapes
// and texts, measured in millimetres, and the three ways to put them out.
//
//	(0,0) ---------- x ---------> (Width, 0)
//	  |    +--------------------+
//	  |    | Shape: a path, filled, stroked
//	  y    | Text:  one line on its baseline
//	  |    | Clip:  items seen through a path
//	  v    +--------------------+
//	(0, Height)
//
// x runs right and y runs DOWN from the top left corner of the page.
// Bearings and turns are degrees clockwise, bearing 0 is up the page.
// Lengths are millimetres of paper; type sizes, stroke widths, dashes and
// halos are points of paper (1 pt = 25.4/72 mm) and stay so inside groups:
// a plan drawn at 1 : 5 keeps its 1 pt lines and 12 pt figures.
//
// A Pen draws a Page. PDF, SVG and PNG put pages out; Dump writes a page as
// text for golden tests; Check finds texts that overlap, are cut, covered,
// struck through, too small or without a glyph.
// Text is measured with the embedded fonts' own advance widths and set
// without kerning, so that a line is equally long in all of them.
//
// The package knows no kiln and no pot, reads no clock and opens no file.
package drawing

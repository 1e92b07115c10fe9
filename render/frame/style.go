package frame

import "threepost/render/drawing"

// Margin is the white round every page, mm. Desk printers leave 3 to 6 mm
// blank, some 12 at the foot (common practice).
const Margin = 10

// Sizes of type, pt.
const (
	TitleSize  = 24 // title, stage and cone
	PostsSize  = 20 // make-ups on the front page
	LevelSize  = 16 // names of levels, order numbers in a plan
	HeadSize   = 14 // headings inside a page
	TextSize   = 12 // the least on the front page
	LegendSize = 11 // legends of level pages
	SmallSize  = 10 // kind letters and gap figures in a plan
)

// Leading is the distance of two baselines of type of a size in pt, mm.
func Leading(size float64) float64 { return drawing.MM(size * 1.25) }

// Cut is the line round what is cut: wall, lid, floor, a chamber in plan.
func Cut() drawing.Style { return drawing.Outline(1.7) }

// Ink is the line round near ware, posts and shelves.
func Ink() drawing.Style { return drawing.Outline(1.1) }

// Far is the line round ware behind the middle.
func Far() drawing.Style { return drawing.Outline(0.7).Coloured(FarInk) }

// Hair is the line of hairlines and leaders.
func Hair() drawing.Style { return drawing.Outline(0.6) }

// GapBar is the line of a gap bar.
func GapBar() drawing.Style { return drawing.Outline(0.9) }

// FarInk is the grey of what stands behind: dark enough to be copied.
const FarInk = drawing.Colour(0xFF808080)

// HatchGap is the distance of the lines of cut brickwork, mm.
const HatchGap = 1.85

// HatchLine is the line of hatching.
func HatchLine() drawing.Style { return drawing.Outline(0.5).Coloured(FarInk) }

// Text is plain text of a size in pt.
func Text(size float64) drawing.TextStyle { return drawing.Type(size, drawing.Regular) }

// Strong is text for what one acts on, of a size in pt.
func Strong(size float64) drawing.TextStyle { return drawing.Type(size, drawing.SemiBold) }

// Heavy is the heaviest text, for titles and make-ups, of a size in pt.
func Heavy(size float64) drawing.TextStyle { return drawing.Type(size, drawing.Bold) }

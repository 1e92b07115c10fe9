package views

import (
	"threepost/render/drawing"
)

// Check finds what is wrong with the texts of a picture: two that overlap, one
// that leaves the picture, is smaller than Least or has a letter the fonts do
// not have. Lengths in complaints are px.
func Check(fonts *drawing.Fonts, p Picture) []drawing.Complaint {
	page := drawing.Page{Width: p.W, Height: p.H}
	gatherTexts(fonts, &page, p.Marks)
	return drawing.Check(fonts, page, drawing.Rules{Smallest: drawing.PT(Least)})
}

// gatherTexts makes texts of marks; one px is one mm of that page.
func gatherTexts(fonts *drawing.Fonts, page *drawing.Page, marks []Mark) {
	for _, m := range marks {
		switch m.Kind {
		case GroupKind:
			gatherTexts(fonts, page, m.Marks)
		case TextKind:
			style := drawing.Type(drawing.PT(m.Size), weightOf(m.Class)).Turned(m.Turn)
			switch m.Anchor {
			case "middle":
				style = style.Held(drawing.Middle)
			case "end":
				style = style.Held(drawing.Right)
			}
			page.Items = append(page.Items, drawing.Text{At: drawing.At(m.X, m.Y), Words: m.Text, Style: style, Width: fonts.Width(style, m.Text)})
		}
	}
}

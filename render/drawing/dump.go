package drawing

import (
	"fmt"
	"strconv"
	"strings"
)

// Dump writes a page as text, one item a line in order of painting, rounded
// to 0.01 mm, 0.01 pt and 0.1 degree: what golden tests compare.
//
//	page 210 x 297
//	path M 10 10 L 20 10 Z fill #ffffff line 1 #000000 dash 5 3
//	text 10 20 left 12 pt 600 "Fetch" wide 9.31
//	clip M 0 0 L 5 0 L 5 5 Z
//	  path ...
func Dump(page Page) string {
	var b strings.Builder
	fmt.Fprintf(&b, "page %s x %s", hundredth(page.Width), hundredth(page.Height))
	if page.Title != "" {
		fmt.Fprintf(&b, " %q", page.Title)
	}
	b.WriteByte('\n')
	dumpItems(&b, page.Items, "")
	return b.String()
}

func dumpItems(b *strings.Builder, items []Item, indent string) {
	for _, item := range items {
		b.WriteString(indent)
		switch item := item.(type) {
		case Shape:
			b.WriteString("path" + dumpPath(item.Path) + dumpStyle(item.Style))
		case Text:
			b.WriteString(dumpText(item))
		case Clip:
			b.WriteString("clip" + dumpPath(item.Path) + "\n")
			dumpItems(b, item.Items, indent+"  ")
			continue
		}
		b.WriteByte('\n')
	}
}

func dumpPath(p Path) string {
	var b strings.Builder
	for _, s := range p {
		b.WriteString(" " + string("MLCZ"[min(s.Op, Close)]))
		for j := range s.points() {
			b.WriteString(" " + hundredth(s.P[j].X) + " " + hundredth(s.P[j].Y))
		}
	}
	return b.String()
}

func dumpStyle(s Style) string {
	out := ""
	if s.Fill != None {
		out += " fill " + hex(s.Fill)
	}
	if s.Stroke != None {
		out += " line " + hundredth(s.Width) + " " + hex(s.Stroke)
		if len(s.Dash) > 0 {
			out += " dash"
			for _, d := range s.Dash {
				out += " " + hundredth(d)
			}
		}
		if s.Round {
			out += " round"
		}
	}
	return out
}

func dumpText(t Text) string {
	s := t.Style
	anchor := [...]string{"left", "middle", "right"}[max(Left, min(s.Anchor, Right))]
	out := fmt.Sprintf("text %s %s %s %s pt %d %q wide %s", hundredth(t.At.X), hundredth(t.At.Y),
		anchor, hundredth(s.Size), s.Weight, t.Words, hundredth(t.Width))
	if s.Turn != 0 {
		out += " turn " + decimal(s.Turn, 1)
	}
	if s.Colour != None && s.Colour != Black {
		out += " " + hex(s.Colour)
	}
	if s.Halo > 0 {
		out += " halo " + hundredth(s.Halo)
	}
	return out
}

func hex(c Colour) string {
	r, g, b := c.RGB()
	return fmt.Sprintf("#%02x%02x%02x", r, g, b)
}

func hundredth(v float64) string { return decimal(v, 2) }

// decimal writes a figure with at most so many decimals, without trailing
// zeros and never as "-0".
func decimal(v float64, places int) string {
	s := strconv.FormatFloat(v, 'f', places, 64)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	if s == "-0" {
		return "0"
	}
	return s
}

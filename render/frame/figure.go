package frame

import (
	"strconv"
	"strings"

	"threepost/layout"
	"threepost/layout/measure"
)

// Figures are written without a unit; the page says once what they are. A
// figure holds together at a line's end.

// Room is a length that must not be promised larger than it is: room, what a
// level takes, a gap. Rounded down.
func (s *Sheet) Room(mm float64) string { return hold(measure.FormatLength(mm, s.Units, measure.Down)) }

// Size is the size of a thing, rounded up.
func (s *Sheet) Size(mm float64) string { return hold(measure.FormatLength(mm, s.Units, measure.Up)) }

// Near is a length to measure off, such as down from the rim, to the nearest
// mm or 1/16 in.
func (s *Sheet) Near(mm float64) string {
	return hold(measure.FormatLengthTo(mm, s.Units, measure.Nearest, measure.PostGrain))
}

// Post is the height that a post is called by: to the nearest mm, as written
// when it is no whole mm, or 1/16 in.
func (s *Sheet) Post(mm float64) string {
	if s.Units != measure.Inches {
		return hold(measure.FormatFile(mm))
	}
	return s.Near(mm)
}

// Unit is "mm" or "inches": what the figures of a page are.
func (s *Sheet) Unit() string {
	if s.Units == measure.Inches {
		return "inches"
	}
	return "mm"
}

// MakeUp is the pieces of one post: "100+10", in inches "4 + 1/2".
func (s *Sheet) MakeUp(m layout.MakeUp) string {
	plus := "+"
	if s.Units == measure.Inches {
		plus = "\u00a0+\u00a0"
	}
	parts := make([]string, len(m))
	for i, p := range m {
		parts[i] = s.Post(p.Height)
		if p.Name != "" {
			parts[i] += "\u00a0(" + hold(p.Name) + ")" // a matched set
		}
	}
	return strings.Join(parts, plus)
}

// Posts is n posts of one make-up: "3×(100+10)", "3×125".
func (s *Sheet) Posts(n int, m layout.MakeUp) string {
	if len(m) == 1 {
		return strconv.Itoa(n) + "×" + s.MakeUp(m)
	}
	return strconv.Itoa(n) + "×(" + s.MakeUp(m) + ")"
}

// Heat is a temperature in C in the person's units: "1222 °C".
func (s *Sheet) Heat(c float64) string { return Degrees(measure.FormatTemperature(c, s.Units)) }

// Cone is a cone with its temperature: "cone 6 · 1222 °C"; a peak that was
// given takes the place of the chart's.
func (s *Sheet) Cone(f layout.Firing) string {
	parts := []string{}
	if f.Cone != "" {
		parts = append(parts, "cone "+string(f.Cone))
	}
	if t := f.Temperature(); t > 0 {
		parts = append(parts, s.Heat(t))
	}
	return strings.Join(parts, " · ")
}

// Mass is a mass in kg in the person's units.
func (s *Sheet) Mass(kg float64) string { return hold(measure.FormatMass(kg, s.Units)) }

// Degrees writes "1222 C" with its degree sign: "1222 °C".
func Degrees(t string) string {
	if cut := strings.LastIndexByte(t, ' '); cut > 0 && len(t)-cut == 2 {
		return t[:cut] + "\u00a0°" + t[cut+1:]
	}
	return t
}

// Scale is how a drawing's scale is told, per being mm of kiln for one mm of
// paper: "1 : 8.5".
func Scale(per float64) string {
	text := strconv.FormatFloat(per, 'f', 1, 64)
	return "1 : " + strings.TrimSuffix(text, ".0")
}

// Capital is words with a capital first letter.
func Capital(words string) string {
	if words == "" || words[0] < 'a' || words[0] > 'z' {
		return words
	}
	return string(words[0]-'a'+'A') + words[1:]
}

// hold keeps a figure together at a line's end.
func hold(figure string) string { return strings.ReplaceAll(figure, " ", "\u00a0") }

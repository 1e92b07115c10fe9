package measure

import (
	"fmt"
	"math"
	"strings"
)

// Cone is the name of a pyrometric cone: "6", "04", "5.5". A name, never a
// number: 05 and 5 are 155 C apart. The zero value "" is no cone.
type Cone string

// Standard is the heating rate that a bare cone temperature is told for, C/h.
const Standard = 60

// ParseCone reads a cone of the chart, 022 to 14: "6", "cone 6", "^6", "∆6",
// "04", "5 1/2". It refuses other names with the cones that are near, since a
// dropped zero melts a load.
func ParseCone(text string) (Cone, error) {
	if strings.TrimSpace(text) == "" {
		return "", fmt.Errorf("a cone is missing; type one like 04 or 6")
	}
	if len(text) <= longest {
		if c := Cone(coneName(text)); c.Known() {
			return c, nil
		}
	}
	return "", refuseCone(text)
}

// coneName takes the words and marks off a typed cone.
func coneName(text string) string {
	s := tidy(text)
	for _, mark := range []string{"cone", "^", "∆", "δ", "△", "c"} { // δ: tidy lowers Δ
		if rest, found := strings.CutPrefix(s, mark); found {
			s = strings.TrimSpace(rest)
			break
		}
	}
	s = strings.Replace(s, " 1/2", ".5", 1)
	return strings.Replace(s, ",", ".", 1)
}

// refuseCone says what is not a cone and which cones are near.
func refuseCone(text string) error {
	const ask = "type a cone from 022 to 14, like 04 or 6"
	if len(text) > longest {
		return fmt.Errorf("%s is not a cone; %s", quote(text), ask)
	}
	if c, err := ParseTemperature(text); err == nil && c >= 500 {
		if near, ok := nearestCone(c); ok {
			return fmt.Errorf("%s looks like a temperature, not a cone; the nearest is %s", quote(text), near.Describe())
		}
	}
	near := nearNames(coneName(text))
	switch len(near) {
	case 0:
		return fmt.Errorf("%s is not a cone; %s", quote(text), ask)
	case 1:
		return fmt.Errorf("%s is not a cone; the nearest name is %s", quote(text), near[0].Describe())
	}
	told := make([]string, len(near))
	for i, c := range near {
		told[i] = c.Describe()
	}
	last := len(told) - 1
	return fmt.Errorf("%s is not a cone; did you mean %s or %s? They are different cones",
		quote(text), strings.Join(told[:last], ", "), told[last])
}

// nearNames is up to four cones whose names are what was typed but for the
// letter o, zeros in front, or one character, the likelier reason first.
func nearNames(typed string) []Cone {
	if typed == "" {
		return nil
	}
	zeros := strings.ReplaceAll(typed, "o", "0")
	if c := Cone(zeros); c.Known() {
		return []Cone{c}
	}
	bare := strings.TrimLeft(strings.ReplaceAll(zeros, " ", ""), "0")
	var near []Cone
	for _, c := range []Cone{Cone("0" + bare), Cone(bare)} {
		if c.Known() {
			near = append(near, c)
		}
	}
	if len(near) > 0 {
		return near
	}
	for _, row := range coneChart() {
		if len(near) < 4 && oneApart(typed, string(row.name)) {
			near = append(near, row.name)
		}
	}
	return near
}

// oneApart tells whether one character added, left out or changed turns a into b.
func oneApart(a, b string) bool {
	if len(a) > len(b) {
		a, b = b, a
	}
	if len(b)-len(a) > 1 {
		return false
	}
	i := 0
	for i < len(a) && a[i] == b[i] {
		i++
	}
	if len(a) == len(b) {
		return i < len(a) && a[i+1:] == b[i+1:]
	}
	return a[i:] == b[i+1:]
}

// nearestCone is the cone that bends nearest to c at the standard rate; false
// when c is more than 30 C off the chart.
func nearestCone(c float64) (Cone, bool) {
	best, off := Cone(""), 30.0
	for _, row := range coneChart() {
		if d := math.Abs(row.at60 - c); d < off {
			best, off = row.name, d
		}
	}
	return best, best != ""
}

// rank is the place in the chart, 0 the coolest, -1 for none.
func (c Cone) rank() int {
	for i, row := range coneChart() {
		if row.name == c {
			return i
		}
	}
	return -1
}

// Known tells whether the chart has the cone.
func (c Cone) Known() bool { return c.rank() >= 0 }

// Temperature is where the cone bends, C, when the last 100 C are heated at
// ratePerHour, C/h; 0 means Standard. The chart gives 15, 60 and 150; between
// them it is read off straight lines, which is an assumption of ours. It
// answers false beyond them, for a cone that is not known and where the chart
// has no figure (022, 021 and 020 at 15).
func (c Cone) Temperature(ratePerHour float64) (float64, bool) {
	i := c.rank()
	if i < 0 {
		return 0, false
	}
	row := coneChart()[i]
	switch {
	case ratePerHour == 0 || ratePerHour == Standard:
		return row.at60, true
	case ratePerHour > Standard && ratePerHour <= 150:
		return between(60, row.at60, 150, row.at150, ratePerHour), true
	case ratePerHour >= 15 && ratePerHour < Standard && row.at15 > 0:
		return between(15, row.at15, 60, row.at60, ratePerHour), true
	}
	return 0, false
}

// between reads a straight line from (x0, y0) to (x1, y1) at x; exact at both ends.
func between(x0, y0, x1, y1, x float64) float64 {
	return (float64(y0*(x1-x)) + float64(y1*(x-x0))) / (x1 - x0)
}

// Heat is the temperature at the standard rate, C; 0 for a cone that is not known.
func (c Cone) Heat() float64 {
	t, _ := c.Temperature(Standard)
	return t
}

// Compare orders cones by heat, 022 to 14: below 0 when a is cooler than b, 0
// when they are one cone, above 0 when a is hotter. A cone that is not known
// comes before all others.
func Compare(a, b Cone) int { return a.rank() - b.rank() }

// Cones lists the chart from the coolest to the hottest.
func Cones() []Cone {
	list := make([]Cone, 0, coneCount)
	for _, row := range coneChart() {
		list = append(list, row.name)
	}
	return list
}

// Next is the next hotter whole cone: half cones (05.5 and 5.5) are passed
// over, as in cone packs. False at the hot end and for a cone not known.
func (c Cone) Next() (Cone, bool) { return c.step(1) }

// Previous is the next cooler whole cone. False at the cool end and for a cone
// not known.
func (c Cone) Previous() (Cone, bool) { return c.step(-1) }

func (c Cone) step(by int) (Cone, bool) {
	i := c.rank()
	if i < 0 {
		return "", false
	}
	chart := coneChart()
	for i += by; i >= 0 && i < coneCount; i += by {
		if !strings.Contains(string(chart[i].name), ".") {
			return chart[i].name, true
		}
	}
	return "", false
}

// Pack is a cone pack in order of heat: guide, firing and guard cone, "5 6 7"
// for cone 6 (common practice). At an end of the chart it has two; of a cone
// not known it is empty.
func (c Cone) Pack() []Cone {
	if !c.Known() {
		return nil
	}
	pack := make([]Cone, 0, 3)
	if guide, ok := c.Previous(); ok {
		pack = append(pack, guide)
	}
	pack = append(pack, c)
	if guard, ok := c.Next(); ok {
		pack = append(pack, guard)
	}
	return pack
}

// Twin is the cone that a forgotten or added zero makes of this one: 5 of 05,
// 06 of 6. False when there is none.
func (c Cone) Twin() (Cone, bool) {
	if !c.Known() {
		return "", false
	}
	twin := "0" + c
	if rest, found := strings.CutPrefix(string(c), "0"); found {
		twin = Cone(rest)
	}
	return twin, twin.Known()
}

// Describe names cone and temperature at the standard rate: "cone 6 (1222 C)".
// A cone that is not known is told without: "cone 99"; none is "no cone".
func (c Cone) Describe() string { return c.DescribeIn(MM) }

// DescribeIn is Describe in the person's units: "cone 6 (2232 F)" for Inches.
func (c Cone) DescribeIn(in Units) string {
	switch {
	case c == "":
		return "no cone"
	case !c.Known():
		return "cone " + string(c)
	}
	return "cone " + string(c) + " (" + FormatTemperature(c.Heat(), in) + ")"
}

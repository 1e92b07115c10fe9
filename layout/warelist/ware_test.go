package warelist

import (
	"strings"

	"pgregory.net/rapid"

	"threepost/layout"
	"threepost/layout/measure"
)

// drawLength draws a length as people and planners make them: whole mm, parts
// of an inch, and any decimal.
func drawLength(t *rapid.T, label string) float64 {
	switch rapid.IntRange(0, 3).Draw(t, label+" sort") {
	case 0:
		return float64(rapid.IntRange(1, 900).Draw(t, label))
	case 1:
		mm, err := measure.ParseLength(rapid.SampledFrom([]string{"4 1/2", "3", "1/8", "11 3/16", "5 21/64"}).Draw(t, label), measure.Inches)
		if err != nil {
			t.Fatal(err)
		}
		return mm
	case 2:
		return float64(rapid.IntRange(1, 9000).Draw(t, label)) / 10
	}
	return rapid.Float64Range(0.001, 2000).Draw(t, label)
}

// some draws a length or nothing.
func some(t *rapid.T, label string) float64 {
	if !rapid.Bool().Draw(t, label+" told") {
		return 0
	}
	return drawLength(t, label)
}

// drawText draws what people may call things, marks and all.
func drawText(t *rapid.T, label string) string {
	text := rapid.OneOf(
		rapid.SampledFrom([]string{"Ida", "buff stoneware", "tin white, thin", `the "good" one`, "=SUM(A1)", "-1", "@x", "'=", "12", "#4", "cone", "a cone 6 clay", "x", "4 1/2", "été", "lid on", "a;b"}),
		rapid.StringOfN(rapid.RuneFrom([]rune(`ab x×,;#"'=+-@19½é.conef`)), 1, 12, -1),
	).Draw(t, label)
	return strings.TrimSpace(text)
}

func drawHandle(t *rapid.T, label string) layout.Handle {
	h := layout.Handle{Reach: drawLength(t, label+" reach"), From: some(t, label+" from"), Thick: some(t, label+" thick")}
	h.To = h.From + drawLength(t, label+" to")
	if rapid.Bool().Draw(t, label+" turned") {
		h.At = float64(rapid.IntRange(1, 3599).Draw(t, label+" at")) / 10
	}
	return h
}

// drawWare draws a row in which anything may be told.
func drawWare(t *rapid.T) layout.Ware {
	w := layout.Ware{Name: drawText(t, "name"), Count: rapid.IntRange(1, 40).Draw(t, "count"), Height: drawLength(t, "height")}
	if w.Name == "" {
		w.Name = "mug"
	}
	if rapid.Bool().Draw(t, "oblong") {
		w.Length, w.Width = drawLength(t, "length"), drawLength(t, "width")
		w.Plan = rapid.SampledFrom([]layout.ShapeKind{"", layout.Oval, layout.Rectangle}).Draw(t, "plan")
	} else {
		w.Across = drawLength(t, "across")
	}
	w.Silhouette = rapid.SampledFrom(append(silhouettes(), "")).Draw(t, "silhouette")
	w.Foot, w.Knob, w.Wall, w.Adds = some(t, "foot"), some(t, "knob"), some(t, "wall"), some(t, "adds")
	for i := rapid.IntRange(0, 3).Draw(t, "knots"); i > 0; i-- {
		w.Profile = append(w.Profile, layout.Knot{Height: some(t, "knot height"), Diameter: some(t, "knot diameter")})
	}
	for i := rapid.IntRange(0, 2).Draw(t, "handles"); i > 0; i-- {
		w.Handles = append(w.Handles, drawHandle(t, "handle"))
	}
	if rapid.Bool().Draw(t, "spouted") {
		h := drawHandle(t, "spout")
		w.Spout = &h
	}
	w.Measured = rapid.Bool().Draw(t, "measured")
	if rapid.Bool().Draw(t, "lidded") {
		on := rapid.Bool().Draw(t, "lid on")
		w.LidOn = &on
	}
	if rapid.Bool().Draw(t, "allowed") {
		high, wide := some(t, "allow high"), some(t, "allow wide")
		w.HighAllowance, w.WideAllowance = &high, &wide
	}
	w.Mass = float64(rapid.IntRange(0, 4000).Draw(t, "mass")) / 1000
	cone := rapid.SampledFrom([]measure.Cone{"", "6", "06", "5.5", "10"})
	for _, m := range []*layout.Material{&w.Clay, &w.Glaze} {
		if rapid.Bool().Draw(t, "material") {
			*m = layout.Material{Name: drawText(t, "material name"), Cone: cone.Draw(t, "cone")}
		}
	}
	for _, f := range flagsOf(&w.Flags) {
		*f.on = rapid.IntRange(0, 4).Draw(t, f.word) == 0
	}
	w.Stand.Kind = rapid.SampledFrom([]layout.StandKind{"", layout.Cookie, layout.Stilt, layout.Wads}).Draw(t, "stand")
	if w.Stand.Kind != "" {
		w.Stand.Across, w.Stand.Height = some(t, "stand across"), some(t, "stand height")
	}
	w.Nested = rapid.IntRange(0, 5).Draw(t, "nested")
	if rapid.Bool().Draw(t, "owned") {
		w.Owner, w.Ticket = drawText(t, "owner"), drawText(t, "ticket")
	}
	w.Since = rapid.SampledFrom([]string{"", "2026-10-14", "2024-02-29"}).Draw(t, "since")
	w.Must = rapid.SampledFrom([]layout.Must{"", layout.MustGo, layout.Filler}).Draw(t, "must")
	w.Value = float64(rapid.IntRange(0, 100).Draw(t, "value")) / 4
	w.Dry = rapid.SampledFrom([]layout.Dryness{"", layout.Bisqued, layout.BoneDry, layout.DampClay}).Draw(t, "dry")
	return w
}

package document

import (
	"math"

	"threepost/layout"
	"threepost/layout/measure"
)

func wareTable() table[layout.Ware] {
	type ware = layout.Ware
	lengthAt := func(key string, s sign, place func(*ware) *float64, doc string) field[ware] {
		return at(key, length(s), place, doc)
	}
	return table[ware]{
		name: "[[ware]]",
		doc:  "A row of alike pots: measures of the largest, as they go into the kiln.",
		fields: []field[ware]{
			must(`name = "mug"`, at("name", name(), func(w *ware) *string { return &w.Name }, "What one pot of the row is called.")),
			at("count", manyOf(MostPots), func(w *ware) *int { return &w.Count }, "How many there are; 1 when not given."),
			at("silhouette", choice(silhouettes()...), func(w *ware) *layout.Silhouette { return &w.Silhouette }, "The usual form that gives what was not measured; told by the name when not given."),
			unlessProfile(lengthAt("height", positive, func(w *ware) *float64 { return &w.Height }, "Height, without lid and knob; from the profile when not given."),
				func(w *ware) float64 { return w.Height }, profileHeight),
			unlessProfile(lengthAt("across", positive, func(w *ware) *float64 { return &w.Across }, "Greatest diameter, without handle or spout; from the profile when not given."),
				func(w *ware) float64 { return w.Across }, profileAcross),
			lengthAt("length", positive, func(w *ware) *float64 { return &w.Length }, "Oblong ware: along."),
			lengthAt("width", positive, func(w *ware) *float64 { return &w.Width }, "Oblong ware: across that."),
			at("plan", choice(layout.Oval, layout.Rectangle), func(w *ware) *layout.ShapeKind { return &w.Plan }, "Oblong ware: its plan shape."),
			lengthAt("foot", positive, func(w *ware) *float64 { return &w.Foot }, "Diameter of the foot, or its length for oblong ware."),
			at("profile", list(knot(), mostKnots, false), func(w *ware) *[]layout.Knot { return &w.Profile }, "The side view from the foot up: [height, diameter], ..."),
			at("measured", boolean(), func(w *ware) *bool { return &w.Measured }, "The profile was measured, so that rims may go over shoulders."),
			at("handles", list(subAny(handleTable("a handle")), 12, false), func(w *ware) *[]layout.Handle { return &w.Handles }, "Handles and lugs; turns are told from the first."),
			at("spout", optional(sub(handleTable("a spout"))), func(w *ware) **layout.Handle { return &w.Spout }, "The spout."),
			lengthAt("knob", notNegative, func(w *ware) *float64 { return &w.Knob }, "What lid and knob add to the height."),
			at("lid", lid(), func(w *ware) **bool { return &w.LidOn }, "Fired with its lid on or beside it; on when not given."),
			at("allow_high", optional(length(notNegative)), func(w *ware) **float64 { return &w.HighAllowance }, "Added to the height before anything is planned."),
			at("allow_wide", optional(length(notNegative)), func(w *ware) **float64 { return &w.WideAllowance }, "Added to the width before anything is planned."),
			at("mass", mass(), func(w *ware) *float64 { return &w.Mass }, "Of one pot, kg; from its wall when not given."),
			lengthAt("wall", positive, func(w *ware) *float64 { return &w.Wall }, "Thickness of its wall; 6 mm when not given."),
			at("clay", sub(materialTable("clay")), func(w *ware) *layout.Material { return &w.Clay }, "Its clay and the cone it is made for."),
			at("glaze", sub(materialTable("glaze")), func(w *ware) *layout.Material { return &w.Glaze }, "Its glaze and the cone it is made for."),
			at("flags", flags(), func(w *ware) *layout.Flags { return &w.Flags }, "What the firing must know of it."),
			at("stand", sub(standTable()), func(w *ware) *layout.Stand { return &w.Stand }, "What goes under each pot."),
			at("nested", count(0, 100), func(w *ware) *int { return &w.Nested }, "A bundle: how many of these stand in or on each other."),
			lengthAt("adds", notNegative, func(w *ware) *float64 { return &w.Adds }, "A bundle: what each after the first adds to the height."),
			at("owner", text(longestName), func(w *ware) *string { return &w.Owner }, "Whose they are."),
			at("ticket", text(longestName), func(w *ware) *string { return &w.Ticket }, "The ticket they came with."),
			at("since", date(true), func(w *ware) *string { return &w.Since }, "Waiting since, 2026-10-14; older goes first."),
			at("must", choice(layout.MustGo, layout.Filler), func(w *ware) *layout.Must { return &w.Must }, "Goes before all others, or after them."),
			at("value", plainNumber(notNegative), func(w *ware) *float64 { return &w.Value }, "Of one pot; its kiln space when not given."),
			at("dry", choice(layout.Bisqued, layout.BoneDry, layout.DampClay), func(w *ware) *layout.Dryness { return &w.Dry }, "How dry the clay is."),
		},
		start: func(w *ware) { w.Count = 1 },
		check: checkWare,
	}
}

// silhouettes are the usual forms by name.
func silhouettes() []layout.Silhouette {
	return []layout.Silhouette{layout.Mug, layout.Tumbler, layout.Bowl, layout.Plate, layout.Vase, layout.Bottle, layout.Jug,
		layout.Teapot, layout.LiddedJar, layout.OvalBaker, layout.Box, layout.Tile, layout.Cylinder}
}

// manyOf is a count from 1; 1 is not written.
func manyOf(most int) codec[int] {
	c := count(1, most)
	c.omit = func(n int) bool { return n == 1 }
	return c
}

// unlessProfile leaves a measure out of the file when the profile gives it.
func unlessProfile(f field[layout.Ware], have func(*layout.Ware) float64, from func([]layout.Knot) float64) field[layout.Ware] {
	write := f.write
	f.write = func(w *writer, v *layout.Ware) string {
		if len(v.Profile) > 0 && v.Length == 0 && have(v) == from(v.Profile) {
			return ""
		}
		return write(w, v)
	}
	return f
}

// profileHeight is where a profile ends.
func profileHeight(p []layout.Knot) float64 { return p[len(p)-1].Height }

// profileAcross is a profile's greatest diameter.
func profileAcross(p []layout.Knot) float64 {
	most := 0.0
	for _, k := range p {
		most = max(most, k.Diameter)
	}
	return most
}

// knot is [height, diameter].
func knot() codec[layout.Knot] {
	l := length(notNegative)
	return codec[layout.Knot]{
		read: func(r *reader, what string, n *node) (layout.Knot, bool) {
			if n.kind != arrayKind || len(n.items) != 2 {
				r.complain(n.at, "%s: each entry is [height, diameter], like [[0, 76], [95, 86]]", what)
				return layout.Knot{}, false
			}
			h, ok1 := l.read(r, "height in "+what, n.items[0])
			d, ok2 := l.read(r, "diameter in "+what, n.items[1])
			return layout.Knot{Height: h, Diameter: d}, ok1 && ok2
		},
		write: func(w *writer, k layout.Knot) string {
			return "[" + w.length(k.Height) + ", " + w.length(k.Diameter) + "]"
		},
		shape: func(defs *schemas) schema {
			return schema{"type": "array", "items": l.shape(defs), "minItems": 2, "maxItems": 2}
		},
	}
}

func handleTable(what string) table[layout.Handle] {
	return table[layout.Handle]{
		name: what,
		doc:  "A handle, lug or spout.",
		fields: []field[layout.Handle]{
			at("at", angle(), func(h *layout.Handle) *float64 { return &h.At }, "Clockwise after the first handle, degrees."),
			must("reach = 38", at("reach", length(positive), func(h *layout.Handle) *float64 { return &h.Reach }, "How far it stands out.")),
			at("from", length(notNegative), func(h *layout.Handle) *float64 { return &h.From }, "Its lowest height."),
			must("to = 80", at("to", length(positive), func(h *layout.Handle) *float64 { return &h.To }, "Its highest height.")),
			at("thick", length(positive), func(h *layout.Handle) *float64 { return &h.Thick }, "How wide it is across; 14 mm when not given."),
		},
		check: func(r *reader, n *node, h *layout.Handle) {
			if h.To <= h.From {
				r.complain(n.at, "%s goes from %s to %s; to is higher than from", what, sayHeight(r.units, h.From), sayHeight(r.units, h.To))
			}
		},
	}
}

// lid is whether ware is fired with its lid on.
func lid() codec[*bool] {
	word := choice("on", "beside")
	return codec[*bool]{
		read: func(r *reader, what string, n *node) (*bool, bool) {
			v, ok := word.read(r, what, n)
			on := v == "on"
			return &on, ok
		},
		write: func(w *writer, on *bool) string {
			if *on {
				return word.write(w, "on")
			}
			return word.write(w, "beside")
		},
		omit:  func(on *bool) bool { return on == nil },
		shape: word.shape,
	}
}

func materialTable(what string) table[layout.Material] {
	return table[layout.Material]{
		name: what,
		doc:  "A clay or a glaze.",
		fields: []field[layout.Material]{
			at("name", text(longestName), func(m *layout.Material) *string { return &m.Name }, "What it is called."),
			at("cone", cone(), func(m *layout.Material) *measure.Cone { return &m.Cone }, "The cone it is made for, a name in quotes."),
		},
	}
}

func standTable() table[layout.Stand] {
	return table[layout.Stand]{
		name: "stand",
		doc:  "A cookie, a stilt or wads.",
		fields: []field[layout.Stand]{
			must(`kind = "cookie"`, at("kind", choice(layout.Cookie, layout.Stilt, layout.Wads), func(s *layout.Stand) *layout.StandKind { return &s.Kind }, "What it is.")),
			at("across", length(positive), func(s *layout.Stand) *float64 { return &s.Across }, "How wide; as wide as the rule asks when not given."),
			at("height", length(positive), func(s *layout.Stand) *float64 { return &s.Height }, "What it adds to the pot."),
		},
	}
}

// flagWords pairs the words of the file with the flags they set.
func flagWords(f *layout.Flags) []struct {
	word string
	on   *bool
} {
	return []struct {
		word string
		on   *bool
	}{
		{"refire", &f.Refire}, {"runny", &f.Runny}, {"bloats", &f.Bloats}, {"spits", &f.Spits},
		{"glazed foot", &f.GlazedFoot}, {"fuming", &f.Fuming}, {"fume-sensitive", &f.FumeShy}, {"unglazed", &f.Unglazed},
	}
}

// flags is a list of words.
func flags() codec[layout.Flags] {
	var known []string
	for _, f := range flagWords(new(layout.Flags)) {
		known = append(known, f.word)
	}
	words := list(choice(known...), len(known), false)
	return codec[layout.Flags]{
		read: func(r *reader, what string, n *node) (layout.Flags, bool) {
			var f layout.Flags
			all, ok := words.read(r, what, n)
			for _, word := range all {
				for _, w := range flagWords(&f) {
					if w.word == word {
						*w.on = true
					}
				}
			}
			return f, ok
		},
		write: func(w *writer, f layout.Flags) string {
			var on []string
			for _, fw := range flagWords(&f) {
				if *fw.on {
					on = append(on, fw.word)
				}
			}
			return words.write(w, on)
		},
		omit:  func(f layout.Flags) bool { return f == layout.Flags{} },
		shape: words.shape,
	}
}

// checkWare fills in what the profile gives and complains of measures that
// make no pot.
func checkWare(r *reader, n *node, w *layout.Ware) {
	if p := w.Profile; len(p) > 0 {
		if say := sayProfile(p); say != "" {
			r.complain(n.get("profile").value.at, "%s", say)
			return
		}
		if w.Height == 0 {
			w.Height = profileHeight(p)
		}
		if w.Across == 0 && w.Length == 0 && w.Width == 0 {
			w.Across = profileAcross(p)
		}
		if math.Abs(w.Height-profileHeight(p)) > measure.Tolerance {
			r.complain(n.get("height").value.at, "height is %s and the profile ends at %s; make them one", sayHeight(r.units, w.Height), sayHeight(r.units, profileHeight(p)))
		}
		if w.Across != 0 && math.Abs(w.Across-profileAcross(p)) > measure.Tolerance {
			r.complain(n.get("across").value.at, "across is %s and the profile is %s at its widest; make them one", sayHeight(r.units, w.Across), sayHeight(r.units, profileAcross(p)))
		}
	}
	switch {
	case w.Height == 0:
		r.complain(n.at, "%s has no height; write one like height = 100", show(w.Name))
	case w.Length == 0 && w.Width == 0 && w.Across == 0:
		r.complain(n.at, "%s has no width; write across = 85, or length = 260 and width = 160 for oblong ware", show(w.Name))
	case w.Across == 0 && (w.Length == 0 || w.Width == 0):
		r.complain(n.at, "%s is oblong and needs both length and width", show(w.Name))
	case w.Across != 0 && (w.Length != 0 || w.Width != 0):
		r.complain(n.get("across").at, "%s has across as well as length and width; round ware has across, oblong ware the other two", show(w.Name))
	case w.Plan != "" && w.Length == 0:
		r.complain(n.get("plan").at, "plan is for oblong ware; %s is round", show(w.Name))
	}
	if w.Adds != 0 && w.Nested < 2 {
		r.complain(n.get("adds").at, "adds is for a bundle; write how many are nested, like nested = 3")
	}
}

// sayProfile says what is wrong with a profile, or nothing.
func sayProfile(p []layout.Knot) string {
	last := len(p) - 1
	switch {
	case len(p) < 2:
		return "profile has one entry; it goes from the foot at height 0 to the rim"
	case p[0].Height != 0:
		return "profile begins above height 0; its first entry is the foot, like [0, 76]"
	case profileAcross(p) == 0:
		return "profile is 0 wide; each entry is [height, diameter], like [[0, 76], [95, 86]]"
	}
	for i := 1; i <= last; i++ {
		switch {
		case p[i].Height < p[i-1].Height:
			return "profile goes down again; its heights go from the foot at 0 to the rim"
		case p[i].Height > p[i-1].Height:
		case i == 1:
			return "profile begins with a step, which is a disc of no thickness; leave its first entry out or lift the second"
		case i == last:
			return "profile ends with a step, which is a disc of no thickness; leave its last entry out or lift it"
		case p[i-2].Height == p[i].Height:
			return "profile has three entries at one height; a step takes two"
		}
	}
	return ""
}

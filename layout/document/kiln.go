package document

import "threepost/layout"

func kilnTable() table[layout.Kiln] {
	return table[layout.Kiln]{
		name: "[kiln]",
		doc:  "The kiln.",
		fields: []field[layout.Kiln]{
			at("name", text(longestName), func(k *layout.Kiln) *string { return &k.Name }, "What the kiln is called."),
			chamber(),
			at("opens", opens(), func(k *layout.Kiln) *layout.Opens { return &k.Opens }, "Where hands come in: at the top when not given."),
			at("wall", length(positive), func(k *layout.Kiln) *float64 { return &k.Wall }, "Thickness of the brick; 76 mm when not given."),
			at("floor_element", boolean(), func(k *layout.Kiln) *bool { return &k.FloorElement }, "An element or a vent lies in the floor."),
			at("probes", tables(probeTable(), 20), func(k *layout.Kiln) *[]layout.Probe { return &k.Probes }, "Thermocouples and sensing tubes that reach in level from the wall."),
			at("spyholes", tables(spyholeTable(), 20), func(k *layout.Kiln) *[]layout.Spyhole { return &k.Spyholes }, "Holes in the wall through which cones are watched."),
		},
		start: func(k *layout.Kiln) { k.Opens = layout.Top },
	}
}

// opens is written always, because it is the first thing one asks of a kiln.
func opens() codec[layout.Opens] {
	c := choice(layout.Top, layout.Front)
	write := c.write
	c.omit = func(layout.Opens) bool { return false }
	c.write = func(w *writer, v layout.Opens) string {
		if v == "" {
			v = layout.Top
		}
		return write(w, v)
	}
	return c
}

// chamber is the plan shape of the kiln together with its height.
func chamber() field[layout.Kiln] {
	t := table[layout.Kiln]{
		name: "chamber",
		doc:  "The inside of the kiln.",
		fields: append(shapeFields(func(k *layout.Kiln) *layout.Shape { return &k.Chamber }),
			must("height = 457", at("height", length(positive), func(k *layout.Kiln) *float64 { return &k.Height }, "Floor to lid, or to the ceiling."))),
		check: func(r *reader, n *node, k *layout.Kiln) { checkShape(r, n, "chamber", &k.Chamber) },
	}
	return field[layout.Kiln]{
		key: "chamber", doc: "Plan shape and height of the inside.",
		need:  `chamber = { shape = "round", across = 457, height = 457 }`,
		read:  func(r *reader, n *node, k *layout.Kiln) { readTable(r, n, t, k) },
		write: func(w *writer, k *layout.Kiln) string { return writeInline(w, t, k) },
		shape: func(defs *schemas) schema { return tableSchema(defs, t) },
	}
}

// tables is a list of tables on lines of their own; a lone one stays on the
// line of its key.
func tables[V any](t table[V], most int) codec[[]V] {
	one := list(subAny(t), most, false)
	many := list(subAny(t), most, true)
	one.write = func(w *writer, all []V) string {
		if len(all) > 1 {
			return many.write(w, all)
		}
		return "[" + writeInline(w, t, &all[0]) + "]"
	}
	return one
}

func probeTable() table[layout.Probe] {
	return table[layout.Probe]{
		name: "a probe",
		doc:  "A probe.",
		fields: []field[layout.Probe]{
			must(`at = "10:30"`, at("at", bearing(), func(p *layout.Probe) *float64 { return &p.At }, "Where it comes through the wall.")),
			must("height = 343", at("height", length(positive), func(p *layout.Probe) *float64 { return &p.Height }, "Of its axis over the floor.")),
			must("reach = 45", at("reach", length(positive), func(p *layout.Probe) *float64 { return &p.Reach }, "From the wall inwards.")),
			must("diameter = 12", at("diameter", length(positive), func(p *layout.Probe) *float64 { return &p.Diameter }, "Its thickness.")),
		},
	}
}

func spyholeTable() table[layout.Spyhole] {
	return table[layout.Spyhole]{
		name: "a spyhole",
		doc:  "A spyhole.",
		fields: []field[layout.Spyhole]{
			must(`at = "6:00"`, at("at", bearing(), func(s *layout.Spyhole) *float64 { return &s.At }, "Where it goes through the wall.")),
			must("height = 260", at("height", length(positive), func(s *layout.Spyhole) *float64 { return &s.Height }, "Of its axis over the floor.")),
			at("diameter", length(positive), func(s *layout.Spyhole) *float64 { return &s.Diameter }, "Its width; 19 mm when not given."),
		},
	}
}

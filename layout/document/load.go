package document

import (
	"strconv"

	"threepost/layout"
	"threepost/layout/measure"
)

// loadTable is the whole file.
func loadTable() table[layout.Load] {
	return table[layout.Load]{
		name: "a load",
		doc:  "A kiln load: kiln, furniture, ware, rules, wishes, and where everything stands. Lengths are mm, or inches when units is \"in\", or a text with a unit. Turns and bearings are clockwise; x is right, y to the back.",
		fields: []field[layout.Load]{
			version(),
			at("title", text(longestText), func(l *layout.Load) *string { return &l.Title }, "What the load is called."),
			always("units", units(), func(l *layout.Load) *measure.Units { return &l.Units }, "What a bare length means and how lengths are shown: mm or in."),
			must(`firing = { stage = "glaze", cone = "6" }`,
				at("firing", sub(firingTable()), func(l *layout.Load) *layout.Firing { return &l.Firing }, "What the load is fired to.")),
			must(`[kiln] with chamber = { shape = "round", across = 457, height = 457 }`,
				section("kiln", kilnTable(), func(l *layout.Load) *layout.Kiln { return &l.Kiln }, "The chamber and what reaches into it.")),
			section("furniture", furnitureTable(), func(l *layout.Load) *layout.Furniture { return &l.Furniture }, "What the potter owns to build with."),
			rulesField(),
			section("wishes", wishesTable(), func(l *layout.Load) *layout.Wishes { return &l.Wishes }, "What is asked of a plan."),
			rows("ware", wareTable(), MostRows, func(l *layout.Load) *[]layout.Ware { return &l.Ware }, takeWare, "Rows of alike pots."),
			rows("cones", conesTable(), mostRows, func(l *layout.Load) *[]layout.ConePack { return &l.Cones }, takeCones, "Packs of witness cones and measuring rings that stand among the pots."),
			rows("tower", towerTable(), MostTowers, func(l *layout.Load) *[]layout.Tower { return &l.Towers }, takeTower, "Shelves that stack over the same part of the floor, and what stands on them."),
			rows("accepted", acceptedTable(), mostRows, func(l *layout.Load) *[]layout.Accepted { return &l.Accepted }, nil, "Watches that have been looked at and stand."),
		},
		start: func(l *layout.Load) { l.Units = measure.MM },
		check: checkNames,
	}
}

// version is the first line; migrate has read it.
func version() field[layout.Load] {
	return field[layout.Load]{
		key: "threepost", doc: "The version of the file.", need: "threepost = 1",
		read:  func(*reader, *node, *layout.Load) {},
		write: func(*writer, *layout.Load) string { return strconv.Itoa(layout.FormatVersion) },
		shape: func(*schemas) schema { return schema{"const": layout.FormatVersion} },
	}
}

// units is the choice of units; a file without it is in mm.
func units() codec[measure.Units] {
	c := choice(measure.MM, measure.Inches)
	c.write = func(w *writer, _ measure.Units) string { return quoted(string(w.units)) }
	return c
}

// section is a table with a heading of its own.
func section[T, V any](key string, t table[V], place func(*T) *V, doc string) field[T] {
	return field[T]{
		key: key, doc: doc,
		read: func(r *reader, n *node, v *T) { readTable(r, n, t, place(v)) },
		section: func(w *writer, v *T) {
			body := &writer{units: w.units}
			if writeBody(body, t, place(v)); body.out.Len() > 0 {
				w.heading("["+key+"]", true)
				w.out.Write(body.out.Bytes())
			}
		},
		shape: func(defs *schemas) schema { return tableSchema(defs, t) },
	}
}

// rows is a list of tables with a heading each: [[ware]]. take looks at each
// row after it was read.
func rows[T, V any](key string, t table[V], most int, place func(*T) *[]V, take func(r *reader, n *node, v *V, good bool), doc string) field[T] {
	return field[T]{
		key: key, doc: doc,
		read: func(r *reader, n *node, v *T) {
			if n.kind != arrayKind {
				r.complain(n.at, "%s is %s here; open each row with [[%s]]", key, sayKind(n), key)
				return
			}
			if len(n.items) > most {
				r.complain(n.items[most].at, "this is row %d of %s; at most %d can be read", most+1, key, most)
				return
			}
			for _, item := range n.items {
				var row V
				good := readTable(r, item, t, &row)
				if take != nil && item.kind == tableKind {
					take(r, item, &row, good)
				}
				*place(v) = append(*place(v), row)
			}
		},
		section: func(w *writer, v *T) {
			for i := range *place(v) {
				w.heading("[["+key+"]]", true)
				writeBody(w, t, &(*place(v))[i])
			}
		},
		shape: func(defs *schemas) schema {
			return schema{"type": "array", "maxItems": most, "items": tableSchema(defs, t)}
		},
	}
}

func firingTable() table[layout.Firing] {
	return table[layout.Firing]{
		name: "firing",
		doc:  "The firing.",
		fields: []field[layout.Firing]{
			must(`stage = "glaze"`, at("stage", choice(layout.Bisque, layout.Glaze, layout.Refire, layout.Lustre),
				func(f *layout.Firing) *layout.Stage { return &f.Stage }, "The kind of firing.")),
			at("cone", cone(), func(f *layout.Firing) *measure.Cone { return &f.Cone }, "The cone it is fired to, a name in quotes."),
			at("peak", temperature(), func(f *layout.Firing) *float64 { return &f.Peak }, "The peak temperature, C, when it is not the cone's."),
			at("programme", text(longestText), func(f *layout.Firing) *string { return &f.Programme }, "The controller's programme."),
			at("date", date(false), func(f *layout.Firing) *string { return &f.Date }, "When it is fired, as it is to be printed."),
		},
		check: func(r *reader, n *node, f *layout.Firing) {
			if f.Cone == "" && f.Peak == 0 {
				r.complain(n.at, `firing has no cone; write one like cone = "6"`)
			}
		},
		shape: func(s schema, _ *schemas) {
			s["anyOf"] = []any{schema{"required": []string{"cone"}}, schema{"required": []string{"peak"}}}
		},
	}
}

func conesTable() table[layout.ConePack] {
	return table[layout.ConePack]{
		name: "[[cones]]",
		doc:  "A pack of witness cones, or a measuring ring.",
		fields: []field[layout.ConePack]{
			must(`name = "cones"`, at("name", name(), func(c *layout.ConePack) *string { return &c.Name }, "What it is called; it is set on a level by this name.")),
			at("pack", list(cone(), 12, false), func(c *layout.ConePack) *[]measure.Cone { return &c.Cones }, "Its cones, names in quotes."),
			at("watched", boolean(), func(c *layout.ConePack) *bool { return &c.Watched }, "It must be seen through a spyhole."),
			at("spyhole", count(1, 20), func(c *layout.ConePack) *int { return &c.Spyhole }, "Which spyhole, counted from 1; else whichever sees it."),
			at("length", length(positive), func(c *layout.ConePack) *float64 { return &c.Length }, "Its length; 75 mm when not given."),
			at("width", length(positive), func(c *layout.ConePack) *float64 { return &c.Width }, "Its width; 28 mm when not given."),
			at("height", length(positive), func(c *layout.ConePack) *float64 { return &c.Height }, "To the tips; 70 mm when not given."),
		},
	}
}

func acceptedTable() table[layout.Accepted] {
	return table[layout.Accepted]{
		name: "[[accepted]]",
		doc:  "A watch that stands, and why.",
		fields: []field[layout.Accepted]{
			must(`finding = "..."`, at("finding", text(longestText), func(a *layout.Accepted) *string { return &a.Finding }, "The finding's key.")),
			must(`reason = "..."`, at("reason", text(longestText), func(a *layout.Accepted) *string { return &a.Reason }, "Why it stands.")),
		},
	}
}

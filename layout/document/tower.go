package document

import (
	"strconv"

	"threepost/layout"
)

// floor is how the file names the chamber's floor among supports.
const floor = "floor"

func towerTable() table[layout.Tower] {
	return table[layout.Tower]{
		name: "[[tower]]",
		doc:  "Shelves that stack over the same part of the floor.",
		fields: []field[layout.Tower]{
			must(`name = "left side"`, at("name", name(), func(t *layout.Tower) *string { return &t.Name }, "Its place in the kiln.")),
			at("on", supports(), func(t *layout.Tower) *[]layout.Support { return &t.On }, "What it stands on: \"floor\", or levels of towers above it in the file, like \"base 1\"."),
			at("lines", list(lineAt(), mostLines, false), func(t *layout.Tower) *[]layout.Line { return &t.Lines }, "Where its posts stand over each other: [x, y] or [x, y, turn]."),
			levels(),
		},
	}
}

// levels are the storeys of a tower, under headings of their own.
func levels() field[layout.Tower] {
	f := rows("level", levelTable(), MostLevels, func(t *layout.Tower) *[]layout.Level { return &t.Levels }, nil, "Its storeys from the bottom.")
	f.section = func(w *writer, t *layout.Tower) {
		for i := range t.Levels {
			w.heading("[[tower.level]]", false)
			writeBody(w, levelTable(), &t.Levels[i])
		}
	}
	return f
}

// sayCount is "1 level", "2 levels".
func sayCount(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return strconv.Itoa(n) + " " + what + "s"
}

// supports is what a tower stands on; takeTower looks whether it is there.
func supports() codec[[]layout.Support] {
	c := list(codec[layout.Support]{
		read: func(r *reader, what string, n *node) (layout.Support, bool) {
			if n.kind == textKind && n.text == floor {
				return layout.Support{}, true
			}
			if n.kind == textKind {
				if base, level, ok := numbered(n.text); ok && level >= 1 {
					return layout.Support{Tower: base, Level: level}, true
				}
			}
			r.complain(n.at, `%s is %s; write "floor", or a tower and its level, like "base 1"`, what, sayKind(n))
			return layout.Support{}, false
		},
		write: func(_ *writer, s layout.Support) string {
			if s.Tower == "" {
				return quoted(floor)
			}
			return quoted(s.Tower + " " + strconv.Itoa(s.Level))
		},
		shape: func(*schemas) schema { return schema{"type": "string"} },
	}, MostTowers, false)
	write := c.write
	c.write = func(w *writer, all []layout.Support) string {
		if len(all) == 0 {
			all = []layout.Support{{}}
		}
		return write(w, all)
	}
	c.omit = func([]layout.Support) bool { return false }
	return c
}

// takeTower looks at what a tower stands on and whether its posts match its
// lines.
func takeTower(r *reader, n *node, t *layout.Tower, good bool) {
	if r.names.towers == nil {
		r.names.towers = map[string]int{}
	}
	_, twice := r.names.towers[t.Name]
	switch {
	case t.Name == floor:
		r.complain(nameAt(n), "a tower cannot be called %s; name its place, like \"left side\"", show(floor))
	case twice && t.Name != "":
		r.complain(nameAt(n), "two towers are called %s; give each its own name", show(t.Name))
	}
	if e := n.get("on"); e != nil {
		if e.value.kind == arrayKind && len(e.value.items) == 0 {
			r.complain(e.value.at, `on is empty; write on = ["floor"], or the level it stands on`)
		}
		if len(t.On) == len(e.value.items) {
			for i, s := range t.On {
				checkSupport(r, e.value.items[i], t.Name, s)
			}
		}
	} else {
		t.On = []layout.Support{{}}
	}
	if !twice {
		r.names.towers[t.Name] = len(t.Levels)
	}
	if !good {
		return
	}
	for i := range t.Levels {
		level := n.get("level").value.items[i]
		if p := len(t.Levels[i].Posts); p > 1 && p != len(t.Lines) {
			r.complain(level.get("posts").value.at, "posts has %d make-ups and the tower %d lines; write one per line, or one for all", p, len(t.Lines))
		}
		if len(t.Levels[i].Posts) == 0 {
			r.complain(level.get("posts").value.at, `posts is empty; write one make-up for all, like "150 + 5"`)
		}
		if len(t.Levels[i].Shelves) == 0 {
			r.complain(level.get("shelves").value.at, "shelves is empty; a level has at least one shelf")
		}
	}
	if len(t.Levels) > 0 && len(t.Lines) == 0 {
		r.complain(n.at, "tower %s has levels and no lines; write where its posts stand, like lines = [[-100, 0], [60, 90], [60, -90]]", show(t.Name))
	}
}

// checkSupport complains of a tower that stands on itself, on a later one or
// on none. Every tower stands on the floor or on towers before it, so there
// can be no ring.
func checkSupport(r *reader, n *node, tower string, s layout.Support) {
	if s.Tower == "" {
		return
	}
	if s.Tower == tower {
		r.complain(n.at, "tower %s stands on itself; write \"floor\" or a level of another tower", show(tower))
		return
	}
	have, found := r.names.towers[s.Tower]
	switch {
	case found && s.Level > have:
		r.complain(n.at, "tower %s has %s, so nothing stands on level %d of it", show(s.Tower), sayCount(have, "level"), s.Level)
	case found:
	case later(r, s.Tower):
		r.complain(n.at, "tower %s comes later in the file; put it before what stands on it", show(s.Tower))
	default:
		r.complain(n.at, "there is no tower %s; write \"floor\", or a tower and its level, like \"base 1\"", show(s.Tower))
	}
}

// later tells whether the file has a tower of that name at all.
func later(r *reader, name string) bool {
	e := r.root.get("tower")
	if e == nil {
		return false
	}
	for _, n := range e.value.items {
		if k := n.get("name"); k != nil && k.value.kind == textKind && k.value.text == name {
			return true
		}
	}
	return false
}

package document

import (
	"strconv"
	"strings"

	"threepost/geometry/plane"
	"threepost/layout"
	"threepost/layout/measure"
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

func levelTable() table[layout.Level] {
	return table[layout.Level]{
		name: "[[tower.level]]",
		doc:  "One storey: posts, the shelves on them, and what stands there.",
		fields: []field[layout.Level]{
			must(`shelves = [{ kind = "full" }]`, at("shelves", list(subAny(shelfAtTable()), 20, false), func(v *layout.Level) *[]layout.ShelfAt { return &v.Shelves }, "Its shelves.")),
			must(`posts = "150 + 5"`, at("posts", posts(), func(v *layout.Level) *[]layout.MakeUp { return &v.Posts }, "The posts under its shelves: one make-up for all, or one per line.")),
			at("locked", boolean(), func(v *layout.Level) *bool { return &v.Locked }, "A plan leaves it alone."),
			at("standing", boolean(), func(v *layout.Level) *bool { return &v.Standing }, "It is in the kiln already."),
			setField(),
			lockedPots(),
		},
	}
}

func shelfAtTable() table[layout.ShelfAt] {
	return table[layout.ShelfAt]{
		name: "a shelf of a level",
		doc:  "A shelf and where it lies.",
		fields: []field[layout.ShelfAt]{
			must(`kind = "full"`, at("kind", name(), func(s *layout.ShelfAt) *string { return &s.Kind }, "The name of a shelf of the furniture.")),
			at("at", point(), func(s *layout.ShelfAt) *plane.Vec { return &s.At }, "Where its middle lies, or the middle of its sawn edge: [x, y]."),
			at("turn", angle(), func(s *layout.ShelfAt) *float64 { return &s.Turn }, "Its turn, degrees clockwise."),
		},
		check: func(r *reader, n *node, s *layout.ShelfAt) {
			if r.load.Furniture.Shelf(s.Kind) == nil && !r.unread("shelves", len(r.load.Furniture.Shelves)) {
				known := make([]string, len(r.load.Furniture.Shelves))
				for i, k := range r.load.Furniture.Shelves {
					known[i] = k.Name
				}
				r.complain(n.get("kind").value.at, "%s", sayUnknown(s.Kind, "shelf of the furniture", known))
			}
		},
	}
}

// unread tells whether a list of the furniture stands in the file but could
// not be read, so that what refers to it is let pass.
func (r *reader) unread(key string, have int) bool {
	if have > 0 {
		return false
	}
	if r.misspelt("furniture") {
		return true
	}
	f := r.root.get("furniture")
	return f != nil && f.value.kind == tableKind && f.value.get(key) != nil
}

// misspelt tells whether a part of the file is missing and an unknown key
// means it, so that what refers to it is let pass.
func (r *reader) misspelt(part string) bool {
	if r.root.get(part) != nil {
		return false
	}
	t := loadTable()
	for _, e := range r.root.keys {
		if near, ok := Nearest(e.key, t.keysOf()); ok && near == part && !t.has(e.key) {
			return true
		}
	}
	return false
}

// sayCount is "1 level", "2 levels".
func sayCount(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return strconv.Itoa(n) + " " + what + "s"
}

// coordinates reads [x, y] or [x, y, turn].
func (r *reader) coordinates(what, form string, n *node, least, most int) (at plane.Vec, turn float64, ok bool) {
	if n.kind != arrayKind || len(n.items) < least || len(n.items) > most {
		r.complain(n.at, "%s: write where it stands as %s", what, form)
		return at, 0, false
	}
	ok = true
	l := length(anySign)
	for i := range at {
		v, good := l.read(r, [2]string{"x of ", "y of "}[i]+what, n.items[i])
		at[i], ok = v, ok && good
	}
	if len(n.items) > 2 {
		v, good := angle().read(r, "turn of "+what, n.items[2])
		turn, ok = v, ok && good
	}
	return at, turn, ok
}

// point is [x, y]; the middle of the kiln is not written.
func point() codec[plane.Vec] {
	return codec[plane.Vec]{
		read: func(r *reader, what string, n *node) (plane.Vec, bool) {
			at, _, ok := r.coordinates(what, "[x, y]", n, 2, 2)
			return at, ok
		},
		write: func(w *writer, v plane.Vec) string { return "[" + w.length(v[0]) + ", " + w.length(v[1]) + "]" },
		omit:  func(v plane.Vec) bool { return v == plane.Vec{} },
		shape: func(defs *schemas) schema {
			return schema{"type": "array", "items": defs.measure("length", anySign), "minItems": 2, "maxItems": 2}
		},
	}
}

// lineAt is [x, y] or [x, y, turn].
func lineAt() codec[layout.Line] {
	return codec[layout.Line]{
		read: func(r *reader, _ string, n *node) (layout.Line, bool) {
			at, turn, ok := r.coordinates("a line", "[x, y] or [x, y, turn]", n, 2, 3)
			return layout.Line{At: at, Turn: turn}, ok
		},
		write: func(w *writer, v layout.Line) string {
			text := "[" + w.length(v.At[0]) + ", " + w.length(v.At[1])
			if v.Turn != 0 {
				text += ", " + figure(v.Turn)
			}
			return text + "]"
		},
		shape: func(defs *schemas) schema { return defs.place() },
	}
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

// posts is "150 + 5", or a list with one make-up per line.
func posts() codec[[]layout.MakeUp] {
	several := list(makeUp(), mostLines, false)
	return codec[[]layout.MakeUp]{
		read: func(r *reader, what string, n *node) ([]layout.MakeUp, bool) {
			if n.kind == arrayKind {
				return several.read(r, what, n)
			}
			one, ok := makeUp().read(r, what, n)
			return []layout.MakeUp{one}, ok
		},
		write: func(w *writer, all []layout.MakeUp) string {
			if len(all) == 1 {
				return makeUp().write(w, all[0])
			}
			return several.write(w, all)
		},
		omit: func(all []layout.MakeUp) bool { return len(all) == 0 },
		shape: func(defs *schemas) schema {
			return schema{"anyOf": []any{makeUp().shape(defs), several.shape(defs)}}
		},
	}
}

// makeUp is the pieces of a post from the bottom up.
func makeUp() codec[layout.MakeUp] {
	return codec[layout.MakeUp]{
		read: func(r *reader, what string, n *node) (layout.MakeUp, bool) {
			if n.kind == integerKind || n.kind == floatKind {
				mm, ok := length(positive).read(r, what, n)
				piece := layout.Piece{Height: mm}
				return layout.MakeUp{piece}, ok && r.owned(what, n, piece)
			}
			if n.kind != textKind {
				r.complain(n.at, `%s is %s here; write the pieces from the bottom up, like "150 + 5"`, what, sayKind(n))
				return nil, false
			}
			parts := strings.Split(n.text, "+")
			if len(parts) > 20 {
				r.complain(n.at, "%s has %d pieces in one post; at most 20 can be read", what, len(parts))
				return nil, false
			}
			var m layout.MakeUp
			for _, part := range parts {
				piece, err := r.piece(part)
				if err != nil {
					r.complain(n.at, `%s is %s: %s; write the pieces from the bottom up, like "150 + 5"`, what, show(n.text), err)
					return nil, false
				}
				if !r.owned(what, n, piece) {
					return nil, false
				}
				m = append(m, piece)
			}
			return m, true
		},
		write: func(w *writer, m layout.MakeUp) string {
			texts := make([]string, len(m))
			for i, p := range m {
				texts[i] = w.lengthText(p.Height)
				if p.Name != "" {
					texts[i] += " (" + p.Name + ")"
				}
			}
			return quoted(strings.Join(texts, " + "))
		},
		shape: func(defs *schemas) schema {
			return schema{"anyOf": []any{schema{"type": "string", "minLength": 1}, numberSchema(positive)}}
		},
	}
}

// piece reads "150" or "150 (short)".
func (r *reader) piece(text string) (layout.Piece, error) {
	text = strings.TrimSpace(text)
	name := ""
	if open := strings.IndexByte(text, '('); open >= 0 && strings.HasSuffix(text, ")") {
		name = strings.TrimSpace(text[open+1 : len(text)-1])
		text = text[:open]
	}
	mm, err := measure.ParsePositive(text, r.units)
	return layout.Piece{Height: mm, Name: name}, err
}

// owned complains of a piece that no row of the furniture describes.
func (r *reader) owned(what string, n *node, p layout.Piece) bool {
	f := &r.load.Furniture
	if f.Post(p) != nil || r.unread("posts", len(f.Posts)) {
		return true
	}
	var heights []string
	for _, k := range f.Posts {
		heights = append(heights, sayHeight(r.units, k.Height)+bracketed(k.Name))
	}
	have := "the furniture has no posts"
	if len(heights) > 0 {
		have = "the furniture has " + strings.Join(heights, ", ")
	}
	r.complain(n.at, "%s: there is no post of %s%s; %s", what, sayHeight(r.units, p.Height), bracketed(p.Name), have)
	return false
}

func bracketed(name string) string {
	if name == "" {
		return ""
	}
	return " (" + name + ")"
}

// setField is the table of what stands on a level.
func setField() field[layout.Level] {
	return field[layout.Level]{
		key: "set", doc: "What stands there: pot = [x, y, turn].",
		read: func(r *reader, n *node, v *layout.Level) {
			if n.kind != tableKind {
				r.complain(n.at, `set is %s here; write [tower.level.set] and a line like "mug 1" = [-205, 34.5, 110] for each pot`, sayKind(n))
				return
			}
			if len(n.keys) > MostPots {
				r.complain(n.at, "set has %d pots; at most %d can be planned", len(n.keys), MostPots)
				return
			}
			if r.names.set == nil {
				r.names.set = map[layout.Pot]int{}
			}
			for _, e := range n.keys {
				pot, ok := r.pot(e.key, e.at)
				at, turn, good := r.coordinates(show(e.key), "[x, y, turn]", e.value, 2, 3)
				if !ok || !good {
					continue
				}
				if first, twice := r.names.set[pot]; twice {
					line, _ := r.place(first)
					r.complain(e.at, "%s is set twice; the first is on line %d", show(pot.String()), line)
					continue
				}
				r.names.set[pot] = e.at
				v.Set = append(v.Set, layout.Placement{Pot: pot, At: at, Turn: turn})
			}
		},
		section: func(w *writer, v *layout.Level) {
			if len(v.Set) == 0 {
				return
			}
			w.heading("[tower.level.set]", false)
			for _, p := range v.Set {
				w.line(bareKey(p.Pot.String()) + " = [" + w.length(p.At[0]) + ", " + w.length(p.At[1]) + ", " + figure(p.Turn) + "]")
			}
		},
		shape: func(defs *schemas) schema {
			return schema{"type": "object", "additionalProperties": defs.place()}
		},
	}
}

// lockedPots names the pots of the level that stay where they are. It is read
// after the set.
func lockedPots() field[layout.Level] {
	words := list(name(), MostPots, false)
	return field[layout.Level]{
		key: "locked_pots", doc: "Pots of this level that a plan leaves where they are.",
		read: func(r *reader, n *node, v *layout.Level) {
			all, ok := words.read(r, "locked_pots", n)
			if !ok {
				return
			}
			place := make(map[layout.Pot]int, len(v.Set))
			for i := range v.Set {
				place[v.Set[i].Pot] = i
			}
			for i, word := range all {
				pot, ok := r.pot(word, n.items[i].at)
				if !ok {
					continue
				}
				if j, here := place[pot]; here {
					v.Set[j].Locked = true
				} else if _, doubt := r.names.doubtful[pot.Ware]; !doubt {
					r.complain(n.items[i].at, "locked_pots: %s does not stand on this level", show(word))
				}
			}
		},
		write: func(w *writer, v *layout.Level) string {
			var all []string
			for _, p := range v.Set {
				if p.Locked {
					all = append(all, p.Pot.String())
				}
			}
			if len(all) == 0 {
				return ""
			}
			return words.write(w, all)
		},
		shape: words.shape,
	}
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

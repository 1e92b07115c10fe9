package document

import (
	"threepost/geometry/plane"
	"threepost/layout"
)

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

package document

import (
	"strconv"

	"threepost/layout"
)

func wishesTable() table[layout.Wishes] {
	return table[layout.Wishes]{
		name: "[wishes]",
		doc:  "What is asked of a plan.",
		fields: []field[layout.Wishes]{
			at("tall", choice(layout.TallLow, layout.TallHigh, layout.TallAlternate), func(v *layout.Wishes) *layout.TallWare { return &v.Tall }, "Where tall ware goes when there is a choice; alternate: tall and short levels take turns."),
			at("inset", length(notNegative), func(v *layout.Wishes) *float64 { return &v.Inset }, "Shelf's edge to the middle of a post."),
			at("room_above", length(notNegative), func(v *layout.Wishes) *float64 { return &v.RoomAbove }, "Least room under each shelf."),
			at("leave_out", list(name(), MostRows, false), func(v *layout.Wishes) *[]string { return &v.LeaveOut }, "Ware rows that stay on the table."),
			at("towers", choice(layout.OneTower, layout.HalfTowers), func(v *layout.Wishes) *layout.TowerChoice { return &v.Towers }, "How the kiln may be divided."),
			at("stagger", boolean(), func(v *layout.Wishes) *bool { return &v.Stagger }, "Shelves of towers side by side lie at different heights."),
			at("together", list(text(longestName), MostRows, false), func(v *layout.Wishes) *[]string { return &v.Together }, "Owners whose pots stand on one level, or on as few as hold them."),
			at("apart", list(text(longestName), MostRows, false), func(v *layout.Wishes) *[]string { return &v.Apart }, "Owners whose pots share no level with anyone else's."),
			at("off", list(subAny(offTable()), MostRows, false), func(v *layout.Wishes) *[]layout.OffLevel { return &v.Off }, "Levels that a row of ware keeps off."),
		},
	}
}

func offTable() table[layout.OffLevel] {
	return table[layout.OffLevel]{
		name: "off",
		doc:  "A level that a row of ware keeps off.",
		fields: []field[layout.OffLevel]{
			must(`ware = "mug"`, at("ware", name(), func(v *layout.OffLevel) *string { return &v.Ware }, "The row of ware.")),
			must(`level = "bottom"`, at("level", levelRef(), func(v *layout.OffLevel) *layout.LevelRef { return &v.Level }, `"bottom", "top", or a number counted up from the floor.`)),
		},
	}
}

// levelRef is a level by its place: "bottom", "top" or 2.
func levelRef() codec[layout.LevelRef] {
	return codec[layout.LevelRef]{
		read: func(r *reader, what string, n *node) (layout.LevelRef, bool) {
			ref := layout.LevelRef(n.text)
			if n.kind != textKind && n.kind != integerKind || !ref.Known() {
				r.complain(n.at, `%s is %s; write "bottom", "top", or a level counted up from the floor, like 2`, what, sayKind(n))
				return "", false
			}
			return ref, true
		},
		write: func(_ *writer, v layout.LevelRef) string {
			if n := v.Number(); n > 0 {
				return strconv.Itoa(n)
			}
			return quoted(string(v))
		},
		omit: func(v layout.LevelRef) bool { return v == "" },
		shape: func(*schemas) schema {
			return schema{"oneOf": []any{
				schema{"enum": []string{string(layout.BottomLevel), string(layout.TopLevel)}},
				schema{"type": "integer", "minimum": 1, "maximum": 64},
				schema{"type": "string", "pattern": "^([1-9]|[1-5][0-9]|6[0-4])$"},
			}}
		},
	}
}

// checkWishes complains of wishes for rows and owners that the list of ware
// does not have.
func checkWishes(r *reader, n *node, l *layout.Load) {
	if n.get("wishes") == nil {
		return
	}
	w := n.get("wishes").value
	owners, known := map[string]bool{}, []string{}
	for i := range l.Ware {
		if o := l.Ware[i].Owner; o != "" && !owners[o] {
			owners[o] = true
			known = append(known, o)
		}
	}
	for i, row := range l.Wishes.LeaveOut {
		if _, ok := r.names.ware[row]; !ok {
			r.complain(w.get("leave_out").value.items[i].at, "leave_out: %s", sayUnknown(row, "row of ware", wareNames(l)))
		}
	}
	for i, o := range l.Wishes.Off {
		if _, ok := r.names.ware[o.Ware]; !ok {
			r.complain(w.get("off").value.items[i].at, "off: %s", sayUnknown(o.Ware, "row of ware", wareNames(l)))
		}
	}
	for _, part := range []struct {
		key  string
		list []string
	}{{"together", l.Wishes.Together}, {"apart", l.Wishes.Apart}} {
		for i, o := range part.list {
			if !owners[o] {
				r.complain(w.get(part.key).value.items[i].at, "%s: %s", part.key, sayUnknown(o, "known owner", known))
			}
		}
	}
}

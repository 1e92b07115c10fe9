package document

import (
	"threepost/geometry/plane"
	"threepost/layout"
)

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

package document

import (
	"strings"

	"threepost/layout"
)

// measuresOf lists the keys that a shape needs, and the ones it may have.
func measuresOf(k layout.ShapeKind) (need, may []string) {
	switch k {
	case layout.Round:
		return []string{"across"}, nil
	case layout.HalfRound:
		return []string{"across", "depth"}, nil
	case layout.Sided:
		return []string{"sides", "across_flats"}, []string{"flat_at"}
	case layout.HalfSided:
		return []string{"sides", "across_flats", "depth"}, nil
	case layout.Oval, layout.HalfOval:
		return []string{"width", "depth"}, nil
	}
	return []string{"width", "depth"}, []string{"corner"}
}

// shapeKeys are the keys of measures of any shape.
func shapeKeys() []string {
	return []string{"sides", "across", "across_flats", "width", "depth", "corner", "flat_at"}
}

// shapeFields are the keys of a plan shape inside a table.
func shapeFields[T any](place func(*T) *layout.Shape) []field[T] {
	kinds := choice(layout.Round, layout.HalfRound, layout.Sided, layout.HalfSided, layout.Oval, layout.HalfOval, layout.Rectangle)
	kinds.omit = func(k layout.ShapeKind) bool { return k == layout.Sided || k == "" }
	of := func(key string, c codec[float64], get func(*layout.Shape) *float64, doc string) field[T] {
		f := at(key, c, func(v *T) *float64 { return get(place(v)) }, doc)
		write := f.write
		f.write = func(w *writer, v *T) string {
			if !hasMeasure(place(v).Kind, key) {
				return ""
			}
			return write(w, v)
		}
		return f
	}
	sides := at("sides", count(3, 64), func(v *T) *int { return &place(v).Sides }, "How many sides; sides alone make the shape \"sided\".")
	writeSides := sides.write
	sides.write = func(w *writer, v *T) string {
		if !hasMeasure(place(v).Kind, "sides") {
			return ""
		}
		return writeSides(w, v)
	}
	return []field[T]{
		at("shape", kinds, func(v *T) *layout.ShapeKind { return &place(v).Kind }, "The plan shape. Half shapes are sawn; their sawn edge lies along x, their body toward y."),
		sides,
		of("across", length(positive), func(s *layout.Shape) *float64 { return &s.Across }, "Diameter of a round, or of the round a half round is sawn from."),
		of("across_flats", length(positive), func(s *layout.Shape) *float64 { return &s.Across }, "Across the flats of a sided shape."),
		of("width", length(positive), func(s *layout.Shape) *float64 { return &s.Width }, "Along x."),
		of("depth", length(positive), func(s *layout.Shape) *float64 { return &s.Depth }, "Along y."),
		of("corner", length(notNegative), func(s *layout.Shape) *float64 { return &s.Corner }, "Radius of a rectangle's corners."),
		of("flat_at", bearing(), func(s *layout.Shape) *float64 { return &s.FlatAt }, "Bearing of a flat."),
	}
}

// hasMeasure tells whether a shape has a measure of that key.
func hasMeasure(k layout.ShapeKind, key string) bool {
	need, may := measuresOf(k)
	for _, list := range [][]string{need, may} {
		for _, m := range list {
			if m == key {
				return true
			}
		}
	}
	return false
}

// checkShape finds which shape is meant, and complains of measures that are
// missing, too many, or make no shape.
func checkShape(r *reader, n *node, what string, s *layout.Shape) {
	if s.Kind == "" {
		switch {
		case n.get("sides") != nil:
			s.Kind = layout.Sided
		case n.get("across") != nil:
			s.Kind = layout.Round
		case n.get("width") != nil:
			s.Kind = layout.Rectangle
		default:
			r.complain(n.at, `%s has no shape; write one like shape = "round", across = 410`, what)
			return
		}
	}
	need, _ := measuresOf(s.Kind)
	good := true
	for _, key := range need {
		if n.get(key) == nil {
			r.complain(n.at, "%s has no %s; the shape %s has %s", what, key, show(string(s.Kind)), strings.Join(need, " and "))
			good = false
		}
	}
	for _, key := range shapeKeys() {
		if e := n.get(key); e != nil && !hasMeasure(s.Kind, key) {
			r.complain(e.at, "%s is no measure of the shape %s, which has %s", key, show(string(s.Kind)), strings.Join(need, " and "))
			good = false
		}
	}
	if !good {
		return
	}
	if _, err := s.Outline(); err != nil {
		r.complain(n.at, "%s: %s", what, err)
	}
}

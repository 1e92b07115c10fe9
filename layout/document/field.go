package document

import "strings"

// A table of the file is described once, by its fields in canonical order; the
// description reads, writes and explains it. What can be read can so be
// written, and the schema says what both do.

// table describes a table of the file whose values go into a T.
type table[T any] struct {
	name   string // as sentences call it: "[[ware]]", "a shelf"
	doc    string
	fields []field[T]
	start  func(v *T)                     // sets defaults that are not zero
	check  func(r *reader, n *node, v *T) // what no field can see alone
	shape  func(s schema, defs *schemas)  // what the schema says beyond the fields
}

// field is one key of a table.
type field[T any] struct {
	key  string
	doc  string
	need string // an example when the key must be given, else empty
	// read puts the value into v; what is wrong with it, it complains of.
	read func(r *reader, n *node, v *T)
	// write is the value as TOML, or empty when v has the default.
	write func(w *writer, v *T) string
	// section writes what follows under headings of its own; such a field has
	// no write.
	section func(w *writer, v *T)
	shape   func(defs *schemas) schema
}

// codec reads, writes and explains one sort of value.
type codec[V any] struct {
	read  func(r *reader, what string, n *node) (V, bool)
	write func(w *writer, v V) string
	omit  func(v V) bool // the default, which is not written
	shape func(defs *schemas) schema
}

// at is the field of a key whose value stands in a place of T.
func at[T, V any](key string, c codec[V], place func(*T) *V, doc string) field[T] {
	return field[T]{
		key: key, doc: doc,
		read: func(r *reader, n *node, v *T) {
			if got, ok := c.read(r, key, n); ok {
				*place(v) = got
			}
		},
		write: func(w *writer, v *T) string {
			if got := *place(v); !c.omit(got) {
				return c.write(w, got)
			}
			return ""
		},
		shape: c.shape,
	}
}

// must makes a field one that has to be given, and says how.
func must[T any](example string, f field[T]) field[T] {
	f.need = example
	return f
}

// always makes a field one that is written even when it has its default.
func always[T, V any](key string, c codec[V], place func(*T) *V, doc string) field[T] {
	c.omit = func(V) bool { return false }
	return at(key, c, place, doc)
}

// keysOf lists the keys of a table in canonical order.
func (t table[T]) keysOf() []string {
	keys := make([]string, len(t.fields))
	for i := range t.fields {
		keys[i] = t.fields[i].key
	}
	return keys
}

// mostUnknown is how many complaints there may be before unknown keys are no
// longer looked at.
const mostUnknown = 1000

// readTable reads a table of the file into v.
func readTable[T any](r *reader, n *node, t table[T], v *T) bool {
	if n.kind != tableKind {
		r.complain(n.at, "%s is %s here; write it as { %s = ... }", t.name, sayKind(n), t.fields[0].key)
		return false
	}
	if t.start != nil {
		t.start(v)
	}
	before := len(r.found)
	for i := range t.fields {
		f := &t.fields[i]
		if e := n.get(f.key); e != nil {
			f.read(r, e.value, v)
		} else if f.need != "" {
			r.complain(n.at, "%s has no %s; write one like %s", t.name, f.key, f.need)
		}
	}
	for _, e := range n.keys {
		if len(r.found) > mostUnknown {
			break // another kind of file; what is told of it is enough
		}
		if !t.has(e.key) {
			r.complain(e.at, "%s", sayUnknown(e.key, "key of "+t.name, t.keysOf()))
		}
	}
	if t.check != nil && len(r.found) == before {
		t.check(r, n, v)
	}
	return len(r.found) == before
}

// has tells whether the table knows a key.
func (t table[T]) has(key string) bool {
	for i := range t.fields {
		if t.fields[i].key == key {
			return true
		}
	}
	return false
}

// sayUnknown says that a word is not known and which one is meant, or which
// there are.
func sayUnknown(word, what string, known []string) string {
	if near, ok := Nearest(word, known); ok {
		return show(word) + " is not a " + what + "; the nearest is " + show(near)
	}
	shown := make([]string, 0, len(known))
	for i, k := range known {
		if i == 12 && len(known) > 14 {
			shown = append(shown, "...")
			break
		}
		shown = append(shown, show(k))
	}
	if len(shown) == 0 {
		return show(word) + " is not a " + what + "; there is none"
	}
	return show(word) + " is not a " + what + "; there is " + strings.Join(shown, ", ")
}

// sayKind says what a value is.
func sayKind(n *node) string {
	switch n.kind {
	case tableKind:
		return "a table"
	case arrayKind:
		return "a list"
	case textKind:
		return "the text " + show(n.text)
	case boolKind:
		return n.text
	case dateKind:
		return "the date " + n.text
	}
	return "the number " + short(n.text)
}

// writeInline is a table on one line: { key = value, ... }.
func writeInline[T any](w *writer, t table[T], v *T) string {
	var parts []string
	for i := range t.fields {
		f := &t.fields[i]
		if f.write == nil {
			continue
		}
		if text := f.write(w, v); text != "" {
			parts = append(parts, bareKey(f.key)+" = "+text)
		}
	}
	if len(parts) == 0 {
		return "{}"
	}
	return "{ " + strings.Join(parts, ", ") + " }"
}

// writeBody writes a table's key = value lines, then its sections.
func writeBody[T any](w *writer, t table[T], v *T) {
	for i := range t.fields {
		if f := &t.fields[i]; f.write != nil {
			if text := f.write(w, v); text != "" {
				w.line(bareKey(f.key) + " = " + text)
			}
		}
	}
	for i := range t.fields {
		if f := &t.fields[i]; f.section != nil {
			f.section(w, v)
		}
	}
}

// sub is a table inside a table, on one line; an empty one is not written.
func sub[V comparable](t table[V]) codec[V] {
	c := subAny(t)
	c.omit = func(v V) bool { var zero V; return v == zero }
	return c
}

// subAny is sub for values that cannot be compared; they are always written.
func subAny[V any](t table[V]) codec[V] {
	return codec[V]{
		read: func(r *reader, _ string, n *node) (V, bool) {
			var v V
			ok := readTable(r, n, t, &v)
			return v, ok
		},
		write: func(w *writer, v V) string { return writeInline(w, t, &v) },
		omit:  func(V) bool { return false },
		shape: func(defs *schemas) schema { return tableSchema(defs, t) },
	}
}

// list is a list of values, at most so many.
func list[V any](c codec[V], most int, spread bool) codec[[]V] {
	return codec[[]V]{
		read: func(r *reader, what string, n *node) ([]V, bool) {
			if n.kind != arrayKind {
				r.complain(n.at, "%s is %s here; write a list: [...]", what, sayKind(n))
				return nil, false
			}
			if len(n.items) > most {
				r.complain(n.at, "%s has %d entries; at most %d can be read", what, len(n.items), most)
				return nil, false
			}
			var all []V
			good := true
			for _, item := range n.items {
				v, ok := c.read(r, what, item)
				all, good = append(all, v), good && ok
			}
			return all, good
		},
		write: func(w *writer, all []V) string {
			texts := make([]string, len(all))
			for i, v := range all {
				texts[i] = c.write(w, v)
			}
			if spread {
				return "[\n  " + strings.Join(texts, ",\n  ") + ",\n]"
			}
			return "[" + strings.Join(texts, ", ") + "]"
		},
		omit: func(all []V) bool { return len(all) == 0 },
		shape: func(defs *schemas) schema {
			return schema{"type": "array", "items": c.shape(defs), "maxItems": most}
		},
	}
}

// optional is a value that may be absent, which is not the same as zero.
func optional[V any](c codec[V]) codec[*V] {
	return codec[*V]{
		read: func(r *reader, what string, n *node) (*V, bool) {
			v, ok := c.read(r, what, n)
			return &v, ok
		},
		write: func(w *writer, v *V) string { return c.write(w, *v) },
		omit:  func(v *V) bool { return v == nil },
		shape: c.shape,
	}
}

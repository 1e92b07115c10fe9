package document

import (
	"errors"
	"sort"
	"strings"
	"unicode/utf8"

	"github.com/pelletier/go-toml/v2/unstable"
)

// kind is what a value of the file is.
type kind int

const (
	tableKind kind = iota
	arrayKind
	textKind
	integerKind
	floatKind
	boolKind
	dateKind
)

// making is how a table came to be, which decides what may be added to it.
type making int

const (
	byHeader  making = iota // [kiln]
	byPassing               // the kiln of [kiln.chamber], which may still get its own header
	byDots                  // the firing of firing.stage = "glaze"
	inline                  // { ... } or [ ... ]: complete as it stands
)

// node is a value of the file with its place.
type node struct {
	kind  kind
	made  making
	at    int // byte offset of its first character
	end   int // byte offset after its last
	text  string
	keys  []entry
	index map[string]int // of keys, once there are many
	items []*node
}

// entry is a key of a table with its value.
type entry struct {
	key   string
	at    int // byte offset of the key
	value *node
}

// manyKeys is from where on a table's keys are looked up in a map.
const manyKeys = 48

// add appends a key, which the table does not have yet.
func (n *node) add(e entry) {
	n.keys = append(n.keys, e)
	switch {
	case n.index != nil:
		n.index[e.key] = len(n.keys) - 1
	case len(n.keys) == manyKeys:
		n.index = make(map[string]int, 2*manyKeys)
		for i := range n.keys {
			n.index[n.keys[i].key] = i
		}
	}
}

// get is the entry of a key, or nil.
func (n *node) get(key string) *entry {
	if n.index != nil {
		if i, ok := n.index[key]; ok {
			return &n.keys[i]
		}
		return nil
	}
	for i := range n.keys {
		if n.keys[i].key == key {
			return &n.keys[i]
		}
	}
	return nil
}

// comment is a comment of the file.
type comment struct {
	at   int
	text string
	own  bool // nothing but space stands before it on its line
}

// tree is a file as values with places, and its comments.
type tree struct {
	file     string
	data     []byte
	lines    []int // byte offset where each line starts
	root     *node
	comments []comment
	broken   bool // the rest of the file could not be read
	found    Complaints
}

// plant reads a file's syntax. What it finds wrong is in tree.found.
func plant(file string, data []byte) *tree {
	t := &tree{file: file, root: &node{kind: tableKind}, lines: []int{0}}
	t.data = make([]byte, len(data))
	copy(t.data, data)
	if strings.HasPrefix(string(t.data), "\ufeff") {
		t.data = t.data[len("\ufeff"):]
		t.data = append(make([]byte, 0, len(t.data)), t.data...)
	}
	for i, c := range t.data {
		if c == '\n' {
			t.lines = append(t.lines, i+1)
		}
	}
	t.root.end = len(t.data)
	p := unstable.Parser{}
	p.Reset(t.data)
	g := grower{tree: t, here: t.root}
	for p.NextExpression() {
		e := p.Expression()
		g.skip("")
		if e.Kind == unstable.KeyValue {
			g.keyValue(e, g.here)
			continue
		}
		g.header(e)
	}
	if err := p.Error(); err != nil {
		t.broken = true
		at := len(t.data)
		var parse *unstable.ParserError
		if errors.As(err, &parse) {
			at = int(p.Range(parse.Highlight).Offset)
		}
		t.complain(at, "%s", saySyntax(err.Error()))
		return t
	}
	g.skip("")
	return t
}

// place is the line and the column, in characters, of a byte offset.
func (t *tree) place(at int) (line, column int) {
	at = max(0, min(at, len(t.data)))
	line = sort.Search(len(t.lines), func(i int) bool { return t.lines[i] > at })
	return line, utf8.RuneCount(t.data[t.lines[line-1]:at]) + 1
}

// grower builds the tree behind the parser.
type grower struct {
	*tree
	here   *node // the table that key = value lines add to
	cursor int
}

// skip passes over space, line ends and comments, which it keeps, and over
// the given marks.
func (g *grower) skip(marks string) {
	for g.cursor < len(g.data) {
		c := g.data[g.cursor]
		switch {
		case c == '#':
			g.comment()
		case c == ' ' || c == '\t' || c == '\n' || c == '\r' || strings.IndexByte(marks, c) >= 0:
			g.cursor++
		default:
			return
		}
	}
}

// comment keeps the comment at the cursor and passes over it.
func (g *grower) comment() {
	start := g.cursor
	for g.cursor < len(g.data) && g.data[g.cursor] != '\n' {
		g.cursor++
	}
	line, _ := g.place(start)
	before := string(g.data[g.lines[line-1]:start])
	g.comments = append(g.comments, comment{
		at: start, text: strings.TrimRight(string(g.data[start:g.cursor]), " \t\r"),
		own: strings.TrimSpace(before) == "",
	})
}

// header opens the table of a [header] or [[header]].
func (g *grower) header(e *unstable.Node) {
	start := g.cursor
	table, twice := g.root, ""
	it := e.Key()
	for it.Next() {
		k := it.Node()
		key, at := string(k.Data), int(k.Raw.Offset)
		g.cursor = at + int(k.Raw.Length)
		if k.Next() == nil {
			table, twice = g.open(table, key, at, e.Kind == unstable.ArrayTable)
		} else {
			table, twice = g.pass(table, key, at)
		}
		if twice != "" {
			g.complain(at, "%s", twice)
			table = &node{kind: tableKind, at: start} // what follows goes nowhere
			break
		}
	}
	for g.cursor < len(g.data) && g.data[g.cursor] != '\n' && g.data[g.cursor] != '#' {
		g.cursor++
	}
	for g.cursor > start && strings.IndexByte(" \t\r", g.data[g.cursor-1]) >= 0 {
		g.cursor--
	}
	if table.at == 0 || table.made != byPassing {
		table.at = start
	}
	table.end = g.cursor
	g.here = table
}

// pass goes through a table on the way to another, and makes it when there is
// none yet.
func (g *grower) pass(table *node, key string, at int) (*node, string) {
	e := table.get(key)
	if e == nil {
		next := &node{kind: tableKind, made: byPassing, at: at, end: at + len(key)}
		table.add(entry{key, at, next})
		return next, ""
	}
	n := e.value
	if n.kind == arrayKind && n.made != inline && len(n.items) > 0 {
		n = n.items[len(n.items)-1]
	}
	if n.kind != tableKind || n.made == inline {
		return nil, g.sayTwice(key, e.at)
	}
	return n, ""
}

// open makes the table that a header names.
func (g *grower) open(table *node, key string, at int, row bool) (*node, string) {
	next := &node{kind: tableKind, made: byHeader}
	e := table.get(key)
	switch {
	case e == nil && row:
		rows := &node{kind: arrayKind, made: byHeader, at: at, items: []*node{next}}
		table.add(entry{key, at, rows})
	case e == nil:
		table.add(entry{key, at, next})
	case row && e.value.kind == arrayKind && e.value.made != inline:
		e.value.items = append(e.value.items, next)
	case !row && e.value.kind == tableKind && e.value.made == byPassing:
		e.value.made = byHeader
		e.at = at
		e.value.at = 0
		return e.value, ""
	default:
		return nil, g.sayTwice(key, e.at)
	}
	return next, ""
}

// keyValue adds key = value to a table; the cursor stands on the key.
func (g *grower) keyValue(e *unstable.Node, table *node) {
	it := e.Key()
	for it.Next() {
		k := it.Node()
		key, at := string(k.Data), int(k.Raw.Offset)
		g.cursor = at + int(k.Raw.Length)
		old := table.get(key)
		if k.Next() == nil {
			for g.cursor < len(g.data) && g.data[g.cursor] != '=' {
				g.cursor++
			}
			g.cursor++
			value := g.value(e.Value())
			if old != nil {
				g.complain(at, "%s", g.sayTwice(key, old.at))
				return
			}
			table.add(entry{key, at, value})
			return
		}
		switch {
		case old == nil:
			next := &node{kind: tableKind, made: byDots, at: at, end: g.cursor}
			table.add(entry{key, at, next})
			table = next
		case old.value.kind == tableKind && old.value.made == byDots:
			table = old.value
		default:
			g.complain(at, "%s", g.sayTwice(key, old.at))
			table = &node{kind: tableKind}
		}
	}
}

// value reads the value at the cursor.
func (g *grower) value(v *unstable.Node) *node {
	g.skip(",")
	n := &node{at: g.cursor, made: inline}
	switch v.Kind {
	case unstable.Array:
		n.kind = arrayKind
		g.cursor++
		for it := v.Children(); it.Next(); {
			n.items = append(n.items, g.value(it.Node()))
		}
		g.skip(",")
		g.cursor++
	case unstable.InlineTable:
		n.kind = tableKind
		g.cursor++
		for it := v.Children(); it.Next(); {
			g.skip(",")
			g.keyValue(it.Node(), n)
		}
		g.skip(",")
		g.cursor++
	default:
		n.kind = scalarKind(v.Kind)
		n.text = string(v.Data)
		g.cursor = int(v.Raw.Offset) + int(v.Raw.Length)
	}
	n.end = g.cursor
	return n
}

// scalarKind is the kind of a plain value.
func scalarKind(k unstable.Kind) kind {
	switch k {
	case unstable.String:
		return textKind
	case unstable.Integer:
		return integerKind
	case unstable.Float:
		return floatKind
	case unstable.Bool:
		return boolKind
	}
	return dateKind
}

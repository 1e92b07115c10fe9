package document

import (
	"sort"
	"strconv"
	"strings"
)

// Comments are carried from an old file into a new one by what they stand at.
// Everything that can stand on a line has a path: keys by their names, rows by
// the names in them, pots by their own names wherever they stand. A comment
// whose path the new file does not have moves up to what held it.

// item is a piece of a file that a comment can belong to.
type item struct {
	path       string
	start, end int
}

// slot is how a comment stands at its item.
type slot int

const (
	above  slot = iota // on lines of its own before it
	beside             // on its line, after it
	within             // before its closing bracket
	last               // at the end of the file
)

const separator = "\x1f"

// itemsOf lists what comments can belong to, in order of place.
func itemsOf(t *tree) []item {
	var all []item
	walkTable(t.root, "", &all)
	sort.SliceStable(all, func(i, j int) bool {
		if all[i].start != all[j].start {
			return all[i].start < all[j].start
		}
		return all[i].end > all[j].end
	})
	return all
}

// walkTable lists the keys of a table and what is in them.
func walkTable(n *node, path string, all *[]item) {
	for _, e := range n.keys {
		p := path + separator + e.key
		if path == separator+"pot" {
			p = path + separator + strings.TrimSuffix(e.key, " 1") // "vase 1" is "vase"
		}
		v := e.value
		switch {
		case v.kind == tableKind && v.made == byHeader:
			*all = append(*all, item{p, v.at, v.end})
		case v.kind == tableKind && v.made == byPassing, v.kind == arrayKind && v.made == byHeader:
		default:
			*all = append(*all, item{p, e.at, v.end})
		}
		walkValue(v, p, e.key, all)
	}
}

// walkValue lists what is in a table or a list.
func walkValue(v *node, path, key string, all *[]item) {
	switch v.kind {
	case tableKind:
		if key == "set" {
			path = separator + "pot"
		}
		walkTable(v, path, all)
	case arrayKind:
		seen := map[string]int{}
		for i, row := range v.items {
			id := identity(row, i)
			if seen[id]++; seen[id] > 1 {
				id += "#" + strconv.Itoa(seen[id])
			}
			p := path + separator + id
			*all = append(*all, item{p, row.at, row.end})
			walkValue(row, p, "", all)
		}
	}
}

// identity is what tells a row of a list from its neighbours: its name, its
// height, the finding it accepts, or its place.
func identity(row *node, i int) string {
	if row.kind == tableKind {
		id := ""
		for _, key := range []string{"name", "finding", "height"} {
			if e := row.get(key); e != nil && e.value.text != "" {
				id += key + e.value.text
			}
		}
		if id != "" && (row.get("name") != nil || row.get("finding") != nil || row.get("section") != nil) {
			return id
		}
	}
	return strconv.Itoa(i)
}

// holder is the path of what holds a path. A pot that stands nowhere is held
// by the towers.
func holder(path string) string {
	cut := strings.LastIndex(path, separator)
	if cut < 0 {
		return ""
	}
	if path[:cut] == separator+"pot" {
		return separator + "tower"
	}
	return path[:cut]
}

// anchor is where a comment belongs.
type anchor struct {
	comment
	path string
	slot slot
	gap  bool // an empty line follows it
	open bool // it stands after an opening bracket
}

// anchors finds what each comment of a file belongs to.
func anchors(t *tree) []anchor {
	items := itemsOf(t)
	ended := map[int][]item{} // by line
	for _, it := range items {
		line := t.lineOf(it.end)
		ended[line] = append(ended[line], it)
	}
	comments := append([]comment(nil), t.comments...)
	sort.SliceStable(comments, func(i, j int) bool { return comments[i].at < comments[j].at })
	out := make([]anchor, 0, len(comments))
	var open []item // those around the place looked at, the innermost last
	next := 0
	for _, c := range comments {
		for next < len(items) && items[next].start < c.at {
			open = append(shut(open, items[next].start), items[next])
			next++
		}
		open = shut(open, c.at)
		a := anchor{comment: c, slot: last}
		switch {
		case !c.own:
			a.slot = beside
			a.path, a.open = besideWhat(ended[t.lineOf(c.at)], open, c)
		case len(open) > 0 && (next == len(items) || items[next].start >= open[len(open)-1].end):
			a.slot, a.path = within, open[len(open)-1].path
		case next < len(items):
			a.slot, a.path = above, items[next].path
		}
		a.gap = c.own && t.emptyLine(t.lineOf(c.at)+1)
		out = append(out, a)
	}
	return out
}

// shut drops the items that end at or before a place.
func shut(open []item, at int) []item {
	for len(open) > 0 && open[len(open)-1].end <= at {
		open = open[:len(open)-1]
	}
	return open
}

// besideWhat is the path of what a comment stands after on its line: what
// ended there last, the outermost of those, or what was opened after it.
func besideWhat(ended, open []item, c comment) (path string, opened bool) {
	best := item{end: -1}
	for _, it := range ended {
		if it.end <= c.at && (it.end > best.end || it.end == best.end && it.start < best.start) {
			best = it
		}
	}
	if n := len(open); n > 0 && open[n-1].start >= best.end {
		return open[n-1].path, true
	}
	return best.path, false
}

// lineOf is the line of a byte offset, from 1.
func (t *tree) lineOf(at int) int {
	return sort.Search(len(t.lines), func(i int) bool { return t.lines[i] > at })
}

// emptyLine tells whether a line holds nothing but space.
func (t *tree) emptyLine(line int) bool {
	if line > len(t.lines) {
		return false
	}
	end := len(t.data)
	if line < len(t.lines) {
		end = t.lines[line]
	}
	start := t.lines[line-1]
	return start < len(t.data) && strings.TrimSpace(string(t.data[start:end])) == ""
}

// transplant is the new file with the comments of the old one.
func transplant(before, after *tree) []byte {
	return settle(anchors(before), after)
}

// settle is the new file with these comments.
func settle(all []anchor, after *tree) []byte {
	if len(all) == 0 {
		return after.data
	}
	p := planting{tree: after, items: map[string]item{}, over: map[int][]string{}, side: map[int]string{}}
	for _, it := range itemsOf(after) {
		if _, there := p.items[it.path]; !there {
			p.items[it.path] = it
		}
		// the first row of a list stands for the list
		if up := holder(it.path); up != "" {
			if _, there := p.items[up]; !there {
				p.items[up] = item{up, it.start, it.start}
			}
		}
	}
	for _, a := range all {
		p.put(a)
	}
	return p.bytes()
}

// planting is a file with the comments that are to go into it.
type planting struct {
	*tree
	items map[string]item
	over  map[int][]string // lines to go above a line; "" is an empty one
	side  map[int]string   // comment to go beside a line
	end   []string
}

// put finds the place of a comment.
func (p *planting) put(a anchor) {
	path, where, gap := a.path, a.slot, a.gap
	it, found := p.items[path]
	for !found && path != "" {
		path = holder(path)
		it, found = p.items[path]
		where, gap = above, false
	}
	if !found {
		where = last
	}
	first, final := p.lineOf(it.start), p.lineOf(it.end)
	switch where {
	case beside:
		line := final
		if a.open {
			line = first
		}
		if p.side[line] == "" {
			p.side[line] = a.text
			return
		}
		p.add(first, "", a.text, gap)
	case within:
		if first != final {
			p.add(final, "  ", a.text, gap)
			return
		}
		p.add(first, "", a.text, false)
	case above:
		p.add(first, p.indent(first), a.text, gap)
	case last:
		p.end = append(p.end, a.text)
		if gap {
			p.end = append(p.end, "")
		}
	}
}

// add puts a comment above a line.
func (p *planting) add(line int, indent, text string, gap bool) {
	p.over[line] = append(p.over[line], indent+text)
	if gap {
		p.over[line] = append(p.over[line], "")
	}
}

// indent is the space that a line begins with.
func (p *planting) indent(line int) string {
	text := string(p.data[p.lines[line-1]:])
	return text[:len(text)-len(strings.TrimLeft(text, " "))]
}

// bytes is the file with its comments.
func (p *planting) bytes() []byte {
	var b strings.Builder
	lines := strings.Split(strings.TrimSuffix(string(p.data), "\n"), "\n")
	for i, text := range lines {
		for _, c := range p.over[i+1] {
			b.WriteString(c + "\n")
		}
		b.WriteString(text)
		if c := p.side[i+1]; c != "" {
			b.WriteString("  " + c)
		}
		b.WriteString("\n")
	}
	if len(p.end) > 0 {
		b.WriteString("\n" + strings.TrimRight(strings.Join(p.end, "\n"), "\n") + "\n")
	}
	return []byte(b.String())
}

package document

import (
	"strconv"
	"strings"

	"threepost/layout"
)

// names remembers what the file has named so far.
type names struct {
	ware     map[string]int // count, by row
	cones    map[string]bool
	doubtful map[string]bool // rows with a complaint: what names them is let pass
	towers   map[string]int  // levels, by name
	set      map[layout.Pot]int
	pots     int
	full     bool
	all      []string // rows and cone packs, as read
}

// takeWare registers a row.
func takeWare(r *reader, n *node, w *layout.Ware, good bool) {
	if r.names.ware == nil {
		r.names.ware, r.names.doubtful = map[string]int{}, map[string]bool{}
	}
	if !good {
		r.names.doubtful[w.Name] = true
	}
	if _, twice := r.names.ware[w.Name]; twice && w.Name != "" {
		r.complain(nameAt(n), "two rows of ware are called %s; give each its own name, or make them one row", show(w.Name))
		return
	}
	r.names.ware[w.Name] = w.Count
	r.names.all = append(r.names.all, w.Name)
	r.names.pots += w.Count
	if r.names.pots > MostPots && !r.names.full {
		r.names.full = true
		r.complain(n.at, "with this row the load has %d pots; at most %d can be planned", r.names.pots, MostPots)
	}
}

// takeCones registers a cone pack.
func takeCones(r *reader, n *node, c *layout.ConePack, good bool) {
	if r.names.cones == nil {
		r.names.cones = map[string]bool{}
	}
	_, ware := r.names.ware[c.Name]
	if good && (r.names.cones[c.Name] || ware) {
		r.complain(nameAt(n), "%s is the name of something else already; give the cones their own", show(c.Name))
	}
	r.names.cones[c.Name] = true
	r.names.all = append(r.names.all, c.Name)
	if holes := len(r.load.Kiln.Spyholes); good && c.Spyhole > holes && holes > 0 {
		r.complain(n.get("spyhole").value.at, "spyhole is %d; the kiln has %d", c.Spyhole, holes)
	}
}

// nameAt is where the name of a row stands.
func nameAt(n *node) int {
	if e := n.get("name"); e != nil {
		return e.value.at
	}
	return n.at
}

// checkNames complains of a row whose name is taken for a pot of another:
// "mug 1" beside "mug".
func checkNames(r *reader, n *node, l *layout.Load) {
	look := func(key, name string, i int) {
		base, number, ok := numbered(name)
		if have, found := r.names.ware[base]; ok && found && number >= 1 && number <= have {
			r.complain(nameAt(n.get(key).value.items[i]), "%s is also a pot of the row %s; give it another name", show(name), show(base))
		}
	}
	for i := range l.Ware {
		look("ware", l.Ware[i].Name, i)
	}
	for i := range l.Cones {
		look("cones", l.Cones[i].Name, i)
	}
	checkWishes(r, n, l)
}

func wareNames(l *layout.Load) []string {
	all := make([]string, len(l.Ware))
	for i := range l.Ware {
		all[i] = l.Ware[i].Name
	}
	return all
}

// numbered splits "mug 3" into its row and its number.
func numbered(name string) (base string, number int, ok bool) {
	cut := strings.LastIndexByte(name, ' ')
	if cut < 1 {
		return "", 0, false
	}
	number, err := strconv.Atoi(name[cut+1:])
	if err != nil || strconv.Itoa(number) != name[cut+1:] {
		return "", 0, false
	}
	return name[:cut], number, true
}

// pot finds what a written name means. It says nothing of rows that have a
// complaint of their own.
func (r *reader) pot(name string, at int) (layout.Pot, bool) {
	if r.names.cones[name] {
		return layout.Pot{Ware: name}, true
	}
	if len(r.names.all) == 0 && (r.misspelt("ware") || r.misspelt("cones")) {
		return layout.Pot{Ware: name}, true
	}
	if count, ok := r.names.ware[name]; ok && (count == 1 || r.names.doubtful[name]) {
		return layout.Pot{Ware: name}, true
	}
	base, number, ok := numbered(name)
	count, found := r.names.ware[base]
	switch {
	case ok && found && r.names.doubtful[base]:
		return layout.Pot{Ware: base, Number: number}, true
	case ok && found && number >= 1 && number <= count:
		return layout.Ware{Name: base, Count: count}.PotNumber(number), true
	case ok && found:
		r.complain(at, "there is no %s; the row %s has %d", show(name), show(base), count)
		return layout.Pot{}, false
	}
	if count, ok := r.names.ware[name]; ok {
		r.complain(at, "%s is a row of %d; say which one, like %s", show(name), count, show(name+" 1"))
		return layout.Pot{}, false
	}
	if near, ok := Nearest(name, r.names.all); ok {
		r.complain(at, "%s is neither a pot nor a cone pack of this load; the nearest is %s", show(name), show(near))
	} else if near, ok := Nearest(base, r.names.all); ok && base != "" {
		r.complain(at, "%s is neither a pot nor a cone pack of this load; the nearest is %s", show(name), show(near+" "+strconv.Itoa(number)))
	} else {
		r.complain(at, "%s is neither a pot nor a cone pack of this load", show(name))
	}
	return layout.Pot{}, false
}

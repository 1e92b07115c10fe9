package clearance

import (
	"sort"
	"strconv"

	"threepost/layout"
)

func itoa(n int) string { return strconv.Itoa(n) }

// use is how many of one piece of furniture the load takes and the potter owns.
type use struct {
	label string // in keys
	many  string // "posts of 75", "half shelves"
	one   string
	takes int
	owns  int
}

// furniture tells what the load takes more of than is owned.
func (r *run) furniture() {
	for _, u := range r.uses() {
		if u.takes <= u.owns {
			continue
		}
		what := pick(u.takes, u.one, u.many)
		r.add(layout.OwnedCount, layout.Problem, "The load takes "+number(u.takes)+" "+what+"; you own "+number(u.owns)+".",
			measured{have: float64(u.owns), need: float64(u.takes), plan: float64(u.takes)}, []layout.Thing{{Kind: layout.ThingKiln, Name: u.label}}, u.label)
	}
}

// uses counts shelves, posts, cookies and stilts.
func (r *run) uses() []use {
	f := &r.b.Load.Furniture
	var out []use
	shelves, posts := map[string]int{}, map[layout.Piece]int{}
	for i := range r.b.Shelves {
		if k := r.b.Shelves[i].Kind; k != nil {
			shelves[k.Name]++
		}
	}
	for i := range r.b.Posts {
		for _, q := range r.b.Posts[i].MakeUp {
			posts[q]++
		}
	}
	for _, k := range f.Shelves {
		out = append(out, use{"shelf " + k.Name, k.Name + " shelves", k.Name + " shelf", shelves[k.Name], k.Count})
	}
	for _, k := range f.Posts {
		p := layout.Piece{Height: k.Height, Name: k.Name}
		word := "post"
		if k.Spacer {
			word = "spacer"
		}
		of := " of " + r.up(k.Height)
		if k.Name != "" {
			of += " (" + k.Name + ")"
		}
		out = append(out, use{"post " + strconv.FormatFloat(k.Height, 'g', -1, 64) + k.Name, word + "s" + of, word + of, posts[p], k.Count})
		delete(posts, p)
	}
	for p, n := range posts { // pieces that no row of the furniture has
		out = append(out, use{"post " + strconv.FormatFloat(p.Height, 'g', -1, 64) + p.Name, "posts of " + r.up(p.Height), "post of " + r.up(p.Height), n, 0})
	}
	sort.SliceStable(out, func(i, j int) bool { return natural(out[i].label, out[j].label) })
	return append(out, r.standUses()...)
}

// standUses counts cookies and stilts. Widths are not told apart when the list
// has one row only.
func (r *run) standUses() []use {
	f := &r.b.Load.Furniture
	var out []use
	cookies, stilts, ownCookies, ownStilts := 0, 0, 0, 0
	for i := range r.b.Pots {
		switch r.b.Pots[i].Body.Stand.Kind {
		case layout.Cookie:
			cookies++
		case layout.Stilt:
			stilts++
		}
	}
	for _, c := range f.Cookies {
		ownCookies += c.Count
	}
	for _, s := range f.Stilts {
		ownStilts += s.Count
	}
	if len(f.Cookies) > 0 { // with none listed they are cut from clay as needed
		out = append(out, use{"cookies", "cookies", "cookie", cookies, ownCookies})
	}
	out = append(out, use{"stilts", "stilts", "stilt", stilts, ownStilts})
	return out
}

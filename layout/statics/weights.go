package statics

import (
	"threepost/geometry/plane"
	"threepost/layout/stacks"
)

// Weights is the mass of a load, piece by piece, and the way it goes down to
// the floor. Ware + Furniture = sum of the floor loads + Loose.
type Weights struct {
	Ware      float64       // kg, pots and cone packs with what they stand on
	Furniture float64       // kg, shelves and posts
	Levels    []LevelWeight // as Built.Levels
	Towers    []TowerWeight // as Built.Towers
	Shelves   []ShelfWeight // as Built.Shelves
	Posts     []PostWeight  // as Built.Posts
	Floor     []LineLoad    // what each line brings to the floor, as Built.Letters where known
	Loose     float64       // kg that nothing carries: a shelf without posts, a post over nothing
}

// LevelWeight is the mass of one storey.
type LevelWeight struct {
	Ware      float64   // kg on its shelves, without the levels above
	Shelves   float64   // kg
	Posts     float64   // kg of the posts under its shelves
	Carried   float64   // kg on the posts under it: shelves, ware and all above
	Balance   plane.Vec // of what the posts under it carry
	Margin    float64   // the least over its shelves, mm
	Tips      bool      // one of its shelves does
	WareShare float64   // of all the ware, 0 to 1
	Share     float64   // of all ware and furniture, 0 to 1
}

// Furniture is the level's shelves and the posts under them, kg.
func (l LevelWeight) Furniture() float64 { return l.Shelves + l.Posts }

// TowerWeight is the mass of one tower, without the towers it carries.
type TowerWeight struct {
	Ware, Furniture float64   // kg
	Balance         plane.Vec // of its own ware and furniture
	Share           float64   // of ware and furniture of the whole load, 0 to 1
}

// ShelfWeight is how one shelf rests on its posts.
type ShelfWeight struct {
	Ware   float64   // kg of pots on it
	Above  float64   // kg brought by posts that stand on it, their own mass included
	Posts  []int     // into Built.Posts, in the order of Result.Reactions
	Result Result    // shelf, ware and posts above on its own posts
	Plate  *Estimate // for round shelves on three posts of a known material; else nil
}

// PostWeight is the load of one post.
type PostWeight struct {
	Carries float64 // kg on its head
	// Min and Max are the range of Carries over which posts of this shelf
	// really touch, with what stands above shared as in Carries, kg.
	Min, Max float64
	Foot     float64 // kg under it: Carries and its own mass
	Under    int     // into Built.Shelves: the shelf it stands on; -1: the floor or nothing
	Floor    bool    // it stands on the floor
}

// LineLoad is what one line brings to the floor.
type LineLoad struct {
	Letter string
	At     plane.Vec
	Mass   float64 // kg
}

// Weigh follows every mass from the top of the load down to the floor: each
// shelf is solved on its own posts with its ware and with the posts that stand
// on it, and what its posts carry becomes a load of the shelf below. Posts of
// unequal real height are taken as they are.
func Weigh(b *stacks.Built) *Weights {
	p := newPile(footings(b))
	w := &Weights{
		Levels:  make([]LevelWeight, len(b.Levels)),
		Towers:  make([]TowerWeight, len(b.Towers)),
		Shelves: make([]ShelfWeight, len(b.Shelves)),
		Posts:   make([]PostWeight, len(b.Posts)),
	}
	for i := range b.Posts {
		p.put(Event{SetPost, i})
	}
	for i := range b.Shelves {
		p.put(Event{SetShelf, i})
	}
	for i := range b.Pots {
		if s := p.put(Event{SetPot, i}); s >= 0 {
			w.Shelves[s].Ware += b.Pots[i].Body.Mass
		} else {
			w.Loose += b.Pots[i].Body.Mass
		}
	}
	for _, s := range p.down {
		p.settle(s)
	}
	w.shelves(p)
	w.posts(p)
	w.sums(b, p)
	return w
}

// shelves takes over how each shelf rests.
func (w *Weights) shelves(p *pile) {
	for s := range w.Shelves {
		v := &w.Shelves[s]
		v.Posts = p.posts[s]
		v.Result = p.rests[s]
		for _, i := range p.standing[s] {
			v.Above += p.b.Posts[i].Mass + p.carry[i]
		}
		v.Plate = plate(&p.b.Shelves[s], p.posts[s], p.b.Posts, v.Result.Total)
		if len(v.Posts) == 0 {
			w.Loose += v.Result.Total
		}
	}
}

// posts takes over the weight on each post and brings it to the floor.
func (w *Weights) posts(p *pile) {
	line := map[string]int{}
	for _, l := range p.b.Letters {
		line[l.Name] = -1
	}
	for i := range w.Posts {
		v, post := &w.Posts[i], &p.b.Posts[i]
		v.Carries = p.carry[i]
		v.Foot = v.Carries + post.Mass
		v.Under, v.Floor = p.under[i], p.floor[i]
		v.Min, v.Max = v.Carries, v.Carries
		for _, s := range post.Shelves {
			v.widen(w.Shelves[s], i)
		}
		switch {
		case v.Floor:
			w.addLine(line, post, v.Foot)
		case v.Under < 0:
			w.Loose += v.Foot
		}
	}
}

// widen adds the doubt of one shelf's reactions to the range of post i.
func (v *PostWeight) widen(s ShelfWeight, i int) {
	for k, post := range s.Posts {
		if post == i && k < len(s.Result.Worst) {
			v.Min -= s.Result.Reactions[k] - s.Result.Worst[k][0]
			v.Max += s.Result.Worst[k][1] - s.Result.Reactions[k]
		}
	}
}

// addLine brings a post's weight to its line's place on the floor.
func (w *Weights) addLine(line map[string]int, post *stacks.Post, mass float64) {
	at, known := line[post.Letter]
	if !known || at < 0 {
		at = len(w.Floor)
		line[post.Letter] = at
		w.Floor = append(w.Floor, LineLoad{Letter: post.Letter, At: post.At})
	}
	w.Floor[at].Mass += mass
}

// sums adds up levels, towers and the whole.
func (w *Weights) sums(b *stacks.Built, p *pile) {
	tower := make([]sum, len(b.Towers))
	ware := make([]float64, len(b.Levels))
	for i := range b.Pots {
		pot := &b.Pots[i]
		ware[pot.Level] += pot.Body.Mass
		w.Ware += pot.Body.Mass
		w.Towers[b.Levels[pot.Level].Tower].Ware += pot.Body.Mass
		tower[b.Levels[pot.Level].Tower].add(pot.Body.Mass, pot.At)
	}
	for l := range b.Levels {
		w.level(b, p, l, &tower[b.Levels[l].Tower])
		w.Levels[l].Ware = ware[l]
		w.Furniture += w.Levels[l].Furniture()
	}
	all := w.Ware + w.Furniture
	for l := range w.Levels {
		v := &w.Levels[l]
		v.WareShare = share(v.Ware, w.Ware)
		v.Share = share(v.Ware+v.Furniture(), all)
	}
	for t := range w.Towers {
		v := &w.Towers[t]
		v.Balance = tower[t].balance()
		v.Share = share(v.Ware+v.Furniture, all)
	}
}

// level adds up the furniture of a level and how its shelves rest.
func (w *Weights) level(b *stacks.Built, p *pile, l int, tower *sum) {
	v := &w.Levels[l]
	var carried sum
	for k, s := range b.Levels[l].Shelves {
		shelf, r := &b.Shelves[s], &w.Shelves[s].Result
		v.Shelves += shelf.Mass
		tower.add(shelf.Mass, centroid(shelf))
		carried.add(r.Total, r.Balance)
		v.Tips = v.Tips || r.Tips
		if k == 0 || r.Margin < v.Margin {
			v.Margin = r.Margin
		}
	}
	for _, i := range b.Levels[l].Posts {
		v.Posts += b.Posts[i].Mass
		tower.add(b.Posts[i].Mass, b.Posts[i].At)
	}
	v.Carried, v.Balance = carried.mass, carried.balance()
	w.Towers[b.Levels[l].Tower].Furniture += v.Furniture()
}

// share is a part of a whole, 0 of nothing.
func share(part, whole float64) float64 {
	if !(whole > 0) {
		return 0
	}
	return part / whole
}

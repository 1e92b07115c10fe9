package layout

import "threepost/geometry/plane"

// Tower is shelves that stack over the same part of the floor.
type Tower struct {
	Name   string    `json:"name,omitempty"` // its place: "left side", "base"
	On     []Support `json:"on,omitempty"`
	Lines  []Line    `json:"lines,omitempty"`
	Levels []Level   `json:"levels,omitempty"`
}

// Support is what a tower stands on: the floor, or a level of another tower.
// Several supports must have their tops at one height.
type Support struct {
	Tower string `json:"tower,omitempty"` // empty: the floor
	Level int    `json:"level,omitempty"` // from 1
}

// Line is a place where a tower's posts stand over each other.
type Line struct {
	At   plane.Vec `json:"at"`
	Turn float64   `json:"turn,omitempty"` // of the post's section
}

// Level is one storey: the posts under its shelves, the shelves, and what
// stands on them.
type Level struct {
	Shelves  []ShelfAt   `json:"shelves,omitempty"`
	Posts    []MakeUp    `json:"posts,omitempty"` // one for all lines, or one per line; under the shelves
	Set      []Placement `json:"set,omitempty"`
	Locked   bool        `json:"locked,omitempty"`   // the planner leaves it alone
	Standing bool        `json:"standing,omitempty"` // already in the kiln
}

// ShelfAt is a shelf of the level: its kind, and where its origin lies.
type ShelfAt struct {
	Kind string    `json:"kind,omitempty"`
	At   plane.Vec `json:"at"`
	Turn float64   `json:"turn,omitempty"`
}

// MakeUp is the pieces of one post from the bottom up: "150 + 5".
type MakeUp []Piece

// Piece names a post kind by its nominal height, and by its row's name where
// several rows have that height.
type Piece struct {
	Height float64 `json:"height,omitempty"`
	Name   string  `json:"name,omitempty"`
}

// Nominal is the height the make-up is called by, mm.
func (m MakeUp) Nominal() float64 {
	sum := 0.0
	for _, p := range m {
		sum += p.Height
	}
	return sum
}

// Placement is where a pot or cone pack stands on its level.
type Placement struct {
	Pot    Pot       `json:"pot"`
	At     plane.Vec `json:"at"`
	Turn   float64   `json:"turn,omitempty"`
	Locked bool      `json:"locked,omitempty"` // the planner and spreading leave it where it is
}

// PostsOn is the make-up of line i of the level.
func (l Level) PostsOn(i int) MakeUp {
	switch {
	case len(l.Posts) == 0:
		return nil
	case len(l.Posts) == 1:
		return l.Posts[0]
	case i < len(l.Posts):
		return l.Posts[i]
	}
	return nil
}

// Tower finds a tower by name, or nil.
func (l *Load) Tower(name string) *Tower {
	for i := range l.Towers {
		if l.Towers[i].Name == name {
			return &l.Towers[i]
		}
	}
	return nil
}

// Shelf finds a shelf kind by name, or nil.
func (f *Furniture) Shelf(name string) *ShelfKind {
	for i := range f.Shelves {
		if f.Shelves[i].Name == name {
			return &f.Shelves[i]
		}
	}
	return nil
}

// Post finds the row a piece means, or nil.
func (f *Furniture) Post(p Piece) *PostKind {
	for i := range f.Posts {
		k := &f.Posts[i]
		if k.Height == p.Height && k.Name == p.Name {
			return k
		}
	}
	return nil
}

// Clone is a deep copy that shares no slice with the load.
func (l *Load) Clone() *Load {
	c := *l
	c.Firing = l.Firing
	c.Kiln.Probes = append([]Probe(nil), l.Kiln.Probes...)
	c.Kiln.Spyholes = append([]Spyhole(nil), l.Kiln.Spyholes...)
	c.Furniture.Shelves = append([]ShelfKind(nil), l.Furniture.Shelves...)
	c.Furniture.Posts = append([]PostKind(nil), l.Furniture.Posts...)
	c.Furniture.Cookies = append([]CookieKind(nil), l.Furniture.Cookies...)
	c.Furniture.Stilts = append([]StiltKind(nil), l.Furniture.Stilts...)
	c.Ware = append([]Ware(nil), l.Ware...)
	for i := range c.Ware {
		c.Ware[i].Profile = append([]Knot(nil), l.Ware[i].Profile...)
		c.Ware[i].Handles = append([]Handle(nil), l.Ware[i].Handles...)
	}
	c.Cones = append([]ConePack(nil), l.Cones...)
	c.Rules = l.Rules.Clone()
	c.Wishes = l.Wishes.Clone()
	c.Towers = CloneTowers(l.Towers)
	c.Accepted = append([]Accepted(nil), l.Accepted...)
	return &c
}

// CloneTowers is a deep copy of an arrangement.
func CloneTowers(towers []Tower) []Tower {
	out := append([]Tower(nil), towers...)
	for i := range out {
		t := &out[i]
		t.On = append([]Support(nil), t.On...)
		t.Lines = append([]Line(nil), t.Lines...)
		t.Levels = append([]Level(nil), t.Levels...)
		for j := range t.Levels {
			v := &t.Levels[j]
			v.Shelves = append([]ShelfAt(nil), v.Shelves...)
			v.Set = append([]Placement(nil), v.Set...)
			posts := make([]MakeUp, len(v.Posts))
			for k := range v.Posts {
				posts[k] = append(MakeUp(nil), v.Posts[k]...)
			}
			if v.Posts == nil {
				posts = nil
			}
			v.Posts = posts
		}
	}
	return out
}

// FromFloor is a level, the level-th of a tower from 0, counted up from the
// floor from 1: levels of towers that carry it count too, of several the most.
func FromFloor(towers []Tower, tower, level int) int {
	at := map[string]int{}
	for t := range towers {
		at[towers[t].Name] = t
	}
	under := make([]int, len(towers))
	for range towers { // no tower stands over more than all others
		for t := range towers {
			for _, on := range towers[t].On {
				if k, ok := at[on.Tower]; ok && on.Tower != "" {
					under[t] = max(under[t], under[k]+on.Level)
				}
			}
		}
	}
	return under[tower] + level + 1
}

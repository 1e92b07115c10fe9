package session

import (
	"encoding/json"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"threepost/layout"
	"threepost/layout/measure"
)

// Setup is all that is asked once, as texts in the person's units.
type Setup struct {
	Title     string          `json:"title"`
	Units     string          `json:"units"`
	Kiln      KilnFields      `json:"kiln"`
	Furniture FurnitureFields `json:"furniture"`
	Firing    FiringFields    `json:"firing"`
	Cones     []ConeFields    `json:"cones"`
	Rules     []Rule          `json:"rules"`
	Wishes    WishFields      `json:"wishes"`
}

// KilnFields is the kiln.
type KilnFields struct {
	Name         string       `json:"name"`
	Shape        ShapeFields  `json:"shape"`
	Height       string       `json:"height"`
	Opens        string       `json:"opens"` // "top" or "front"
	Wall         string       `json:"wall"`
	FloorElement bool         `json:"floor_element"`
	Probes       []HoleFields `json:"probes"`
	Spyholes     []HoleFields `json:"spyholes"`
}

// ShapeFields is a plan shape: "round", "half round", "sided", "half sided",
// "oval", "half oval", "rectangle", with the measures it has.
type ShapeFields struct {
	Kind   string `json:"kind"`
	Across string `json:"across"`
	Width  string `json:"width"`
	Depth  string `json:"depth"`
	Sides  string `json:"sides"`
	FlatAt string `json:"flat_at"` // a clock bearing, "12:00"
	Corner string `json:"corner"`
}

// HoleFields is a probe or a spyhole.
type HoleFields struct {
	At       string `json:"at"` // a clock bearing, "10:30"
	Height   string `json:"height"`
	Reach    string `json:"reach"` // probes only
	Diameter string `json:"diameter"`
}

// FurnitureFields is what the potter owns.
type FurnitureFields struct {
	Shelves []ShelfFields `json:"shelves"`
	Posts   []PostFields  `json:"posts"`
	Cookies []StandFields `json:"cookies"`
	Stilts  []StandFields `json:"stilts"`
}

// ShelfFields is a row of shelves.
type ShelfFields struct {
	Name     string      `json:"name"`
	Shape    ShapeFields `json:"shape"`
	Thick    string      `json:"thick"`
	Mass     string      `json:"mass"`
	Count    string      `json:"count"`
	Material string      `json:"material"`
	Bow      string      `json:"bow"`
	Cracked  bool        `json:"cracked"`
	Damp     bool        `json:"damp"`
}

// PostFields is a row of posts or spacers.
type PostFields struct {
	Name    string  `json:"name"`
	Height  string  `json:"height"`
	Real    string  `json:"real"`
	Section string  `json:"section"` // "square 38"
	Count   string  `json:"count"`
	Spacer  bool    `json:"spacer"`
	MM      float64 `json:"mm"` // the height, mm, told only: how long it is drawn
}

// StandFields is a row of cookies or stilts.
type StandFields struct {
	Across string `json:"across"`
	High   string `json:"high"` // how thick a cookie is, what a stilt adds
	Count  string `json:"count"`
	Metal  bool   `json:"metal"`
}

// FiringFields is the firing.
type FiringFields struct {
	Stage     string `json:"stage"`
	Cone      string `json:"cone"`
	Peak      string `json:"peak"`
	Programme string `json:"programme"`
	Date      string `json:"date"`
}

// ConeFields is a cone pack.
type ConeFields struct {
	Name    string `json:"name"`
	Pack    string `json:"pack"` // "5 6 7"
	Watched bool   `json:"watched"`
	Spyhole string `json:"spyhole"` // counted from 1; empty: whichever sees it
}

// WishFields is what is asked of a plan.
type WishFields struct {
	Tall      string   `json:"tall"` // "", "low", "high", "alternate"
	Inset     string   `json:"inset"`
	RoomAbove string   `json:"room_above"`
	LeaveOut  []string `json:"leave_out"`
	Towers    string   `json:"towers"` // "", "one", "halves"
	Stagger   bool     `json:"stagger"`
	Together  []string `json:"together"` // owners
	Apart     []string `json:"apart"`
	Off       []Off    `json:"off"`
	Owners    []string `json:"owners"` // that the list names, for the choice; not read
}

// Off keeps a row of ware off a level: "bottom", "top", or a number counted up
// from the floor.
type Off struct {
	Ware  string `json:"ware"`
	Level string `json:"level"`
}

// RuleFields changes the figures of one rule; all empty gives it back to the
// table.
type RuleFields struct {
	Name    string `json:"name"`
	Problem string `json:"problem"`
	Watch   string `json:"watch"`
	Plan    string `json:"plan"`
}

// Setup is the kiln, furniture, firing, cones, rules and wishes as texts.
func (s *Session) Setup() *Setup {
	l := s.now
	out := &Setup{Title: l.Title, Units: s.State().Units, Rules: s.rules(), Cones: []ConeFields{},
		Firing: FiringFields{Stage: string(l.Firing.Stage), Cone: string(l.Firing.Cone), Programme: l.Firing.Programme, Date: l.Firing.Date},
		Wishes: WishFields{Tall: string(l.Wishes.Tall), Inset: s.exact(l.Wishes.Inset), RoomAbove: s.exact(l.Wishes.RoomAbove),
			LeaveOut: append([]string{}, l.Wishes.LeaveOut...), Towers: string(l.Wishes.Towers), Stagger: l.Wishes.Stagger,
			Together: append([]string{}, l.Wishes.Together...), Apart: append([]string{}, l.Wishes.Apart...), Off: []Off{}, Owners: ownersOf(l)}}
	for _, o := range l.Wishes.Off {
		out.Wishes.Off = append(out.Wishes.Off, Off{o.Ware, string(o.Level)})
	}
	if l.Firing.Peak > 0 {
		out.Firing.Peak = measure.FormatFile(l.Firing.Peak) + " C"
	}
	k := &l.Kiln
	out.Kiln = KilnFields{Name: k.Name, Shape: s.shapeFields(k.Chamber), Height: s.exact(k.Height), Opens: string(k.Opens), Wall: s.exact(k.Wall),
		FloorElement: k.FloorElement, Probes: []HoleFields{}, Spyholes: []HoleFields{}}
	for _, p := range k.Probes {
		out.Kiln.Probes = append(out.Kiln.Probes, HoleFields{At: measure.FormatClock(p.At), Height: s.exact(p.Height), Reach: s.exact(p.Reach), Diameter: s.exact(p.Diameter)})
	}
	for _, p := range k.Spyholes {
		out.Kiln.Spyholes = append(out.Kiln.Spyholes, HoleFields{At: measure.FormatClock(p.At), Height: s.exact(p.Height), Diameter: s.exact(p.Diameter)})
	}
	out.Furniture = s.furnitureFields()
	for i := range l.Cones {
		c := &l.Cones[i]
		names := make([]string, len(c.Cones))
		for j, n := range c.Cones {
			names[j] = string(n)
		}
		f := ConeFields{Name: c.Name, Pack: strings.Join(names, " "), Watched: c.Watched}
		if c.Spyhole > 0 {
			f.Spyhole = strconv.Itoa(c.Spyhole)
		}
		out.Cones = append(out.Cones, f)
	}
	return out
}

func (s *Session) shapeFields(sh layout.Shape) ShapeFields {
	f := ShapeFields{Kind: string(sh.Kind), Across: s.exact(sh.Across), Width: s.exact(sh.Width), Depth: s.exact(sh.Depth), Corner: s.exact(sh.Corner)}
	if sh.Sides > 0 {
		f.Sides = strconv.Itoa(sh.Sides)
	}
	if sh.Kind == layout.Sided {
		f.FlatAt = measure.FormatClock(sh.FlatAt)
	}
	return f
}

func (s *Session) furnitureFields() FurnitureFields {
	f := &s.now.Furniture
	out := FurnitureFields{Shelves: []ShelfFields{}, Posts: []PostFields{}, Cookies: []StandFields{}, Stilts: []StandFields{}}
	for i := range f.Shelves {
		k := &f.Shelves[i]
		row := ShelfFields{Name: k.Name, Shape: s.shapeFields(k.Shape), Thick: s.exact(k.Thick), Count: strconv.Itoa(k.Count), Material: k.Material,
			Bow: s.exact(k.Bow), Cracked: k.Cracked, Damp: k.Damp}
		if k.Mass > 0 {
			row.Mass = measure.FormatMassFile(k.Mass)
		}
		out.Shelves = append(out.Shelves, row)
	}
	for i := range f.Posts {
		p := &f.Posts[i]
		out.Posts = append(out.Posts, PostFields{Name: p.Name, Height: s.exact(p.Height), Real: s.exact(p.Real), Count: strconv.Itoa(p.Count), Spacer: p.Spacer,
			Section: string(p.Section.Kind) + " " + s.exact(p.Section.Width), MM: p.Height})
	}
	for _, c := range f.Cookies {
		out.Cookies = append(out.Cookies, StandFields{Across: s.exact(c.Across), High: s.exact(c.Thick), Count: strconv.Itoa(c.Count)})
	}
	for _, c := range f.Stilts {
		out.Stilts = append(out.Stilts, StandFields{Across: s.exact(c.Across), High: s.exact(c.Height), Count: strconv.Itoa(c.Count), Metal: c.Metal})
	}
	return out
}

// SetUp changes a part of the setup by its fields as JSON: "kiln",
// "furniture", "firing", "cones" (a list), "rule", "wishes", "title", "units"
// (a text). One edit.
func (s *Session) SetUp(part string, fields []byte) (*State, error) {
	e, err := s.setUpEdit(part, fields)
	if err != nil {
		return nil, err
	}
	return s.Apply([]layout.Edit{e}, "")
}

// read is fields as JSON.
func read[T any](part string, fields []byte) (T, error) {
	var f T
	if err := json.Unmarshal(fields, &f); err != nil {
		return f, fmt.Errorf("the fields of %q cannot be read", part)
	}
	return f, nil
}

func (s *Session) setUpEdit(part string, fields []byte) (layout.Edit, error) {
	switch part {
	case "kiln":
		f, err := read[KilnFields](part, fields)
		if err != nil {
			return layout.Edit{}, err
		}
		k, err := s.readKiln(f)
		return layout.Edit{Act: layout.SetKiln, Kiln: k}, err
	case "furniture":
		f, err := read[FurnitureFields](part, fields)
		if err != nil {
			return layout.Edit{}, err
		}
		k, err := s.readFurniture(f)
		return layout.Edit{Act: layout.SetFurniture, Furniture: k}, err
	case "firing":
		f, err := read[FiringFields](part, fields)
		if err != nil {
			return layout.Edit{}, err
		}
		k, err := readFiring(f)
		return layout.Edit{Act: layout.SetFiring, Firing: k}, err
	case "cones":
		f, err := read[[]ConeFields](part, fields)
		if err != nil {
			return layout.Edit{}, err
		}
		k, err := s.readCones(f)
		return layout.Edit{Act: layout.SetCones, Cones: k}, err
	case "rule":
		f, err := read[RuleFields](part, fields)
		if err != nil {
			return layout.Edit{}, err
		}
		return s.readRule(f)
	case "wishes":
		f, err := read[WishFields](part, fields)
		if err != nil {
			return layout.Edit{}, err
		}
		k, err := s.readWishes(f)
		return layout.Edit{Act: layout.SetWishes, Wishes: k}, err
	case "title", "units":
		text, err := read[string](part, fields)
		if part == "title" {
			return layout.Edit{Act: layout.SetTitle, Title: strings.TrimSpace(text)}, err
		}
		return layout.Edit{Act: layout.SetUnits, Units: measure.Units(text)}, err
	}
	return layout.Edit{}, fmt.Errorf("%q is no part of the setup", part)
}

// ownersOf are the owners that a list names, in its order.
func ownersOf(l *layout.Load) []string {
	out := []string{}
	for i := range l.Ware {
		if o := l.Ware[i].Owner; o != "" && !slices.Contains(out, o) {
			out = append(out, o)
		}
	}
	return out
}

package planner

import (
	"fmt"

	"threepost/geometry/plane"
	"threepost/geometry/solid"
	"threepost/layout"
	"threepost/layout/stacks"
)

// context is what does not change while a load is planned.
type context struct {
	load      *layout.Load
	chamber   plane.Outline
	kinds     []*kind
	limits    map[layout.RuleName]layout.Limits
	room      float64 // plan room above, mm
	inset     float64
	section   layout.Section
	probes    []solid.Placed
	made      map[int][]float64
	pieces    map[float64]int
	catalogue *stacks.Catalogue
	spies     []stacks.Spy
	ordered   map[string][]float64 // orders of heights that were worked out
	standing  bool                 // something is in the kiln already
	left      *stacks.Stock        // what is not in use by what stands; nil: all that is owned
}

// newContext reads a load. It refuses a load nothing can be planned for, with
// what to add.
func newContext(l *layout.Load) (*context, error) {
	chamber, err := l.Kiln.Chamber.Outline()
	if err != nil {
		return nil, fmt.Errorf("the chamber: %w", err)
	}
	c := &context{load: l, chamber: chamber, limits: map[layout.RuleName]layout.Limits{}, made: map[int][]float64{}, pieces: map[float64]int{}, ordered: map[string][]float64{}}
	for _, name := range layout.RuleNames() {
		c.limits[name] = l.Limits(name)
	}
	c.room = c.limits[layout.RoomAbove].Plan
	if l.Wishes.RoomAbove > 0 {
		c.room = l.Wishes.RoomAbove
	}
	c.inset = c.limits[layout.Inset].Plan
	if l.Wishes.Inset > 0 {
		c.inset = l.Wishes.Inset
	}
	for _, p := range l.Furniture.Posts {
		if p.Section.Width > c.section.Width {
			c.section = p.Section
		}
	}
	if c.section.Width == 0 {
		return nil, fmt.Errorf("there are no posts; add a row such as { height = 100, section = \"square 38\", count = 9 }")
	}
	if len(l.Furniture.Shelves) == 0 {
		return nil, fmt.Errorf("there are no shelves; add a row such as { name = \"full\", shape = \"round\", across = 410, thick = 16, count = 4 }")
	}
	if c.kinds, err = kindsOf(l); err != nil {
		return nil, err
	}
	for _, t := range l.Towers {
		for _, v := range t.Levels {
			c.standing = c.standing || v.Standing
		}
	}
	c.probes = probesOf(l)
	c.spies = spiesOf(l)
	c.catalogue = stacks.NewCatalogue(&l.Furniture, stacks.Bounds{
		Pieces: int(c.limits[layout.Pieces].Watch), UpTo: l.Kiln.Height, Slender: c.limits[layout.Slender].Watch})
	return c, nil
}

// maker is the context as the builder of divisions.
func (c *context) maker() *maker {
	return &maker{load: c.load, chamber: c.chamber, section: c.section, probes: c.probes, inset: c.inset}
}

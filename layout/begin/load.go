package begin

import (
	"fmt"

	"threepost/layout"
	"threepost/layout/measure"
	"threepost/layout/silhouette"
)

// Answers are the answers that begin a load, as texts. Kiln and Cone are asked;
// the rest may be empty.
type Answers struct {
	Kiln    string // as Kiln reads it
	Shelves string // as Shelves reads it
	Posts   string // as Posts reads it
	Cone    string
	Stage   string // empty: glaze
	Front   bool   // it opens at the front
	Title   string
	Units   measure.Units
}

// Load turns the answers into a load without ware, with a sentence for
// everything that was assumed. It refuses, with a sentence, answers that make
// no kiln, no furniture or no firing.
func Load(a Answers) (*layout.Load, []string, error) {
	units := a.Units
	l := &layout.Load{Units: units, Title: a.Title}
	var err error
	if l.Kiln, err = Kiln(a.Kiln, units); err != nil {
		return nil, nil, err
	}
	l.Kiln.Opens = layout.Top
	if a.Front {
		l.Kiln.Opens = layout.Front
	}
	if l.Firing.Cone, err = measure.ParseCone(a.Cone); err != nil {
		return nil, nil, err
	}
	if l.Firing.Stage = layout.Stage(a.Stage); a.Stage == "" {
		l.Firing.Stage = layout.Glaze
	}
	var told []string
	say := func(mm float64) string { return measure.SayLength(mm, units, measure.Nearest) }
	if a.Shelves != "" {
		if l.Furniture.Shelves, err = Shelves(a.Shelves, units); err != nil {
			return nil, nil, err
		}
	} else {
		l.Furniture.Shelves = AssumedShelves(l.Kiln)
		for _, s := range l.Furniture.Shelves {
			told = append(told, fmt.Sprintf("%s, %s thick.", silhouette.Counted(s.Count, s.Name+" shelf"), say(s.Thick)))
		}
	}
	if a.Posts != "" {
		if l.Furniture.Posts, err = Posts(a.Posts, units); err != nil {
			return nil, nil, err
		}
	} else {
		l.Furniture.Posts = AssumedPosts(units)
		heights := ""
		for i, p := range l.Furniture.Posts {
			if i > 0 {
				heights += ", "
			}
			heights += measure.FormatLengthTo(p.Height, units, measure.Nearest, measure.PostGrain)
		}
		told = append(told, "six each of posts "+heights+".")
	}
	told = append(told, "no probe and no spyhole; write them under [kiln] when there are any.")
	return l, told, nil
}

// Size is a usual size of kiln.
type Size struct {
	Say   string // "twelve-sided, 711 across, 686 high, opens at the top"
	Kiln  string // as Kiln reads it, in mm
	Front bool
}

// Sizes are usual sizes, without makers, from testdata/tables/kilns.csv: inside
// measures of kilns that are sold. The number of sides of the round ones is
// common practice.
func Sizes() []Size {
	return []Size{
		{"eight-sided, 368 across, 343 high", "sided 8 368 x 343", false},
		{"round, 457 across, 457 high", "457 x 457", false},
		{"ten-sided, 590 across, 686 high", "sided 10 590 x 686", false},
		{"round, 610 across, 457 high", "610 x 457", false},
		{"twelve-sided, 711 across, 686 high", "sided 12 711 x 686", false},
		{"round, 737 across, 457 high", "737 x 457", false},
		{"oval, 838 by 584, 686 high", "oval 838 x 584 x 686", false},
		{"front-loader, 520 wide, 550 deep, 710 high", "rectangle 520 x 550 x 710", true},
	}
}

package scene

import (
	"threepost/layout"
	"threepost/layout/clearance"
	"threepost/layout/measure"
	"threepost/layout/stacks"
)

// Options say what is shown and how.
type Options struct {
	Level    int // into Built.Levels: the highest that is shown, those above are lifted away
	All      bool
	Colour   WareColour
	Dark     bool
	Kiln     bool              // floor and far walls
	Sight    bool              // tubes of sight from the spyholes to the cones they watch
	Units    measure.Units     // of the figures in labels
	Report   *clearance.Report // for ByFindings; checked anew when nil
	Fixed    map[layout.Pot]bool
	Steps    int // corners of a round pot; 0 means 24
	NoLabels bool
}

// WareColour is what the colour of a pot tells.
type WareColour string

// The choices. All but clay give every piece a mark too.
const (
	ByClay     WareColour = "clay"
	ByOwner    WareColour = "owner"
	ByGlaze    WareColour = "glaze"
	ByMass     WareColour = "mass"
	ByFindings WareColour = "findings"
)

// WareColours lists them in the order they are offered.
func WareColours() []WareColour {
	return []WareColour{ByClay, ByOwner, ByGlaze, ByMass, ByFindings}
}

// Build makes the scene of a built load. Equal loads and options give equal
// bytes.
func Build(b *stacks.Built, o Options) *Scene {
	return newMaker(b, o).scene()
}

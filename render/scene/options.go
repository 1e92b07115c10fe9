package scene

import (
	"threepost/layout/clearance"
	"threepost/layout/measure"
	"threepost/layout/stacks"
)

// Options say what is shown and how. The zero value shows the whole load in
// quiet clay on the light ground, without the kiln.
type Options struct {
	// Up is 1 + the index into Built.Levels of the level that is looked at:
	// levels whose shelves lie higher are lifted away, the posts that stand on
	// it stay. 0 shows all.
	Up     int
	Colour WareColour
	Dark   bool
	Kiln   bool              // floor and far walls
	Sight  bool              // tubes of sight from the spyholes to the cones they watch
	Units  measure.Units     // of the figures in labels
	Report *clearance.Report // for ByFindings; checked when nil
}

// WareColour is what the colour of a pot tells; empty is clay.
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

package layout

import "threepost/layout/measure"

// FormatVersion is the version of the load document this program writes.
const FormatVersion = 1

// Load is the whole document: what there is, what is wished, and where
// everything stands.
type Load struct {
	Title     string
	Units     measure.Units // how lengths are shown and bare numbers read
	Firing    Firing
	Kiln      Kiln
	Furniture Furniture
	Ware      []Ware
	Cones     []ConePack
	Rules     Rules // changes to the rules of the stage; the zero value changes nothing
	Wishes    Wishes
	Towers    []Tower
	Accepted  []Accepted
}

// Stage is the kind of firing.
type Stage string

// The stages a load can be planned for.
const (
	Bisque Stage = "bisque"
	Glaze  Stage = "glaze"
	Refire Stage = "refire"
	Lustre Stage = "lustre"
)

// Firing says what the load is fired to.
type Firing struct {
	Stage     Stage
	Cone      measure.Cone
	Peak      float64 // C; 0 means the cone's chart temperature at 60 C/h
	Programme string
	Date      string // as the person wrote it; it is printed, never computed with
}

// Temperature is the peak in C: Peak if given, else the chart temperature of
// the cone at 60 C/h.
func (f Firing) Temperature() float64 {
	if f.Peak > 0 {
		return f.Peak
	}
	c, _ := f.Cone.Temperature(60)
	return c
}

// Kiln is the chamber and what reaches into it.
type Kiln struct {
	Name         string
	Chamber      Shape
	Height       float64 // floor to lid (or ceiling), mm
	Opens        Opens
	Wall         float64 // brick thickness, mm; 0 means 76
	Probes       []Probe
	Spyholes     []Spyhole
	FloorElement bool // an element or a vent in the floor
}

// Opens tells where hands come in.
type Opens string

// A kiln opens at the top or at the front.
const (
	Top   Opens = "top"
	Front Opens = "front"
)

// WallThickness is Wall, or the usual 76 mm (common practice).
func (k Kiln) WallThickness() float64 {
	if k.Wall > 0 {
		return k.Wall
	}
	return 76
}

// Probe is a thermocouple or sensing tube that reaches in level from the wall.
type Probe struct {
	At       float64 // bearing, degrees clockwise from 12
	Height   float64 // of its axis over the floor, mm
	Reach    float64 // from the wall inwards, mm
	Diameter float64 // mm
}

// Spyhole is a hole in the wall through which cones are watched.
type Spyhole struct {
	At       float64 // bearing, degrees clockwise from 12
	Height   float64 // of its axis over the floor, mm
	Diameter float64 // mm; 0 means 19
}

// ConePack is a row of witness cones, or a measuring ring, that stands among
// the pots. It is placed on a level by its name, like a pot.
type ConePack struct {
	Name    string
	Cones   []measure.Cone
	Watched bool    // must be seen through a spyhole
	Spyhole int     // counted from 1; 0 means whichever sees it
	Length  float64 // mm; 0 means 75
	Width   float64 // mm; 0 means 28
	Height  float64 // mm to the tips; 0 means 70
}

// Accepted records a watch that the person has looked at and lets stand.
type Accepted struct {
	Finding string // the finding's key
	Reason  string
}

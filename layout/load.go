package layout

import "threepost/layout/measure"

// FormatVersion is the version of the load document this program writes.
const FormatVersion = 1

// Load is the whole document: what there is, what is wished, and where
// everything stands.
type Load struct {
	Title     string        `json:"title,omitempty"`
	Units     measure.Units `json:"units,omitempty"` // how lengths are shown and bare numbers read
	Firing    Firing        `json:"firing,omitzero"`
	Kiln      Kiln          `json:"kiln,omitzero"`
	Furniture Furniture     `json:"furniture,omitzero"`
	Ware      []Ware        `json:"ware,omitempty"`
	Cones     []ConePack    `json:"cones,omitempty"`
	Rules     Rules         `json:"rules,omitempty"` // changes to the rules of the stage; the zero value changes nothing
	Wishes    Wishes        `json:"wishes,omitzero"`
	Towers    []Tower       `json:"towers,omitempty"`
	Accepted  []Accepted    `json:"accepted,omitempty"`
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
	Stage     Stage        `json:"stage,omitempty"`
	Cone      measure.Cone `json:"cone,omitempty"`
	Peak      float64      `json:"peak,omitempty"` // C; 0 means the cone's chart temperature at 60 C/h
	Programme string       `json:"programme,omitempty"`
	Date      string       `json:"date,omitempty"` // as the person wrote it; it is printed, never computed with
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
	Name         string    `json:"name,omitempty"`
	Chamber      Shape     `json:"chamber"`
	Height       float64   `json:"height,omitempty"` // floor to lid (or ceiling), mm
	Opens        Opens     `json:"opens,omitempty"`
	Wall         float64   `json:"wall,omitempty"` // brick thickness, mm; 0 means 76
	Probes       []Probe   `json:"probes,omitempty"`
	Spyholes     []Spyhole `json:"spyholes,omitempty"`
	FloorElement bool      `json:"floor_element,omitempty"` // an element or a vent in the floor
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
	At       float64 `json:"at,omitempty"`       // bearing, degrees clockwise from 12
	Height   float64 `json:"height,omitempty"`   // of its axis over the floor, mm
	Reach    float64 `json:"reach,omitempty"`    // from the wall inwards, mm
	Diameter float64 `json:"diameter,omitempty"` // mm
}

// Spyhole is a hole in the wall through which cones are watched.
type Spyhole struct {
	At       float64 `json:"at,omitempty"`       // bearing, degrees clockwise from 12
	Height   float64 `json:"height,omitempty"`   // of its axis over the floor, mm
	Diameter float64 `json:"diameter,omitempty"` // mm; 0 means 19
}

// ConePack is a row of witness cones, or a measuring ring, that stands among
// the pots. It is placed on a level by its name, like a pot.
type ConePack struct {
	Name    string         `json:"name,omitempty"`
	Cones   []measure.Cone `json:"cones,omitempty"`
	Watched bool           `json:"watched,omitempty"` // must be seen through a spyhole
	Spyhole int            `json:"spyhole,omitempty"` // counted from 1; 0 means whichever sees it
	Length  float64        `json:"length,omitempty"`  // mm; 0 means 75
	Width   float64        `json:"width,omitempty"`   // mm; 0 means 28
	Height  float64        `json:"height,omitempty"`  // mm to the tips; 0 means 70
}

// Accepted records a watch that the person has looked at and lets stand.
type Accepted struct {
	Finding string `json:"finding,omitempty"` // the finding's key
	Reason  string `json:"reason,omitempty"`
}

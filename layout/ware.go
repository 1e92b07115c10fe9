package layout

import (
	"fmt"
	"strconv"
	"strings"

	"threepost/layout/measure"
)

// Silhouette is a usual form of ware that gives foot, profile and handle from
// height and width.
type Silhouette string

// The silhouettes.
const (
	Mug       Silhouette = "mug"
	Tumbler   Silhouette = "tumbler"
	Bowl      Silhouette = "bowl"
	Plate     Silhouette = "plate"
	Vase      Silhouette = "vase"
	Bottle    Silhouette = "bottle"
	Jug       Silhouette = "jug"
	Teapot    Silhouette = "teapot"
	LiddedJar Silhouette = "lidded jar"
	OvalBaker Silhouette = "oval baker"
	Box       Silhouette = "box"
	Tile      Silhouette = "tile"
	Cylinder  Silhouette = "cylinder" // nothing known but height and width
)

// Ware is a row of alike pots.
type Ware struct {
	Name       string     `json:"name,omitempty"`
	Count      int        `json:"count"`
	Silhouette Silhouette `json:"silhouette,omitempty"` // empty: told by the name, else Cylinder

	// Measures, mm, of the largest of the series, fired size before swell.
	Height        float64   `json:"height,omitempty"`
	Across        float64   `json:"across,omitempty"`   // greatest diameter of the body, without handle or spout
	Length        float64   `json:"length,omitempty"`   // oblong ware: along x at turn 0
	Width         float64   `json:"width,omitempty"`    // oblong ware: across that
	Plan          ShapeKind `json:"plan,omitempty"`     // oblong ware: Oval or Rectangle; empty: by silhouette
	Foot          float64   `json:"foot,omitempty"`     // diameter of the foot, or its length for oblong ware; 0 means assumed
	Profile       []Knot    `json:"profile,omitempty"`  // height, diameter; empty means assumed from the silhouette
	Measured      bool      `json:"measured,omitempty"` // the profile was measured, so interlocking may be used
	Handles       []Handle  `json:"handles,omitempty"`
	Spout         *Handle   `json:"spout,omitempty"`
	Knob          float64   `json:"knob,omitempty"`           // height that a lid and knob add over Height, mm
	LidOn         *bool     `json:"lid_on,omitempty"`         // lidded ware: fired with its lid on; nil: on
	HighAllowance *float64  `json:"high_allowance,omitempty"` // added to the height, mm; nil: 2
	WideAllowance *float64  `json:"wide_allowance,omitempty"` // added to the width, mm; nil: 3

	Mass float64 `json:"mass,omitempty"` // kg each; 0 means from Wall
	Wall float64 `json:"wall,omitempty"` // wall thickness, mm; 0 means 6

	Clay  Material `json:"clay,omitzero"`
	Glaze Material `json:"glaze,omitzero"`
	Flags Flags    `json:"flags,omitzero"`
	Stand Stand    `json:"stand,omitzero"` // what goes under each pot

	Nested int     `json:"nested,omitempty"` // bundle: how many of these stand in or on each other
	Adds   float64 `json:"adds,omitempty"`   // bundle: how much each after the first adds to the height, mm

	Owner  string  `json:"owner,omitempty"`
	Ticket string  `json:"ticket,omitempty"`
	Since  string  `json:"since,omitempty"` // waiting since, as a date 2026-10-14; older goes first
	Must   Must    `json:"must,omitempty"`
	Value  float64 `json:"value,omitempty"` // of one pot; 0 means its kiln space
	Dry    Dryness `json:"dry,omitempty"`
}

// Knot is one entry of a profile as people measure it: height, diameter.
type Knot struct {
	Height   float64 `json:"height"`
	Diameter float64 `json:"diameter"`
}

// Handle is a handle, lug or spout that stands out from the body.
type Handle struct {
	At    float64 `json:"at,omitempty"`    // bearing after the first handle, degrees clockwise
	Reach float64 `json:"reach,omitempty"` // how far it stands out from the body's greatest radius, mm
	From  float64 `json:"from,omitempty"`  // lowest height, mm
	To    float64 `json:"to,omitempty"`    // highest height, mm
	Thick float64 `json:"thick,omitempty"` // across, mm; 0 means 14
}

// Material is a clay or a glaze with the cone it is made for.
type Material struct {
	Name string       `json:"name,omitempty"`
	Cone measure.Cone `json:"cone,omitempty"` // empty: not known
}

// Flags are what the firing must know of a pot.
type Flags struct {
	Refire     bool `json:"refire,omitempty"`
	Runny      bool `json:"runny,omitempty"`
	Bloats     bool `json:"bloats,omitempty"`
	Spits      bool `json:"spits,omitempty"`
	GlazedFoot bool `json:"glazed_foot,omitempty"`
	Fuming     bool `json:"fuming,omitempty"`   // its glaze gives off metal fume (chrome, copper)
	FumeShy    bool `json:"fume_shy,omitempty"` // its glaze takes colour from fume (tin white)
	Unglazed   bool `json:"unglazed,omitempty"`
}

// Stand is a cookie, stilt or wads under a pot.
type Stand struct {
	Kind   StandKind `json:"kind,omitempty"`
	Across float64   `json:"across,omitempty"` // mm; 0 means as wide as the rule asks
	Height float64   `json:"height,omitempty"` // mm; 0 means 10 for a cookie, 12 for a stilt, 6 for wads
}

// StandKind is what a pot stands on.
type StandKind string

// What can go under a pot. Runny ware gets a cookie without being told.
const (
	NoStand StandKind = ""
	Cookie  StandKind = "cookie"
	Stilt   StandKind = "stilt"
	Wads    StandKind = "wads"
)

// Must grades how much a pot wants to go in.
type Must string

// MustGo pots go before all others, fillers after all others.
const (
	Normal Must = ""
	MustGo Must = "must"
	Filler Must = "filler"
)

// Dryness is the state of the clay when it is loaded.
type Dryness string

// Bisqued is the default of a glaze load, BoneDry that of a bisque load.
const (
	DryUnknown Dryness = ""
	Bisqued    Dryness = "bisqued"
	BoneDry    Dryness = "raw"
	DampClay   Dryness = "damp"
)

// Pot is one of a row of ware, or a cone pack (Number 0).
type Pot struct {
	Ware   string `json:"ware,omitempty"`
	Number int    `json:"number,omitempty"` // from 1; 0 where the row has one pot, or for a cone pack
}

// String is the name in files and sentences: "mug 3", "vase".
func (p Pot) String() string {
	if p.Number == 0 {
		return p.Ware
	}
	return p.Ware + " " + strconv.Itoa(p.Number)
}

// PotNumber is the n-th pot of the row, n from 1: a lone pot has no number.
func (w Ware) PotNumber(n int) Pot {
	if w.Count == 1 {
		return Pot{Ware: w.Name}
	}
	return Pot{Ware: w.Name, Number: n}
}

// Pots lists the pots of the row in order.
func (w Ware) Pots() []Pot {
	pots := make([]Pot, 0, w.Count)
	for n := 1; n <= w.Count; n++ {
		pots = append(pots, w.PotNumber(n))
	}
	return pots
}

// Find returns the ware row, or the cone pack, that a pot's written name means.
// "vase" and "vase 1" are the same pot of a row of one.
func (l *Load) Find(name string) (Pot, error) {
	name = strings.TrimSpace(name)
	for _, c := range l.Cones {
		if c.Name == name {
			return Pot{Ware: name}, nil
		}
	}
	for _, w := range l.Ware {
		if w.Name == name && w.Count == 1 {
			return Pot{Ware: name}, nil
		}
	}
	cut := strings.LastIndexByte(name, ' ')
	if cut > 0 {
		if n, err := strconv.Atoi(name[cut+1:]); err == nil && n >= 1 {
			for _, w := range l.Ware {
				if w.Name != name[:cut] {
					continue
				}
				if n > w.Count {
					return Pot{}, fmt.Errorf("there is no %q: the row %q has %d", name, w.Name, w.Count)
				}
				return w.PotNumber(n), nil
			}
		}
	}
	return Pot{}, fmt.Errorf("%q is neither a pot of the ware list nor a cone pack", name)
}

// WareOf is the row of a pot, or nil for a cone pack.
func (l *Load) WareOf(p Pot) *Ware {
	for i := range l.Ware {
		if l.Ware[i].Name == p.Ware {
			return &l.Ware[i]
		}
	}
	return nil
}

// ConesOf is the cone pack of that name, or nil.
func (l *Load) ConesOf(p Pot) *ConePack {
	for i := range l.Cones {
		if l.Cones[i].Name == p.Ware && p.Number == 0 {
			return &l.Cones[i]
		}
	}
	return nil
}

// NumberLone gives the only pot of a row its number where it stands: call it
// before the row gets a second pot.
func (l *Load) NumberLone(ware string) {
	for i := range l.Towers {
		for j := range l.Towers[i].Levels {
			set := l.Towers[i].Levels[j].Set
			for k := range set {
				if set[k].Pot == (Pot{Ware: ware}) {
					set[k].Pot.Number = 1
				}
			}
		}
	}
}

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
	Floor     []LineLoad    // what each line brings to the floor, by letter
	Loose     float64       // kg that no post carries
}

// LevelWeight is the mass of one storey.
type LevelWeight struct {
	Ware      float64   // kg on its shelves, without the levels above
	Shelves   float64   // kg
	Posts     float64   // kg of the posts under its shelves
	Carried   float64   // kg on the posts under it: shelves, ware and all above
	Balance   plane.Vec // of what the posts under it carry
	Margin    float64   // the least over its shelves, mm
	Tips      bool
	WareShare float64 // of all the ware, 0 to 1
	Share     float64 // of ware and furniture, 0 to 1
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
	Ware   float64 // kg of pots on it
	Above  float64 // kg brought by posts that stand on it
	Posts  []int   // into Built.Posts, in the order of Result.Reactions
	Result Result  // shelf, ware and posts above on its own posts
	Plate  *Estimate
}

// PostWeight is the load of one post.
type PostWeight struct {
	Carries  float64 // kg on its head
	Min, Max float64 // the range of Carries over which posts really touch, kg
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
// on it, and what its posts carry becomes a load of the shelf below.
func Weigh(b *stacks.Built) *Weights {
	return &Weights{
		Levels:  make([]LevelWeight, len(b.Levels)),
		Towers:  make([]TowerWeight, len(b.Towers)),
		Shelves: make([]ShelfWeight, len(b.Shelves)),
		Posts:   make([]PostWeight, len(b.Posts)),
	}
}

package statics

import "threepost/geometry/plane"

// Load is a mass that stands at a point of a shelf.
type Load struct {
	Mass float64 // kg
	At   plane.Vec
}

// Result is how loads rest on supports.
type Result struct {
	Total   float64   // kg
	Balance plane.Vec // the balance point of the loads, mm
	// Margin is how far the balance point lies inside the supports' ring
	// (their convex hull), mm; negative outside, 0 on supports in one line.
	Margin float64
	Tips   bool // the balance point lies outside: a support would have to pull
	// Reactions is the weight on each support, kg. They add up to Total and
	// their moments balance. While nothing tips none is negative; when the
	// shelf tips, the negative ones are those that would have to pull.
	Reactions []float64
	// Worst is the least and the most each support can carry, kg, whichever
	// of the supports really touch. Nil when the shelf tips.
	Worst [][2]float64
	// Bilateral is the reactions of equal springs that could also pull, kg.
	Bilateral []float64
	// Lifts lists the supports that carry nothing, because springs there
	// would have to pull or because the support is too short.
	Lifts []int
}

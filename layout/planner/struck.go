package planner

// struck says whether no order of a design's storeys keeps its shelves the plan
// distance off the probes: a row of alike storeys meets a probe at half height
// whatever their order. Such a design comes after all others, like one that
// shows no watched cone.
func (c *context) struck(d *design) bool {
	if len(c.probes) == 0 {
		return false
	}
	o := c.orders(d)
	if b := d.division.base; b != nil {
		z := d.floor + b.kind.Thick
		if c.probeCost(b, d.floor, z) > 0 || c.strikes(b, z, o.base) {
			return true
		}
	}
	for i, st := range d.division.sites {
		if c.strikes(st, o.starts[i], o.sites[i]) {
			return true
		}
	}
	return false
}

// strikes says whether a shelf of a tower comes too near a probe: heights from
// the bottom up, over a shelf whose top lies at z.
func (c *context) strikes(st *site, z float64, heights []float64) bool {
	for _, h := range heights {
		if c.probeCost(st, z+h, z+h+st.kind.Thick) > 0 {
			return true
		}
		z += h + st.kind.Thick
	}
	return false
}

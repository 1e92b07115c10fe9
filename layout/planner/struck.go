package planner

// struck says whether no order of a design's storeys keeps its shelves the plan
// distance off the probes: a row of alike storeys meets a probe at half height
// whatever their order. Such a design comes after all others, like one that
// shows no watched cone.
func (c *context) struck(d *design) bool {
	if len(c.probes) == 0 {
		return false
	}
	base, sites := c.orders(d)
	z := d.floor
	if b := d.division.base; b != nil {
		z += b.kind.Thick
		if c.probeCost(b, d.floor, z) > 0 {
			return true
		}
		for _, h := range base {
			if c.probeCost(b, z+h, z+h+b.kind.Thick) > 0 {
				return true
			}
			z += h + b.kind.Thick
		}
	}
	for i, st := range d.division.sites {
		at := z
		if d.division.base == nil {
			at += st.kind.Thick
		}
		for _, h := range sites[i] {
			if c.probeCost(st, at+h, at+h+st.kind.Thick) > 0 {
				return true
			}
			at += h + st.kind.Thick
		}
	}
	return false
}

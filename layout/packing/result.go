package packing

// Result is an arrangement in which every need is met after rounding.
type Result struct {
	Set  []Standing // what stood there first, in order, then what was placed, by want
	Left []int      // for every want, how many have no place
	// Musts and Value are what was placed of the wants: the value of the musts,
	// and of everything.
	Musts, Value float64
	Work         int64 // units spent on it
}

// Whole says that everything wanted has its place.
func (r Result) Whole() bool {
	for _, n := range r.Left {
		if n > 0 {
			return false
		}
	}
	return true
}

// Better says that r places more than s: more value of musts, or as much and
// more value.
func (r Result) Better(s Result) bool {
	const crumb = 1e-9
	if r.Musts > s.Musts+crumb {
		return true
	}
	if r.Musts < s.Musts-crumb {
		return false
	}
	return r.Value > s.Value+crumb
}

// Clone shares no slice with r.
func (r Result) Clone() Result {
	r.Set = append([]Standing(nil), r.Set...)
	r.Left = append([]int(nil), r.Left...)
	return r
}

// count fills in Left, Musts and Value from Set.
func (r *Result) count(p *Problem) {
	r.Left = make([]int, len(p.Wants))
	for i, w := range p.Wants {
		r.Left[i] = w.Count
	}
	r.Musts, r.Value = 0, 0
	for _, s := range r.Set {
		if s.Want < 0 || s.Fixed {
			continue
		}
		w := p.Wants[s.Want]
		if r.Left[s.Want] > 0 { // Insert may go beyond the count
			r.Left[s.Want]--
		}
		r.Value += w.Value
		if w.Must {
			r.Musts += w.Value
		}
	}
}

package levels

import "threepost/render/frame"

// flowGap is the white over a legend that begins under another, mm.
const flowGap = 4

// flowed are legends one after the other in two columns of about one height:
// for two levels of which one has so many steps that beside the other it would
// go on on a page of its own. What goes on in the second column has no heading
// there; it stands beside its own beginning.
func flowed(tables []table) [][]table {
	sum := 0.0
	for i := range tables {
		sum += tables[i].height() + flowGap
	}
	for goal := sum / 2; ; goal += 0.5 {
		rest := append([]table(nil), tables...)
		first := fillColumn(&rest, goal)
		for i := range rest {
			rest[i].bare = rest[i].going
		}
		second := fillColumn(&rest, goal)
		if len(rest) == 0 {
			return [][]table{first, second}
		}
	}
}

// fillColumn takes from legends what goes under each other in so much height.
func fillColumn(tables *[]table, high float64) []table {
	var out []table
	for len(*tables) > 0 {
		t := &(*tables)[0]
		if len(t.rows) == 0 {
			*tables = (*tables)[1:]
			continue
		}
		part := t.take(high, false)
		if len(part.rows) == 0 {
			return out
		}
		out = append(out, part)
		high -= part.height() + flowGap
		if len(t.rows) > 0 {
			return out
		}
		*tables = (*tables)[1:]
	}
	return out
}

// flowHeight is the height of the higher of columns, mm.
func flowHeight(columns [][]table) float64 {
	most := 0.0
	for _, c := range columns {
		sum := -float64(flowGap)
		for i := range c {
			sum += c[i].height() + flowGap
		}
		most = max(most, sum)
	}
	return most
}

// drawFlow draws columns of legends at y and gives the y under them.
func (m *maker) drawFlow(page *frame.Page, columns [][]table, y, width float64) float64 {
	low := y
	for i, c := range columns {
		at := y
		for k := range c {
			at = c[k].draw(page, m.s.Left()+float64(float64(i)*(width+columnGap)), at, width) + flowGap
		}
		low = max(low, at-flowGap)
	}
	return low
}

package planner

import (
	"fmt"
	"math"
	"sort"
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/geometry/plane"
	"threepost/layout"
)

// packer sets discs of the given radii, mm, one after the other, where free
// says that a disc may stand; ok tells which found a place.
type packer func(st *storey, radii []float64, gap float64, free func(at plane.Vec, r float64) bool) (at []plane.Vec, ok []bool)

// rowByRow fills a shelf as a spreadsheet-minded person does: a row along the
// back, each pot beside the last, as deep as its widest, then the next row.
func rowByRow(st *storey, radii []float64, gap float64, free func(plane.Vec, float64) bool) ([]plane.Vec, []bool) {
	lo, hi := st.site.outline.Bounds()
	at, ok := make([]plane.Vec, len(radii)), make([]bool, len(radii))
	x, y, deep := lo[0], hi[1], 0.0
	for i, r := range radii {
		atX, atY, row := x, y, deep
		for y-2*r >= lo[1] {
			for ; x+2*r <= hi[0]; x += 2 {
				if q := (plane.Vec{grid(x + r), grid(y - r)}); free(q, r) {
					at[i], ok[i] = q, true
					break
				}
			}
			if ok[i] {
				x, deep = x+2*r+gap, max(deep, 2*r)
				break
			}
			if deep == 0 {
				deep = 2 // nothing stands in this row: the shelf is narrow here
				y -= deep
			} else {
				y -= deep + gap
			}
			x, deep = lo[0], 0
		}
		if !ok[i] { // a smaller one may still go here
			x, y, deep = atX, atY, row
		}
	}
	return at, ok
}

// frontChain sets each disc where it touches two that stand, nearest to the
// middle of the shelf, starting from the middle: the circle packing of Wang,
// Wang, Dai and Wang 2006, "Visualization of large hierarchical data by circle
// packing" (from memory), kept inside the shelf and off its posts.
func frontChain(st *storey, radii []float64, gap float64, free func(plane.Vec, float64) bool) ([]plane.Vec, []bool) {
	middle := st.site.outline.Centroid()
	at, ok := make([]plane.Vec, len(radii)), make([]bool, len(radii))
	for i, r := range radii {
		spots := []plane.Vec{middle}
		for deg := 0.0; deg < 360; deg += 30 { // where something stands in the middle
			spots = append(spots, plane.Add(middle, plane.FromBearing(r+gap+10, deg)))
		}
		for a := range i {
			if !ok[a] {
				continue
			}
			d := radii[a] + r + gap + 0.1
			for deg := 0.0; deg < 360; deg += 15 {
				spots = append(spots, plane.Add(at[a], plane.FromBearing(d, deg)))
			}
			for b := range a {
				if ok[b] {
					spots = append(spots, touchingBoth(at[a], d, at[b], radii[b]+r+gap+0.1)...)
				}
			}
		}
		sort.SliceStable(spots, func(j, k int) bool { return plane.Distance(spots[j], middle) < plane.Distance(spots[k], middle) })
		for _, q := range spots {
			if q = (plane.Vec{grid(q[0]), grid(q[1])}); free(q, r) {
				at[i], ok[i] = q, true
				break
			}
		}
	}
	return at, ok
}

// touchingBoth are the places at distance d from a and e from b.
func touchingBoth(a plane.Vec, d float64, b plane.Vec, e float64) []plane.Vec {
	c := plane.Distance(a, b)
	if c == 0 || c > d+e || c < math.Abs(d-e) {
		return nil
	}
	along := (c*c + d*d - e*e) / (2 * c)
	off := math.Sqrt(max(0, d*d-along*along))
	u := plane.Scale(plane.Sub(b, a), 1/c)
	foot := plane.Add(a, plane.Scale(u, along))
	return []plane.Vec{plane.Add(foot, plane.Scale(plane.Right(u), off)), plane.Add(foot, plane.Scale(plane.Right(u), -off))}
}

// naively plans a load without weighing anything: for each division the levels
// by height, the tallest ware in the lowest level with posts just high enough,
// pots tallest first as the packer sets them; the division that holds most.
// What breaks a rule is taken out, as from any plan.
func naively(t testing.TB, l *layout.Load, pack packer) float64 {
	t.Helper()
	c, err := newContext(l.Clone())
	require.NoError(t, err)
	s := newSearch(c, 1)
	best := 0.0
	for _, dv := range c.maker().divisions() {
		d := s.byHeight(dv)
		if d == nil {
			continue
		}
		for {
			if got := s.naive(d, pack); got != nil {
				best = max(best, s.planOf(got).Value)
				break
			}
			if !d.shorter() { // the posts do not make that many, or a shelf meets a probe
				break
			}
		}
	}
	return best
}

// naive stands a design up and fills it; nil where it does not stand well.
func (s *Search) naive(d *design, pack packer) *candidate {
	f, err := s.erect(d)
	if err != nil {
		return nil
	}
	s.placePacks(f, false)
	s.setNaively(f, pack)
	return s.verify(f)
}

// shorter takes the topmost level off the side with most; false when none is
// left.
func (d *design) shorter() bool {
	most := 0
	for j := range d.lists {
		if len(d.lists[j].heights) > len(d.lists[most].heights) {
			most = j
		}
	}
	l := &d.lists[most]
	if len(l.heights) == 0 {
		return false
	}
	l.rest += l.heights[len(l.heights)-1] + d.division.sites[most].kind.Thick
	l.heights = l.heights[:len(l.heights)-1]
	return true
}

// byHeight is a division with its levels by height, as many as the furniture
// and the kiln allow; a level is taken to hold what covers three quarters of it
// by the squares round the pots.
func (s *Search) byHeight(dv *division) *design {
	c := s.context
	floor, ok := c.floorHeight(dv)
	if !ok {
		return nil
	}
	left := s.tallestFirst()
	d := &design{division: dv, floor: floor, lists: make([]list, len(dv.sites))}
	take := func(x *site) (float64, bool) {
		if len(left) == 0 {
			return 0, false
		}
		need := c.kinds[left[0]].body.Height + c.room + x.kind.Bow
		made := c.madeHeights(len(x.lines))
		i := sort.SearchFloat64s(made, need-plane.Tolerance)
		if i == len(made) {
			return 0, false
		}
		for area := 0.75 * x.outline.Area(); len(left) > 0 && area > 0; left = left[1:] {
			across := s.acrossOf(left[0])
			area -= across * across
		}
		return made[i], true
	}
	z := floor
	if dv.base != nil {
		z += dv.base.kind.Thick
		for len(d.base) < dv.bases-1 {
			h, ok := take(dv.base)
			if !ok {
				return nil
			}
			d.base = append(d.base, h)
			z += h + dv.base.kind.Thick
		}
	} else {
		z += dv.sites[0].kind.Thick
	}
	lid := c.limits[layout.RoomToLid].Plan
	for j, x := range dv.sites {
		rest := c.load.Kiln.Height - z
		for {
			h, ok := take(x)
			if !ok || rest-h-x.kind.Thick < lid+30 {
				break
			}
			d.lists[j].heights = append(d.lists[j].heights, h)
			rest -= h + x.kind.Thick
			if !d.shelvesFit() || !c.postsFit(d) {
				d.lists[j].heights = d.lists[j].heights[:len(d.lists[j].heights)-1]
				rest += h + x.kind.Thick
				break
			}
		}
		d.lists[j].rest = rest
	}
	return d
}

// tallestFirst are the kinds of all pots, one entry a pot, the tallest first.
func (s *Search) tallestFirst() []int {
	var out []int
	for k, kd := range s.context.kinds {
		if kd.cones == nil {
			for range kd.free {
				out = append(out, k)
			}
		}
	}
	sort.SliceStable(out, func(i, j int) bool {
		return s.context.kinds[out[i]].body.Height > s.context.kinds[out[j]].body.Height
	})
	return out
}

// setNaively sets the pots on the storeys of a frame, the tallest storey first.
func (s *Search) setNaively(f *frame, pack packer) {
	c := s.context
	order := append([]*storey(nil), f.storeys...)
	sort.SliceStable(order, func(i, j int) bool { return order[i].tallest() > order[j].tallest() })
	left := s.tallestFirst()
	for _, st := range order {
		gap := c.limits[layout.PotToPot].Plan
		if st.deep {
			gap = c.limits[layout.PotToPotDeep].Plan
		}
		low := math.Inf(1)
		for _, z := range st.zones {
			low = min(low, z.takes)
		}
		var try []int
		var radii []float64
		for _, k := range left {
			if c.kinds[k].body.Height <= low {
				try = append(try, k)
				radii = append(radii, s.acrossOf(k)/2)
			}
		}
		const most = 60 // more do not go on a level of any of these kilns
		try, radii = try[:min(len(try), most)], radii[:min(len(radii), most)]
		var at []plane.Vec
		var round []float64
		free := func(q plane.Vec, r float64) bool {
			if st.site.outline.Depth(q) < r || c.chamber.Depth(q) < r+c.limits[layout.PotToWall].Plan {
				return false
			}
			for _, p := range st.posts {
				if plane.Distance(q, p.at) < r+p.section.Width*0.71+gap {
					return false
				}
			}
			for _, p := range st.fixed {
				if plane.Distance(q, p.at) < r+s.acrossOf(p.kind)/2+2*gap {
					return false
				}
			}
			for _, tb := range st.tubes {
				if _, d := (plane.Skeleton{tb.from, tb.to}).Nearest(q); d < r+sightRoom {
					return false
				}
			}
			for i := range at {
				if plane.Distance(q, at[i]) < r+round[i]+gap {
					return false
				}
			}
			for i := range c.probes {
				if awayFrom(&c.probes[i], q) < r+c.limits[layout.ToProbe].Plan {
					return false
				}
			}
			return true
		}
		places, ok := pack(st, radii, gap, func(q plane.Vec, r float64) bool {
			if !free(q, r) {
				return false
			}
			at, round = append(at, q), append(round, r)
			return true
		})
		var rest []int
		set := map[int]int{}
		for i, k := range try {
			if ok[i] {
				st.set = append(st.set, placed{kind: k, at: places[i]})
				set[k]++
			}
		}
		for _, k := range left {
			if set[k] > 0 {
				set[k]--
			} else {
				rest = append(rest, k)
			}
		}
		left = rest
	}
}

// TestComparedWithNaivePlanners: what a person gets who fills rows by height,
// what the front chain gets on the same levels, and what the planner gets, on
// the samples, on planted loads, and on both with more of every row than goes
// in. It is never below either, nor above the bound, by value or by count; how
// far under the bound it stays is told in the median.
func TestComparedWithNaivePlanners(t *testing.T) {
	t.Parallel()
	type row struct {
		name, of string
		load     *layout.Load
	}
	var rows []row
	names := shortOr(t, "samples", []string{"newcomer", "oval"}, samples())
	seeds := shortOr[uint64](t, "planted loads", 2, 50)
	work := shortOr[int64](t, "work", 8000, 30000)
	for _, name := range names {
		rows = append(rows, row{name, "samples", sample(t, name)})
	}
	for seed := range seeds {
		p := plant(t, seed)
		rows = append(rows, row{fmt.Sprintf("%d %s", seed, p.name), "planted loads", p.load})
	}
	for i, r := range rows[:len(rows):len(rows)] {
		if len(rows) < 50 && i%2 == 1 { // by default every other one
			continue
		}
		times := []float64{1.5, 2}[i/2%2]
		rows = append(rows, row{fmt.Sprintf("%s, %g times", r.name, times), "overfull loads", crowded(r.load.Clone(), times)})
	}
	t.Logf("%-44s %8s %8s %8s %8s of all", "load", "rows", "chain", "plan", "bound")
	var lead []float64
	under := map[string][]float64{}
	for _, r := range rows {
		p := planned(t, r.load, 1, work)
		grid, chain := naively(t, r.load, rowByRow), naively(t, r.load, frontChain)
		b, err := Bound(r.load)
		require.NoError(t, err)
		t.Logf("%-44s %8.3f %8.3f %8.3f %8.3f", r.name, grid/p.Whole, chain/p.Whole, p.Value/p.Whole, b.Value/p.Whole)
		require.LessOrEqual(t, p.Value, b.Value+1e-9, r.name)
		require.LessOrEqual(t, p.Set, b.Count, r.name)
		under[r.of] = append(under[r.of], (b.Value-p.Value)/b.Value)
		require.Positive(t, grid, r.name)
		require.Positive(t, chain, r.name)
		require.GreaterOrEqual(t, p.Value, max(grid, chain)-1e-9, r.name)
		lead = append(lead, p.Value/max(grid, chain))
	}
	sort.Float64s(lead)
	t.Logf("in the median the plan holds %.2f times the better of both", lead[len(lead)/2])
	for _, of := range []string{"samples", "planted loads", "overfull loads"} {
		sort.Float64s(under[of])
		t.Logf("(bound - value) / bound over %d %s: median %.3f, most %.3f", len(under[of]), of, under[of][len(under[of])/2], under[of][len(under[of])-1])
	}
}

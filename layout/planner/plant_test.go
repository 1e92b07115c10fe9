package planner

import (
	"math"
	"math/rand/v2"
	"os"
	"sort"
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/geometry/plane"
	"threepost/layout"
	"threepost/layout/clearance"
	"threepost/layout/stacks"
)

// planted is a load that was built full: what stands where was decided first,
// kiln, furniture and ware list are exactly what that took, and then the places
// were forgotten.
type planted struct {
	load  *layout.Load // without towers
	full  *layout.Load // with them
	name  string       // shape and division
	set   int
	value float64
}

// planter draws random kilns, shelves, heights and ware.
type planter struct {
	t   testing.TB
	rnd *rand.Rand
}

// plant is the planted load of a seed. Arrangements with a problem of their
// furniture, which chance brings about now and then, are drawn again.
func plant(t testing.TB, seed uint64) planted {
	t.Helper()
	for again := uint64(0); again < 200; again++ {
		p := planter{t, rand.New(rand.NewPCG(seed, again))}
		if out, ok := p.draw(); ok {
			return out
		}
	}
	require.Fail(t, "nothing could be planted", "seed %d", seed)
	return planted{}
}

func (p planter) between(lo, hi float64) float64 {
	return math.Round(lo + (hi-lo)*p.rnd.Float64())
}

// kiln is a chamber of any shape with the shelves that people have for it.
func (p planter) kiln() (layout.Kiln, []layout.ShelfKind, string) {
	shelf := func(name string, s layout.Shape) layout.ShelfKind {
		return layout.ShelfKind{Name: name, Shape: s, Thick: p.between(12, 20), Count: 20}
	}
	k := layout.Kiln{Height: 3000, Opens: layout.Top}
	var shelves []layout.ShelfKind
	name := ""
	switch p.rnd.IntN(4) {
	case 0, 1:
		across := p.between(380, 720)
		k.Chamber = layout.Shape{Kind: layout.Round, Across: across}
		name = "round"
		if p.rnd.IntN(2) == 0 {
			k.Chamber = layout.Shape{Kind: layout.Sided, Sides: 6 + 2*p.rnd.IntN(4), Across: across}
			name = "sided"
		}
		disc := across - p.between(40, 60)
		full := shelf("full", layout.Shape{Kind: layout.Round, Across: disc})
		half := shelf("half", layout.Shape{Kind: layout.HalfRound, Across: disc, Depth: disc/2 - 3})
		shelves = [][]layout.ShelfKind{{full}, {half}, {full, half}}[p.rnd.IntN(3)]
	case 2:
		w, d := p.between(420, 900), p.between(400, 600)
		k.Chamber = layout.Shape{Kind: layout.Rectangle, Width: w, Depth: d}
		name = "rectangle"
		if p.rnd.IntN(2) == 0 {
			shelves = []layout.ShelfKind{shelf("board", layout.Shape{Kind: layout.Rectangle, Width: w - 50, Depth: d - 50})}
		} else {
			shelves = []layout.ShelfKind{shelf("board", layout.Shape{Kind: layout.Rectangle, Width: math.Floor((w - 60) / 2), Depth: d - 50})}
		}
	default:
		d := p.between(400, 520)
		w := d + p.between(60, 300)
		k.Chamber = layout.Shape{Kind: layout.Oval, Width: w, Depth: d}
		name = "oval"
		whole := shelf("oval", layout.Shape{Kind: layout.Oval, Width: w - 50, Depth: d - 50})
		half := shelf("half", layout.Shape{Kind: layout.HalfOval, Width: w - 50, Depth: (d - 56) / 2})
		shelves = [][]layout.ShelfKind{{whole}, {half}, {whole, half}}[p.rnd.IntN(3)]
	}
	return k, shelves, name
}

// ware is two to five kinds of round ware that a shelf takes.
func (p planter) ware(widest float64) []layout.Ware {
	names := []string{"mug", "bowl", "vase", "jar", "plate"}
	var out []layout.Ware
	for i := 0; i < 2+p.rnd.IntN(4); i++ {
		w := layout.Ware{Name: names[i], Count: 500, Silhouette: layout.Cylinder,
			Height: p.between(40, 220), Across: p.between(50, math.Min(200, widest))}
		w.Height = math.Min(w.Height, 3.5*w.Across) // no tall narrow pots
		out = append(out, w)
	}
	return out
}

// draw builds one load full.
func (p planter) draw() (planted, bool) {
	kiln, shelves, name := p.kiln()
	section := layout.Section{Kind: layout.SquareSection, Width: []float64{30, 38}[p.rnd.IntN(2)]}
	l := &layout.Load{Firing: layout.Firing{Stage: layout.Glaze, Cone: "6"}, Kiln: kiln}
	l.Furniture.Shelves = shelves
	l.Furniture.Posts = []layout.PostKind{{Height: 25, Section: section, Count: 99}}
	o, err := shelves[len(shelves)-1].Shape.Outline()
	require.NoError(p.t, err)
	lo, hi := o.Bounds()
	l.Ware = p.ware(0.4 * math.Min(hi[0]-lo[0], hi[1]-lo[1]))
	c, err := newContext(l)
	require.NoError(p.t, err)
	divisions := c.maker().divisions()
	if len(divisions) == 0 {
		return planted{}, false
	}
	d := &design{division: divisions[p.rnd.IntN(len(divisions))], floor: 25}
	p.heights(l, d, section)
	return p.fill(l, d, name+", "+d.division.name)
}

// heights draws the levels of a design, two to six over each other, and gives
// the load just the furniture and the kiln just the height that they take.
func (p planter) heights(l *layout.Load, d *design, section layout.Section) {
	tall := func() float64 {
		w := l.Ware[p.rnd.IntN(len(l.Ware))]
		return math.Ceil((w.Height+2+12)/5) * 5
	}
	used := map[string]int{}
	z := d.floor
	if b := d.division.base; b != nil {
		z += b.kind.Thick
		for i := 1; i < d.division.bases; i++ {
			d.base = append(d.base, tall())
			z += d.base[i-1] + b.kind.Thick
		}
		used[b.kind.Name] = d.division.bases
	}
	most := z
	for _, s := range d.division.sites {
		levels := 1 + p.rnd.IntN(5)
		top := z
		if d.division.base != nil {
			levels = 1 + p.rnd.IntN(3)
		} else {
			top += s.kind.Thick
			used[s.kind.Name]++
		}
		var h []float64
		for i := 0; i < levels; i++ {
			h = append(h, tall())
			top += h[i] + s.kind.Thick
		}
		sort.Sort(sort.Reverse(sort.Float64Slice(h)))
		used[s.kind.Name] += levels
		d.lists = append(d.lists, list{heights: h})
		most = math.Max(most, top)
	}
	l.Kiln.Height = math.Ceil(most + l.Ware[p.rnd.IntN(len(l.Ware))].Height + 2 + 25 + p.between(0, 15))
	var shelves []layout.ShelfKind
	for _, k := range l.Furniture.Shelves {
		if k.Count = used[k.Name]; k.Count > 0 {
			shelves = append(shelves, k)
		}
	}
	l.Furniture.Shelves = shelves
	count := map[float64]int{}
	for _, dm := range d.demand() {
		count[dm.Height] += dm.Posts
	}
	l.Furniture.Posts = nil
	for h, n := range count {
		l.Furniture.Posts = append(l.Furniture.Posts, layout.PostKind{Height: h, Section: section, Count: n})
	}
	sort.Slice(l.Furniture.Posts, func(i, j int) bool { return l.Furniture.Posts[i].Height < l.Furniture.Posts[j].Height })
}

// fill erects a design and sets as much ware on it as greed finds room for.
func (p planter) fill(l *layout.Load, d *design, name string) (planted, bool) {
	c, err := newContext(l)
	require.NoError(p.t, err)
	s := newSearch(c, 1)
	f, err := s.erect(d)
	if err != nil {
		return planted{}, false
	}
	count := make([]int, len(l.Ware))
	for i, st := range f.storeys {
		for k, spots := range p.level(c, st) {
			for _, at := range spots {
				count[k]++
				level := &f.towers[f.at[i].tower].Levels[f.at[i].level]
				level.Set = append(level.Set, layout.Placement{Pot: layout.Pot{Ware: l.Ware[k].Name, Number: count[k]}, At: at})
			}
		}
	}
	full := l.Clone()
	full.Ware, full.Towers = nil, f.towers
	out := planted{name: name}
	for k, w := range l.Ware {
		if w.Count = count[k]; w.Count > 0 {
			full.Ware = append(full.Ware, w)
		}
		if w.Count == 1 {
			for i := range full.Towers {
				for j := range full.Towers[i].Levels {
					set := full.Towers[i].Levels[j].Set
					for m := range set {
						if set[m].Pot.Ware == w.Name {
							set[m].Pot.Number = 0
						}
					}
				}
			}
		}
		out.set += w.Count
	}
	b, err := stacks.Build(full)
	if err != nil || out.set < 5 || out.set > 160 {
		return planted{}, false
	}
	for _, fd := range clearance.Check(b).Findings {
		if fd.Grade != layout.Note && !ofTheWare(fd.Rule) {
			for _, th := range fd.Things {
				require.NotEqual(p.t, layout.ThingPot, th.Kind, "planted wrong: %s", fd.Sentence)
			}
			return planted{}, false
		}
	}
	out.full = full
	out.load = full.Clone()
	out.load.Towers = nil
	out.value, err = Value(full)
	require.NoError(p.t, err)
	return out, true
}

// level sets pots of two kinds or so on one storey, the wider first, each where
// it touches another, a post or the edge.
func (p planter) level(c *context, st *storey) map[int][]plane.Vec {
	takes := st.zones[0].takes
	for _, z := range st.zones {
		takes = math.Min(takes, z.takes)
	}
	var kinds []int
	for k := range c.kinds {
		if c.kinds[k].body.Height <= takes && (len(kinds) == 0 || p.rnd.IntN(3) > 0) {
			kinds = append(kinds, k)
		}
	}
	radius := func(k int) float64 { return c.kinds[k].body.Solid.Parts[0].Profile.Max() }
	sort.SliceStable(kinds, func(i, j int) bool { return radius(kinds[i]) > radius(kinds[j]) })
	var set []touching
	for _, post := range st.posts {
		set = append(set, touching{post.at, post.section.Width * math.Sqrt2 / 2})
	}
	out := map[int][]plane.Vec{}
	lean := p.rnd.IntN(2)
	for i, k := range kinds {
		want := 1 + p.rnd.IntN(12)
		if i == len(kinds)-1 {
			want = 400
		}
		for ; want > 0; want-- {
			at, ok := tangent(c, st, set, radius(k), c.kinds[k].body.FootR, lean)
			if !ok {
				break
			}
			out[k] = append(out[k], at)
			set = append(set, touching{at, radius(k)})
		}
	}
	return out
}

// touching is a disc that stands on a level being planted.
type touching struct {
	at plane.Vec
	r  float64
}

// tangent is the best place on the grid where a disc touches something and
// keeps all distances: outward for one leaning, beside most others for the
// other.
func tangent(c *context, st *storey, set []touching, r, foot float64, lean int) (plane.Vec, bool) {
	gap, rim := 6.0, 0.0
	if st.deep {
		gap = 9
		if st.site.neighbor {
			rim = 1.5
		}
	}
	ok := func(q plane.Vec) bool {
		if st.site.outline.Depth(q) < math.Max(foot+6, r+rim) || c.chamber.Depth(q) < r+25 {
			return false
		}
		for _, s := range set {
			if plane.Distance(q, s.at) < r+s.r+gap {
				return false
			}
		}
		return true
	}
	middle := st.site.outline.Centroid()
	best, most, found := plane.Vec{}, math.Inf(-1), false
	offer := func(q plane.Vec) {
		q = plane.Vec{math.Round(q[0]*10) / 10, math.Round(q[1]*10) / 10}
		like := plane.Distance(q, middle)
		if lean == 1 {
			like = 0
			for _, s := range set {
				like -= math.Max(0, 3*r-plane.Distance(q, s.at)+s.r) * -1
			}
		}
		if like > most && ok(q) {
			best, most, found = q, like, true
		}
	}
	for deg := 0.0; deg < 360; deg += 2 {
		for _, s := range set {
			offer(plane.Add(s.at, plane.FromBearing(r+s.r+gap+0.1, deg)))
		}
		in, out := 0.0, 2000.0
		for range 40 { // out to the edge
			mid := (in + out) / 2
			if st.site.outline.Depth(plane.Add(middle, plane.FromBearing(mid, deg))) >= math.Max(foot+6, r+rim)+0.1 {
				in = mid
			} else {
				out = mid
			}
		}
		offer(plane.Add(middle, plane.FromBearing(in, deg)))
	}
	return best, found
}

// TestPlantedLoadsAreFilledAgain plans loads that were built full from their
// lists alone and compares the value set with what had stood there. The bars
// of a quick run are loose; THREEPOST_LONG=1 plans 50 with about ten seconds of
// work each.
func TestPlantedLoadsAreFilledAgain(t *testing.T) {
	loads, work, middle, least := 6, int64(12000), 0.97, 0.85
	if os.Getenv("THREEPOST_LONG") != "" {
		loads, work, middle, least = 50, 600000, 0.999, 0.93
	} else {
		t.Logf("%d loads with little work; THREEPOST_LONG=1 plans 50 with more", loads)
	}
	var ratios, gaps []float64
	for seed := range uint64(loads) {
		p := plant(t, seed)
		got := planned(t, p.load, 1, work)
		requireSound(t, got)
		value, err := Value(got.Load)
		require.NoError(t, err)
		b, err := Bound(p.load)
		require.NoError(t, err)
		require.GreaterOrEqual(t, b.Value, p.value-1e-9)
		ratios = append(ratios, value/p.value)
		gaps = append(gaps, (b.Value-value)/b.Value)
		t.Logf("%2d %-38s %3d pots planted, %3d set, value %.3f of it, %.3f under the bound, work %d", seed, p.name, p.set, got.Set, value/p.value, gaps[len(gaps)-1], got.Work)
	}
	sort.Float64s(ratios)
	sort.Float64s(gaps)
	t.Logf("value set of value planted over %d loads: median %.3f, least %.3f; under the bound: median %.3f", loads, ratios[loads/2], ratios[0], gaps[loads/2])
	require.GreaterOrEqual(t, ratios[loads/2], middle)
	require.GreaterOrEqual(t, ratios[0], least)
}

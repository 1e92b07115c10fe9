package stacks

import (
	"fmt"
	"math"

	"threepost/layout"
	"threepost/layout/silhouette"
)

// chosenStand is what a row of pots stands on, with its measures, and the row
// of cookies or stilts it is taken from: -1 when it is none the load lists.
type chosenStand struct {
	layout.Stand
	kind   int
	formed bool // a cookie as wide as the rule asks, in the form of the foot
}

// wardrobe hands out the cookies and stilts that the load lists, row of ware
// after row, and makes the bodies.
type wardrobe struct {
	cookies, stilts []int // still to be had
	filled          []layout.Ware
	assumed         [][]string
	errs            []error
	stands          []chosenStand
}

// newWardrobe fills every row of the load and chooses its stands.
func newWardrobe(l *layout.Load) *wardrobe {
	d := &wardrobe{}
	for _, c := range l.Furniture.Cookies {
		d.cookies = append(d.cookies, c.Count)
	}
	for _, s := range l.Furniture.Stilts {
		d.stilts = append(d.stilts, s.Count)
	}
	n := len(l.Ware)
	d.filled, d.assumed = make([]layout.Ware, n), make([][]string, n)
	d.errs, d.stands = make([]error, n), make([]chosenStand, n)
	for i := range l.Ware {
		d.filled[i], d.assumed[i], d.errs[i] = silhouette.Fill(l.Ware[i])
		if d.errs[i] == nil {
			d.stands[i] = d.choose(l, &d.filled[i])
		}
	}
	return d
}

// body is the body of a row, the load's own or another.
func (d *wardrobe) body(l *layout.Load, w *layout.Ware) (*Body, error) {
	for i := range l.Ware {
		if &l.Ware[i] == w || l.Ware[i].Name == w.Name && sameMeasures(&l.Ware[i], w) {
			if d.errs[i] != nil {
				return nil, d.errs[i]
			}
			return makeBody(l, d.filled[i], d.assumed[i], d.stands[i])
		}
	}
	filled, assumed, err := silhouette.Fill(*w)
	if err != nil {
		return nil, err
	}
	return makeBody(l, filled, assumed, d.choose(l, &filled))
}

// sameMeasures tells whether a copy of a row still is that row: rows have
// names of their own, so only a change of measures makes it another.
func sameMeasures(a, b *layout.Ware) bool {
	if len(a.Profile) != len(b.Profile) || len(a.Handles) != len(b.Handles) {
		return false
	}
	for i := range a.Profile {
		if a.Profile[i] != b.Profile[i] {
			return false
		}
	}
	for i := range a.Handles {
		if a.Handles[i] != b.Handles[i] {
			return false
		}
	}
	return a.Height == b.Height && a.Across == b.Across && a.Length == b.Length && a.Width == b.Width &&
		a.Foot == b.Foot && a.Plan == b.Plan && a.Silhouette == b.Silhouette && a.Measured == b.Measured &&
		a.Knob == b.Knob && a.Stand == b.Stand && a.Flags == b.Flags && a.Nested == b.Nested && a.Adds == b.Adds &&
		a.Mass == b.Mass && a.Wall == b.Wall && a.Count == b.Count && a.Value == b.Value && a.Clay == b.Clay &&
		same(a.HighAllowance, b.HighAllowance) && same(a.WideAllowance, b.WideAllowance) &&
		same(a.LidOn, b.LidOn) && same(a.Spout, b.Spout)
}

func same[T comparable](a, b *T) bool {
	return a == b || a != nil && b != nil && *a == *b
}

// choose is the stand of a filled row, taken out of what is left. Runny ware
// gets a cookie without being told.
func (d *wardrobe) choose(l *layout.Load, w *layout.Ware) chosenStand {
	s := chosenStand{Stand: w.Stand, kind: -1}
	if s.Kind == layout.NoStand && w.Flags.Runny {
		s.Kind = layout.Cookie
	}
	switch s.Kind {
	case layout.Cookie:
		d.chooseCookie(l, w, &s)
	case layout.Stilt:
		d.chooseStilt(l, w, &s)
	case layout.Wads:
		s.Across = w.Foot
		if s.Height == 0 {
			s.Height = 6
		}
	default:
		s = chosenStand{kind: -1}
	}
	return s
}

// chooseCookie takes the smallest listed cookie that is wide enough and of
// which there are enough for the row; without one, the smallest wide enough
// while any is left; without that, a cookie as wide as the rule asks.
func (d *wardrobe) chooseCookie(l *layout.Load, w *layout.Ware, s *chosenStand) {
	need := s.Across
	if need == 0 {
		need = w.Foot + 2*l.Limits(layout.CookieWider).Plan
	}
	told := s.Across > 0 && s.Height > 0
	best := -1
	for i, c := range l.Furniture.Cookies {
		if c.Across < need || told && (c.Across != need || c.Thick != s.Height) || d.cookies[i] <= 0 {
			continue
		}
		enough := d.cookies[i] >= w.Count
		if best < 0 || enough && d.cookies[best] < w.Count ||
			enough == (d.cookies[best] >= w.Count) && c.Across < l.Furniture.Cookies[best].Across {
			best = i
		}
	}
	if best >= 0 {
		c := l.Furniture.Cookies[best]
		d.cookies[best] -= w.Count
		s.kind, s.Across = best, c.Across
		if s.Height == 0 {
			s.Height = c.Thick
		}
	}
	if s.Across == 0 {
		s.Across, s.formed = need, true
	}
	if s.Height == 0 {
		s.Height = 10
	}
}

// chooseStilt takes the widest listed stilt that stands within the foot and of
// which there are enough for the row; without one, the widest while any is
// left.
func (d *wardrobe) chooseStilt(l *layout.Load, w *layout.Ware, s *chosenStand) {
	best := -1
	for i, c := range l.Furniture.Stilts {
		if s.Across > 0 && c.Across != s.Across || c.Across > w.Foot || d.stilts[i] <= 0 {
			continue
		}
		enough := d.stilts[i] >= w.Count
		if best < 0 || enough && d.stilts[best] < w.Count ||
			enough == (d.stilts[best] >= w.Count) && c.Across > l.Furniture.Stilts[best].Across {
			best = i
		}
	}
	if best >= 0 {
		c := l.Furniture.Stilts[best]
		d.stilts[best] -= w.Count
		s.kind, s.Across = best, c.Across
		if s.Height == 0 {
			s.Height = c.Height
		}
	}
	if s.Across == 0 {
		s.Across = math.Round(0.7 * w.Foot)
	}
	if s.Height == 0 {
		s.Height = 12
	}
}

// standPlan is the plan of the stand: a cookie as wide as the rule asks has
// the form of the foot, all others are round; wads lie under the foot.
func (p *potter) standPlan() Widened {
	s := p.stand
	on := p.plan.at(p.footShare(), 0)
	switch {
	case s.Kind == layout.Wads:
		return on
	case s.formed:
		on.Radius += math.Max(0, (s.Across-p.w.Foot)/2)
		return on
	}
	return footprint{layout.Round, s.Across, s.Across}.at(1, 0)
}

// standMass is the mass of a cookie, kg; stilts and wads weigh next to
// nothing.
func (p *potter) standMass() float64 {
	if p.stand.Kind != layout.Cookie {
		return 0
	}
	on := p.standPlan()
	area := on.Skeleton.Area() + float64(on.Skeleton.Perimeter()*on.Radius) + float64(float64(math.Pi*on.Radius)*on.Radius)
	return float64(float64(area*p.stand.Height)*stoneware) / 1e9
}

// check refuses a stand whose measures are none.
func (s chosenStand) check(name string) error {
	for _, mm := range [...]float64{s.Across, s.Height} {
		if !(mm >= 0 && mm <= 1000) {
			return fmt.Errorf("%s: what it stands on measures %v mm; give 0 to 1000", name, mm)
		}
	}
	return nil
}

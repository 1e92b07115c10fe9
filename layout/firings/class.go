package firings

import (
	"fmt"

	"threepost/layout"
	"threepost/layout/clearance"
	"threepost/layout/measure"
)

// class is one kind of firing: ware of one class can stand in one kiln.
type class struct {
	firing layout.Firing // stage, cone, peak; as the first load of it says
	kilns  []bool        // whose own firing it is
}

// same tells whether two firings are one class.
func same(a, b layout.Firing) bool {
	return stage(a) == stage(b) && a.Cone == b.Cone && a.Peak == b.Peak
}

func stage(f layout.Firing) layout.Stage {
	if f.Stage == "" {
		return layout.Glaze
	}
	return f.Stage
}

// classOf is the class of a firing, made when there is none yet.
func (s *splitter) classOf(f layout.Firing) int {
	for i := range s.classes {
		if same(s.classes[i].firing, f) {
			return i
		}
	}
	s.classes = append(s.classes, class{firing: f, kilns: make([]bool, len(s.studio.Kilns))})
	return len(s.classes) - 1
}

// classify finds the classes, the loads' own first, and for every lot those
// that suit it, the best first. A lot that suits none has its reason.
func (s *splitter) classify() {
	for k := range s.studio.Kilns {
		c := s.classOf(s.studio.Kilns[k].Load.Firing)
		s.classes[c].kilns[k] = true
	}
	for i := range s.lots {
		l := &s.lots[i]
		if l.why == "" && len(s.suits(l)) == 0 {
			if f, ok := s.needs(l); ok {
				s.classOf(f)
			}
		}
	}
	for i := range s.lots {
		l := &s.lots[i]
		if l.why == "" {
			if l.wants = s.suits(l); len(l.wants) == 0 {
				l.why = s.whyNone(l)
				continue
			}
			s.withinReach(l)
		}
	}
}

// withinReach keeps of a lot's classes those that some kiln goes as hot as.
func (s *splitter) withinReach(l *lot) {
	var reach []int
	for _, c := range l.wants {
		for k := range s.studio.Kilns {
			if s.reaches(k, c) {
				reach = append(reach, c)
				break
			}
		}
	}
	if len(reach) == 0 {
		l.hot = true
		l.why = fmt.Sprintf("%s for %s; no load here is fired so hot.", pick(l.left, "It asks", "They ask"), s.sayClass(l.wants[0]))
	}
	l.wants = reach
}

func pick(n int, one, many string) string {
	if n == 1 {
		return one
	}
	return many
}

// raw tells whether a lot has not been bisqued; in a bisque load that is what
// ware is unless it says otherwise.
func (s *splitter) raw(l *lot) bool {
	own := s.own(l)
	return l.ware.Dry == layout.BoneDry || l.ware.Dry == layout.DampClay || l.ware.Dry == layout.DryUnknown && stage(own) == layout.Bisque
}

// own is the firing of the load that a lot comes from.
func (s *splitter) own(l *lot) layout.Firing { return s.studio.Kilns[l.from].Load.Firing }

// suits lists the classes a lot can go in: its own load's first, then as the
// classes stand.
func (s *splitter) suits(l *lot) []int {
	var own, alike, others []int
	for c := range s.classes {
		f := s.classes[c].firing
		switch {
		case !s.suit(l, f):
		case same(f, s.own(l)):
			own = append(own, c)
		case f.Cone != "" && f.Cone == l.ware.Clay.Cone:
			alike = append(alike, c)
		default:
			others = append(others, c)
		}
	}
	all := append(append(own, alike...), others...)
	if cone := s.matures(l); cone != "" {
		// Unglazed ware is fired to its clay's cone where that is fired at all.
		var mature []int
		for _, c := range all {
			if s.classes[c].firing.Cone == cone {
				mature = append(mature, c)
			}
		}
		if len(mature) > 0 {
			return mature
		}
	}
	return all
}

// matures is the cone that unglazed ware of a glaze load is best fired to, or
// empty.
func (s *splitter) matures(l *lot) measure.Cone {
	if s.raw(l) || !l.ware.Flags.Unglazed {
		return ""
	}
	return l.ware.Clay.Cone
}

// suit tells whether a lot can go in a firing: no problem by the rules, no glaze
// made for another cone, and of its stage. Ware that tells neither glaze nor
// clay stays with the firing of its own load.
func (s *splitter) suit(l *lot, f layout.Firing) bool {
	for _, fit := range s.fits(l, f) {
		if fit.Grade == layout.Problem || fit.About == clearance.AboutGlaze || fit.About == clearance.AboutDryness {
			return false
		}
	}
	own := s.own(l)
	if same(f, own) {
		return s.raw(l) == (stage(f) == layout.Bisque) || l.ware.Dry == layout.Bisqued
	}
	switch stage(f) {
	case layout.Bisque:
		return s.raw(l)
	case layout.Lustre:
		return false
	case layout.Refire:
		if !l.ware.Flags.Refire && stage(own) != layout.Refire {
			return false
		}
	default:
		if s.raw(l) || stage(own) == layout.Lustre || stage(own) == layout.Refire && !l.ware.Flags.Refire {
			return false
		}
	}
	switch {
	case !f.Cone.Known():
		return false
	case glazed(&l.ware) && l.ware.Glaze.Cone.Known():
		return true // of this cone, or it would not fit
	case l.ware.Flags.Unglazed:
		return l.ware.Clay.Cone.Known()
	}
	return f.Cone == l.ware.Clay.Cone
}

// glazed tells whether the row says that there is glaze on it.
func glazed(w *layout.Ware) bool {
	return !w.Flags.Unglazed && (w.Glaze.Name != "" || w.Glaze.Cone != "")
}

// fits judges a lot by a firing, as a check of its load would.
func (s *splitter) fits(l *lot, f layout.Firing) []clearance.Fit {
	load := &layout.Load{Firing: f, Units: s.studio.Kilns[l.from].Load.Units}
	w := l.ware
	if w.Dry == layout.DryUnknown && s.raw(l) {
		w.Dry = layout.BoneDry
	}
	return clearance.Fits(load, &w)
}

// needs is the firing that a lot asks for where no class suits it.
func (s *splitter) needs(l *lot) (layout.Firing, bool) {
	w := &l.ware
	st := layout.Glaze
	if stage(s.own(l)) == layout.Refire {
		st = layout.Refire
	}
	switch {
	case s.raw(l):
		cone := s.studio.Bisque
		if cone == "" {
			cone = bisqueCone
		}
		if w.Clay.Cone.Known() && measure.Compare(w.Clay.Cone, cone) < 0 {
			cone = w.Clay.Cone
		}
		return layout.Firing{Stage: layout.Bisque, Cone: cone}, true
	case glazed(w) && w.Glaze.Cone.Known():
		return layout.Firing{Stage: st, Cone: w.Glaze.Cone}, true
	case w.Clay.Cone.Known():
		return layout.Firing{Stage: st, Cone: w.Clay.Cone}, true
	}
	return layout.Firing{}, false
}

// whyNone says why a lot suits no firing: what the rules say of the firing it
// asks for, or of its own load's.
func (s *splitter) whyNone(l *lot) string {
	if s.raw(l) && glazed(&l.ware) {
		return "Raw and glazed at once: a bisque firing welds the glaze, a glaze firing bursts raw clay. Leave the glaze out of the row until it is bisqued."
	}
	f, ok := s.needs(l)
	if !ok {
		f = s.own(l)
	}
	for _, fit := range s.fits(l, f) {
		if fit.Grade == layout.Problem || fit.About == clearance.AboutDryness {
			return fit.Sentence
		}
	}
	for _, fit := range s.fits(l, s.own(l)) {
		if fit.Grade == layout.Problem {
			return fit.Sentence
		}
	}
	return "Neither its clay nor its glaze tells a cone: write one, like glaze = { cone = \"6\" }."
}

// reaches tells whether a kiln goes as hot as a class.
func (s *splitter) reaches(k, c int) bool {
	if s.classes[c].kilns[k] {
		return true
	}
	most := s.studio.Kilns[k].Load.Firing.Temperature()
	if up := s.studio.UpTo; up != "" {
		most = max(most, up.Heat())
	}
	return s.classes[c].firing.Temperature() <= most+measure.Tolerance
}

// sayClass names a class: "glaze cone 6 (1222 C)".
func (s *splitter) sayClass(c int) string {
	f, units := s.classes[c].firing, s.studio.Kilns[0].Load.Units
	return SayFiring(f, units)
}

// SayFiring names a firing with its temperature: "glaze cone 6 (1222 C)".
func SayFiring(f layout.Firing, units measure.Units) string {
	if f.Cone == "" {
		return string(stage(f)) + " " + measure.FormatTemperature(f.Temperature(), units)
	}
	return string(stage(f)) + " " + f.Cone.DescribeIn(units)
}

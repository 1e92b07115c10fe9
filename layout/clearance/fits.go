package clearance

import (
	"threepost/layout"
	"threepost/layout/measure"
	"threepost/layout/silhouette"
)

// footHot is the cone from which a glazed foot welds to the shelf even on a
// stilt (common practice: stilts are for low fire).
const footHot measure.Cone = "1"

// Fit is what a firing does to a row of ware wherever it stands.
type Fit struct {
	Rule     layout.RuleName
	Grade    layout.Grade
	About    FitAbout
	Sentence string
	Have     float64 // what the row stands, C; 0 where the rule has no figure
	Need     float64 // what the firing asks, C
}

// FitAbout is the property of the ware that does not suit the firing.
type FitAbout string

// What a firing asks of ware.
const (
	AboutClay    FitAbout = "clay"
	AboutDryness FitAbout = "dryness"
	AboutGlaze   FitAbout = "glaze"
	AboutFoot    FitAbout = "foot"
)

// labels end the key of the finding.
func (f Fit) labels() []string {
	if f.About == AboutFoot {
		return nil
	}
	return []string{string(f.About)}
}

// Fits judges a row of ware by the load's firing alone: clay, dryness, glaze
// and a glazed foot. What suits is not told. Package firings sorts a waiting
// list by the same judgement that a check makes.
func Fits(l *layout.Load, w *layout.Ware) []Fit {
	var out []Fit
	for _, judge := range []func(*layout.Load, *layout.Ware) (Fit, bool){clayFit, drynessFit, glazeFit, footFit} {
		if f, tell := judge(l, w); tell {
			out = append(out, f)
		}
	}
	return out
}

// peakOf is how hot a load is fired, C, and how it is said.
func peakOf(l *layout.Load) (float64, string) {
	f := l.Firing
	if f.Cone != "" {
		return f.Temperature(), f.Cone.DescribeIn(l.Units)
	}
	return f.Temperature(), measure.FormatTemperature(f.Temperature(), l.Units)
}

// hotter tells whether a firing goes beyond a cone.
func hotter(f layout.Firing, c measure.Cone) bool {
	if f.Cone.Known() {
		return measure.Compare(c, f.Cone) < 0
	}
	t, ok := c.Temperature(measure.Standard)
	return ok && t < f.Temperature()-tol
}

// hotForAFoot tells whether a glazed foot welds even to a stilt.
func hotForAFoot(heat float64) bool { return heat >= footHot.Heat()-tol }

// rowName begins a sentence about a row: "Mugs", "The vase".
func rowName(w *layout.Ware) string {
	if w.Count == 1 {
		return "The " + w.Name
	}
	return sentence(silhouette.Named(w.Count, w.Name))
}

func clayFit(l *layout.Load, w *layout.Ware) (Fit, bool) {
	heat, said := peakOf(l)
	switch {
	case !w.Clay.Cone.Known():
		if l.Firing.Stage == layout.Bisque || l.Firing.Stage == layout.Lustre {
			return Fit{}, false
		}
		return Fit{layout.FitsFiring, layout.Watch, AboutClay, rowName(w) + ": clay not known, the firing is " + said + ".", 0, heat}, true
	case hotter(l.Firing, w.Clay.Cone):
		s := rowName(w) + ": the clay is for " + w.Clay.Cone.DescribeIn(l.Units) + ", the firing is " + said + ". It melts and runs through the shelf."
		if twin, ok := w.Clay.Cone.Twin(); ok && !hotter(l.Firing, twin) {
			s += " Cone " + string(twin) + " is another cone: " + twin.DescribeIn(l.Units) + "."
		}
		return Fit{layout.FitsFiring, layout.Problem, AboutClay, s, w.Clay.Cone.Heat(), heat}, true
	}
	return Fit{}, false
}

func drynessFit(l *layout.Load, w *layout.Ware) (Fit, bool) {
	bisque := l.Firing.Stage == layout.Bisque
	is := pick(w.Count, " is ", " are ")
	tell := func(g layout.Grade, s string) (Fit, bool) {
		return Fit{layout.FitsFiring, g, AboutDryness, rowName(w) + is + s, 0, 0}, true
	}
	switch {
	case w.Dry == layout.DampClay && bisque:
		return tell(layout.Watch, "damp. Damp clay bursts: dry it first.")
	case w.Dry == layout.DampClay:
		return tell(layout.Problem, "damp. Damp clay bursts over glazed ware: dry and bisque it first.")
	case w.Dry == layout.BoneDry && !bisque:
		return tell(layout.Problem, "raw. Raw clay in a "+string(stageOf(l))+" firing bursts or bloats: bisque it first.")
	}
	return Fit{}, false
}

// stageOf is the load's stage, glaze when it is not told.
func stageOf(l *layout.Load) layout.Stage {
	if l.Firing.Stage != "" {
		return l.Firing.Stage
	}
	return layout.Glaze
}

func glazeFit(l *layout.Load, w *layout.Ware) (Fit, bool) {
	f := l.Firing
	glazed := w.Glaze.Name != "" || w.Glaze.Cone != ""
	switch {
	case w.Flags.Unglazed || !glazed:
	case f.Stage == layout.Bisque:
		return Fit{layout.FitsFiring, layout.Problem, AboutGlaze,
			rowName(w) + pick(w.Count, " is", " are") + " glazed. In a bisque firing ware touches, and glaze welds it.", 0, 0}, true
	case f.Stage == layout.Lustre || !w.Glaze.Cone.Known() || !f.Cone.Known():
	case measure.Compare(w.Glaze.Cone, f.Cone) != 0:
		_, said := peakOf(l)
		return Fit{layout.FitsFiring, layout.Watch, AboutGlaze,
			rowName(w) + ": the glaze is for " + w.Glaze.Cone.DescribeIn(l.Units) + ", the firing is " + said + ".", w.Glaze.Cone.Heat(), f.Temperature()}, true
	}
	return Fit{}, false
}

func footFit(l *layout.Load, w *layout.Ware) (Fit, bool) {
	heat, said := peakOf(l)
	if !w.Flags.GlazedFoot || l.Firing.Stage == layout.Bisque || !hotForAFoot(heat) {
		return Fit{}, false
	}
	s := rowName(w) + pick(w.Count, " has a glazed foot", " have glazed feet") + ". At " + said +
		pick(w.Count, " it welds to the shelf or to a stilt: wipe it clean.", " they weld to the shelf or to stilts: wipe them clean.")
	return Fit{layout.GlazedFoot, layout.Problem, AboutFoot, s, heat, footHot.Heat()}, true
}

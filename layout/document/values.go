package document

import (
	"math"
	"strconv"
	"strings"

	"threepost/layout/measure"
)

// number is a plain number of the file. It complains of what is not finite.
func (r *reader) number(what string, n *node) (float64, bool) {
	x, ok := 0.0, false
	switch n.kind {
	case integerKind:
		if i, err := strconv.ParseInt(strings.ReplaceAll(n.text, "_", ""), 0, 64); err == nil {
			x, ok = float64(i), true
		} else {
			r.complain(n.at, "%s is %s, beyond any measure; check the figure", what, short(n.text))
			return 0, false
		}
	case floatKind:
		var err error
		x, err = strconv.ParseFloat(strings.ReplaceAll(n.text, "_", ""), 64)
		ok = err == nil
	}
	switch {
	case !ok && (n.kind == integerKind || n.kind == floatKind):
		r.complain(n.at, "%s is %s, which is not a number; write one like 115 or 34.5", what, short(n.text))
	case !ok:
		r.complain(n.at, "%s is %s here; write a number", what, sayKind(n))
	case math.IsNaN(x) || math.IsInf(x, 0):
		r.complain(n.at, "%s is %s, which is not a measure; write a number like 115", what, n.text)
		return 0, false
	}
	return x, ok
}

// short cuts a long figure for a sentence.
func short(text string) string {
	if len(text) > 40 {
		return text[:40] + "..."
	}
	return text
}

// sign says which figures a measure may have.
type sign int

const (
	anySign sign = iota
	notNegative
	positive
)

// fits complains of a figure on the wrong side of 0.
func (r *reader) fits(what string, n *node, x float64, s sign) bool {
	switch {
	case s == positive && x <= 0:
		r.complain(n.at, "%s is %s; it is more than 0", what, asWritten(n))
		return false
	case s == notNegative && x < 0:
		r.complain(n.at, "%s is %s; it is 0 or more", what, asWritten(n))
		return false
	}
	return true
}

// asWritten is a number or a text as it stands in the file, for a sentence.
func asWritten(n *node) string {
	if n.kind == textKind {
		return show(n.text)
	}
	return short(n.text)
}

// measured reads a text or a number with one of measure's readers.
func (r *reader) measured(what string, n *node, s sign, parse func(string) (float64, error)) (float64, bool) {
	text := n.text
	if n.kind != textKind {
		x, ok := r.number(what, n)
		if !ok {
			return 0, false
		}
		if math.Abs(x) > measure.Longest {
			r.complain(n.at, "%s is %s, beyond any kiln; check the figure", what, short(n.text))
			return 0, false
		}
		text = strconv.FormatFloat(x, 'f', -1, 64)
		if len(text) > 40 {
			text = strconv.FormatFloat(x, 'f', 12, 64)
		}
	}
	x, err := parse(text)
	if err != nil {
		r.complain(n.at, "%s: %s", what, err)
		return 0, false
	}
	return x, r.fits(what, n, x, s)
}

// millimetres reads a bare number of mm: what measure.ParseLength would give,
// without the way through a text. Most figures of a file are of this sort.
func (r *reader) millimetres(what string, n *node, s sign) (float64, bool) {
	x, ok := r.number(what, n)
	switch {
	case !ok:
		return 0, false
	case math.Abs(x) > measure.Longest:
		r.complain(n.at, "%s is %s, beyond any kiln; check the figure", what, short(n.text))
		return 0, false
	case math.Abs(x) < measure.Tolerance:
		x = 0
	}
	return x, r.fits(what, n, x, s)
}

// length is a length: a number in the load's unit, or a text with its unit.
func length(s sign) codec[float64] {
	return codec[float64]{
		read: func(r *reader, what string, n *node) (float64, bool) {
			if n.kind != textKind && r.units == measure.MM {
				return r.millimetres(what, n, s)
			}
			return r.measured(what, n, s, func(text string) (float64, error) {
				return measure.ParseLength(text, r.units)
			})
		},
		write: func(w *writer, mm float64) string { return w.length(mm) },
		omit:  func(mm float64) bool { return mm == 0 },
		shape: func(defs *schemas) schema { return defs.measure("length", s) },
	}
}

// mass is a mass: a number in kg, or a text with its unit.
func mass() codec[float64] {
	return codec[float64]{
		read: func(r *reader, what string, n *node) (float64, bool) {
			return r.measured(what, n, notNegative, measure.ParseMass)
		},
		write: func(_ *writer, kg float64) string { return measure.FormatMassFile(kg) },
		omit:  func(kg float64) bool { return kg == 0 },
		shape: func(defs *schemas) schema { return defs.measure("mass", notNegative) },
	}
}

// temperature is a temperature: a number in C, or a text with its unit.
func temperature() codec[float64] {
	return codec[float64]{
		read: func(r *reader, what string, n *node) (float64, bool) {
			return r.measured(what, n, notNegative, measure.ParseTemperature)
		},
		write: func(_ *writer, c float64) string { return measure.FormatFile(c) },
		omit:  func(c float64) bool { return c == 0 },
		shape: func(defs *schemas) schema { return defs.measure("temperature", notNegative) },
	}
}

// plainNumber is a number without unit.
func plainNumber(s sign) codec[float64] {
	return codec[float64]{
		read: func(r *reader, what string, n *node) (float64, bool) {
			x, ok := r.number(what, n)
			return x, ok && r.fits(what, n, x, s)
		},
		write: func(_ *writer, x float64) string { return figure(x) },
		omit:  func(x float64) bool { return x == 0 },
		shape: func(*schemas) schema { return numberSchema(s) },
	}
}

// mostTurn is the greatest angle that can be written, ten times round.
const mostTurn = 3600

// angle is a turn: a number in degrees clockwise, or a text like "135 deg" or
// "4:30".
func angle() codec[float64] {
	return codec[float64]{
		read: func(r *reader, what string, n *node) (float64, bool) {
			if n.kind == textKind {
				return r.clock(what, n)
			}
			x, ok := r.number(what, n)
			if ok && math.Abs(x) > mostTurn {
				r.complain(n.at, "%s is %s; a turn is in degrees clockwise, from 0 to 360", what, short(n.text))
				return 0, false
			}
			return x, ok
		},
		write: func(_ *writer, deg float64) string { return figure(deg) },
		omit:  func(deg float64) bool { return deg == 0 },
		shape: func(defs *schemas) schema { return defs.angle() },
	}
}

// clockText reads a text as a clock bearing.
func (r *reader) clock(what string, n *node) (float64, bool) {
	deg, err := measure.ParseClock(n.text)
	if err != nil {
		r.complain(n.at, "%s: %s", what, err)
		return 0, false
	}
	return deg, true
}

// bearing is a clock bearing, always a text: "10:30".
func bearing() codec[float64] {
	return codec[float64]{
		read: func(r *reader, what string, n *node) (float64, bool) {
			if n.kind != textKind {
				r.complain(n.at, "%s is %s here; write a clock bearing in quotes, like \"10:30\" or \"315 deg\"", what, sayKind(n))
				return 0, false
			}
			return r.clock(what, n)
		},
		write: func(_ *writer, deg float64) string { return quoted(measure.FormatClock(deg)) },
		omit:  func(float64) bool { return false },
		shape: func(defs *schemas) schema { return defs.bearing() },
	}
}

// count is a whole number from least to most.
func count(least, most int) codec[int] {
	return codec[int]{
		read: func(r *reader, what string, n *node) (int, bool) {
			x, ok := r.number(what, n)
			switch {
			case !ok:
				return 0, false
			case x != math.Trunc(x):
				r.complain(n.at, "%s is %s; it is a whole number", what, short(n.text))
				return 0, false
			case x < float64(least):
				r.complain(n.at, "%s is %s; it is %d or more", what, short(n.text), least)
				return 0, false
			case x > float64(most):
				r.complain(n.at, "%s is %s; at most %d can be planned", what, short(n.text), most)
				return 0, false
			}
			return int(x), true
		},
		write: func(_ *writer, x int) string { return strconv.Itoa(x) },
		omit:  func(x int) bool { return x == 0 },
		shape: func(*schemas) schema { return schema{"type": "integer", "minimum": least, "maximum": most} },
	}
}

// boolean is true or false; false is not written.
func boolean() codec[bool] {
	return codec[bool]{
		read: func(r *reader, what string, n *node) (bool, bool) {
			if n.kind != boolKind {
				r.complain(n.at, "%s is %s here; write true or false", what, sayKind(n))
				return false, false
			}
			return n.text == "true", true
		},
		write: func(_ *writer, v bool) string { return strconv.FormatBool(v) },
		omit:  func(v bool) bool { return !v },
		shape: func(*schemas) schema { return schema{"type": "boolean"} },
	}
}

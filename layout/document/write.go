package document

import (
	"bytes"
	"strconv"
	"strings"

	"threepost/layout/measure"
)

// writer collects the lines of a canonical file.
type writer struct {
	units measure.Units
	out   bytes.Buffer
}

// line writes one line, or several when the text has line ends in it.
func (w *writer) line(text string) {
	w.out.WriteString(text)
	w.out.WriteByte('\n')
}

// heading opens a section; the main ones stand apart by an empty line.
func (w *writer) heading(text string, apart bool) {
	if apart && w.out.Len() > 0 {
		w.out.WriteByte('\n')
	}
	w.line(text)
}

// length is a length as TOML: a bare number in the load's unit where that is
// short and exact, else a text with its unit. Reading it gives the same mm.
func (w *writer) length(mm float64) string {
	if w.units != measure.Inches {
		return figure(mm)
	}
	inches := measure.FormatLength(mm, measure.Inches, measure.Exact)
	switch {
	case strings.Contains(inches, "."): // no fraction fits
		return quoted(measure.FormatFile(mm) + " mm")
	case strings.Contains(inches, "/"):
		return quoted(inches)
	}
	return inches
}

// lengthText is a length inside a longer text, as in "150 + 5".
func (w *writer) lengthText(mm float64) string {
	return strings.Trim(w.length(mm), `"`)
}

// figure is a number as TOML, the shortest decimal that reads back the same.
func figure(x float64) string { return measure.FormatFile(x) }

// bareKey is a key as TOML, in quotes when it needs them.
func bareKey(key string) string {
	bare := key != ""
	for _, c := range key {
		switch {
		case c >= 'a' && c <= 'z', c >= 'A' && c <= 'Z', c >= '0' && c <= '9', c == '_', c == '-':
		default:
			bare = false
		}
	}
	if bare {
		return key
	}
	return quoted(key)
}

// quoted is a text as TOML.
func quoted(text string) string {
	var b strings.Builder
	b.WriteByte('"')
	for _, c := range strings.ToValidUTF8(text, "\ufffd") {
		switch {
		case c == '"' || c == '\\':
			b.WriteByte('\\')
			b.WriteRune(c)
		case c == '\n':
			b.WriteString(`\n`)
		case c == '\t':
			b.WriteString(`\t`)
		case c < 0x20 || c == 0x7f:
			b.WriteString(`\u00`)
			b.WriteString(strconv.FormatInt(int64(c)+0x100, 16)[1:])
		default:
			b.WriteRune(c)
		}
	}
	b.WriteByte('"')
	return b.String()
}

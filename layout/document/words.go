package document

import (
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"threepost/layout/measure"
)

// longestText is how long a text of the file may be, in characters;
// longestName how long a name.
const (
	longestText = 400
	longestName = 60
)

// text is words of the person's own, on one line.
func text(most int) codec[string] {
	return codec[string]{
		read: func(r *reader, what string, n *node) (string, bool) {
			if n.kind != textKind {
				r.complain(n.at, "%s is %s here; write a text in quotes", what, sayKind(n))
				return "", false
			}
			return n.text, r.readable(what, n, most)
		},
		write: func(_ *writer, v string) string { return quoted(v) },
		omit:  func(v string) bool { return v == "" },
		shape: func(*schemas) schema { return schema{"type": "string", "maxLength": most} },
	}
}

// readable complains of a text that cannot stand on a line of paper.
func (r *reader) readable(what string, n *node, most int) bool {
	if count := utf8.RuneCountInString(n.text); count > most {
		r.complain(n.at, "%s has %d characters; at most %d can be read", what, count, most)
		return false
	}
	if strings.ContainsFunc(n.text, unicode.IsControl) {
		r.complain(n.at, "%s holds a line break or another control character; write it on one line", what)
		return false
	}
	return true
}

// date is a text that may also be written as a bare date.
func date(strict bool) codec[string] {
	c := text(longestText)
	plain := c.read
	c.read = func(r *reader, what string, n *node) (string, bool) {
		if n.kind != dateKind {
			if v, ok := plain(r, what, n); !ok || v == "" {
				return v, ok
			}
		}
		if strict && !IsDate(n.text) {
			r.complain(n.at, "%s is %s; write a date like \"2026-10-14\"", what, show(n.text))
			return "", false
		}
		return n.text, true
	}
	c.shape = func(*schemas) schema {
		if strict {
			return schema{"type": "string", "pattern": "^[0-9]{4}-[0-9]{2}-[0-9]{2}$"}
		}
		return schema{"type": "string", "maxLength": longestText}
	}
	return c
}

// IsDate tells whether a text is a day of the calendar, 2026-10-14.
func IsDate(text string) bool {
	if len(text) != 10 || text[4] != '-' || text[7] != '-' {
		return false
	}
	year, err1 := strconv.ParseUint(text[:4], 10, 16)
	month, err2 := strconv.ParseUint(text[5:7], 10, 8)
	day, err3 := strconv.ParseUint(text[8:], 10, 8)
	if err1 != nil || err2 != nil || err3 != nil || month < 1 || month > 12 || day < 1 {
		return false
	}
	days := uint64(31)
	switch month {
	case 4, 6, 9, 11:
		days = 30
	case 2:
		days = 28
		if year%4 == 0 && (year%100 != 0 || year%400 == 0) {
			days = 29
		}
	}
	return day <= days
}

// name is what a thing is called by in the file and in sentences.
func name() codec[string] {
	c := text(longestName)
	plain := c.read
	c.read = func(r *reader, what string, n *node) (string, bool) {
		v, ok := plain(r, what, n)
		switch {
		case !ok:
			return v, false
		case v == "":
			r.complain(n.at, "%s is empty; give it a name", what)
			return v, false
		case strings.TrimSpace(v) != v:
			r.complain(n.at, "%s %s begins or ends with a space; take it out", what, show(v))
			return v, false
		}
		return v, true
	}
	c.shape = func(*schemas) schema {
		return schema{"type": "string", "minLength": 1, "maxLength": longestName}
	}
	return c
}

// choice is one of a few words.
func choice[S ~string](words ...S) codec[S] {
	known := make([]string, len(words))
	for i, w := range words {
		known[i] = string(w)
	}
	return codec[S]{
		read: func(r *reader, what string, n *node) (S, bool) {
			if n.kind != textKind {
				r.complain(n.at, "%s is %s here; write one of %s", what, sayKind(n), quotedList(known))
				return "", false
			}
			for _, w := range words {
				if n.text == string(w) {
					return w, true
				}
			}
			r.complain(n.at, "%s: %s", what, sayUnknown(n.text, "word for it", known))
			return "", false
		},
		write: func(_ *writer, v S) string { return quoted(string(v)) },
		omit:  func(v S) bool { return v == "" },
		shape: func(*schemas) schema { return schema{"enum": known} },
	}
}

// quotedList is words in quotes with commas.
func quotedList(words []string) string {
	shown := make([]string, len(words))
	for i, w := range words {
		shown[i] = show(w)
	}
	return strings.Join(shown, ", ")
}

// cone is a cone's name. A number is refused, since 6 and 06 differ by 200 C.
func cone() codec[measure.Cone] {
	return codec[measure.Cone]{
		read: func(r *reader, what string, n *node) (measure.Cone, bool) {
			switch n.kind {
			case textKind:
			case integerKind, floatKind:
				r.complain(n.at, "%s is the number %s; a cone is a name, so write it in quotes: %s", what, short(n.text), show(n.text))
				return "", false
			default:
				r.complain(n.at, "%s is %s here; write a cone in quotes, like \"6\" or \"04\"", what, sayKind(n))
				return "", false
			}
			c, err := measure.ParseCone(n.text)
			if err != nil {
				r.complain(n.at, "%s: %s", what, err)
				return "", false
			}
			return c, true
		},
		write: func(_ *writer, c measure.Cone) string { return quoted(string(c)) },
		omit:  func(c measure.Cone) bool { return c == "" },
		shape: func(defs *schemas) schema { return defs.cone() },
	}
}

package warelist

import "strings"

// quote puts a text in quotes; a quote mark in it is written twice.
func quote(text string) string {
	return `"` + strings.ReplaceAll(text, `"`, `""`) + `"`
}

// needsQuotes tells whether a text would be cut or changed without quotes.
func needsQuotes(text string) bool {
	return strings.ContainsAny(text, `,;#"`) || strings.Join(strings.Fields(text), " ") != text
}

// unquote takes a quoted text off the front: its text, and what follows. A
// text that is never closed ends with the line.
func unquote(s string) (text, rest string) {
	var b strings.Builder
	s = strings.TrimPrefix(s, `"`)
	for i := 0; i < len(s); i++ {
		if s[i] != '"' {
			b.WriteByte(s[i])
			continue
		}
		if i+1 < len(s) && s[i+1] == '"' {
			b.WriteByte('"')
			i++
			continue
		}
		return b.String(), s[i+1:]
	}
	return b.String(), ""
}

// cut splits a line at commas and semicolons outside quotes, and leaves out a
// comment. A comma between two digits is a decimal comma; a quote mark right
// after another character is inches.
func cut(line string) []string {
	var parts []string
	start, quoted := 0, false
	for i := 0; i < len(line); i++ {
		apart := i == 0 || strings.IndexByte(" \t,;", line[i-1]) >= 0
		switch c := line[i]; {
		case quoted && c == '"' && i+1 < len(line) && line[i+1] == '"':
			i++
		case quoted:
			quoted = c != '"'
		case c == '"' && apart:
			quoted = true
		case c == '#' && apart:
			return append(parts, line[start:i])
		case c == ';', c == ',' && !between(line, i):
			parts = append(parts, line[start:i])
			start = i + 1
		}
	}
	return append(parts, line[start:])
}

// between tells whether a comma stands between two digits.
func between(line string, i int) bool {
	return i > 0 && i+1 < len(line) && isDigit(line[i-1]) && isDigit(line[i+1])
}

func isDigit(c byte) bool { return c >= '0' && c <= '9' }

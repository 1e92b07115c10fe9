package drawing

import "strings"

// Wrap breaks words into lines no longer than width mm, at spaces; a no-break
// space holds. A newline begins a new line. A word longer than the width is
// broken inside. Empty words give no line.
func (f *Fonts) Wrap(s TextStyle, words string, width float64) []string {
	var lines []string
	if words == "" {
		return nil
	}
	for paragraph := range strings.SplitSeq(words, "\n") {
		lines = append(lines, f.wrapParagraph(s, paragraph, width)...)
	}
	return lines
}

func (f *Fonts) wrapParagraph(s TextStyle, words string, width float64) []string {
	var lines []string
	line := ""
	for _, word := range strings.FieldsFunc(words, func(r rune) bool { return r == ' ' || r == '\t' }) {
		switch {
		case line == "":
			line = word
		case f.Width(s, line+" "+word) <= width:
			line += " " + word
			continue
		default:
			lines = append(lines, line)
			line = word
		}
		for f.Width(s, line) > width {
			head, tail := f.fit(s, line, width)
			if tail == "" {
				break
			}
			lines = append(lines, head)
			line = tail
		}
	}
	return append(lines, line)
}

// fit cuts a word after as many letters as fit, at least one.
func (f *Fonts) fit(s TextStyle, word string, width float64) (head, tail string) {
	cut := 0
	for i := range word {
		if i > 0 && cut > 0 && f.Width(s, word[:i]) > width {
			break
		}
		if i > 0 {
			cut = i
		}
	}
	if cut == 0 {
		return word, ""
	}
	return word[:cut], word[cut:]
}

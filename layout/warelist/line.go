package warelist

import (
	"errors"
	"fmt"
	"strings"
	"unicode"

	"threepost/layout"
	"threepost/layout/document"
	"threepost/layout/measure"
	"threepost/layout/silhouette"
)

// longestHead is how long count, name and size together may be, in bytes.
const longestHead = 600

const example = "12 mugs 100 x 85"

// ParseLine reads one line of the short form. A bare figure is in the load's
// units. What it cannot read it answers with a sentence that says what to type.
func ParseLine(line string, units measure.Units) (layout.Ware, error) {
	w := layout.Ware{Count: 1}
	if len(line) > 4000 {
		return w, errors.New("the line is longer than any row; type one row a line, like " + example)
	}
	parts := cut(line)
	if err := readHead(&w, parts[0], units); err != nil {
		return w, err
	}
	told := map[string]bool{}
	for _, part := range parts[1:] {
		part = strings.TrimSpace(part)
		if part == "" {
			continue
		}
		if err := readTag(&w, part, units, told); err != nil {
			return w, err
		}
	}
	return w, nil
}

// readHead reads count, name and size.
func readHead(w *layout.Ware, head string, units measure.Units) error {
	head = strings.TrimSpace(head)
	if len(head) > longestHead {
		return errors.New("count, name and size are longer than any row's; type one like " + example)
	}
	if head == "" {
		return errors.New("the row is empty; type one like " + example)
	}
	rest, err := readCount(w, head)
	if err != nil {
		return err
	}
	if strings.HasPrefix(rest, `"`) {
		w.Name, rest = unquote(rest)
		if err := readable(w.Name); err != nil {
			return fmt.Errorf("name: %w", err)
		}
		if strings.TrimSpace(w.Name) != w.Name || w.Name == "" {
			return fmt.Errorf("the name %s is empty or begins or ends with a space; type one like \"mug\"", quote(w.Name))
		}
		return readSize(w, strings.TrimSpace(rest), units)
	}
	return readNameAndSize(w, head, rest, units)
}

// readCount takes the count off the front, if there is one.
func readCount(w *layout.Ware, head string) (rest string, err error) {
	end := strings.IndexFunc(head, unicode.IsSpace)
	if end < 0 {
		return head, nil
	}
	word, after := head[:end], strings.TrimSpace(head[end:])
	bare := strings.TrimRight(word, "x×")
	if !digitsOnly(strings.TrimPrefix(bare, "-")) {
		return head, nil
	}
	for _, mark := range []string{"x ", "× "} { // "12 x mugs"
		after = strings.TrimSpace(strings.TrimPrefix(after, mark))
	}
	return after, setCount(w, bare)
}

// readNameAndSize finds where the size begins: at the first figure from which
// the rest of the text is a size.
func readNameAndSize(w *layout.Ware, head, rest string, units measure.Units) error {
	if rest == "" || !strings.ContainsFunc(rest, unicode.IsLetter) || strings.IndexFunc(rest, startsFigure) == 0 {
		return fmt.Errorf("%s has no name; type count, name, height x across, like %s", show(head), example)
	}
	previous := ' '
	var last error
	for i, r := range rest {
		if i > 0 && unicode.IsSpace(previous) && startsFigure(r) {
			err := readSize(w, rest[i:], units)
			if err == nil {
				return setName(w, rest[:i])
			}
			figures := splitSize(rest[i:])
			if _, bad := measure.ParseLength(figures[0], units); bad == nil && len(figures) > 1 {
				return err // this is the size, and there is something wrong with it
			}
			if len(figures) > 1 {
				last = err
			}
		}
		previous = r
	}
	if last != nil {
		return last
	}
	return fmt.Errorf("%s has no size; type height x across, like %s", show(head), example)
}

// startsFigure tells whether a figure can begin so.
func startsFigure(r rune) bool {
	return unicode.IsDigit(r) || strings.ContainsRune(".-½¼¾⅓⅔⅛⅜⅝⅞", r)
}

// setName takes the name, in the singular when there are several.
func setName(w *layout.Ware, text string) error {
	name := strings.Join(strings.Fields(text), " ")
	if w.Count > 1 {
		name = silhouette.Singular(name)
	}
	w.Name = name
	if err := readable(name); err != nil {
		return fmt.Errorf("name: %w", err)
	}
	return nil
}

// splitSize cuts a size at x, × and by.
func splitSize(text string) []string {
	text = strings.NewReplacer("×", "x", "X", "x", "*", "x", " by ", " x ", " By ", " x ", " BY ", " x ").Replace(text)
	parts := strings.Split(text, "x")
	for i := range parts {
		parts[i] = strings.TrimSpace(parts[i])
	}
	return parts
}

// readSize reads "100 x 85" or "60 x 260 x 160".
func readSize(w *layout.Ware, text string, units measure.Units) error {
	figures := splitSize(text)
	if len(figures) < 2 || len(figures) > 3 {
		return fmt.Errorf("the size %s has %d figures; type height x across, or height x length x width", show(text), len(figures))
	}
	unit, err := commonUnit(figures)
	if err != nil {
		return err
	}
	mm := make([]float64, len(figures))
	for i, f := range figures {
		if unit != "" && unitOf(f) == "" {
			f += " " + unit
		}
		if mm[i], err = measure.ParsePositive(f, units); err != nil {
			return err
		}
	}
	w.Height, w.Across, w.Length, w.Width = mm[0], mm[1], 0, 0
	if len(mm) == 3 {
		w.Across, w.Length, w.Width = 0, mm[1], mm[2]
	}
	return nil
}

// commonUnit is the unit that figures without one take: the only one that the
// others have.
func commonUnit(figures []string) (string, error) {
	unit, bare := "", false
	mixed := false
	for _, f := range figures {
		u := unitOf(f)
		bare = bare || u == ""
		if u != "" {
			mixed = mixed || unit != "" && u != unit
			unit = u
		}
	}
	if mixed && bare {
		return "", fmt.Errorf("the size %s mixes units; type a unit after each figure", show(strings.Join(figures, " x ")))
	}
	return unit, nil
}

// unitOf is what stands after the figure.
func unitOf(figure string) string {
	return strings.TrimSpace(strings.TrimLeftFunc(figure, func(r rune) bool {
		return unicode.IsSpace(r) || unicode.IsDigit(r) || startsFigure(r) || r == '/' || r == ','
	}))
}

// tagWords pairs the words that begin what else there is to tell with its
// column.
func tagWords() []struct{ word, column string } {
	return []struct{ word, column string }{
		{"as", "silhouette"}, {"plan", "plan"}, {"foot", "foot"}, {"profile", "profile"}, {"handle", "handles"},
		{"spout", "spout"}, {"knob", "knob"}, {"lid", "lid"}, {"allow high", "allow high"}, {"allow wide", "allow wide"},
		{"mass", "mass"}, {"wall", "wall"}, {"clay", "clay"}, {"glaze", "glaze"}, {"cookie", "stand"}, {"stilt", "stand"},
		{"wads", "stand"}, {"nested", "nested"}, {"adds", "adds"}, {"owner", "owner"}, {"ticket", "ticket"},
		{"since", "since"}, {"value", "value"},
	}
}

// loneWords pairs the words that stand alone with their column.
func loneWords() []struct{ word, column string } {
	return []struct{ word, column string }{
		{"measured", "measured"}, {"must", "must"}, {"filler", "must"},
		{"bisqued", "dry"}, {"raw", "dry"}, {"damp", "dry"},
	}
}

// readTag reads one thing that is told after the size.
func readTag(w *layout.Ware, tag string, units measure.Units, told map[string]bool) error {
	cols := columns()
	plain := strings.Join(strings.Fields(tag), " ")
	if setFlag(w, plain) {
		return nil
	}
	for _, t := range loneWords() {
		if strings.EqualFold(plain, t.word) {
			return setOnce(w, columnNamed(cols, t.column), t.word, plain, units, told)
		}
	}
	for _, t := range tagWords() {
		if len(tag) < len(t.word) || !strings.EqualFold(tag[:len(t.word)], t.word) {
			continue
		}
		rest := tag[len(t.word):]
		if rest != "" && !unicode.IsSpace(rune(rest[0])) {
			continue
		}
		col := columnNamed(cols, t.column)
		rest = strings.TrimSpace(rest)
		if col.name == "stand" {
			rest = t.word + " " + rest
		}
		if rest == "" {
			return fmt.Errorf("%s says nothing yet; type one like %s", show(tag), tagExample(t.word))
		}
		if col.text && strings.HasPrefix(rest, `"`) {
			text, after := unquote(rest)
			if strings.TrimSpace(after) != "" {
				return fmt.Errorf("%s: after the text in quotes comes a comma", t.word)
			}
			rest = text
		}
		return setOnce(w, col, t.word, rest, units, told)
	}
	return fmt.Errorf("%s is not known here; %s", show(tag), nearestTag(plain))
}

// setOnce tells a column, which is told once; handles may be told more often.
func setOnce(w *layout.Ware, col *column, word, text string, units measure.Units, told map[string]bool) error {
	if told[col.name] && col.name != "handles" {
		return fmt.Errorf("%s is told twice; tell it once", word)
	}
	told[col.name] = true
	if err := col.set(w, text, units); err != nil {
		return fmt.Errorf("%s: %w", word, err)
	}
	return nil
}

// tagExample shows how something is told.
func tagExample(word string) string {
	switch word {
	case "as":
		return "as bowl"
	case "plan":
		return "plan oval"
	case "profile":
		return "profile 0 x 76 > 95 x 86"
	case "handle", "spout":
		return word + " 38 from 20 to 80"
	case "lid":
		return "lid beside"
	case "mass":
		return "mass 310 g"
	case "clay", "glaze":
		return word + " buff cone 6"
	case "owner":
		return "owner Ida"
	case "ticket":
		return "ticket 41"
	case "since":
		return "since 2026-10-14"
	}
	return word + " 6"
}

// nearestTag says which word was likely meant.
func nearestTag(plain string) string {
	var known, leading []string
	for _, f := range flagsOf(new(layout.Flags)) {
		known = append(known, f.word)
	}
	for _, t := range loneWords() {
		known = append(known, t.word)
	}
	for _, t := range tagWords() {
		leading = append(leading, t.word)
	}
	if near, ok := document.Nearest(plain, append(known, leading...)); ok {
		return "the nearest is " + show(near)
	}
	first, _, _ := strings.Cut(plain, " ")
	if near, ok := document.Nearest(first, leading); ok {
		return "the nearest is " + show(tagExample(near))
	}
	return "type a word like runny, must, refire, or owner Ida, clay buff cone 6, since 2026-10-14"
}

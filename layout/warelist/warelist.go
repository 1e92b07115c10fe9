package warelist

import (
	"fmt"
	"strings"

	"threepost/layout"
	"threepost/layout/document"
	"threepost/layout/measure"
	"threepost/layout/silhouette"
)

// mostBytes is the largest list that is read.
const mostBytes = 4 << 20

// mostComplaints is how many complaints one reading tells.
const mostComplaints = 50

// Parse reads many lines of the short form. Empty lines and lines that begin
// with # say nothing. On trouble it returns Complaints, one for each row that
// could not be read, and the rows that could.
func Parse(text string, units measure.Units) ([]layout.Ware, error) {
	if len(text) > mostBytes {
		return nil, Complaints{{Row: 1, Sentence: "the list is larger than 4 MB; type one row a line, like " + example}}
	}
	g := gathering{}
	text = strings.TrimPrefix(text, "\ufeff")
	for i, line := range strings.Split(strings.ReplaceAll(text, "\r\n", "\n"), "\n") {
		if trimmed := strings.TrimSpace(line); trimmed == "" || trimmed[0] == '#' {
			continue
		}
		w, err := ParseLine(line, units)
		if !g.take(i+1, w, err) {
			break
		}
	}
	return g.rows, g.result()
}

// gathering collects rows and what is wrong with them.
type gathering struct {
	file  string
	rows  []layout.Ware
	named map[string]int // the row a name was given in
	pots  int
	found Complaints
}

// take adds a row, or what is wrong with it. It answers false when no more
// can be read.
func (g *gathering) take(row int, w layout.Ware, err error) bool {
	if g.named == nil {
		g.named = map[string]int{}
	}
	say := ""
	first, twice := g.named[w.Name]
	switch {
	case err != nil:
		say = err.Error()
	case twice:
		say = fmt.Sprintf("row %d is called %s already; give this one its own name, or make them one row", first, show(w.Name))
	case len(g.rows) == document.MostRows:
		say = fmt.Sprintf("there are more than %d rows; at most %d can be planned", document.MostRows, document.MostRows)
	case g.pots+w.Count > document.MostPots:
		say = fmt.Sprintf("with this row there are %d pots; at most %d can be planned", g.pots+w.Count, document.MostPots)
	}
	if say != "" {
		g.found = append(g.found, Complaint{g.file, row, say})
		return len(g.found) < mostComplaints
	}
	g.named[w.Name] = row
	g.pots += w.Count
	g.rows = append(g.rows, w)
	return true
}

// result is the complaints, or nil when there are none.
func (g *gathering) result() error {
	if len(g.found) == 0 {
		return nil
	}
	return g.found
}

// Format writes a row in the short form: ParseLine reads the same row back,
// for every row with a name and a size.
func Format(w layout.Ware, units measure.Units) string {
	head := headText(w, units)
	var tags []string
	cols := columns()
	tell := func(word, column string) {
		col := columnNamed(cols, column)
		text := col.get(&w, units)
		if text == "" {
			return
		}
		if col.text && needsQuotes(text) {
			text = quote(text)
		}
		tags = append(tags, strings.TrimSpace(word+" "+text))
	}
	for _, t := range tagWords() {
		switch t.column {
		case "handles":
			for _, h := range w.Handles {
				tags = append(tags, "handle "+handleText(h, units))
			}
		case "stand":
			if t.word == string(w.Stand.Kind) {
				tell("", "stand")
			}
		default:
			tell(t.word, t.column)
		}
	}
	if w.Measured {
		tags = append(tags, "measured")
	}
	for _, f := range flagsOf(&w.Flags) {
		if *f.on {
			tags = append(tags, f.word)
		}
	}
	tell("", "must")
	tell("", "dry")
	return strings.Join(append([]string{head}, tags...), ", ")
}

// headText is count, name and size. The name goes in quotes where it would not
// be read back the same without them.
func headText(w layout.Ware, units measure.Units) string {
	figures := []float64{w.Height, w.Across}
	if w.Length != 0 || w.Width != 0 {
		figures = []float64{w.Height, w.Length, w.Width}
	}
	size := sizeText(figures, units)
	count, name := "", w.Name
	if w.Count != 1 {
		count = fmt.Sprintf("%d ", w.Count)
		name = silhouette.Plural(w.Name)
	}
	if !needsQuotes(name) {
		back, err := ParseLine(count+name+" "+size, units)
		if err == nil && back.Name == w.Name && back.Count == w.Count && back.Height == w.Height {
			return count + name + " " + size
		}
	}
	return count + quote(w.Name) + " " + size
}

// sizeText writes the figures of a size, with a unit each where they differ.
func sizeText(figures []float64, units measure.Units) string {
	texts := make([]string, len(figures))
	mixed := false
	for i, mm := range figures {
		texts[i] = zeroText(mm, units)
		mixed = mixed || strings.HasSuffix(texts[i], "mm")
	}
	if mixed {
		for i := range texts {
			if !strings.HasSuffix(texts[i], "mm") {
				texts[i] += " in"
			}
		}
	}
	return strings.Join(texts, " x ")
}

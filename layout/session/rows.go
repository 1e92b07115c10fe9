package session

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"threepost/layout"
	"threepost/layout/document"
	"threepost/layout/silhouette"
	"threepost/layout/warelist"
)

// mostPasted is the longest text of rows that is read, bytes.
const mostPasted = 1 << 20

// Rows reads rows of ware as people type and paste them: the short form, or
// cells of a spreadsheet with a heading row, apart by commas, semicolons or
// tabs; cells without a heading row are taken as count, name, height, across.
// A row like one of the list in all but its count adds to it; one that differs
// under the same name gets a free name. Nothing is changed: the answer has the
// edits.
func (s *Session) Rows(text string) Rows {
	out := Rows{Rows: []RowRead{}, Refusals: []RowRefused{}, Edits: []layout.Edit{}}
	if len(text) > mostPasted {
		out.Refusals = append(out.Refusals, RowRefused{1, "the text is longer than a megabyte; a list of pots is far smaller"})
		return out
	}
	text = strings.ReplaceAll(strings.ReplaceAll(text, "\r\n", "\n"), "\r", "\n")
	rows := map[string]*layout.Ware{} // as they will stand
	var names []string
	pots := 0
	for _, line := range s.readRows(text) {
		if line.err != nil {
			out.Refusals = append(out.Refusals, RowRefused{line.at, line.err.Error()})
			continue
		}
		w, added := s.merge(rows, line.ware)
		if w.Count > document.MostPots {
			out.Refusals = append(out.Refusals, RowRefused{line.at, fmt.Sprintf("%s would be %d; at most %d can be planned", w.Name, w.Count, document.MostPots)})
			continue
		}
		if rows[w.Name] == nil {
			names = append(names, w.Name)
		}
		rows[w.Name] = &w
		pots += line.ware.Count
		said := silhouette.Counted(line.ware.Count, w.Name) + " " + s.size(&w)
		if added > 0 {
			said += ", added to " + strconv.Itoa(added)
		} else if w.Name != line.ware.Name {
			said += ", since " + strconv.Quote(line.ware.Name) + " is another row"
		}
		out.Rows = append(out.Rows, RowRead{Said: said, Name: w.Name, Line: line.at})
	}
	for _, name := range names {
		out.Edits = append(out.Edits, layout.Edit{Act: layout.SetWare, Ware: rows[name]})
	}
	out.Says = silhouette.Counted(len(out.Rows), "row") + ", " + silhouette.Counted(pots, "pot") + "."
	if n := len(out.Refusals); n > 0 {
		out.Says += " " + capital(silhouette.Counted(n, "row")) + onOff(n == 1, " is", " are") + " not read."
	}
	return out
}

// rowLine is a line that was read as a row, or why it was not.
type rowLine struct {
	at   int
	ware layout.Ware
	err  error
}

// readRows reads the lines of a text as rows.
func (s *Session) readRows(text string) []rowLine {
	var out []rowLine
	lines := strings.Split(text, "\n")
	if headed(lines) {
		return s.readTable(text)
	}
	for i, line := range lines {
		trimmed := strings.TrimSpace(line)
		if trimmed == "" || strings.HasPrefix(trimmed, "#") {
			continue
		}
		if len(out) >= document.MostRows {
			return append(out, rowLine{at: i + 1, err: fmt.Errorf("more than %d rows; paste fewer at once", document.MostRows)})
		}
		w, err := s.readRow(line)
		out = append(out, rowLine{i + 1, w, err})
	}
	return out
}

// readRow reads one line: cells apart by tabs, or the short form.
func (s *Session) readRow(line string) (layout.Ware, error) {
	cells := strings.Split(line, "\t")
	if len(cells) < 2 {
		return warelist.ParseLine(line, s.now.Units)
	}
	for i := range cells {
		cells[i] = strings.TrimSpace(cells[i])
	}
	if len(cells) < 3 {
		return layout.Ware{}, errors.New("a row of cells takes count, name, height and across; or write it in one cell, like 12 mugs 100 x 85")
	}
	count, name := cells[0], cells[1]
	if _, err := strconv.Atoi(count); err != nil { // name first
		count, name = cells[1], cells[0]
	}
	size := strings.Join(cells[2:min(len(cells), 4)], " x ")
	tail := ""
	if len(cells) > 4 {
		for _, c := range cells[4:] {
			if c != "" {
				tail += ", " + c
			}
		}
	}
	return warelist.ParseLine(count+" "+name+" "+strings.TrimSuffix(size, " x ")+tail, s.now.Units)
}

// headed tells whether a text begins with a row of headings.
func headed(lines []string) bool {
	for _, line := range lines {
		line = strings.ToLower(strings.TrimSpace(line))
		if line == "" {
			continue
		}
		if strings.HasPrefix(line, "sep=") {
			return true
		}
		if !strings.ContainsAny(line, ",;\t") {
			return false
		}
		known := 0
		for _, cell := range strings.FieldsFunc(line, func(r rune) bool { return r == ',' || r == ';' || r == '\t' }) {
			word, _, _ := strings.Cut(strings.Trim(strings.TrimSpace(cell), `"`), " ")
			switch word {
			case "count", "name", "height", "across", "width", "length", "glaze", "owner", "pot", "ware", "number", "size":
				known++
			}
		}
		return known >= 2
	}
	return false
}

// readTable reads cells under headings. The rows that can be read come with
// the lines that no complaint is about.
func (s *Session) readTable(text string) []rowLine {
	rows, err := warelist.ReadCSV("", []byte(text), s.now.Units)
	bad := map[int]bool{}
	var out []rowLine
	var complaints warelist.Complaints
	if errors.As(err, &complaints) {
		for _, c := range complaints {
			bad[c.Row] = true
			out = append(out, rowLine{at: c.Row, err: errors.New(c.Sentence)})
		}
	}
	var good []int
	head := false
	for i, line := range strings.Split(text, "\n") {
		trimmed := strings.Trim(line, ",;\t \"")
		if trimmed == "" || strings.HasPrefix(strings.ToLower(trimmed), "sep=") {
			continue
		}
		if !head {
			head = true
			continue
		}
		if !bad[i+1] {
			good = append(good, i+1)
		}
	}
	for i, w := range rows {
		at := 0
		if i < len(good) {
			at = good[i]
		}
		out = append(out, rowLine{at: at, ware: w})
	}
	return out
}

// merge is a read row as it will stand: joined to the row of its name when
// they differ in nothing but the count, else under a free name. It tells how
// many the row had.
func (s *Session) merge(pending map[string]*layout.Ware, w layout.Ware) (layout.Ware, int) {
	base := w.Name
	for n := 2; ; n++ {
		old := pending[w.Name]
		if old == nil {
			old = s.now.WareOf(layout.Pot{Ware: w.Name})
		}
		cones := s.now.ConesOf(layout.Pot{Ware: w.Name}) != nil
		if old == nil && !cones {
			return w, 0
		}
		if !cones && (s.alike(*old, w) || agrees(old, &w)) {
			joined := *old
			joined.Count += w.Count
			return joined, old.Count
		}
		w.Name = freeName(base, n)
	}
}

// freeName is another name for a row like one called base. A name that ends in
// a figure would read as a pot of the row, so it is a letter.
func freeName(base string, n int) string {
	if n <= 26 {
		return base + " " + string(rune('a'+n-1))
	}
	return base + " " + string(rune('a'+(n-1)/26-1)) + string(rune('a'+(n-1)%26))
}

// alike tells whether two rows differ in nothing but their counts.
func (s *Session) alike(a, b layout.Ware) bool {
	a.Count = b.Count
	return warelist.Format(a, s.now.Units) == warelist.Format(b, s.now.Units)
}

// agrees tells whether a typed row says nothing that an older one does not:
// "12 mugs 95 x 86" are more of the mugs with handle and glaze.
func agrees(old, w *layout.Ware) bool {
	same := func(said, is string) bool { return said == "" || said == is }
	return old.Height == w.Height && old.Across == w.Across && old.Length == w.Length && old.Width == w.Width &&
		same(string(w.Silhouette), string(old.Silhouette)) && same(string(w.Plan), string(old.Plan)) &&
		same(w.Owner, old.Owner) && same(w.Ticket, old.Ticket) && same(w.Since, old.Since) && same(string(w.Must), string(old.Must)) &&
		same(w.Glaze.Name, old.Glaze.Name) && same(string(w.Glaze.Cone), string(old.Glaze.Cone)) &&
		same(w.Clay.Name, old.Clay.Name) && same(string(w.Clay.Cone), string(old.Clay.Cone)) &&
		(w.Flags == layout.Flags{} || w.Flags == old.Flags) && (w.Stand == layout.Stand{} || w.Stand == old.Stand) &&
		len(w.Profile) == 0 && len(w.Handles) == 0 && w.Spout == nil && w.Foot == 0 && w.Knob == 0 && w.Mass == 0 && w.Wall == 0 &&
		w.LidOn == nil && w.HighAllowance == nil && w.WideAllowance == nil && w.Nested == 0 && w.Value == 0 && w.Dry == ""
}

// CSV is the ware list as a spreadsheet reads it.
func (s *Session) CSV() string { return string(warelist.WriteCSV(s.now)) }

// row is the row of that name.
func (s *Session) row(name string) (*layout.Ware, error) {
	w := s.now.WareOf(layout.Pot{Ware: name})
	if w == nil {
		return nil, fmt.Errorf("there is no ware %q on the list", name)
	}
	return w, nil
}

// Count changes how many pots a row has. Fewer than are set: those with the
// highest numbers go back to the table, and undo's label says how many.
func (s *Session) Count(name string, count int) (*State, error) {
	w, err := s.row(name)
	if err != nil {
		return nil, err
	}
	c := *w
	c.Count = count
	what := "count " + silhouette.Counted(count, name)
	if gone := s.goneBy(w, count); len(gone) > 0 {
		what += "; " + list(gone) + onOff(len(gone) == 1, " leaves", " leave") + " the kiln"
	}
	return s.Apply([]layout.Edit{{Act: layout.SetWare, Ware: &c}}, what)
}

// GoneBy are the set pots that leave the kiln when a row has only so many.
func (s *Session) GoneBy(name string, count int) []string {
	w, err := s.row(name)
	if err != nil {
		return nil
	}
	return s.goneBy(w, count)
}

func (s *Session) goneBy(w *layout.Ware, count int) []string {
	var out []string
	for n := max(count, 0) + 1; n <= w.Count; n++ {
		if id := w.PotNumber(n).String(); s.stands(id) {
			out = append(out, id)
		}
	}
	return out
}

// Duplicate adds a row like another under a free name.
func (s *Session) Duplicate(name string) (*State, error) {
	w, err := s.row(name)
	if err != nil {
		return nil, err
	}
	c := *w
	for n := 2; s.now.WareOf(layout.Pot{Ware: c.Name}) != nil || s.now.ConesOf(layout.Pot{Ware: c.Name}) != nil; n++ {
		c.Name = freeName(name, n)
	}
	return s.Apply([]layout.Edit{{Act: layout.SetWare, Ware: &c}}, "duplicate "+name)
}

// Remove takes a row off the list; its pots go with it.
func (s *Session) Remove(name string) (*State, error) {
	return s.Apply([]layout.Edit{{Act: layout.RemoveWare, Other: name}}, "")
}

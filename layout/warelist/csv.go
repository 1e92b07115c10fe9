package warelist

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"strings"

	"threepost/layout"
	"threepost/layout/document"
	"threepost/layout/measure"
)

// heading is a column of a file: what it tells, and the unit its heading names.
type heading struct {
	col  *column
	unit string
	skip bool // a column for people only
}

// ReadCSV reads ware rows from CSV. The first row names the columns, in any
// order and case; commas, semicolons or tabs part them. A bare figure is in
// the unit that its heading names, as in "height (in)", else in the load's.
// A figure may have a decimal comma. The file's name is used in messages only.
// On trouble it returns Complaints, and the rows that could be read.
func ReadCSV(file string, data []byte, units measure.Units) ([]layout.Ware, error) {
	g := gathering{file: file}
	if len(data) > mostBytes {
		g.found = Complaints{{file, 1, "the file is larger than 4 MB; a list of pots is far smaller"}}
		return nil, g.result()
	}
	text, skipped := strings.TrimPrefix(string(data), "\ufeff"), 0
	comma, told := separatorLine(text)
	if told {
		_, text, _ = strings.Cut(text, "\n")
		skipped++
	} else {
		comma = detect(text)
	}
	r := csv.NewReader(strings.NewReader(text))
	r.Comma, r.FieldsPerRecord, r.LazyQuotes, r.TrimLeadingSpace = comma, -1, true, comma != '\t'
	var heads []heading
	for {
		cells, err := r.Read()
		if err == io.EOF {
			break
		}
		if err != nil {
			var at *csv.ParseError
			row := 1
			if errors.As(err, &at) {
				row = at.Line + skipped
			}
			g.found = append(g.found, Complaint{file, row, "this row cannot be read; look at its quote marks"})
			break
		}
		line, _ := r.FieldPos(0)
		line += skipped
		if blank(cells) {
			continue
		}
		if heads == nil {
			if heads = readHeadings(&g, line, cells); len(g.found) > 0 {
				break
			}
			continue
		}
		w, err := readCells(heads, cells, units)
		if !g.take(line, w, err) {
			break
		}
	}
	if heads == nil && len(g.found) == 0 {
		g.found = append(g.found, Complaint{file, 1, "the file is empty; its first row names the columns: count, name, height, across"})
	}
	return g.rows, g.result()
}

// separatorLine reads the "sep=;" that some spreadsheets write first.
func separatorLine(text string) (rune, bool) {
	line, _, _ := strings.Cut(text, "\n")
	line = strings.TrimRight(line, "\r")
	if len(line) == 5 && strings.EqualFold(line[:4], "sep=") && strings.ContainsAny(line[4:], ",;\t") {
		return rune(line[4]), true
	}
	return ',', false
}

// detect finds what parts the columns: the mark that makes the most known
// headings of the first row with anything in it.
func detect(text string) rune {
	line := ""
	for rest := text; line == "" && rest != ""; {
		line, rest, _ = strings.Cut(rest, "\n")
		line = strings.TrimSpace(line)
	}
	cols := columns()
	best, most := ',', -1
	for _, mark := range []rune{',', ';', '\t'} {
		r := csv.NewReader(strings.NewReader(line))
		r.Comma, r.LazyQuotes, r.TrimLeadingSpace = mark, true, mark != '\t'
		cells, err := r.Read()
		if err != nil {
			continue
		}
		known := 0
		for _, c := range cells {
			if h := headingOf(cols, c); h.col != nil {
				known += 100
			}
		}
		if known += len(cells); known > most {
			best, most = mark, known
		}
	}
	return best
}

func blank(cells []string) bool {
	for _, c := range cells {
		if strings.TrimSpace(c) != "" {
			return false
		}
	}
	return true
}

// headingOf finds the column that a heading means.
func headingOf(cols []column, text string) heading {
	word, unit := splitUnit(text)
	for _, try := range []heading{{unit: unit}, {}} {
		if try.unit == "" {
			word = plainHeading(text)
		}
		for i := range cols {
			c := &cols[i]
			if try.unit != "" && c.in == "" || !meansColumn(c, word) {
				continue
			}
			try.col = c
			return try
		}
	}
	switch word {
	case "note", "notes", "comment", "comments", "remark", "remarks":
		return heading{skip: true}
	}
	return heading{}
}

func meansColumn(c *column, word string) bool {
	if word == c.name {
		return true
	}
	for _, a := range c.also {
		if word == a {
			return true
		}
	}
	return false
}

// plainHeading is a heading in small letters with single spaces.
func plainHeading(text string) string {
	return strings.Join(strings.Fields(strings.NewReplacer("_", " ", "-", " ").Replace(strings.ToLower(text))), " ")
}

// splitUnit takes a unit off the end of a heading: "height (in)", "mass g".
func splitUnit(text string) (word, unit string) {
	word = plainHeading(strings.NewReplacer("(", " ", ")", " ", "[", " ", "]", " ").Replace(text))
	cut := strings.LastIndexByte(word, ' ')
	if cut < 0 {
		return word, ""
	}
	switch u := word[cut+1:]; u {
	case "mm", "cm", "m", "in", "inch", "inches", "g", "kg", "lb", "oz":
		return strings.TrimSuffix(strings.TrimSpace(word[:cut]), " in"), u
	}
	return word, ""
}

// readHeadings reads the first row.
func readHeadings(g *gathering, row int, cells []string) []heading {
	cols := columns()
	known := make([]string, 0, len(cols))
	for _, c := range cols {
		known = append(known, c.name)
		known = append(known, c.also...)
	}
	heads := make([]heading, len(cells))
	seen := map[string]bool{}
	for i, cell := range cells {
		if strings.TrimSpace(cell) == "" {
			heads[i].skip = true
			continue
		}
		heads[i] = headingOf(cols, cell)
		if heads[i].skip {
			continue
		}
		if heads[i].col == nil {
			say := "is not a column here"
			if near, ok := document.Nearest(cell, known); ok {
				say += "; the nearest is " + show(near)
			} else {
				say += "; a column of your own is left alone when it is called note"
			}
			g.found = append(g.found, Complaint{g.file, row, show(cell) + " " + say})
			continue
		}
		name := heads[i].col.name
		if seen[name] {
			g.found = append(g.found, Complaint{g.file, row, "two columns mean " + name + "; keep one"})
		}
		seen[name] = true
	}
	if len(g.found) > 0 {
		return heads
	}
	for _, need := range []string{"name", "height"} {
		if !seen[need] {
			g.found = append(g.found, Complaint{g.file, row, "there is no column " + need + "; the first row names the columns: count, name, height, across"})
		}
	}
	if !seen["across"] && !(seen["length"] && seen["width"]) {
		g.found = append(g.found, Complaint{g.file, row, "there is no column across; the first row names the columns: count, name, height, across"})
	}
	return heads
}

// readCells reads one row of ware.
func readCells(heads []heading, cells []string, units measure.Units) (layout.Ware, error) {
	w := layout.Ware{Count: 1}
	for i, cell := range cells {
		cell = fromCell(strings.TrimSpace(cell))
		if cell == "" {
			continue
		}
		if i >= len(heads) || heads[i].col == nil && !heads[i].skip {
			return w, fmt.Errorf("%s stands in column %d, which has no heading; take it out or name the column", show(cell), i+1)
		}
		if heads[i].skip {
			continue
		}
		h := heads[i]
		if h.unit != "" && !strings.ContainsFunc(cell, isUnitMark) {
			cell += " " + h.unit
		}
		if err := h.col.set(&w, cell, units); err != nil {
			return w, fmt.Errorf("%s: %w", h.col.name, err)
		}
	}
	switch {
	case w.Name == "":
		return w, errors.New("there is no name; type one like mug")
	case w.Height == 0:
		return w, fmt.Errorf("%s has no height; type one like 100", show(w.Name))
	case w.Across == 0 && (w.Length == 0 || w.Width == 0):
		return w, fmt.Errorf("%s has no width; type across, like 85, or length and width", show(w.Name))
	case w.Across != 0 && (w.Length != 0 || w.Width != 0):
		return w, fmt.Errorf("%s has across as well as length and width; round ware has across, oblong ware the other two", show(w.Name))
	}
	return w, nil
}

// isUnitMark tells whether a rune is part of a unit.
func isUnitMark(r rune) bool {
	return r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || strings.ContainsRune("\"'″′”", r)
}

// toCell keeps a text from being taken for a formula by a spreadsheet: one
// that begins with = + - @ or a tab gets an apostrophe in front, and so does
// one that begins with an apostrophe before those, so that fromCell can undo it.
func toCell(text string) string {
	if strings.TrimLeft(text, "'") != "" && strings.ContainsRune("=+-@\t\r", rune(strings.TrimLeft(text, "'")[0])) {
		return "'" + text
	}
	return text
}

// fromCell undoes toCell.
func fromCell(cell string) string {
	if strings.HasPrefix(cell, "'") && toCell(cell[1:]) == cell {
		return cell[1:]
	}
	return cell
}

// WriteCSV writes the ware rows of a load as CSV with commas, in the load's
// units, which the headings name. Columns that no row fills are left out, but
// for count, name, height and across. ReadCSV reads the same rows back.
func WriteCSV(l *layout.Load) []byte {
	units := l.Units
	unit := "mm"
	if units == measure.Inches {
		unit = "in"
	}
	var used []column
	for _, c := range columns() {
		keep := c.name == "count" || c.name == "name" || c.name == "height" || c.name == "across"
		for i := range l.Ware {
			keep = keep || c.get(&l.Ware[i], units) != ""
		}
		if keep {
			used = append(used, c)
		}
	}
	var out bytes.Buffer
	w := csv.NewWriter(&out)
	cells := make([]string, len(used))
	for i, c := range used {
		switch cells[i] = c.name; c.in {
		case "length":
			cells[i] += " (" + unit + ")"
		case "mass":
			cells[i] += " (kg)"
		}
	}
	_ = w.Write(cells) // into memory
	for i := range l.Ware {
		for j, c := range used {
			cells[j] = toCell(c.get(&l.Ware[i], units))
		}
		_ = w.Write(cells)
	}
	w.Flush()
	return out.Bytes()
}

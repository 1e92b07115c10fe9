package document

import (
	"strings"

	"threepost/layout"
	"threepost/layout/measure"
)

// The most that one file may hold. They are checked before anything is made
// from the figures.
const (
	MostBytes  = 4 << 20 // of the file
	MostPots   = 10000   // all rows together
	MostRows   = 1000    // of ware
	MostTowers = 50
	MostLevels = 100 // of a tower
	mostRows   = 500 // of anything else
	mostLines  = 64  // of a tower
	mostKnots  = 200
)

// reader turns a tree into a load.
type reader struct {
	*tree
	units measure.Units
	load  *layout.Load
	names names
}

// Parse reads a load document. The file's name is used in complaints only. On
// trouble it returns Complaints with all that was found, sorted by place; the
// load is then nil.
func Parse(file string, data []byte) (*layout.Load, error) {
	t, err := open(file, data)
	if err != nil {
		return nil, err
	}
	return read(t)
}

// open reads the syntax of a file and brings it to the newest version.
func open(file string, data []byte) (*tree, error) {
	if len(data) > MostBytes {
		return nil, Complaints{{File: file, Sentence: "the file is larger than 4 MB; a load is far smaller, so it is another kind of file"}}
	}
	t := plant(file, data)
	if !t.broken {
		migrate(t)
	}
	if t.broken {
		return nil, t.found.sorted()
	}
	return t, nil
}

// read turns a tree of the newest version into a load.
func read(t *tree) (*layout.Load, error) {
	r := &reader{tree: t, load: &layout.Load{}, units: measure.MM}
	if e := t.root.get("units"); e != nil && e.value.kind == textKind {
		if u, ok := unitsByWord(e.value.text); ok {
			r.units = u // lengths anywhere in the file depend on it
		}
	}
	readTable(r, t.root, loadTable(), r.load)
	if len(t.found) > 0 {
		return nil, t.found.sorted()
	}
	return r.load, nil
}

// Format writes a load in the canonical form: fixed order of keys, defaults
// left out, one pot on one line, the same bytes for the same load.
func Format(l *layout.Load) []byte {
	w := &writer{units: l.Units}
	if w.units != measure.Inches {
		w.units = measure.MM
	}
	writeBody(w, loadTable(), l)
	return w.out.Bytes()
}

// Update writes a load in the canonical form and keeps the comments of the
// file it was read from. A comment stays with the key, row, tower or pot it
// stands at; when that is gone it stands above what held it. The new bytes
// have been read back; what could not be read again, or an old file that
// cannot be read, is returned as Complaints, so that nothing typed is lost.
func Update(old []byte, l *layout.Load) ([]byte, error) {
	if len(strings.TrimSpace(string(old))) == 0 {
		return written(Format(l))
	}
	before, err := open("", old)
	if err != nil {
		return nil, err
	}
	if _, err := read(before); err != nil {
		return nil, err
	}
	return written(transplant(before, plant("", Format(l))))
}

// written reads bytes back before they are given out.
func written(data []byte) ([]byte, error) {
	if _, err := Parse("", data); err != nil {
		return nil, err
	}
	return data, nil
}

// unitsByWord is the choice of units as the file writes it.
func unitsByWord(word string) (measure.Units, bool) {
	switch u := measure.Units(word); u {
	case measure.MM, measure.Inches:
		return u, true
	}
	return measure.MM, false
}

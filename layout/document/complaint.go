package document

import (
	"fmt"
	"sort"
	"strings"
)

// Complaint is one thing that keeps a document from being read.
type Complaint struct {
	File     string `json:"file,omitempty"`
	Line     int    `json:"line,omitempty"`   // from 1; 0 when no place in the file is meant
	Column   int    `json:"column,omitempty"` // from 1, counted in characters
	Sentence string `json:"sentence"`
}

// String is the complaint on one line: "october.toml:12:1: ...".
func (c Complaint) String() string {
	where := ""
	if c.File != "" {
		where = c.File + ":"
	}
	if c.Line > 0 {
		where += fmt.Sprintf("%d:%d:", c.Line, c.Column)
	}
	if where == "" {
		return c.Sentence
	}
	return where + " " + c.Sentence
}

// Complaints are all that was found in one reading, sorted by place.
type Complaints []Complaint

// Error is every complaint on a line of its own.
func (c Complaints) Error() string {
	lines := make([]string, len(c))
	for i := range c {
		lines[i] = c[i].String()
	}
	return strings.Join(lines, "\n")
}

// mostComplaints is how many complaints one reading tells; a file of another
// kind would drown the person in them.
const mostComplaints = 50

// sorted orders the complaints by place and cuts them to mostComplaints.
func (c Complaints) sorted() Complaints {
	sort.SliceStable(c, func(i, j int) bool {
		if c[i].Line != c[j].Line {
			return c[i].Line < c[j].Line
		}
		return c[i].Column < c[j].Column
	})
	if len(c) > mostComplaints {
		rest := len(c) - mostComplaints
		c = append(c[:mostComplaints:mostComplaints], Complaint{
			File:     c[0].File,
			Sentence: fmt.Sprintf("%d more like these are not listed; mend the first ones and read the file again", rest),
		})
	}
	return c
}

// complain keeps a complaint about the place of a byte offset.
func (t *tree) complain(at int, format string, args ...any) {
	line, column := t.place(at)
	t.found = append(t.found, Complaint{t.file, line, column, fmt.Sprintf(format, args...)})
}

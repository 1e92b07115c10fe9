package document

import (
	"fmt"
	"strings"
)

// Complaint is one thing that stops a document from being read.
type Complaint struct {
	File     string
	Line     int // from 1; 0 when no place in the file is meant
	Column   int // from 1, counted in characters
	Sentence string
}

// String is the complaint on one line: "october.toml:12:1: ...".
func (c Complaint) String() string {
	switch {
	case c.Line > 0:
		return fmt.Sprintf("%s:%d:%d: %s", c.File, c.Line, c.Column, c.Sentence)
	case c.File != "":
		return c.File + ": " + c.Sentence
	}
	return c.Sentence
}

// Complaints are all that was found in one reading, by line.
type Complaints []Complaint

// Error is every complaint on a line of its own.
func (c Complaints) Error() string {
	lines := make([]string, len(c))
	for i := range c {
		lines[i] = c[i].String()
	}
	return strings.Join(lines, "\n")
}

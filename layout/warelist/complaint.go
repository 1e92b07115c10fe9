package warelist

import (
	"fmt"
	"strings"
)

// Complaint is what keeps a row from being read.
type Complaint struct {
	File     string `json:"file,omitempty"`
	Row      int    `json:"row"` // of the text or of the spreadsheet, from 1
	Sentence string `json:"sentence"`
}

// String is the complaint on one line: "pots.csv: row 3: ...".
func (c Complaint) String() string {
	text := fmt.Sprintf("row %d: %s", c.Row, c.Sentence)
	if c.File != "" {
		return c.File + ": " + text
	}
	return text
}

// Complaints are all that was found in one reading, by row.
type Complaints []Complaint

// Error is every complaint on a line of its own.
func (c Complaints) Error() string {
	lines := make([]string, len(c))
	for i := range c {
		lines[i] = c[i].String()
	}
	return strings.Join(lines, "\n")
}

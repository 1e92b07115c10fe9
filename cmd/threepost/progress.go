package main

import (
	"fmt"
	"io"
	"os"
	"strings"

	"golang.org/x/term"
)

// progress is a bar on a terminal, and nothing anywhere else.
type progress struct {
	out  io.Writer
	last string
}

// newProgress draws only where a person watches.
func newProgress(w io.Writer) *progress {
	if f, ok := w.(*os.File); ok && term.IsTerminal(int(f.Fd())) {
		return &progress{out: w}
	}
	return &progress{}
}

// show draws the bar at a share from 0 to 1 with a word beside it.
func (p *progress) show(share float64, words string) {
	if p.out == nil {
		return
	}
	const width = 30
	n := int(max(0, min(1, share)) * width)
	line := fmt.Sprintf("\r[%s%s] %s ", strings.Repeat("=", n), strings.Repeat(" ", width-n), words)
	if line != p.last {
		fmt.Fprint(p.out, line)
		p.last = line
	}
}

// done clears the line.
func (p *progress) done() {
	if p.out != nil && p.last != "" {
		fmt.Fprint(p.out, "\r"+strings.Repeat(" ", len(p.last))+"\r")
	}
}

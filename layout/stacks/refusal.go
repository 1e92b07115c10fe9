package stacks

import (
	"strings"

	"threepost/layout"
)

// Refusal is one reason why a load cannot be built: what is said does not
// describe a thing. It is about the document, never about a tight gap.
type Refusal struct {
	Where    layout.Thing
	Sentence string
}

// Error is the sentence.
func (r *Refusal) Error() string { return r.Sentence }

// Refusals are all reasons why a load cannot be built: kiln first, then the
// towers in their order, each from the bottom up.
type Refusals []*Refusal

// Error is the sentences, one a line.
func (r Refusals) Error() string {
	lines := make([]string, len(r))
	for i, one := range r {
		lines[i] = one.Sentence
	}
	return strings.Join(lines, "\n")
}

// Unwrap gives errors.As each refusal.
func (r Refusals) Unwrap() []error {
	list := make([]error, len(r))
	for i, one := range r {
		list[i] = one
	}
	return list
}

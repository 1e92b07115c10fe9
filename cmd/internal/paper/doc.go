// Package paper makes pages of a load from words: the command line's flags and
// the page's requests ask for the same papers in the same words.
package paper

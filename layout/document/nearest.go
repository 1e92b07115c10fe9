package document

import (
	"strconv"
	"strings"
)

// Nearest is the known word that a typed one most likely means: the one that
// the fewest letters added, left out, changed or swapped make of it, case and
// the marks between words aside. False when none is near. Of equally near
// words the first is taken.
func Nearest(word string, known []string) (string, bool) {
	typed := plain(word)
	best, least := "", max(1, min(3, len(typed)/2))+1
	for _, k := range known {
		if d := letters(typed, plain(k), least); d < least {
			best, least = k, d
		}
	}
	return best, best != ""
}

// plain is a word in small letters with one kind of gap.
func plain(word string) []rune {
	if len(word) > 100 {
		word = word[:100]
	}
	return []rune(strings.NewReplacer("_", " ", "-", " ").Replace(strings.ToLower(strings.TrimSpace(word))))
}

// letters counts the single-letter mistakes between two words (added, left
// out, changed, or two neighbours swapped), or answers limit when there are
// that many. It is the restricted edit distance of Damerau, Communications of
// the ACM 7 (1964).
func letters(a, b []rune, limit int) int {
	if len(a)-len(b) >= limit || len(b)-len(a) >= limit {
		return limit
	}
	before, last, row := make([]int, len(b)+1), make([]int, len(b)+1), make([]int, len(b)+1)
	for j := range last {
		last[j] = j
	}
	for i := 1; i <= len(a); i++ {
		row[0] = i
		for j := 1; j <= len(b); j++ {
			cost := 1
			if a[i-1] == b[j-1] {
				cost = 0
			}
			row[j] = min(last[j]+1, row[j-1]+1, last[j-1]+cost)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				row[j] = min(row[j], before[j-2]+1)
			}
		}
		before, last, row = last, row, before
	}
	return min(last[len(b)], limit)
}

// show puts a word of the file into a sentence, in quotes and short.
func show(word string) string {
	runes := []rune(word)
	if len(runes) > 40 {
		word = string(runes[:40]) + "..."
	}
	return strconv.Quote(word)
}

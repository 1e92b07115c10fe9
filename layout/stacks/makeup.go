package stacks

import (
	"fmt"
	"strconv"
	"strings"

	"threepost/layout"
	"threepost/layout/measure"
)

// SayMakeUp tells n posts of one make-up as on the sheet: "3×125",
// "3×(100+6)". Heights are in the given units, without them.
func SayMakeUp(n int, m layout.MakeUp, in measure.Units) string {
	s := joinPieces(m, in)
	if len(m) > 1 {
		s = "(" + s + ")"
	}
	return strconv.Itoa(n) + "×" + s
}

// SayPosts tells the posts of a level, alike ones together, in the order in
// which each make-up first comes: "2×(100+6), 1×(75+31)". Lines without a post
// are passed over; no posts at all are "".
func SayPosts(posts []layout.MakeUp, in measure.Units) string {
	var order []string
	count := map[string]int{}
	first := map[string]layout.MakeUp{}
	for _, m := range posts {
		if len(m) == 0 {
			continue
		}
		key := fmt.Sprint(m)
		if count[key] == 0 {
			order = append(order, key)
			first[key] = m
		}
		count[key]++
	}
	parts := make([]string, len(order))
	for i, key := range order {
		parts[i] = SayMakeUp(count[key], first[key], in)
	}
	return strings.Join(parts, ", ")
}

// joinPieces tells the pieces of a post; a matched set by its name, as the file
// writes it: "150 (short)+5".
func joinPieces(m layout.MakeUp, in measure.Units) string {
	parts := make([]string, len(m))
	for i, p := range m {
		parts[i] = measure.FormatLengthTo(p.Height, in, measure.Nearest, measure.PostGrain)
		if p.Name != "" {
			parts[i] += " (" + p.Name + ")"
		}
	}
	return strings.Join(parts, "+")
}

package stacks

import (
	"fmt"
	"strconv"
	"strings"

	"threepost/layout"
	"threepost/layout/measure"
)

// ParseMakeUp reads the pieces of a post from the bottom up: "150 + 5",
// "150 old + 5", `6" + 1/2"`. Each piece is a height, by its name where the
// furniture lists several of that height. Bare numbers are in the given units.
// It refuses, with a sentence, an empty text, a piece without a height, and
// more pieces than any post has.
func ParseMakeUp(text string, in measure.Units) (layout.MakeUp, error) {
	if len(text) > 1000 {
		return nil, fmt.Errorf("a post is %d letters long; write its pieces like 150 + 5", len(text))
	}
	pieces := strings.Split(text, "+")
	if len(pieces) > maxPieces {
		return nil, fmt.Errorf("%q has %d pieces; a post takes %d at most", text, len(pieces), maxPieces)
	}
	m := make(layout.MakeUp, 0, len(pieces))
	for _, t := range pieces {
		p, err := parsePiece(t, in)
		if err != nil {
			return nil, fmt.Errorf("%q is no post: %w", text, err)
		}
		m = append(m, p)
	}
	return m, nil
}

// parsePiece reads a height and the name behind it, if any. The height is as
// much from the left as can be read as a length: "4 1/2 in old".
func parsePiece(text string, in measure.Units) (layout.Piece, error) {
	words := strings.Fields(text)
	if len(words) == 0 {
		return layout.Piece{}, fmt.Errorf("a piece is missing; write the pieces from the bottom up, like 150 + 5")
	}
	for n := len(words); n > 0; n-- {
		h, err := measure.ParsePositive(strings.Join(words[:n], " "), in)
		if err == nil {
			return layout.Piece{Height: h, Name: strings.Join(words[n:], " ")}, nil
		}
		if n == 1 {
			return layout.Piece{}, err
		}
	}
	return layout.Piece{}, nil
}

// FormatMakeUp writes a make-up for a file, exactly: "150 + 5", "150 old + 5".
// ParseMakeUp reads it back to the same pieces.
func FormatMakeUp(m layout.MakeUp, in measure.Units) string {
	return joinPieces(m, in, measure.Exact, " + ")
}

// SayMakeUp tells n posts of one make-up as on the sheet: "3×125",
// "3×(100+6)". Heights are in the given units, without them.
func SayMakeUp(n int, m layout.MakeUp, in measure.Units) string {
	s := joinPieces(m, in, measure.Nearest, "+")
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
		key := FormatMakeUp(m, measure.MM)
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

func joinPieces(m layout.MakeUp, in measure.Units, round measure.Round, with string) string {
	parts := make([]string, len(m))
	for i, p := range m {
		parts[i] = measure.FormatLengthTo(p.Height, in, round, measure.PostGrain)
		if p.Name == "" {
			continue
		}
		figure := parts[i]
		parts[i] += " " + p.Name
		if back, err := parsePiece(parts[i], in); round == measure.Exact && (err != nil || back != p) {
			// a name like "in" or "1/2" would be read as part of the height
			parts[i] = figure + " " + unitWord(in) + " " + p.Name
		}
	}
	return strings.Join(parts, with)
}

func unitWord(in measure.Units) string {
	if in == measure.Inches {
		return "in"
	}
	return "mm"
}

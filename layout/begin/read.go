package begin

import (
	"fmt"
	"regexp"
	"strings"

	"threepost/layout"
	"threepost/layout/measure"
	"threepost/layout/silhouette"
)

// splitSizes parts the lengths of a size, apart by x, × or by.
func splitSizes(text string) []string {
	text = strings.NewReplacer("×", "x", "by", "x").Replace(text)
	parts := strings.Split(text, "x")
	for i := range parts {
		parts[i] = strings.TrimSpace(parts[i])
	}
	return parts
}

// parseSizes reads n lengths apart by x.
func parseSizes(text string, n int, units measure.Units) ([]float64, error) {
	parts := splitSizes(text)
	if len(parts) != n {
		return nil, fmt.Errorf("%q gives %s, and %d are wanted", text, silhouette.Counted(len(parts), "size"), n)
	}
	out := make([]float64, n)
	for i, p := range parts {
		mm, err := measure.ParsePositive(p, units)
		if err != nil {
			return nil, err
		}
		out[i] = mm
	}
	return out, nil
}

// Kiln reads the inside of a kiln: "457 x 457" (round: across x height), "sided
// 12 712 x 686", "oval 838 x 584 x 572", "rectangle 520 x 550 x 710" (width x
// depth x height). A bare figure is in the given units.
func Kiln(text string, units measure.Units) (layout.Kiln, error) {
	k := layout.Kiln{}
	text = strings.TrimSpace(text)
	word, rest, _ := strings.Cut(text, " ")
	var err error
	var v []float64
	switch word {
	case "sided":
		var sides int
		number, size, _ := strings.Cut(strings.TrimSpace(rest), " ")
		if _, err := fmt.Sscanf(number, "%d", &sides); err != nil || sides < 3 || sides > 64 {
			return k, fmt.Errorf("%q: after sided comes the number of sides, then across flats x height, like \"sided 12 712 x 686\"", text)
		}
		if v, err = parseSizes(size, 2, units); err != nil {
			return k, err
		}
		k.Chamber, k.Height = layout.Shape{Kind: layout.Sided, Sides: sides, Across: v[0]}, v[1]
	case "oval", "rectangle":
		if v, err = parseSizes(rest, 3, units); err != nil {
			return k, err
		}
		k.Chamber, k.Height = layout.Shape{Kind: layout.ShapeKind(word), Width: v[0], Depth: v[1]}, v[2]
	default:
		if word == "round" {
			text = rest
		}
		if v, err = parseSizes(text, 2, units); err != nil {
			return k, err
		}
		k.Chamber, k.Height = layout.Shape{Kind: layout.Round, Across: v[0]}, v[1]
	}
	_, err = k.Chamber.Outline()
	return k, err
}

// shelfForm is a row of the shelf list: count, shape, sizes.
const shelfForm = `^(\d{1,3})\s+(?:full\s+)?(round|half round|rectangle|oval|half oval)\s+(.+)$`

// Shelves reads "1 round 410 x 16, 6 half round 410 x 16".
func Shelves(text string, units measure.Units) ([]layout.ShelfKind, error) {
	var out []layout.ShelfKind
	names := map[string]int{}
	form := regexp.MustCompile(shelfForm)
	for _, row := range strings.FieldsFunc(text, func(r rune) bool { return r == ',' || r == ';' }) {
		m := form.FindStringSubmatch(strings.TrimSpace(row))
		if m == nil {
			return nil, fmt.Errorf("%q is no row of shelves; write count, shape, size and thickness, like \"6 half round 410 x 16\"", strings.TrimSpace(row))
		}
		s := layout.ShelfKind{}
		fmt.Sscanf(m[1], "%d", &s.Count)
		s.Shape.Kind = layout.ShapeKind(m[2])
		n := 3
		if m[2] == "round" || m[2] == "half round" {
			n = 2
		}
		v, err := parseSizes(m[3], n, units)
		if err != nil {
			return nil, err
		}
		s.Thick = v[n-1]
		if n == 2 {
			s.Shape.Across = v[0]
			if m[2] == "half round" {
				s.Shape.Depth = float64(v[0]/2) - 3 // the saw's cut, common practice
			}
		} else {
			s.Shape.Width, s.Shape.Depth = v[0], v[1]
		}
		s.Name = map[string]string{"round": "full", "half round": "half", "rectangle": "slab", "oval": "full", "half oval": "half"}[m[2]]
		if names[s.Name]++; names[s.Name] > 1 {
			s.Name = fmt.Sprintf("%s %d", s.Name, names[s.Name])
		}
		out = append(out, s)
	}
	return out, nil
}

// postForm is a piece of the post list that begins with a count: the first
// height of those that are owned so often.
const postForm = `^(\d{1,3})\s+(posts of|spacers of|of|posts|spacers)\s+(.+)$`

// Posts reads "6 of 13, 25, 50; 6 spacers of 6": each height is owned as often
// as the last count before it says.
func Posts(text string, units measure.Units) ([]layout.PostKind, error) {
	var out []layout.PostKind
	form := regexp.MustCompile(postForm)
	count, spacer := 0, false
	for _, part := range strings.Split(text, ";") {
		for i, height := range strings.Split(part, ",") {
			if m := form.FindStringSubmatch(strings.TrimSpace(height)); m != nil {
				fmt.Sscanf(m[1], "%d", &count)
				spacer, height = strings.HasPrefix(m[2], "spacers"), m[3]
			} else if i == 0 {
				return nil, fmt.Errorf("%q is no list of posts; write count and heights, like \"6 of 13, 25, 50\"", strings.TrimSpace(part))
			}
			mm, err := measure.ParsePositive(height, units)
			if err != nil {
				return nil, err
			}
			out = append(out, layout.PostKind{Height: mm, Count: count, Spacer: spacer,
				Section: layout.Section{Kind: layout.SquareSection, Width: 38}})
		}
	}
	return out, nil
}

// AssumedShelves is what a newcomer is assumed to own: one full shelf and six
// halves, 47 less than the kiln across, 16 thick (common practice).
func AssumedShelves(k layout.Kiln) []layout.ShelfKind {
	const less, thick = 47, 16
	c := k.Chamber
	switch c.Kind {
	case layout.Rectangle:
		return []layout.ShelfKind{{Name: "full", Shape: layout.Shape{Kind: layout.Rectangle, Width: c.Width - less, Depth: c.Depth - less}, Thick: thick, Count: 4}}
	case layout.Oval:
		return []layout.ShelfKind{{Name: "full", Shape: layout.Shape{Kind: layout.Oval, Width: c.Width - less, Depth: c.Depth - less}, Thick: thick, Count: 4}}
	}
	across := float64(int(c.Across - less))
	return []layout.ShelfKind{
		{Name: "full", Shape: layout.Shape{Kind: layout.Round, Across: across}, Thick: thick, Count: 1},
		{Name: "half", Shape: layout.Shape{Kind: layout.HalfRound, Across: across, Depth: float64(across/2) - 3}, Thick: thick, Count: 6},
	}
}

// AssumedPosts is six each of usual heights, and six spacers.
func AssumedPosts(units measure.Units) []layout.PostKind {
	heights := []float64{6, 13, 25, 50, 100, 150, 200}
	if units == measure.Inches {
		heights = []float64{6.35, 12.7, 25.4, 50.8, 101.6, 152.4, 203.2}
	}
	var out []layout.PostKind
	for i, h := range heights {
		out = append(out, layout.PostKind{Height: h, Count: 6, Spacer: i == 0, Section: layout.Section{Kind: layout.SquareSection, Width: 38}})
	}
	return out
}

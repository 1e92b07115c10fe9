// Package crowd makes loads of many pots, for benchmarks and for the page's
// tests: mugs in rows on the shelves of a kiln that is as high as they need.
//
//	o o o o o o
//	o o o o o o     one level from above, a post in every corner
//	[ ]     [ ]
package crowd

import (
	"fmt"
	"strings"
)

// Most is the most pots of a crowd.
const Most = 2000

// Measures of the crowd, mm.
const (
	shelf  = 1200 // across, square
	pitch  = 112  // from mug to mug
	rows   = 10
	cols   = 10
	high   = 130 // of the posts
	thick  = 20
	corner = 540 // where the posts stand
)

// Text is a load of n mugs, at least 1 and at most Most, all set: every other
// has a handle, so that not all pots are alike.
func Text(n int) string {
	n = min(max(n, 1), Most)
	levels := (n + rows*cols - 1) / (rows * cols)
	var b strings.Builder
	fmt.Fprintf(&b, "threepost = 1\ntitle = \"A crowd of %d\"\nunits = \"mm\"\nfiring = { stage = \"glaze\", cone = \"6\" }\n", n)
	fmt.Fprintf(&b, "[kiln]\nname = \"Crowd\"\nchamber = { shape = \"rectangle\", width = 1300, depth = 1300, height = %d }\nopens = \"front\"\n", 60+levels*(high+thick)+140)
	fmt.Fprintf(&b, "[furniture]\nshelves = [{ name = \"square\", shape = \"rectangle\", width = %d, depth = %d, thick = %d, count = %d }]\n", shelf, shelf, thick, levels)
	fmt.Fprintf(&b, "posts = [{ height = 50, section = \"square 38\", count = 4 }, { height = %d, section = \"square 38\", count = %d }]\n", high, 4*levels)
	for k, name := range []string{"mug", "tumbler"} {
		if count := (n + 1 - k) / 2; count > 0 {
			fmt.Fprintf(&b, "[[ware]]\nname = %q\ncount = %d\nsilhouette = %q\nheight = 95\nacross = 78\n", name, count, name)
			if name == "mug" {
				b.WriteString("handles = [{ reach = 20, from = 20, to = 80, thick = 14 }]\n")
			}
			b.WriteString("clay = { name = \"stoneware\", cone = \"6\" }\n")
		}
	}
	fmt.Fprintf(&b, "[[tower]]\nname = \"base\"\non = [\"floor\"]\nlines = [[%d, %d], [%d, %d], [%d, %d], [%d, %d]]\n",
		-corner, corner, corner, corner, corner, -corner, -corner, -corner)
	for v := range levels {
		posts := high
		if v == 0 {
			posts = 50
		}
		fmt.Fprintf(&b, "[[tower.level]]\nshelves = [{ kind = \"square\" }]\nposts = \"%d\"\n[tower.level.set]\n", posts)
		for i := range rows * cols {
			id := v*rows*cols + i
			if id >= n {
				break
			}
			x, y := float64(i%cols)-float64(cols-1)/2, float64(i/cols)-float64(rows-1)/2
			name := "mug"
			if id%2 == 1 {
				name = "tumbler"
			}
			fmt.Fprintf(&b, "\"%s %d\" = [%g, %g, 45]\n", name, id/2+1, x*pitch*0.86, y*pitch)
		}
	}
	return b.String()
}

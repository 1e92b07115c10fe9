package drawing

import (
	"math"
	"slices"
)

// hatchTolerance is how far, in mm, the ends of hatch lines may miss a curve.
const hatchTolerance = 0.02

// mostHatchLines keeps a slip of the decimal point from filling the memory.
const mostHatchLines = 20000

// hatch gives the pieces of the lines x + y = k spacing sqrt 2 that lie
// inside a path by the nonzero winding rule.
func hatch(path Path, spacing float64) Path {
	lines := flatten(path, hatchTolerance)
	b := bounds(lines)
	step := spacing * math.Sqrt2
	if b.empty() || !(step > 0) {
		return nil
	}
	first, last := math.Ceil((b.min.X+b.min.Y)/step), math.Floor((b.max.X+b.max.Y)/step)
	if !(last-first < mostHatchLines) {
		return nil
	}
	var out Path
	for k := first; k <= last; k++ {
		out = hatchLine(out, lines, k*step)
	}
	return out
}

// crossing is where an edge crosses a hatch line: place along it and the way
// the edge goes.
type crossing struct {
	along float64 // x - y
	way   int
}

func hatchLine(out Path, lines []line, sum float64) Path {
	var found []crossing
	for _, l := range lines {
		for i, a := range l.at {
			b := l.at[(i+1)%len(l.at)]
			sa, sb := a.X+a.Y, b.X+b.Y
			if (sa <= sum) == (sb <= sum) {
				continue
			}
			p := between(a, b, (sum-sa)/(sb-sa))
			way := 1
			if sa > sb {
				way = -1
			}
			found = append(found, crossing{p.X - p.Y, way})
		}
	}
	slices.SortFunc(found, func(a, b crossing) int {
		switch {
		case a.along < b.along:
			return -1
		case a.along > b.along:
			return 1
		}
		return a.way - b.way
	})
	winding, from := 0, 0.0
	for _, c := range found {
		if winding == 0 {
			from = c.along
		}
		winding += c.way
		if winding == 0 && c.along-from > 1e-6 {
			out.Move(Point{(sum + from) / 2, (sum - from) / 2})
			out.Line(Point{(sum + c.along) / 2, (sum - c.along) / 2})
		}
	}
	return out
}

package scene

import (
	"flag"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"sort"
	"strings"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"threepost/geometry/plane"
	"threepost/layout"
	"threepost/layout/document"
	"threepost/layout/measure"
	"threepost/layout/stacks"
)

func samples() []string {
	return []string{"bisque", "front-loader", "newcomer", "oval", "small-round", "studio"}
}

// reference builds a full arrangement of testdata.
func reference(t testing.TB, name string) *stacks.Built {
	t.Helper()
	path := filepath.Join("..", "..", "testdata", "loads", "reference", name+".toml")
	text, err := os.ReadFile(path)
	require.NoError(t, err)
	l, err := document.Parse(path, text)
	require.NoError(t, err)
	b, err := stacks.Build(l)
	require.NoError(t, err)
	return b
}

// tell writes a scene as text: what a person can check, and sums of the
// meshes rounded so far that every processor gives them alike.
func tell(s *Scene) string {
	var w strings.Builder
	fmt.Fprintf(&w, "box %s\nkiln %s\n", sayBox(s.Box), sayBox(s.Kiln))
	for i := range s.Groups {
		g := &s.Groups[i]
		fmt.Fprintf(&w, "\ngroup %q level %d shown %v: %d vertices, %d triangles, %d creases\n  box %s\n  %s\n",
			g.Name, g.Level, g.Shown, g.Mesh.Vertices(), g.Mesh.Triangles(), len(g.Mesh.CreasePieces), sayBox(g.Box), sums(&g.Mesh))
		for id := 1; id < len(s.Pieces); id++ {
			if p := &s.Pieces[id]; p.Group == i {
				fmt.Fprintf(&w, "  %3d %-7s %-22s %s\n", id, p.Kind, p.Name, sayBox(p.Box))
			}
		}
	}
	w.WriteString("\n")
	for _, l := range s.Labels {
		fmt.Fprintf(&w, "label %-7s %-10q at %s side %d: %s\n", l.Kind, l.Text, sayPoint(l.At), l.Side, l.Name)
	}
	for i := range s.Balances {
		b := &s.Balances[i]
		fmt.Fprintf(&w, "balance of shelf %d at %.0f, %.0f: %s\n", b.Shelf, b.At[0], b.At[1], b.Words("level "+fmt.Sprint(b.Level), measure.MM))
	}
	return w.String()
}

func sayPoint(p mgl64.Vec3) string {
	for k := range p {
		p[k] = math.Round(p[k]) + 0
	}
	return fmt.Sprintf("%.0f %.0f %.0f", p[0], p[1], p[2])
}

func sayBox(b Box) string { return sayPoint(b.Min) + " to " + sayPoint(b.Max) }

// sums are means over the vertices, in tenths.
func sums(m *Mesh) string {
	mean := func(list []float32, per int) string {
		total := make([]float64, per)
		for i, x := range list {
			total[i%per] += float64(x)
		}
		var parts []string
		for _, x := range total {
			parts = append(parts, fmt.Sprintf("%.2f", x/math.Max(1, float64(len(list)/per))+0))
		}
		return strings.Join(parts, " ")
	}
	return "mean place " + mean(m.Positions, 3) + ", colour " + mean(m.Colours, 4)
}

var update = flag.Bool("update", false, "write the goldens anew")

func TestGoldens(t *testing.T) {
	for _, name := range samples() {
		got := tell(Build(reference(t, name), Options{}))
		path := filepath.Join("testdata", name+".txt")
		if *update {
			require.NoError(t, os.MkdirAll("testdata", 0o755))
			require.NoError(t, os.WriteFile(path, []byte(got), 0o644))
		}
		want, err := os.ReadFile(path)
		require.NoError(t, err)
		require.Equal(t, string(want), got, name)
	}
}

func TestLawEqualLoadsGiveEqualBytes(t *testing.T) {
	a, b := Build(reference(t, "studio"), Options{}), Build(reference(t, "studio"), Options{})
	for i := range a.Groups {
		require.Equal(t, a.Groups[i].Sum, b.Groups[i].Sum)
	}
	require.Equal(t, a, b)
}

// TestLawMeshesAreSound: indexes are in range, normals and outward directions
// have length 1, every vertex and crease names a piece of its own group, and
// colours lie within 0 to 1.
func TestLawMeshesAreSound(t *testing.T) {
	for _, name := range samples() {
		s := Build(reference(t, name), Options{Kiln: true, Sight: true})
		for i := range s.Groups {
			m := &s.Groups[i].Mesh
			n := m.Vertices()
			require.Len(t, m.Positions, 3*n)
			require.Len(t, m.Colours, 4*n)
			require.Len(t, m.Creases, 6*len(m.CreasePieces))
			for _, ix := range m.Indexes {
				if int(ix) >= n {
					t.Fatalf("%s: index %d of %d vertices", name, ix, n)
				}
			}
			for v := range n {
				for _, list := range [][]float32{m.Normals, m.Outward} {
					l := math.Sqrt(float64(list[3*v]*list[3*v] + list[3*v+1]*list[3*v+1] + list[3*v+2]*list[3*v+2]))
					if math.Abs(l-1) > 1e-5 {
						t.Fatalf("%s: %s: a normal of length %v", name, s.Groups[i].Name, l)
					}
				}
				for k := range 3 {
					if c := m.Colours[4*v+k]; !(c >= 0 && c <= 1) {
						t.Fatalf("%s: a colour of %v", name, c)
					}
				}
				if p := m.Pieces[v]; p == 0 || int(p) >= len(s.Pieces) || s.Pieces[p].Group != i {
					t.Fatalf("%s: vertex %d of %s names piece %d", name, v, s.Groups[i].Name, p)
				}
			}
			for _, p := range m.CreasePieces {
				require.Equal(t, i, s.Pieces[p].Group)
			}
		}
	}
}

// TestLawPartsContainWhatIsDrawn looks up every vertex of every pot in the
// placed solid that is checked.
func TestLawPartsContainWhatIsDrawn(t *testing.T) {
	for _, name := range samples() {
		b := reference(t, name)
		s := Build(b, Options{})
		for i := range s.Groups {
			m := &s.Groups[i].Mesh
			for v := range m.Vertices() {
				p := &s.Pieces[m.Pieces[v]]
				if p.Kind != PotPiece && p.Kind != ConePiece {
					continue
				}
				at := mgl64.Vec3{float64(m.Positions[3*v]), float64(m.Positions[3*v+1]), float64(m.Positions[3*v+2])}
				if d := standsOut(b, p.Index, at); d > 0.01 {
					t.Fatalf("%s: %s is drawn %.3f mm outside of its parts at %v", name, p.Name, d, at)
				}
			}
		}
	}
}

// standsOut is how far a point lies outside of the nearest part of a pot, mm.
func standsOut(b *stacks.Built, pot int, p mgl64.Vec3) float64 {
	w := &b.Pots[pot].Solid
	best := math.Inf(1)
	for k := range w.Body.Parts {
		prof := w.Body.Parts[k].Profile
		z := p[2] - w.Pose.Z
		up := math.Max(0, math.Max(prof.Bottom()-z, z-prof.Top()))
		_, d := w.Skeleton(k).Nearest(plane.Vec{p[0], p[1]})
		out := math.Max(0, d-prof.R(math.Min(math.Max(z, prof.Bottom()), prof.Top())))
		best = math.Min(best, math.Hypot(up, out))
	}
	return best
}

// TestLittleIsDrawnIn: the forms follow the measures by themselves; drawing
// in is for odd limbs, not what keeps pots in shape.
func TestLittleIsDrawnIn(t *testing.T) {
	for _, name := range samples() {
		b := reference(t, name)
		seen := map[*stacks.Body]bool{}
		for i := range b.Pots {
			p := &b.Pots[i]
			if p.Ware == nil || seen[p.Body] {
				continue
			}
			seen[p.Body] = true
			f, moved := formed(p.Body, p.Ware, p.Cones)
			if float64(moved) > 0.03*float64(len(f.pos)) {
				t.Errorf("%s: %s: %d of %d vertices were drawn in", name, p.Ware.Name, moved, len(f.pos))
			}
		}
	}
}

// TestLawMeshesAreClosed: each edge is walked as often one way as the other,
// so that a cut shows an inside and never the ground through it; and the
// volume inside is that of clay, over 0.
func TestLawMeshesAreClosed(t *testing.T) {
	for _, name := range samples() {
		b := reference(t, name)
		seen := map[*stacks.Body]bool{}
		for i := range b.Pots {
			p := &b.Pots[i]
			if seen[p.Body] {
				continue
			}
			seen[p.Body] = true
			f := formOf(p.Body, p.Ware, p.Cones)
			require.Zero(t, openEdges(f), "%s: %s", name, p.Pot)
			require.Greater(t, volume(f), 0.0, "%s: %s", name, p.Pot)
		}
		for i := range b.Posts {
			require.Zero(t, openEdges(postForm(&b.Posts[i])), "%s: post %d", name, i)
		}
		for i := range b.Shelves {
			sh := &b.Shelves[i]
			f := slab(sh.Outline.Points(0.6), 20, func(plane.Vec) float64 { return 1 })
			want := sh.Outline.Area() * 20
			require.InEpsilon(t, want, volume(f), 0.01, "%s: shelf %d", name, i)
		}
	}
}

// openEdges counts the edges that are not walked both ways alike, corners
// within 0.01 mm taken as one.
func openEdges(f *form) int {
	spot := func(i uint32) [3]int64 {
		p := f.pos[i]
		return [3]int64{int64(math.Round(p[0] * 100)), int64(math.Round(p[1] * 100)), int64(math.Round(p[2] * 100))}
	}
	walks := map[[2][3]int64]int{}
	for t := 0; t < len(f.idx); t += 3 {
		for k := range 3 {
			a, b := spot(f.idx[t+k]), spot(f.idx[t+(k+1)%3])
			if a == b {
				continue
			}
			walks[[2][3]int64{a, b}]++
			walks[[2][3]int64{b, a}]--
		}
	}
	open := 0
	for _, n := range walks {
		if n > 0 {
			open++
		}
	}
	return open
}

// volume is that inside a closed form, mm3, by the divergence theorem.
func volume(f *form) float64 {
	sum := 0.0
	for t := 0; t < len(f.idx); t += 3 {
		a, b, c := f.pos[f.idx[t]], f.pos[f.idx[t+1]], f.pos[f.idx[t+2]]
		sum += dot(a, b.Cross(c)) / 6
	}
	return sum
}

// TestVolumeOfATumbler holds the lathe against the handbook's frustum of a
// cone, pi h (R2 + R r + r2) / 3: outside less inside, within what facets,
// lip and floor round off.
func TestVolumeOfATumbler(t *testing.T) {
	l := &layout.Load{}
	w := layout.Ware{Name: "tumbler", Count: 1, Height: 110, Across: 90, Wall: 5, Profile: []layout.Knot{{Height: 0, Diameter: 70}, {Height: 110, Diameter: 90}}}
	body, err := stacks.BodyOf(l, &w)
	require.NoError(t, err)
	frustum := func(h, d, e float64) float64 { return math.Pi * h * (d*d + d*e + e*e) / 12 }
	want := frustum(110, 70, 90) - frustum(102, 61.5, 80)
	require.InEpsilon(t, want, volume(formOf(body, &w, nil)), 0.05)
}

// TestLawAnyWareIsDrawnWithinItsParts draws odd ware.
func TestLawAnyWareIsDrawnWithinItsParts(t *testing.T) {
	kinds := []layout.Silhouette{layout.Mug, layout.Tumbler, layout.Bowl, layout.Plate, layout.Vase, layout.Bottle, layout.Jug, layout.Teapot, layout.LiddedJar, layout.OvalBaker, layout.Box, layout.Tile, layout.Cylinder}
	rapid.Check(t, func(t *rapid.T) {
		w := layout.Ware{Name: "piece", Count: 1, Silhouette: rapid.SampledFrom(kinds).Draw(t, "form")}
		w.Height = rapid.Float64Range(8, 400).Draw(t, "height")
		if rapid.Bool().Draw(t, "oblong") {
			w.Length, w.Width = rapid.Float64Range(20, 400).Draw(t, "length"), rapid.Float64Range(20, 300).Draw(t, "width")
		} else {
			w.Across = rapid.Float64Range(20, 400).Draw(t, "across")
		}
		w.Measured = rapid.Bool().Draw(t, "measured")
		w.Knob = rapid.SampledFrom([]float64{0, 0, 18, 40}).Draw(t, "knob")
		w.Stand.Kind = rapid.SampledFrom([]layout.StandKind{layout.NoStand, layout.Cookie, layout.Stilt, layout.Wads}).Draw(t, "stand")
		if rapid.Bool().Draw(t, "nested") {
			w.Nested, w.Adds = rapid.SampledFrom([]int{2, 3, 5, 20, 200}).Draw(t, "of"), rapid.Float64Range(0, 40).Draw(t, "adds")
		}
		body, err := stacks.BodyOf(&layout.Load{}, &w)
		if err != nil {
			t.Skip("measures that make no pot")
		}
		f := formOf(body, &w, nil)
		for i, p := range f.pos {
			if !held(&body.Solid, p) {
				t.Fatalf("vertex %d at %v stands out", i, p)
			}
			for k := range 3 {
				if math.IsNaN(p[k]) || math.IsNaN(f.nor[i][k]) || math.IsNaN(f.outward[i][k]) {
					t.Fatalf("vertex %d is no place", i)
				}
			}
		}
		if len(f.pos) == 0 || len(f.pos) > 10000 {
			t.Fatalf("%d vertices", len(f.pos))
		}
	})
}

func TestBudgetOfVertices(t *testing.T) {
	b := reference(t, "studio")
	s := Build(b, Options{})
	pots := 0
	for i := range s.Groups {
		for _, p := range s.Groups[i].Mesh.Pieces {
			if s.Pieces[p].Kind == PotPiece {
				pots++
			}
		}
	}
	require.Less(t, pots/len(b.Pots), 950)
}

func TestLevelsAreLiftedAway(t *testing.T) {
	b := reference(t, "studio")
	up := -1
	for v := range b.Levels {
		if b.Levels[v].Name == "left 2" {
			up = v
		}
	}
	require.GreaterOrEqual(t, up, 0)
	s := Build(b, Options{Up: up + 1})
	var shown, hidden []string
	for i := range s.Groups {
		g := &s.Groups[i]
		if g.Level < 0 {
			continue
		}
		if g.Shown {
			shown = append(shown, g.Name)
		} else {
			hidden = append(hidden, g.Name)
		}
		if !g.Posts {
			require.Equal(t, b.Levels[g.Level].Top <= b.Levels[up].Top+1, g.Shown, g.Name)
		}
	}
	sort.Strings(shown)
	require.Contains(t, shown, "left 2")
	require.Contains(t, shown, "left 3 posts", "the posts that stand on the level stay")
	require.Contains(t, hidden, "left 3")
}

// TestColoursHaveMarks: no choice tells ware apart by colour alone.
func TestColoursHaveMarks(t *testing.T) {
	for _, name := range []string{"studio", "oval", "bisque"} {
		b := reference(t, name)
		for _, by := range WareColours() {
			s := Build(b, Options{Colour: by})
			if by == ByClay {
				require.Empty(t, s.Legend)
				continue
			}
			count, hatches := 0, map[Hatch]string{}
			for _, k := range s.Legend {
				count += k.Count
				require.NotEmpty(t, k.Mark.Label)
				if other, twice := hatches[k.Mark.Hatch]; twice && len(s.Legend) <= 7 {
					t.Errorf("%s by %s: %q and %q have one hatch", name, by, other, k.Mark.Label)
				}
				hatches[k.Mark.Hatch] = k.Mark.Label
			}
			require.LessOrEqual(t, count, len(b.Pots))
			require.Positive(t, count, "%s by %s", name, by)
		}
	}
}

func TestGhostIsThePotByItself(t *testing.T) {
	b := reference(t, "studio")
	s := Build(b, Options{})
	g, ok := s.GhostOf(b, 3)
	require.True(t, ok)
	id := s.PieceOf(PotPiece, 3)
	require.Positive(t, id)
	box := s.Pieces[id].Box
	for v := range g.Mesh.Vertices() {
		p := g.Matrix.Mul4x1(mgl64.Vec4{float64(g.Mesh.Positions[3*v]), float64(g.Mesh.Positions[3*v+1]), float64(g.Mesh.Positions[3*v+2]), 1})
		for k := range 3 {
			require.InDelta(t, math.Min(math.Max(p[k], box.Min[k]), box.Max[k]), p[k], 0.01)
		}
	}
	_, ok = s.GhostOf(b, len(b.Pots))
	require.False(t, ok)
}

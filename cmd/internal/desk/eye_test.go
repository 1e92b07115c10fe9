package desk

import (
	"encoding/json"
	"math"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"github.com/stretchr/testify/require"

	"threepost/geometry/plane"
	"threepost/layout/session"
	"threepost/render/scene"
	"threepost/render/viewport"
)

// canvas is a canvas in a test: it counts the frames asked for and keeps what
// is told.
type canvas struct {
	t      *testing.T
	d      *Desk
	e      *Eye
	asked  int
	events []map[string]any
	time   float64
}

func newCanvas(t *testing.T, name string) *canvas {
	c := &canvas{t: t, d: laid(t, name)}
	c.e = c.d.Eye()
	c.e.Bind(func() { c.asked++ }, func(b []byte) {
		var v map[string]any
		require.NoError(t, json.Unmarshal(b, &v))
		c.events = append(c.events, v)
	})
	c.e.Size(900, 700)
	c.frame()
	return c
}

// frame draws as a canvas does.
func (c *canvas) frame() viewport.Picture {
	c.t.Helper()
	c.time += 16
	p, ok := c.e.Picture(c.time)
	require.True(c.t, ok)
	c.e.Drawn()
	return p
}

// rest draws until nothing moves.
func (c *canvas) rest() viewport.Picture {
	c.t.Helper()
	for range 100 {
		if p := c.frame(); !p.Moving {
			return p
		}
	}
	require.FailNow(c.t, "the camera never comes to rest")
	return viewport.Picture{}
}

// last is the newest event of a name.
func (c *canvas) last(name string) map[string]any {
	for i := len(c.events) - 1; i >= 0; i-- {
		if c.events[i]["event"] == name {
			return c.events[i]
		}
	}
	return nil
}

func (c *canvas) pointer(kind viewport.PointerKind, x, y float64) {
	c.e.Pointer(viewport.Pointer{Kind: kind, ID: 1, X: x, Y: y})
}

// visible is a pot of a ware that can be pointed at, and where.
func (c *canvas) visible(ware string) (id string, at mgl64.Vec2) {
	c.t.Helper()
	for i := range c.e.built.Pots {
		p := &c.e.built.Pots[i]
		if p.Pot.Ware != ware {
			continue
		}
		mid := mgl64.Vec3{p.At[0], p.At[1], p.Z + p.Body.Height/2}
		q, _, ok := c.e.cam.Project(mid, c.e.screen)
		if ok && c.e.pieceAt(q[0], q[1]) == c.e.potPiece(i) {
			return p.Pot.String(), q
		}
	}
	require.FailNow(c.t, "no pot is to be seen", ware)
	return "", at
}

func TestATapChoosesWhatLiesUnderThePointer(t *testing.T) {
	c := newCanvas(t, "studio")
	id, at := c.visible("mug")
	c.pointer(viewport.Down, at[0], at[1])
	c.pointer(viewport.Move, at[0]+2, at[1])
	c.pointer(viewport.Up, at[0]+2, at[1])
	thing := c.last("select")["thing"].(map[string]any)
	require.Equal(t, id, thing["name"])
	require.Nil(t, c.d.s.Holding())

	c.pointer(viewport.Down, 2, 2)
	c.pointer(viewport.Up, 2, 2)
	require.Nil(t, c.last("select")["thing"], "beside the load nothing is chosen")
}

func TestHoverTellsNameSizeAndLeastGap(t *testing.T) {
	c := newCanvas(t, "studio")
	id, at := c.visible("mug")
	c.pointer(viewport.Move, at[0], at[1])
	h := c.last("hover")
	want := ask[session.Chosen](t, c.d, "select", m{"pot": id})
	require.Equal(t, want.Title, h["title"])
	require.Equal(t, want.Line, h["size"])
	least := want.Nears[0]
	for _, n := range want.Nears {
		if n.Gap < least.Gap {
			least = n
		}
	}
	require.Equal(t, least.GapSaid, h["gap_said"])
	require.Equal(t, least.Name, h["near"])
	told := len(c.events)
	c.pointer(viewport.Move, at[0]+1, at[1])
	require.Len(t, c.events, told, "the same piece is told once")
	c.pointer(viewport.Leave, 0, 0)
	require.Nil(t, c.last("hover")["thing"])
}

func TestADragBesideTheChosenPotTurnsThePicture(t *testing.T) {
	c := newCanvas(t, "studio")
	_, at := c.visible("mug")
	was := c.e.cam
	c.pointer(viewport.Down, at[0], at[1])
	c.pointer(viewport.Move, at[0]+50, at[1]+10)
	c.pointer(viewport.Up, at[0]+50, at[1]+10)
	require.NotEqual(t, was.Azimuth, c.e.cam.Azimuth)
	require.Nil(t, c.d.s.Holding())
	require.Nil(t, c.last("select"))
}

// TestADragOfTheChosenPotMovesIt: by the mm that lie under the way of the
// pointer on the level's plane, and drops it as one edit.
func TestADragOfTheChosenPotMovesIt(t *testing.T) {
	c := newCanvas(t, "studio")
	id, at := c.visible("mug")
	ask[session.Chosen](t, c.d, "select", m{"pot": id})
	b := c.e.built
	i := c.e.potIndex(id)
	start := b.Pots[i].At
	ray := func(x, y float64) plane.Vec {
		v, ok := c.e.cam.Ray(x, y, c.e.screen).OnLevel(b.Pots[i].Z)
		require.True(t, ok)
		return v
	}
	c.pointer(viewport.Down, at[0], at[1])
	c.pointer(viewport.Move, at[0]-6, at[1])
	c.pointer(viewport.Move, at[0]-9, at[1]+1)
	want := plane.Add(start, plane.Sub(ray(at[0]-9, at[1]+1), ray(at[0], at[1])))
	h := c.d.s.Holding()
	require.NotNil(t, h)
	require.InDelta(t, want[0], h.At[0], 0.06)
	require.InDelta(t, want[1], h.At[1], 0.06)
	p := c.frame()
	require.NotNil(t, p.Ghost)
	require.Equal(t, c.e.potPiece(i), p.Hidden)
	require.InDelta(t, h.At[0], p.Ghost.Matrix[12], 1e-9)
	mesh := p.Ghost.Mesh
	c.pointer(viewport.Move, at[0]-12, at[1]+1)
	require.Same(t, mesh, c.frame().Ghost.Mesh, "only its matrix changes")

	c.pointer(viewport.Up, at[0]-12, at[1]+1)
	require.Nil(t, c.d.s.Holding())
	require.NotNil(t, c.last("state"))
	require.NotEmpty(t, ask[session.State](t, c.d, "state", m{}).Undo)
	require.Nil(t, c.frame().Ghost)
}

func TestEscapePutsTheHeldPotBack(t *testing.T) {
	c := newCanvas(t, "studio")
	id, at := c.visible("mug")
	ask[session.Chosen](t, c.d, "select", m{"pot": id})
	text := ask[written](t, c.d, "text", m{}).Text
	c.pointer(viewport.Down, at[0], at[1])
	c.pointer(viewport.Move, at[0]-20, at[1])
	require.NotNil(t, c.d.s.Holding())
	require.True(t, c.e.Key(viewport.Key{Name: "Escape"}))
	require.Nil(t, c.d.s.Holding())
	require.Nil(t, c.last("held")["held"])
	c.pointer(viewport.Up, at[0]-20, at[1])
	require.Equal(t, text, ask[written](t, c.d, "text", m{}).Text)
	require.False(t, c.e.Key(viewport.Key{Name: "Escape"}), "with nothing in hand the page may have it")
}

// TestArrowsNudgeAsSeenOnTheScreen: right is right wherever one stands.
func TestArrowsNudgeAsSeenOnTheScreen(t *testing.T) {
	for _, azimuth := range []float64{180, 90, 0, 270, 200, 130} {
		c := newCanvas(t, "studio")
		pot, _ := firstPot(t, c.d, "mug")
		ask[session.Chosen](t, c.d, "select", m{"pot": pot.ID})
		c.e.cam.Azimuth = azimuth
		require.True(t, c.e.Key(viewport.Key{Name: "ArrowRight"}))
		h := c.d.s.Holding()
		require.NotNil(t, h)
		require.InDelta(t, 1, plane.Distance(pot.At, h.At), 1e-9)
		z := c.e.built.Pots[c.e.potIndex(pot.ID)].Z
		a, _, _ := c.e.cam.Project(mgl64.Vec3{pot.At[0], pot.At[1], z}, c.e.screen)
		b, _, _ := c.e.cam.Project(mgl64.Vec3{h.At[0], h.At[1], z}, c.e.screen)
		require.Greater(t, b[0]-a[0], math.Abs(b[1]-a[1]), "seen from %v", azimuth)

		require.True(t, c.e.Key(viewport.Key{Name: "]"}))
		require.InDelta(t, plane.NormalTurn(pot.Turn+5), c.d.s.Holding().Turn, 1e-9)
		require.True(t, c.e.Key(viewport.Key{Name: "Enter"}))
		require.Nil(t, c.d.s.Holding())
		require.NotEmpty(t, ask[session.State](t, c.d, "state", m{}).Undo)
	}
}

func TestArrowsTurnThePictureWhenNoPotIsChosen(t *testing.T) {
	c := newCanvas(t, "studio")
	ask[struct{}](t, c.d, "look", m{"still": true})
	was := c.e.cam.Azimuth
	require.True(t, c.e.Key(viewport.Key{Name: "ArrowLeft"}))
	require.InDelta(t, plane.NormalTurn(was+keyTurn), c.e.cam.Azimuth, 1e-9)
	require.False(t, c.e.Key(viewport.Key{Name: "a"}))
	require.False(t, c.e.Key(viewport.Key{Name: ""}))
}

func TestTwoFingersPinchAndPan(t *testing.T) {
	c := newCanvas(t, "studio")
	finger := func(kind viewport.PointerKind, id int, x, y float64) {
		c.e.Pointer(viewport.Pointer{Kind: kind, ID: id, X: x, Y: y, Touch: true})
	}
	was := c.e.cam
	finger(viewport.Down, 1, 400, 300)
	finger(viewport.Down, 2, 500, 300)
	finger(viewport.Move, 1, 350, 300)
	finger(viewport.Move, 2, 550, 300)
	require.Less(t, c.e.cam.Distance, was.Distance, "spread fingers bring it nearer")
	require.Equal(t, was.Azimuth, c.e.cam.Azimuth)
	finger(viewport.Up, 1, 350, 300)
	finger(viewport.Move, 2, 580, 300)
	require.NotEqual(t, was.Azimuth, c.e.cam.Azimuth, "the finger that is left turns on")
	finger(viewport.Up, 2, 580, 300)
	require.Nil(t, c.last("select"), "two fingers choose nothing")
	require.Empty(t, c.e.pinch.down)
}

func TestTheWheelKeepsWhatLiesUnderThePointer(t *testing.T) {
	c := newCanvas(t, "studio")
	p := c.e.cam.Target.Add(mgl64.Vec3{0, 0, 0})
	at, _, _ := c.e.cam.Project(p, c.e.screen)
	was := c.e.cam.Distance
	c.e.Wheel(at[0], at[1], 2)
	require.Less(t, c.e.cam.Distance, was)
	now, _, _ := c.e.cam.Project(p, c.e.screen)
	require.InDelta(t, at[0], now[0], 0.5)
	require.InDelta(t, at[1], now[1], 0.5)
	require.Equal(t, "", c.e.preset)
}

// TestNothingIsAskedForAtRest: a frame asks for the next only while the camera
// is on its way, and that takes 300 ms.
func TestNothingIsAskedForAtRest(t *testing.T) {
	c := newCanvas(t, "studio")
	c.rest()
	asked := c.asked
	for range 10 {
		require.False(t, c.frame().Moving)
	}
	require.Equal(t, asked, c.asked)
	ask[seen](t, c.d, "view", m{"preset": "top"})
	require.Greater(t, c.asked, asked)
	begin := c.time
	c.rest()
	require.InDelta(t, easing, c.time-begin, 40)
	require.Equal(t, c.e.presetCamera("top"), c.e.cam)
	require.True(t, c.e.cam.Parallel())
}

func TestReducedMotionCuts(t *testing.T) {
	c := newCanvas(t, "studio")
	ask[struct{}](t, c.d, "look", m{"still": true})
	ask[seen](t, c.d, "view", m{"preset": "front"})
	require.False(t, c.frame().Moving)
	require.Equal(t, c.e.presetCamera("front"), c.e.cam)
}

func TestLevelsAreLiftedAway(t *testing.T) {
	c := newCanvas(t, "studio")
	s := ask[session.State](t, c.d, "state", m{})
	all := shown(c.frame())
	lv := s.Levels[1]
	ask[seen](t, c.d, "level", m{"tower": lv.Tower, "level": lv.Number})
	require.Less(t, shown(c.rest()), all)
	ask[seen](t, c.d, "level", m{"all": true})
	require.Equal(t, all, shown(c.rest()))
}

func shown(p viewport.Picture) int {
	n := 0
	for i := range p.Scene.Groups {
		if p.Scene.Groups[i].Shown {
			n++
		}
	}
	return n
}

// TestLabelsKeepApartAndOnTheCanvas: in every preset and at every size.
func TestLabelsKeepApartAndOnTheCanvas(t *testing.T) {
	for _, name := range samples(t) {
		c := newCanvas(t, name)
		ask[struct{}](t, c.d, "look", m{"still": true})
		for _, size := range [][2]float64{{452, 560}, {900, 700}, {390, 420}, {2000, 1300}} {
			c.e.Size(size[0], size[1])
			for _, preset := range []string{"stand", "orbit", "front", "side", "back", "top"} {
				ask[seen](t, c.d, "view", m{"preset": preset})
				c.frame()
				byAnchor := map[string][]float64{}
				for _, l := range ask[[]Label](t, c.d, "labels", m{}) {
					require.True(t, l.X >= 0 && l.X <= size[0], "%s %s %v: %+v", name, preset, size, l)
					require.True(t, l.Y >= 0 && l.Y <= size[1], "%s %s %v: %+v", name, preset, size, l)
					require.NotEmpty(t, l.Name)
					if l.Class == "mass" {
						for _, y := range byAnchor[l.Anchor] {
							require.GreaterOrEqual(t, math.Abs(y-l.Y), leastLine-0.2, "%s %s %v: %+v", name, preset, size, l)
						}
						byAnchor[l.Anchor] = append(byAnchor[l.Anchor], l.Y)
					}
				}
			}
		}
	}
}

func TestEveryShelfTellsItsMass(t *testing.T) {
	c := newCanvas(t, "studio")
	labels := ask[[]Label](t, c.d, "labels", m{})
	n := 0
	for _, l := range labels {
		if l.Class == "mass" {
			n++
			require.Contains(t, l.ID, "level:")
		}
	}
	require.Equal(t, len(c.e.built.Shelves), n)
}

// TestTheChosenWatchIsDrawnAsALine: of a pot too near another, the gap with its
// figure; of one that clears, none.
func TestTheChosenWatchIsDrawnAsALine(t *testing.T) {
	c := newCanvas(t, "studio")
	s := ask[session.State](t, c.d, "state", m{})
	var a, b session.Pot
	for i, p := range s.Pots {
		for _, q := range s.Pots[i+1:] {
			if p.Level == q.Level && p.Ware == "mug" && q.Ware == "mug" && plane.Distance(p.At, q.At) < 110 {
				a, b = p, q
			}
		}
	}
	require.NotEmpty(t, a.ID)
	ask[session.Chosen](t, c.d, "select", m{"pot": a.ID})
	require.Empty(t, c.frame().Lines)
	way := plane.Scale(plane.Sub(b.At, a.At), 5/plane.Distance(a.At, b.At))
	lv := s.Levels[a.Level]
	to := plane.Add(a.At, way)
	ask[session.State](t, c.d, "apply", m{"edits": []m{{"act": "set pot", "pot": a.ID, "tower": lv.Tower, "level": lv.Number, "at": to, "turn": a.Turn}}})
	chosen := ask[session.Chosen](t, c.d, "select", m{"pot": a.ID})
	p := c.frame()
	require.NotEmpty(t, p.Lines)
	require.NotEqual(t, scene.Plain, p.Wears[c.e.potPiece(c.e.potIndex(a.ID))].Hatch, "hatched, not only coloured")
	f, ok := c.e.flagLabel()
	require.True(t, ok)
	require.Equal(t, chosen.Nears[0].GapSaid, f.Text)
}

func TestThroughASpyholeOneSeesTheKilnsWalls(t *testing.T) {
	c := newCanvas(t, "studio")
	ask[seen](t, c.d, "view", m{"preset": "spyhole 1"})
	p := c.rest()
	kiln := false
	for i := range p.Scene.Groups {
		kiln = kiln || p.Scene.Groups[i].Kiln && p.Scene.Groups[i].Shown
	}
	require.True(t, kiln)
	was := c.e.cam
	c.e.Wheel(100, 100, 3)
	require.Equal(t, was, c.e.cam, "through a hole one looks, one does not walk")
	refused := call1(t, c.d, "view", `{"preset":"spyhole 9"}`)
	require.Contains(t, refused.Refusal, "there is no spyhole 9")
}

func TestColoursComeWithAMark(t *testing.T) {
	c := newCanvas(t, "studio")
	for _, by := range []string{"owner", "glaze", "mass"} {
		s := ask[seen](t, c.d, "colour", m{"by": by})
		require.NotEmpty(t, s.Legend, by)
		hatches := map[int]bool{}
		for _, k := range s.Legend {
			require.False(t, hatches[k.Hatch], "%s: two of one hatch", by)
			hatches[k.Hatch] = true
		}
	}
	require.NotEmpty(t, call1(t, c.d, "colour", `{"by":"weather"}`).Refusal)
}

// TestALostCardGetsWholeMeshesAgain: after what was uploaded is gone, nothing
// is left out because it was there once.
func TestALostCardGetsWholeMeshesAgain(t *testing.T) {
	c := newCanvas(t, "studio")
	p := c.frame()
	whole := make([]int, len(p.Scene.Groups))
	for i := range p.Scene.Groups { // as the painter does
		whole[i] = p.Scene.Groups[i].Mesh.Vertices()
		p.Scene.Groups[i].Mesh = scene.Mesh{}
	}
	pot, _ := firstPot(t, c.d, "mug")
	ask[session.State](t, c.d, "apply", m{"edits": []m{{"act": "lock pot", "pot": pot.ID, "on": true}}})
	c.frame()
	was := c.e.cam
	c.e.Lost()
	require.NotNil(t, c.last("lost"))
	c.e.Back()
	require.NotNil(t, c.last("back"))
	p = c.frame()
	for i := range p.Scene.Groups {
		require.Equal(t, whole[i], p.Scene.Groups[i].Mesh.Vertices(), p.Scene.Groups[i].Name)
	}
	require.Equal(t, was, c.e.cam)
}

// TestPresetsShowTheWholeLoadLarge: all of it is on the canvas, clear of the
// labels, and it fills one way or the other.
func TestPresetsShowTheWholeLoadLarge(t *testing.T) {
	for _, name := range samples(t) {
		c := newCanvas(t, name)
		for _, size := range [][2]float64{{452, 500}, {1200, 700}, {390, 420}} {
			c.e.Size(size[0], size[1])
			for _, preset := range []string{"stand", "orbit", "front", "side", "back", "top"} {
				cam := c.e.presetCamera(preset)
				lo, hi := mgl64.Vec2{1e9, 1e9}, mgl64.Vec2{-1e9, -1e9}
				for _, p := range c.e.outline() {
					at, _, ok := cam.Project(p, c.e.screen)
					require.True(t, ok)
					for k := range at {
						lo[k], hi[k] = math.Min(lo[k], at[k]), math.Max(hi[k], at[k])
					}
				}
				what := name + " " + preset
				require.GreaterOrEqual(t, lo[0], sideRoom-1, what)
				require.LessOrEqual(t, hi[0], size[0]-sideRoom+1, what)
				require.GreaterOrEqual(t, lo[1], otherRoom-1, what)
				require.LessOrEqual(t, hi[1], size[1]-otherRoom+1, what)
				require.True(t, hi[0]-lo[0] > size[0]-2*sideRoom-3 || hi[1]-lo[1] > size[1]-2*otherRoom-3, "%s %v: %v to %v", what, size, lo, hi)
			}
		}
	}
}

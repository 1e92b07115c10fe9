package solid

import (
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"threepost/geometry/plane"
)

// The oracle sets hold cases worked by independent methods: gaps and ways out
// by convex optimisation (clearance-oracle/1), wall clearance by polygon
// buffers and headroom (containment-oracle/1). Other sets of the same schema
// are run by naming them in THREEPOST_GAPS and THREEPOST_CLEARANCE.

type oracleObject struct {
	Pose  oraclePose
	Parts []struct {
		Skeleton []plane.Vec
		Profile  [][2]float64
	}
}

type oraclePose struct {
	X, Y  float64
	Rot   float64 `json:"rot_deg"` // counter-clockwise
	BaseZ float64 `json:"base_z"`
}

// pose is the one place where the oracle's counter-clockwise turns become
// clockwise.
func (p oraclePose) pose() Pose {
	return Pose{At: plane.Vec{p.X, p.Y}, Turn: -p.Rot, Z: p.BaseZ}
}

func (o oracleObject) placed() Placed {
	var b Body
	for _, p := range o.Parts {
		part := Part{Skeleton: p.Skeleton}
		for _, k := range p.Profile {
			part.Profile = append(part.Profile, Knot{Z: k[0], R: k[1]})
		}
		b.Parts = append(b.Parts, part)
	}
	return Place(b, o.Pose.pose())
}

type oracleSet struct {
	Schema string
	Cases  []struct {
		ID, Kind string
		A, B     oracleObject
		Expect   struct {
			Gap        float64 `json:"gap_mm"`
			GapTol     float64 `json:"gap_tol_mm"`
			Overlap    *bool
			Way        *float64 `json:"penetration_mm"`
			WayTol     *float64 `json:"penetration_tol_mm"`
			WayAtLeast *float64 `json:"penetration_lower_bound_mm"`
		}
	}
	Containment []struct {
		ID      string
		Chamber struct {
			Kind     string
			Skeleton []plane.Vec
			Radius   float64
			Pose     oraclePose
		}
		Object oracleObject
		Expect struct {
			Inside bool
			Wall   float64 `json:"wall_clearance_mm"`
			Tol    float64 `json:"tol_mm"`
		}
	}
	Headroom []struct {
		ID, Type string
		Object   oracleObject
		Shelf    *oracleObject
		Ceiling  *float64 `json:"ceiling_z"`
		Expect   struct {
			Room    *float64 `json:"vertical_headroom_mm"`
			Gap     *float64 `json:"gap_mm"`
			Overlap *bool
			Tol     float64 `json:"tol_mm"`
		}
	}
}

// runOracle reads the set that a variable names and runs it by its schema.
func runOracle(t *testing.T, variable, fallback string) {
	path := os.Getenv(variable)
	if path == "" {
		path = filepath.Join("..", "..", "testdata", "oracle", fallback)
	}
	data, err := os.ReadFile(path)
	require.NoError(t, err)
	var set oracleSet
	require.NoError(t, json.Unmarshal(data, &set))
	switch set.Schema {
	case "clearance-oracle/1":
		require.NotEmpty(t, set.Cases)
		runGaps(t, set)
		t.Logf("%d cases of %s ran from %s", len(set.Cases), set.Schema, path)
	case "containment-oracle/1":
		require.NotEmpty(t, set.Containment)
		runWalls(t, set)
		runHeadroom(t, set)
		t.Logf("%d containment and %d headroom cases of %s ran from %s", len(set.Containment), len(set.Headroom), set.Schema, path)
	default:
		t.Fatalf("%s has schema %q, which this test does not know", path, set.Schema)
	}
}

func TestGapOracle(t *testing.T) { runOracle(t, "THREEPOST_GAPS", "gaps.json") }

func TestClearanceOracle(t *testing.T) { runOracle(t, "THREEPOST_CLEARANCE", "clearance.json") }

func TestOracleTurnsCounterClockwise(t *testing.T) {
	p := oraclePose{X: 10, Y: 20, Rot: 90, BaseZ: 30}.pose()
	require.Equal(t, 30.0, p.Z)
	require.Equal(t, plane.Vec{10, 21}, p.Plan().Apply(plane.Vec{1, 0}))
	require.Equal(t, plane.Vec{9, 20}, p.Plan().Apply(plane.Vec{0, 1}))
}

func runGaps(t *testing.T, set oracleSet) {
	for _, c := range set.Cases {
		a, b := c.A.placed(), c.B.placed()
		gap, w := Gap(&a, &b)
		e := c.Expect
		assert.InDelta(t, e.Gap, math.Max(0, gap), e.GapTol, "%s %s: gap", c.ID, c.Kind)
		if e.Overlap != nil {
			assert.Equal(t, *e.Overlap, gap < -e.GapTol, "%s %s: overlap, gap %g", c.ID, c.Kind, gap)
		}
		if e.Way != nil && e.WayTol != nil {
			assert.InDelta(t, *e.Way, -gap, *e.WayTol, "%s %s: way out", c.ID, c.Kind)
		}
		if e.WayAtLeast != nil {
			assert.GreaterOrEqual(t, -gap, *e.WayAtLeast, "%s %s: way out", c.ID, c.Kind)
		}
		assert.InDelta(t, math.Abs(gap), w.A.Sub(w.B).Len(), 1e-9, "%s %s: witnesses", c.ID, c.Kind)
		back, _ := Gap(&b, &a)
		assert.InDelta(t, gap, back, 1e-9, "%s %s: flipped", c.ID, c.Kind)
		assert.True(t, GapAtLeast(&a, &b, math.Max(0, e.Gap-e.GapTol)) || gap < 0, "%s %s: keeps it", c.ID, c.Kind)
		assert.False(t, GapAtLeast(&a, &b, math.Max(0, gap)+1e-5), "%s %s: keeps more", c.ID, c.Kind)
	}
}

func runWalls(t *testing.T, set oracleSet) {
	for _, c := range set.Containment {
		o, err := plane.Widened(c.Chamber.Skeleton, c.Chamber.Radius)
		require.NoError(t, err, c.ID)
		w := c.Object.placed()
		got := WallClearance(&w, o.At(c.Chamber.Pose.pose().Plan()))
		assert.InDelta(t, c.Expect.Wall, got, c.Expect.Tol, "%s in a %s", c.ID, c.Chamber.Kind)
		if math.Abs(c.Expect.Wall) > c.Expect.Tol {
			assert.Equal(t, c.Expect.Inside, got >= 0, "%s in a %s", c.ID, c.Chamber.Kind)
		}
	}
}

func runHeadroom(t *testing.T, set oracleSet) {
	for _, c := range set.Headroom {
		w := c.Object.placed()
		if c.Ceiling != nil {
			assert.InDelta(t, *c.Expect.Room, *c.Ceiling-w.Top(), c.Expect.Tol, c.ID)
		}
		if c.Shelf == nil {
			continue
		}
		shelf := c.Shelf.placed()
		require.Len(t, c.Shelf.Parts, 1, c.ID)
		profile := shelf.Body.Parts[0].Profile
		outline, err := plane.Widened(shelf.Body.Parts[0].Skeleton, profile.Max())
		require.NoError(t, err, c.ID)
		assert.Equal(t, profile[0].R, profile.Max(), "%s: a shelf with upright edges", c.ID)
		outline = outline.At(shelf.Pose.Plan())
		room, meets := Lift(&w, outline, shelf.Bottom())
		assert.Equal(t, c.Expect.Room != nil, meets, "%s: meets", c.ID)
		if meets {
			assert.InDelta(t, *c.Expect.Room, room, c.Expect.Tol, "%s: vertical", c.ID)
		}
		if c.Expect.Gap == nil {
			continue
		}
		gap, _ := Gap(&w, &shelf)
		assert.InDelta(t, *c.Expect.Gap, math.Max(0, gap), c.Expect.Tol, "%s: gap", c.ID)
		assert.InDelta(t, gap, GapToSlab(&w, outline, shelf.Bottom(), shelf.Top()), 1e-9, "%s: slab", c.ID)
		if c.Expect.Overlap != nil {
			assert.Equal(t, *c.Expect.Overlap, gap < -c.Expect.Tol, "%s: overlap", c.ID)
		}
	}
}

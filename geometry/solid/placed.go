package solid

import (
	"github.com/go-gl/mathgl/mgl64"

	"threepost/geometry/plane"
)

// Pose is where a body stands: turned clockwise by Turn degrees about its
// origin, the origin moved to At, the whole lifted by Z, mm.
type Pose struct {
	At      plane.Vec
	Turn, Z float64
}

// Plan is the pose seen from above.
func (p Pose) Plan() plane.Pose { return plane.Pose{At: p.At, Turn: p.Turn} }

// Placed is a body where it stands, with its skeletons already turned and
// moved and an upright box round the whole. Body and Pose are for reading;
// Move changes the pose.
type Placed struct {
	Body     Body
	Pose     Pose
	Min, Max mgl64.Vec3
	parts    []placedPart
	corners  plane.Skeleton // one store for all skeletons
}

// placedPart is a part where it stands.
type placedPart struct {
	skeleton plane.Skeleton
	profile  Profile
	round    bool    // a cylinder about one point: the short way for gaps
	r        float64 // largest radius
	min, max mgl64.Vec3
}

// Place puts body b where pose p says.
func Place(b Body, p Pose) Placed {
	n := 0
	for _, part := range b.Parts {
		n += len(part.Skeleton)
	}
	w := Placed{Body: b, parts: make([]placedPart, len(b.Parts)), corners: make(plane.Skeleton, 0, n)}
	for i, part := range b.Parts {
		q := &w.parts[i]
		q.profile, q.r = part.Profile, part.Profile.Max()
		q.round = len(part.Skeleton) == 1 && len(q.profile) == 2 && q.profile[0].R == q.profile[1].R
	}
	w.Move(p)
	return w
}

// Move puts the body elsewhere without an allocation. A copy of a Placed
// shares its store with the original; Clone first to move the two apart.
func (w *Placed) Move(p Pose) {
	w.Pose = p
	w.corners = w.corners[:0]
	w.Min, w.Max = emptyBox()
	plan := p.Plan()
	for i, part := range w.Body.Parts {
		q := &w.parts[i]
		from := len(w.corners)
		w.corners = part.Skeleton.AppendAt(w.corners, plan)
		q.skeleton = w.corners[from:len(w.corners):len(w.corners)]
		q.min, q.max = partBox(q.skeleton, q.profile, q.r, p.Z)
		w.Min, w.Max = growBox(w.Min, w.Max, q.min, q.max)
	}
	if len(w.parts) == 0 {
		at := mgl64.Vec3{p.At[0], p.At[1], p.Z}
		w.Min, w.Max = at, at
	}
}

// Clone is a copy that can be moved on its own.
func (w *Placed) Clone() Placed { return Place(w.Body, w.Pose) }

// Skeleton is the skeleton of a part where it stands; it is for reading and
// changes when w moves.
func (w *Placed) Skeleton(part int) plane.Skeleton { return w.parts[part].skeleton }

// Base is the height over the floor of the body's z = 0, mm.
func (w *Placed) Base() float64 { return w.Pose.Z }

// Bottom is the height of the lowest slice over the floor, mm.
func (w *Placed) Bottom() float64 { return w.Min[2] }

// Top is the height of the highest slice over the floor, mm.
func (w *Placed) Top() float64 { return w.Max[2] }

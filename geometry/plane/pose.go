package plane

// Pose is where a plan shape stands: turned clockwise by Turn degrees about
// its local origin, then moved so that the origin lies at At (mm).
type Pose struct {
	At   Vec
	Turn float64
}

// Apply takes a local point to where it stands.
func (p Pose) Apply(v Vec) Vec { return Add(Rotate(v, p.Turn), p.At) }

// ApplyDir takes a local direction to where it points.
func (p Pose) ApplyDir(v Vec) Vec { return Rotate(v, p.Turn) }

// Undo takes a standing point back to the local frame: Undo(Apply(v)) is v
// but for rounding.
func (p Pose) Undo(v Vec) Vec { return Rotate(Sub(v, p.At), -p.Turn) }

// UndoDir takes a direction back to the local frame.
func (p Pose) UndoDir(v Vec) Vec { return Rotate(v, -p.Turn) }

// Inverse is the pose that takes p back: p.Inverse().Apply(p.Apply(v)) is v
// but for rounding.
func (p Pose) Inverse() Pose {
	return Pose{At: Rotate(Scale(p.At, -1), -p.Turn), Turn: -p.Turn}
}

// Then is the pose that does p first and q after it.
func (p Pose) Then(q Pose) Pose {
	return Pose{At: q.Apply(p.At), Turn: NormalTurn(p.Turn + q.Turn)}
}

package statics

import "threepost/geometry/plane"

// Solve rests loads on supports of one height.
func Solve(supports []plane.Vec, loads []Load) Result { return Result{} }

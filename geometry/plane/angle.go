package plane

import "math"

const (
	radiansPerDegree = 0.01745329251994329576923690768488612713443
	degreesPerRadian = 57.29577951308232087679815481410517033241
)

// SinCos is the sine and the cosine of an angle in degrees. Multiples of 90
// are exact; elsewhere both are within 3e-16. The library's own functions are
// not used, because a compiler may fuse their arithmetic on some processors.
//
// An angle that is no number has sine and cosine NaN.
func SinCos(deg float64) (sin, cos float64) {
	if deg == 0 {
		return 0, 1
	}
	if !isFinite(deg) {
		return math.NaN(), math.NaN()
	}
	if deg < 0 {
		sin, cos = SinCos(-deg)
		return 0 - sin, cos
	}
	deg = math.Mod(deg, 360) // exact
	quarter := math.Floor(deg/90 + 0.5)
	x := float64((deg - float64(90*quarter)) * radiansPerDegree)
	s, c := sinSmall(x), cosSmall(x)
	switch int(quarter) % 4 {
	case 0:
		return s, c
	case 1:
		return c, -s
	case 2:
		return -s, -c
	}
	return -c, s
}

// sinSmall is the Taylor series of the sine to x^17, for |x| up to pi/4,
// where the first term left out is under 1e-19.
func sinSmall(x float64) float64 {
	y := float64(x * x)
	p := 1.0 / 355687428096000
	p = float64(p*y) - 1.0/1307674368000
	p = float64(p*y) + 1.0/6227020800
	p = float64(p*y) - 1.0/39916800
	p = float64(p*y) + 1.0/362880
	p = float64(p*y) - 1.0/5040
	p = float64(p*y) + 1.0/120
	p = float64(p*y) - 1.0/6
	return x + float64(float64(x*y)*p)
}

// cosSmall is the Taylor series of the cosine to x^16, for |x| up to pi/4.
func cosSmall(x float64) float64 {
	y := float64(x * x)
	p := 1.0 / 20922789888000
	p = float64(p*y) - 1.0/87178291200
	p = float64(p*y) + 1.0/479001600
	p = float64(p*y) - 1.0/3628800
	p = float64(p*y) + 1.0/40320
	p = float64(p*y) - 1.0/720
	p = float64(p*y) + 1.0/24
	p = float64(p*y) - 1.0/2
	return 1 + float64(y*p)
}

// eighths returns the angle in degrees whose tangent is k/8.
func eighths(k int) float64 {
	switch k {
	case 0:
		return 0
	case 1:
		return 7.1250163489017975619533008
	case 2:
		return 14.0362434679264785828923202
	case 3:
		return 20.5560452195834643082936127
	case 4:
		return 26.5650511770779893515721937
	case 5:
		return 32.0053832080834955607906458
	case 6:
		return 36.8698976458440212968556126
	case 7:
		return 41.1859251657096458050885864
	}
	return 45
}

// atanUnit is the angle in degrees whose tangent is t, for t from 0 to 1:
// the nearest eighth, then the series of what is left, which is at most 1/16.
func atanUnit(t float64) float64 {
	k := int(math.Floor(float64(t*8) + 0.5))
	c := float64(float64(k) / 8)
	u := (t - c) / (1 + float64(t*c))
	y := float64(u * u)
	p := 1.0 / 13
	p = 1.0/11 - float64(p*y)
	p = 1.0/9 - float64(p*y)
	p = 1.0/7 - float64(p*y)
	p = 1.0/5 - float64(p*y)
	p = 1.0/3 - float64(p*y)
	rest := u - float64(float64(u*y)*p)
	return eighths(k) + float64(rest*degreesPerRadian)
}

// Bearing is the bearing of v in degrees clockwise from +y (12 o'clock), in
// [0, 360). A v without length has bearing 0. The bearings of the axes and of
// the diagonals are exact.
func Bearing(v Vec) float64 {
	x, y := math.Abs(v[0]), math.Abs(v[1])
	if !(x > 0 || y > 0) {
		return 0
	}
	var b float64 // from the y axis, in the quadrant
	if x <= y {
		b = atanUnit(x / y)
	} else {
		b = 90 - atanUnit(y/x)
	}
	switch {
	case v[1] < 0 && v[0] >= 0:
		b = 180 - b
	case v[1] < 0:
		b = 180 + b
	case v[0] < 0:
		b = 360 - b
	}
	if b >= 360 {
		return 0
	}
	return b
}

// FromBearing is the point at distance r (mm) on bearing deg: x = r sin b,
// y = r cos b.
func FromBearing(r, deg float64) Vec {
	s, c := SinCos(deg)
	return Vec{float64(r * s), float64(r * c)}
}

// Rotate turns v clockwise about the origin by turn degrees, so that turn 0
// leaves an object's length along x and turn 90 lays what was at 12 o'clock
// to 3 o'clock.
func Rotate(v Vec, turn float64) Vec {
	if turn == 0 {
		return v
	}
	s, c := SinCos(turn)
	return rotateBy(v, s, c)
}

// rotateBy turns v clockwise by the angle with sine s and cosine c.
func rotateBy(v Vec, s, c float64) Vec {
	return Vec{float64(v[0]*c) + float64(v[1]*s), float64(v[1]*c) - float64(v[0]*s)}
}

// NormalTurn brings an angle in degrees into [0, 360).
func NormalTurn(deg float64) float64 {
	deg = math.Mod(deg, 360)
	if deg < 0 {
		deg += 360
	}
	if deg >= 360 || deg == 0 { // also -0, and a crumb below 0 that rounds up
		return 0
	}
	return deg
}

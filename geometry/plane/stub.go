package plane

type Outline struct{ edges []Edge }
type EdgeKind int

const (
	Line EdgeKind = iota
	Arc
)

type Edge struct {
	Kind             EdgeKind
	From, To, Center Vec
	Radius           float64
}

func Round(across float64) (Outline, error)                          { return Outline{}, nil }
func Rectangle(width, depth float64) (Outline, error)                { return Outline{}, nil }
func Polygon(points []Vec) (Outline, error)                          { return Outline{}, nil }
func Sided(n int, acrossFlats, flatBearing float64) (Outline, error) { return Outline{}, nil }
func HalfRound(across, depth float64) (Outline, error)               { return Outline{}, nil }
func HalfSided(n int, acrossFlats, depth float64) (Outline, error)   { return Outline{}, nil }
func Oval(width, depth float64) (Outline, error)                     { return Outline{}, nil }
func HalfOval(width, depth float64) (Outline, error)                 { return Outline{}, nil }
func RoundedRectangle(width, depth, radius float64) (Outline, error) { return Outline{}, nil }
func Widened(s Skeleton, radius float64) (Outline, error)            { return Outline{}, nil }
func (o Outline) At(p Pose) Outline                                  { return o }
func (o Outline) Depth(p Vec) float64                                { return 0 }
func (o Outline) DepthNormal(p Vec) (float64, Vec)                   { return 0, Vec{} }
func (o Outline) NearestEdge(p Vec) Vec                              { return p }
func (o Outline) Distance(s Skeleton) float64                        { return 0 }
func (o Outline) SignedDistance(s Skeleton) float64                  { return 0 }
func (o Outline) Area() float64                                      { return 0 }
func (o Outline) Centroid() Vec                                      { return Vec{} }
func (o Outline) Bounds() (min, max Vec)                             { return }
func (o Outline) Edges() []Edge                                      { return o.edges }
func (o Outline) Support(dir Vec) Vec                                { return dir }
func (o Outline) Contains(p Vec) bool                                { return false }
func (o Outline) Empty() bool                                        { return len(o.edges) == 0 }
func Clearance(o Outline, s Skeleton, r float64) float64             { return 0 }

type Skeleton []Vec

func NewSkeleton(points ...Vec) (Skeleton, error) { return Skeleton(points), nil }
func (s Skeleton) At(p Pose) Skeleton             { return s.AppendAt(nil, p) }
func (s Skeleton) AppendAt(dst Skeleton, p Pose) Skeleton {
	for _, v := range s {
		dst = append(dst, p.Apply(v))
	}
	return dst
}
func SignedDistance(a, b Skeleton) (d float64, pa, pb Vec) { return 0, Vec{}, Vec{} }

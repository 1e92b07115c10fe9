package measure

// Cone is the name of a pyrometric cone: "6", "04", "5.5". Never a number. "" is no cone.
type Cone string

// ParseCone reads "6", "cone 6", "^6", "04".
func ParseCone(text string) (Cone, error) { return "", nil }

// Known tells whether the chart has the cone.
func (c Cone) Known() bool { return false }

// Temperature is where the cone bends, C, heated at ratePerHour C/h (0: 60);
// false when the chart does not tell.
func (c Cone) Temperature(ratePerHour float64) (float64, bool) { return 0, false }

// Heat is the temperature at 60 C/h, C; 0 for a cone that is not known.
func (c Cone) Heat() float64 { return 0 }

// Compare orders cones by heat: -1 when a is cooler than b, 0, 1.
func Compare(a, b Cone) int { return 0 }

// Next is the next hotter whole cone; false at the end.
func (c Cone) Next() (Cone, bool) { return "", false }

// Previous is the next cooler whole cone; false at the end.
func (c Cone) Previous() (Cone, bool) { return "", false }

// Pack is guide, firing and guard cone of a cone pack.
func (c Cone) Pack() []Cone { return nil }

// Describe names cone and temperature: "cone 6 (1222 C)".
func (c Cone) Describe() string { return "" }

// DescribeIn is Describe in the person's units: "cone 6 (2232 F)" for Inches.
func (c Cone) DescribeIn(in Units) string { return "" }

// Cones lists the chart from the coolest to the hottest.
func Cones() []Cone { return nil }

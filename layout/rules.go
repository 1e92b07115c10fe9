package layout

// RuleName names a rule of a load in the words of the file.
type RuleName string

// The rules with figures. All figures are common practice, gathered from
// guides that differ; every one can be changed in the load.
const (
	PotToPot     RuleName = "pot to pot"
	PotToPotDeep RuleName = "pot to pot deep" // plan column only: on levels deeper than Deep below the rim
	PotToWall    RuleName = "pot to wall"
	PotToPost    RuleName = "pot to post"
	RoomAbove    RuleName = "room above"
	RoomToLid    RuleName = "room to lid"
	ToProbe      RuleName = "to probe"
	FootToEdge   RuleName = "foot to edge"   // negative room = past the shelf edge
	CookieToEdge RuleName = "cookie to edge" // a runny pot's cookie
	RimPastEdge  RuleName = "rim past edge"  // plan: how far rims may stand out
	ShelfToWall  RuleName = "shelf to wall"
	ShelfToShelf RuleName = "shelf to shelf"
	BottomShelf  RuleName = "bottom shelf"
	PostOverPost RuleName = "post over post" // share of the section that overlaps
	Inset        RuleName = "inset"          // shelf's edge to the middle of a post
	PostHeights  RuleName = "post heights"   // how far heights under one shelf differ, three posts
	PostHeights4 RuleName = "post heights 4" // four or more
	Pieces       RuleName = "pieces"         // in one post
	Slender      RuleName = "slender post"   // height over width of a post
	PostCount    RuleName = "post count"
	Balance      RuleName = "balance point" // its distance inside the posts' ring
	TallNarrow   RuleName = "tall narrow pot"
	HandRoom     RuleName = "hand room" // plan column only
	GripRoom     RuleName = "grip room" // shelf to wall at two opposite places
	DeepFrom     RuleName = "deep from" // plan column only: where PotToPotDeep begins, mm below the rim
	CookieWider  RuleName = "cookie wider"
	AllowHigh    RuleName = "allow high"
	AllowWide    RuleName = "allow wide"
	BlastRoom    RuleName = "cones to element" // cone pack to the wall
)

// The rules that are yes or no; they name findings and have no figures.
const (
	CanBeSet     RuleName = "can be set"
	OwnedCount   RuleName = "furniture"
	FitsFiring   RuleName = "fits the firing"
	GlazedFoot   RuleName = "glazed foot"
	Fuming       RuleName = "fuming"
	SoundShelf   RuleName = "sound shelf"
	OneShelf     RuleName = "one shelf" // one foot over two shelves
	InSight      RuleName = "in sight"
	ProbeLevel   RuleName = "shelf level with probe"
	InsideKiln   RuleName = "inside the kiln"
	PostUnder    RuleName = "post under shelf"
	RunnyCookie  RuleName = "runny"
	Waits        RuleName = "waits"
	TowerFooting RuleName = "tower footing"
)

// Limits are the three columns of the rule table. Which way is worse depends
// on the rule: gaps are bad when small, counts and ratios when large.
type Limits struct {
	Problem float64 `json:"problem"`
	Watch   float64 `json:"watch"`
	Plan    float64 `json:"plan"`
}

// Rules are changes to the table, by rule.
type Rules map[RuleName]Limits

// Clone copies the changes.
func (r Rules) Clone() Rules {
	if r == nil {
		return nil
	}
	c := make(Rules, len(r))
	for k, v := range r {
		c[k] = v
	}
	return c
}

// Limits is the row of a rule for this load: changed by the person, else by
// the stage's table.
func (l *Load) Limits(name RuleName) Limits {
	if v, ok := l.Rules[name]; ok {
		return v
	}
	return DefaultLimits(l.Firing.Stage, name)
}

// DefaultLimits is the table of design section 5 for a stage. Glaze, refire
// and lustre loads share one; a bisque load may touch.
func DefaultLimits(stage Stage, name RuleName) Limits {
	if stage == Bisque {
		switch name {
		case PotToPot, PotToPotDeep:
			return Limits{0, 0, 0}
		case PotToPost:
			return Limits{0, 0, 3}
		case RoomAbove:
			return Limits{0, 3, 6}
		}
	}
	switch name {
	case PotToPot, PotToPost:
		return Limits{3, 6, 6}
	case PotToPotDeep:
		return Limits{3, 6, 9}
	case DeepFrom:
		return Limits{Plan: 450}
	case PotToWall, RoomToLid, ToProbe:
		return Limits{12, 25, 25}
	case RoomAbove:
		return Limits{6, 10, 12}
	case FootToEdge:
		return Limits{0, 6, 6}
	case CookieToEdge:
		return Limits{0, 6, 12}
	case RimPastEdge:
		return Limits{}
	case ShelfToWall:
		return Limits{3, 12, 12}
	case GripRoom:
		return Limits{0, 20, 20}
	case ShelfToShelf:
		return Limits{0, 3, 6}
	case BottomShelf:
		return Limits{0, 25, 25}
	case PostOverPost:
		return Limits{0.5, 0.75, 1}
	case Inset:
		return Limits{0, 25, 25}
	case PostHeights:
		return Limits{5, 2, 0}
	case PostHeights4:
		return Limits{2, 0.5, 0}
	case Pieces:
		return Limits{4, 3, 1}
	case Slender:
		return Limits{Problem: 10, Watch: 10, Plan: 10}
	case PostCount:
		return Limits{3, 3, 3}
	case Balance:
		return Limits{0, 20, 20}
	case TallNarrow:
		return Limits{Watch: 4, Plan: 4}
	case HandRoom:
		return Limits{Plan: 3}
	case CookieWider:
		return Limits{Problem: 10, Watch: 10, Plan: 10}
	case AllowHigh:
		return Limits{Plan: 2}
	case AllowWide:
		return Limits{Plan: 3}
	case BlastRoom:
		return Limits{0, 50, 50}
	}
	return Limits{}
}

// RuleNames lists the rules with figures in the order of the table.
func RuleNames() []RuleName {
	return []RuleName{PotToPot, PotToPotDeep, DeepFrom, PotToWall, PotToPost, RoomAbove, RoomToLid, ToProbe,
		FootToEdge, CookieToEdge, RimPastEdge, ShelfToWall, GripRoom, ShelfToShelf, BottomShelf, PostOverPost,
		Inset, PostHeights, PostHeights4, Pieces, Slender, PostCount, Balance, TallNarrow, HandRoom,
		CookieWider, AllowHigh, AllowWide, BlastRoom}
}

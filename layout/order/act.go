package order

// ActKind is what hands do at the kiln.
type ActKind int

// The acts.
const (
	ActPosts   ActKind = iota // set Posts on Level (-1: on the floor); they carry the shelf of Carries
	ActShelf                  // lay Shelf of Level, held at Grips
	ActMeasure                // measure down from the rim to the shelf of Level: Down
	ActPot                    // set step Step of Level's order
	ActPattern                // set the series Pattern of Level's order
	ActCones                  // set the cone pack: step Step of Level's order
	ActStick                  // lay a stick over Posts of Level: light over every pot
	ActLid                    // lay a stick over the rim: Room left to the lid
)

// Act is one thing hands do.
type Act struct {
	Kind    ActKind
	Level   int     // into Built.Levels: where it happens; -1: the floor
	Order   int     // into Order.Levels, for pots, series and cones; else -1
	Posts   []int   // into Built.Posts
	Carries int     // into Built.Levels, for posts: whose shelf they carry; else -1
	Shelf   int     // into Built.Shelves; else -1
	Step    int     // into LevelOrder.Pots; else -1
	Pattern int     // into LevelOrder.Patterns; else -1
	Down    float64 // mm from the rim to the top of the shelf
	Next    int     // the level (into Built.Levels) whose shelf comes next over it; -1: none
	Room    float64 // mm: over the tallest pot, to the stick or the lid
}

package document

import (
	"sort"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/geometry/plane"
	"threepost/layout"
)

// commentsOf lists the comments of a file, sorted.
func commentsOf(data []byte) []string {
	var all []string
	for _, c := range plant("", data).comments {
		all = append(all, c.text)
	}
	sort.Strings(all)
	return all
}

// commented is a load in canonical form with a comment wherever one can stand.
const commented = `# Kiln log, page 12

# A load.
threepost = 1  # the first version
units = "mm"
# cone pack says 6 1/2
firing = { stage = "glaze", cone = "6" }  # slow cool

# The old one from the school.
[kiln]  # heron
chamber = { shape = "round", across = 457, height = 457 }
opens = "top"

[furniture]
shelves = [  # bought together
  # the flat ones
  { name = "full", shape = "round", across = 410, thick = 16, count = 1 },  # chipped
  { name = "half", shape = "half round", across = 410, depth = 205, thick = 16, count = 6 },
  # two more are on order
]
posts = [
  # shorties
  { height = 25, section = "square 38", count = 6 },
  { height = 100, section = "square 38", count = 6 },
]  # soft brick

# Ida's
[[ware]]
name = "mug"
# two cracked
count = 3  # were 5
height = 100
across = 85

[[ware]]  # the one for the show
name = "vase"
height = 220
across = 110

# the base
[[tower]]
name = "base"
on = ["floor"]
lines = [[-100, 0], [60, 90], [60, -90]]
# low
[[tower.level]]
shelves = [{ kind = "full" }]
posts = "25"
[tower.level.set]
# near the probe
"mug 1" = [-60, 0, 0]
"mug 2" = [60, 0, 0]  # handle glued
vase = [0, 80, 0]

# the end
`

// Law: Update(old, Parse(old)) == old when old is canonical, comments and all.
func TestUpdateChangesNothingCanonical(t *testing.T) {
	l, err := Parse("", []byte(commented))
	require.NoError(t, err)
	got, err := Update([]byte(commented), l)
	require.NoError(t, err)
	require.Equal(t, commented, string(got))
}

func updated(t *testing.T, change func(l *layout.Load)) string {
	l, err := Parse("", []byte(commented))
	require.NoError(t, err)
	change(l)
	got, err := Update([]byte(commented), l)
	require.NoError(t, err)
	require.Equal(t, commentsOf([]byte(commented)), commentsOf(got), "nothing typed is lost")
	again, err := Update(got, l)
	require.NoError(t, err)
	require.Equal(t, string(got), string(again))
	return string(got)
}

// One pot is one line: moving it changes that line and no other.
func TestUpdateMovesAPotInOneLine(t *testing.T) {
	got := updated(t, func(l *layout.Load) { l.Towers[0].Levels[0].Set[1].At = plane.Vec{61, 0.5} })
	require.Equal(t, strings.Replace(commented, "[60, 0, 0]", "[61, 0.5, 0]", 1), got)
}

func TestUpdateKeepsCommentsOfKeysAndRows(t *testing.T) {
	got := updated(t, func(l *layout.Load) {
		l.Ware[0].Count = 8
		l.Ware = append([]layout.Ware{{Name: "bowl", Count: 1, Height: 70, Across: 150}}, l.Ware...)
		l.Furniture.Posts = append([]layout.PostKind{{Height: 13, Section: l.Furniture.Posts[0].Section, Count: 6}}, l.Furniture.Posts...)
		l.Furniture.Shelves[0].Count = 2
	})
	require.Contains(t, got, "# two cracked\ncount = 8  # were 5\n")
	require.Contains(t, got, "# Ida's\n[[ware]]\nname = \"mug\"\n")
	require.Contains(t, got, "[[ware]]  # the one for the show\nname = \"vase\"\n")
	require.Contains(t, got, "  # the flat ones\n  { name = \"full\", shape = \"round\", across = 410, thick = 16, count = 2 },  # chipped\n")
	require.Contains(t, got, "  # two more are on order\n]\n")
	require.Contains(t, got, "]  # soft brick\n")
}

// A plan that builds other towers keeps the comments of pots, wherever they
// stand now, and puts the others above the towers.
func TestUpdateKeepsCommentsOfRebuiltTowers(t *testing.T) {
	got := updated(t, func(l *layout.Load) {
		old := l.Towers[0]
		l.Towers = []layout.Tower{
			{Name: "left side", On: old.On, Lines: old.Lines, Levels: []layout.Level{{Shelves: old.Levels[0].Shelves, Posts: old.Levels[0].Posts, Set: old.Levels[0].Set[1:2]}}},
			{Name: "right side", On: old.On, Lines: old.Lines, Levels: []layout.Level{{Shelves: old.Levels[0].Shelves, Posts: old.Levels[0].Posts, Set: old.Levels[0].Set[:1]}}},
		}
	})
	require.Contains(t, got, "# near the probe\n\"mug 1\" = [-60, 0, 0]\n")
	require.Contains(t, got, "\"mug 2\" = [60, 0, 0]  # handle glued\n")
	require.Contains(t, got, "\n# the base\n# low\n[[tower]]\nname = \"left side\"\n")
	require.True(t, strings.HasSuffix(got, "\n# the end\n"))
}

func TestUpdateKeepsCommentsOfWhatIsGone(t *testing.T) {
	got := updated(t, func(l *layout.Load) {
		l.Towers[0].Levels[0].Set = l.Towers[0].Levels[0].Set[2:]
		l.Ware = l.Ware[1:]
	})
	require.Contains(t, got, "# Ida's\n# two cracked\n# were 5\n[[ware]]  # the one for the show\n")
	require.Contains(t, got, "# the base\n# near the probe\n# handle glued\n[[tower]]\n")
	got = updated(t, func(l *layout.Load) { l.Towers, l.Ware = nil, nil })
	require.Contains(t, got, "# the base\n# low\n# near the probe\n# handle glued\n")
}

// A file that nobody has brought to the canonical form keeps its comments too.
func TestUpdateKeepsCommentsOfAnyForm(t *testing.T) {
	const old = "threepost=1#a\nfiring . stage='glaze' #b\nfiring.cone=\"6\"\n[kiln.chamber]#c\nacross=457 #d\nheight=457\n#e\n" +
		"[furniture]\nposts=[{height=25,section='square 38',count=6},#f\n#g\n\n#h\n]\n[[ware]]#i\nname='vase'\ncount=1 #j\nprofile=[#k\n[0,70],#l\n[200,80]#m\n#n\n]#o\n" +
		"[[tower]]\nname='t'\nlines=[[0,0],#p\n[1,1],[2,2]]\n#q\n"
	l, err := Parse("", []byte(old))
	require.NoError(t, err)
	got, err := Update([]byte(old), l)
	require.NoError(t, err)
	require.Equal(t, commentsOf([]byte(old)), commentsOf(got))
	again, err := Update(got, l)
	require.NoError(t, err)
	require.Equal(t, string(got), string(again))
	require.Contains(t, string(got), "threepost = 1  #a\n")
	require.Contains(t, string(got), "#l\n#m\n#n\n#o\nprofile = [[0, 70], [200, 80]]  #k\n")
}

// What cannot be read is not written over.
func TestUpdateRefusesWhatItWouldLose(t *testing.T) {
	l, err := Parse("", []byte(commented))
	require.NoError(t, err)
	_, err = Update([]byte(commented+"mine = 3\n"), l)
	require.ErrorContains(t, err, `"mine"`)
	_, err = Update([]byte(commented+"[["), l)
	require.Error(t, err)
	l.Ware[1].Name = "mug"
	_, err = Update([]byte(commented), l)
	require.ErrorContains(t, err, "two rows of ware are called")
	fresh, err := Update(nil, aLoad(t))
	require.NoError(t, err)
	require.Equal(t, string(Format(aLoad(t))), string(fresh))
}

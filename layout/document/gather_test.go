package document

import (
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/layout"
)

const gatherA = `# of A
threepost = 1
units = "mm"
firing = { stage = "glaze", cone = "6" }

[kiln]  # the old one
chamber = { shape = "round", across = 457, height = 457 }
opens = "top"

# Ida's
[[ware]]
name = "mug"
count = 3  # were 5
height = 100
across = 85

# for the show
[[ware]]
name = "vase"
height = 220  # without lid
across = 110
`

const gatherB = `# of B
threepost = 1
units = "mm"
firing = { stage = "glaze", cone = "6" }

[kiln]  # the new one
chamber = { shape = "round", across = 457, height = 457 }
opens = "top"

# Bram's, not Ida's
[[ware]]
name = "mug"
count = 2
height = 90  # after trimming
across = 80
# end of B
`

// TestGatherTakesCommentsWithTheirRows puts one row of each file into one load:
// comments go with their rows, those of the row that is gone stay behind.
func TestGatherTakesCommentsWithTheirRows(t *testing.T) {
	a, err := Parse("a", []byte(gatherA))
	require.NoError(t, err)
	b, err := Parse("b", []byte(gatherB))
	require.NoError(t, err)
	l := a.Clone()
	mug, other := a.Ware[0], b.Ware[0]
	other.Name = "wren mug"
	l.Ware = []layout.Ware{mug, other}
	text, err := Gather(l, Source{Text: []byte(gatherA)}, Source{Text: []byte(gatherB), Renamed: map[string]string{"mug": "wren mug"}, Ware: true})
	require.NoError(t, err)
	require.Equal(t, []string{"# Bram's, not Ida's", "# Ida's", "# after trimming", "# of A", "# the old one", "# were 5"}, commentsOf(text))
	require.Contains(t, string(text), "# Bram's, not Ida's\n[[ware]]\nname = \"wren mug\"\ncount = 2\nheight = 90  # after trimming\n")
	again, err := Parse("", text)
	require.NoError(t, err)
	require.Equal(t, l.Ware, again.Ware)

	// Every comment of the rows is in some file when all rows are.
	l.Ware = []layout.Ware{a.Ware[1]}
	text, err = Gather(l, Source{Text: []byte(gatherA)})
	require.NoError(t, err)
	require.Equal(t, []string{"# for the show", "# of A", "# the old one", "# without lid"}, commentsOf(text))

	_, err = Gather(l, Source{Text: []byte("[[")})
	require.Error(t, err)
}

// TestGatherOfOneWholeFileIsUpdate: with all rows there is nothing to leave.
func TestGatherOfOneWholeFileIsUpdate(t *testing.T) {
	l, err := Parse("a", []byte(commented))
	require.NoError(t, err)
	want, err := Update([]byte(commented), l)
	require.NoError(t, err)
	got, err := Gather(l, Source{Text: []byte(commented)})
	require.NoError(t, err)
	require.Equal(t, string(want), string(got))
}

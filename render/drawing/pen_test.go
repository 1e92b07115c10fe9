package drawing

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func TestPointsOfPaperStayInGroups(t *testing.T) {
	p := NewPen(loadFonts(t), A4())
	p.Group(Scale(0.2).Then(Move(100, 100)), func() {
		p.Circle(0, 0, 50, Outline(1.1).Dashed(5, 3))
		p.Text(50, 0, "8", Type(12, Regular))
	})
	p.Text(0, 50, "8", Type(12, Regular))
	shape := p.Page().Items[0].(Shape)
	require.Equal(t, Outline(1.1).Dashed(5, 3), shape.Style)
	b := bounds(flatten(shape.Path, 0.001))
	require.InDelta(t, 20, b.max.X-b.min.X, 0.01)
	inGroup, after := p.Page().Items[1].(Text), p.Page().Items[2].(Text)
	require.Equal(t, Point{110, 100}, inGroup.At)
	require.Equal(t, after.Style, inGroup.Style)
	require.Equal(t, Point{0, 50}, after.At) // the group has ended
}

func TestTextTurnsWithItsGroupButIsNeverMirrored(t *testing.T) {
	for _, row := range []struct {
		group      Transform
		turn, want float64
	}{
		{Same(), 0, 0}, {Turn(30), 0, 30}, {Turn(30), 15, 45}, {Turn(-90), 0, -90},
		{Stretch(1, -1), 0, 0}, {Stretch(1, -1), 270, 270}, {Turn(180), 0, 180}, {Scale(0.1), 0, 0},
		{Turn(20).Then(Turn(25)), 0, 45},
	} {
		p := NewPen(loadFonts(t), A4())
		p.Group(row.group, func() { p.Text(1, 1, "150", Type(12, Bold).Turned(row.turn)) })
		require.InDelta(t, row.want, p.Page().Items[0].(Text).Style.Turn, 1e-4)
	}
}

func TestGroupsNest(t *testing.T) {
	p := NewPen(loadFonts(t), A4())
	p.Group(Move(10, 20), func() {
		p.Group(Scale(2), func() { p.Text(3, 4, "a", Type(12, Regular)) })
		p.Clip(Rect(0, 0, 5, 5), func() { p.Line(0, 0, 1, 1, Outline(1)) })
	})
	require.Equal(t, Point{16, 28}, p.Page().Items[0].(Text).At)
	clip := p.Page().Items[1].(Clip)
	require.Equal(t, Rect(10, 20, 5, 5), clip.Path)
	require.Equal(t, LinePath(At(10, 20), At(11, 21)), clip.Items[0].(Shape).Path)
}

func TestPagesAreRecordedOnTheGrid(t *testing.T) {
	p := NewPen(loadFonts(t), A4())
	p.Line(1.0/3, 2.0/3, -1e-9, 1, Outline(1))
	require.Equal(t, LinePath(At(0.3333, 0.6667), At(0, 1)), p.Page().Items[0].(Shape).Path)
}

func TestNothingIsRecordedForNothing(t *testing.T) {
	p := NewPen(loadFonts(t), A4())
	require.Zero(t, p.Text(10, 10, "", Type(12, Regular)))
	p.Path(nil, Outline(1))
	p.Polygon(nil, Outline(1))
	require.Empty(t, p.Page().Items)
}

func TestAnchors(t *testing.T) {
	fonts := loadFonts(t)
	s := Type(12, Bold)
	width := fonts.Width(s, "Fetch")
	for anchor, back := range map[Anchor]float64{Left: 0, Middle: 0.5, Right: 1} {
		for _, turn := range []float64{0, 90} {
			p := NewPen(fonts, A4())
			require.Equal(t, width, p.Text(50, 60, "Fetch", s.Held(anchor).Turned(turn)))
			at, along := p.Page().Items[0].(Text).start()
			require.InDelta(t, 50-back*width*along.X, at.X, 1e-9)
			require.InDelta(t, 60-back*width*along.Y, at.Y, 1e-9)
		}
	}
}

func TestTextsAreFoundInReadingOrder(t *testing.T) {
	p := NewPen(loadFonts(t), A4())
	p.Text(50, 50, "d", Type(12, Bold))
	p.Clip(Rect(0, 0, 9, 9), func() { p.Text(60, 20, "c", Type(12, Bold)) })
	p.Text(20, 20, "b", Type(12, Bold))
	p.Text(80, 10, "a", Type(12, Bold))
	var words string
	for _, x := range Texts(p.Page()) {
		words += x.Words
	}
	require.Equal(t, "abcd", words)
}

func TestColours(t *testing.T) {
	r, g, b := RGB(1, 2, 3).RGB()
	require.Equal(t, [3]uint8{1, 2, 3}, [3]uint8{r, g, b})
	require.Equal(t, White, Grey(255))
	require.Equal(t, Black, Grey(0))
	require.Equal(t, Black, TextStyle{}.ink())
	require.True(t, Grey(7).grey())
	require.False(t, RGB(7, 7, 8).grey())
}

func TestStylesDoNotShareDashes(t *testing.T) {
	lengths := []float64{5, 3}
	s := Outline(1).Dashed(lengths...)
	lengths[0] = 99
	require.Equal(t, []float64{5, 3}, s.Dash)
}

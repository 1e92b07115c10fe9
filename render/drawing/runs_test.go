package drawing

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestRunsStandOneAfterTheOther(t *testing.T) {
	fonts := loadFonts(t)
	runs := []Run{{"224", Type(14, Bold)}, {" down", Type(12, Regular)}, {", full shelf", Type(12, Medium)}}
	rapid.Check(t, func(t *rapid.T) {
		anchor := rapid.SampledFrom([]Anchor{Left, Middle, Right}).Draw(t, "anchor")
		turn := rapid.Float64Range(-180, 180).Draw(t, "turn")
		group := Stretch(0.2, rapid.SampledFrom([]float64{0.2, -0.2}).Draw(t, "flip")).
			Then(Turn(rapid.Float64Range(-180, 180).Draw(t, "group turn"))).Then(Move(100, 90))
		runs[0].Style.Turn = turn
		p := NewPen(fonts, A4())
		p.Group(group, func() {
			p.TextRuns(30, 40, anchor, runs...)
			p.Text(30, 40, "224", runs[0].Style)
		})
		items := p.Page().Items
		whole, at := items[0].(Text), group.Apply(At(30, 40))
		sum := 0.0
		for _, item := range items[:3] {
			text := item.(Text)
			require.Equal(t, items[3].(Text).Style.Turn, text.Style.Turn)
			s, c := sinCos(text.Style.Turn)
			require.InDelta(t, whole.At.X+sum*c, text.At.X, 1e-3)
			require.InDelta(t, whole.At.Y+sum*s, text.At.Y, 1e-3)
			sum += text.Width
		}
		s, c := sinCos(whole.Style.Turn)
		back := map[Anchor]float64{Middle: sum / 2, Right: sum}[anchor]
		require.InDelta(t, at.X-back*c, whole.At.X, 1e-3)
		require.InDelta(t, at.Y-back*s, whole.At.Y, 1e-3)
	})
}

func TestNoRuns(t *testing.T) {
	p := NewPen(loadFonts(t), A4())
	require.Zero(t, p.TextRuns(10, 10, Middle))
	require.Empty(t, p.Page().Items)
}

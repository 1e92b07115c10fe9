package levels

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"threepost/layout/order"
	"threepost/layout/stacks"
	"threepost/render/drawing"
	"threepost/render/frame"
)

// Law: legends that flow keep every row in its order, in two columns that differ
// by no more than a row and a heading, each row once.
func TestLawFlowKeepsEveryRow(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var tables []table
		var want []string
		longest := 0.0
		for k := range rapid.IntRange(1, 3).Draw(t, "tables") {
			tb := table{name: fmt.Sprint("level ", k)}
			for i := range rapid.IntRange(0, 12).Draw(t, "rows") {
				label := fmt.Sprint(k, "-", i)
				high := rapid.Float64Range(4, 20).Draw(t, "high")
				longest = max(longest, high)
				tb.rows = append(tb.rows, row{label: []string{label}, high: high})
				want = append(want, label)
			}
			tables = append(tables, tb)
		}
		columns := flowed(tables)
		require.Len(t, columns, 2)
		var got []string
		high := [2]float64{}
		for i, c := range columns {
			for _, part := range c {
				require.NotEmpty(t, part.rows, "a heading without a row")
				high[i] += part.height() + flowGap
				for _, r := range part.rows {
					got = append(got, r.label[0])
				}
			}
		}
		require.Equal(t, want, got)
		require.LessOrEqual(t, high[1], high[0]+0.5+longest+2*headHigh+2*flowGap, "the first column is filled first")
		if sum := high[0] + high[1]; len(want) > 0 {
			require.InDelta(t, max(high[0], high[1]), flowHeight(columns)+flowGap, 1e-9)
			require.LessOrEqual(t, max(high[0], high[1]), sum/2+longest+2*headHigh+2*flowGap+1)
		}
	})
}

// No page of the samples goes on for the end of a legend: the steps flow, or
// stand closer, in type of the same size.
func TestNoPageHoldsOnlyTheEndOfALegend(t *testing.T) {
	eachWay(t, func(t *testing.T, name string, s *frame.Sheet, b *stacks.Built, o *order.Order) {
		m := &maker{s: s, b: b, o: o, kinds: kindsOf(b), list: listOf(s, b, o)}
		for _, g := range m.groups() {
			drafts := m.pages(g)
			plans := 0
			for _, d := range drafts {
				if d.Note != "" {
					plans++
				}
			}
			if plans == len(drafts) {
				continue
			}
			require.False(t, name == "studio" && s.Paper == drawing.A4(), "%v", g.plans)
			rows := 0.0
			for _, tb := range m.tables(m.leftFirst(g.plans[0]), (m.s.Width()-columnGap)/2, tight()) {
				rows += tb.height()
			}
			page := m.s.Page(m.headOf(g))
			lo, hi := b.Chamber.Bounds()
			room := page.Bottom - page.Top - float64((hi[1]-lo[1])*leastShelf/m.across(g.plans[0])) - 2*overPlan - keyRoom
			require.Greater(t, rows/2+headHigh+20, room, "%s %v goes on though its steps would go under the plan", name, g.plans)
		}
	})
}

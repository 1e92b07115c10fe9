package firings

import (
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/layout"
)

// TestNextIsWhatWaits: set and waiting pots of every row are the row.
func TestNextIsWhatWaits(t *testing.T) {
	l := kiln("6", mugs("mug", 14, "6"), mugs("vase", 1, "6"), mugs("tile", 2, "6"))
	l.Firing.Date = "2026-11-10"
	l.Wishes.LeaveOut = []string{"tile"}
	l.Wishes.Off = []layout.OffLevel{{Ware: "mug", Level: "2"}, {Ware: "vase", Level: layout.TopLevel}}
	l.Accepted = []layout.Accepted{{Finding: "fits the firing: vase, glaze", Reason: "seen"}, {Finding: "fits the firing: mug, clay", Reason: "seen"}, {Finding: "post count: shelf of base 1", Reason: "seen"}}
	l.Towers = []layout.Tower{{Levels: []layout.Level{{Set: []layout.Placement{
		{Pot: layout.Pot{Ware: "mug", Number: 3}}, {Pot: layout.Pot{Ware: "mug", Number: 9}}, {Pot: layout.Pot{Ware: "vase"}}}}}}}
	next, pots := Next(l)
	require.Equal(t, 14, pots)
	require.Len(t, next.Ware, 2)
	require.Equal(t, []int{12, 2}, []int{next.Ware[0].Count, next.Ware[1].Count})
	require.Equal(t, "Week, next load", next.Title)
	require.Empty(t, next.Towers)
	require.Empty(t, next.Wishes.LeaveOut)
	require.Equal(t, []layout.OffLevel{{Ware: "mug", Level: "2"}}, next.Wishes.Off, "the vase is set")
	require.Empty(t, next.Firing.Date)
	require.Equal(t, []layout.Accepted{{Finding: "fits the firing: mug, clay", Reason: "seen"}}, next.Accepted)
	require.Equal(t, 14, l.Ware[0].Count, "the load itself stays")

	all := kiln("6", mugs("vase", 1, "6"))
	all.Towers = []layout.Tower{{Levels: []layout.Level{{Set: []layout.Placement{{Pot: layout.Pot{Ware: "vase"}}}}}}}
	next, pots = Next(all)
	require.Nil(t, next)
	require.Zero(t, pots)
}

package session

import (
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/layout"
	"threepost/layout/document"
	"threepost/layout/measure"
)

// TestWhatIsWorthBuyingHoldsAsLongAsTheLoadIsSo: it is told in the person's
// words, forgets nothing when a level is locked, and is of the load as it was
// once a pot is moved off, until undo.
func TestWhatIsWorthBuyingHoldsAsLongAsTheLoadIsSo(t *testing.T) {
	s := sample(t, "newcomer")
	require.Nil(t, s.State().Buying)
	st, err := s.LayBuying(string(document.Format(s.Load())), []string{"Worth buying next: three posts of 75: 2 more mugs."})
	require.NoError(t, err)
	require.Equal(t, &Bought{Says: []string{"Worth buying next: three posts of 75: 2 more mugs."}}, st.Buying)
	require.Equal(t, "Worth buying next: three props of 75: 2 more mugs.", s.SetWords(measure.UK).Buying.Says[0])

	st, err = s.Apply([]layout.Edit{{Act: layout.LockLevel, Tower: "left side", Level: 1, On: true}}, "lock")
	require.NoError(t, err)
	require.False(t, st.Buying.Stale, "a lock moves nothing")
	st, err = s.Apply([]layout.Edit{{Act: layout.Withdraw, Pot: "vase"}}, "off")
	require.NoError(t, err)
	require.True(t, st.Buying.Stale)
	st, err = s.Undo()
	require.NoError(t, err)
	require.False(t, st.Buying.Stale)
	st, err = s.SetUnits("in")
	require.NoError(t, err)
	require.True(t, st.Buying.Stale, "its figures are in mm")

	_, err = s.LayBuying("opens", nil)
	require.Error(t, err)
}

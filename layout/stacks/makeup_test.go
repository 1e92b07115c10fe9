package stacks

import (
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/layout"
	"threepost/layout/measure"
)

func TestSayMakeUp(t *testing.T) {
	require.Equal(t, "3×125", SayMakeUp(3, layout.MakeUp{{Height: 125}}, measure.MM))
	require.Equal(t, "3×(100+6)", SayMakeUp(3, layout.MakeUp{{Height: 100}, {Height: 6}}, measure.MM))
	require.Equal(t, "4×(4 1/2+1/4)", SayMakeUp(4, layout.MakeUp{{Height: 114.3}, {Height: 6.35}}, measure.Inches))
	require.Equal(t, "2×100, 1×(75+25)", SayPosts([]layout.MakeUp{{{Height: 100}}, nil, {{Height: 75}, {Height: 25}}, {{Height: 100}}}, measure.MM))
	require.Equal(t, "1×(150 (short)+5), 2×155", SayPosts([]layout.MakeUp{{{Height: 150, Name: "short"}, {Height: 5}}, {{Height: 155}}, {{Height: 155}}}, measure.MM))
	require.Empty(t, SayPosts(nil, measure.MM))
}

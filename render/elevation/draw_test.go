package elevation

import (
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/layout/measure"
	"threepost/layout/stacks"
	"threepost/render/drawing"
	"threepost/render/internal/sample"
)

func TestLook(t *testing.T) {
	dir := os.Getenv("THREEPOST_LOOK")
	if dir == "" {
		return
	}
	fonts, err := drawing.LoadFonts()
	require.NoError(t, err)
	b, err := stacks.Build(sample.October())
	require.NoError(t, err)
	pen := drawing.NewPen(fonts, drawing.A4())
	v := NewView(b, Fit(b, 180, 260), 105, 10)
	Draw(pen, v, b, Options{Figure: measure.FormatFile, Letters: true})
	f, err := os.Create(dir + "/elevation.png")
	require.NoError(t, err)
	require.NoError(t, drawing.PNG(f, fonts, pen.Page(), 110))
	f.Close()
}

//go:build !js

package drawing

import (
	"fmt"
	"image"
	"image/png"
	"io"
)

// mostPixels bounds a picture: A4 at 600 dpi has 35 million.
const mostPixels = 50_000_000

// PNG writes one page as a picture of dpi dots per inch on white paper. The
// picture is grey when every colour on the page is. The same page gives the
// same bytes.
func PNG(w io.Writer, fonts *Fonts, page Page, dpi float64) error {
	m, err := Picture(fonts, page, dpi)
	if err != nil {
		return err
	}
	encoder := png.Encoder{CompressionLevel: png.DefaultCompression}
	if allGrey(page.Items) {
		return encoder.Encode(w, greyed(m))
	}
	return encoder.Encode(w, m)
}

// Picture paints one page at dpi dots per inch on white paper.
func Picture(fonts *Fonts, page Page, dpi float64) (*image.RGBA, error) {
	if err := sound(page); err != nil {
		return nil, err
	}
	scale := dpi / 25.4
	width, height := page.Width*scale, page.Height*scale
	if !(width >= 1) || !(height >= 1) || !(width*height <= mostPixels) {
		return nil, fmt.Errorf("a page of %s x %s mm at %g dots per inch makes %.0f x %.0f dots; choose between 1 and %d dots in all",
			hundredth(page.Width), hundredth(page.Height), dpi, width, height, mostPixels)
	}
	p := newPainter(fonts, int(width+0.5), int(height+0.5), scale)
	p.items(page.Items)
	return p.image, nil
}

func allGrey(items []Item) bool {
	all := true
	walk(items, nil, func(item Item, _ []Clip) {
		switch item := item.(type) {
		case Shape:
			all = all && item.Style.Fill.grey() && item.Style.Stroke.grey()
		case Text:
			all = all && item.Style.Colour.grey()
		}
	})
	return all
}

func greyed(m *image.RGBA) *image.Gray {
	g := image.NewGray(m.Rect)
	for i := range g.Pix {
		g.Pix[i] = m.Pix[4*i]
	}
	return g
}

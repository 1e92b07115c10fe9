package drawing

import (
	"bytes"
	"fmt"
	"io"
	"testing"
)

// dense is a page as full as a level page: forty pots with order number, kind
// letter and foot, forty gaps, and a legend of sixty lines.
func dense(fonts *Fonts, number int) Page {
	p := NewPen(fonts, A4())
	p.Text(15, 20, fmt.Sprintf("Level %d", number), Type(24, Bold))
	p.Circle(105, 100, 72, Outline(1.7))
	for i := range 40 {
		at := Point{105, 100}.Toward(float64(i)*137.5, 66*float64(i)/40)
		p.Circle(at.X, at.Y, 8, Outline(1.1).Filled(White))
		p.Circle(at.X, at.Y, 5, Outline(0.9).Dashed(0, 3).Rounded())
		p.Text(at.X, at.Y, fmt.Sprint(i+1), Type(16, Bold).Held(Middle))
		p.Text(at.X, at.Y+4, "m", Type(10, Regular).Held(Middle))
		p.Line(at.X, at.Y+8, at.X, at.Y+9, Outline(0.9))
		p.Text(at.X+2, at.Y+10, "8", Type(10, Regular).Haloed(1))
	}
	p.Hatch(Rect(15, 25, 180, 5), 1.2, Outline(0.5))
	for i := range 30 {
		for j := range 2 {
			x, y := 15+92*float64(j), 185+3.4*float64(i)
			p.Checkbox(x, y-3, 3)
			p.Text(x+5, y, fmt.Sprint(i+1), Type(9, Bold))
			p.Text(x+12, y, "between 9 and post B, a pencil from each, handle to 2", Type(9, Regular))
		}
	}
	return p.Page()
}

func BenchmarkPDFOf8DensePages(b *testing.B) {
	fonts := loadFonts(b)
	for b.Loop() {
		doc := Document{Title: "October glaze"}
		for i := range 8 {
			doc.Pages = append(doc.Pages, dense(fonts, i+1))
		}
		if err := PDF(io.Discard, fonts, doc); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkPNGPage(b *testing.B) {
	fonts := loadFonts(b)
	for _, dpi := range []float64{100, 200} {
		b.Run(fmt.Sprintf("%.0fdpi", dpi), func(b *testing.B) {
			page := dense(fonts, 1)
			for b.Loop() {
				if err := PNG(io.Discard, fonts, page, dpi); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkSVGPage(b *testing.B) {
	fonts := loadFonts(b)
	var out bytes.Buffer
	for b.Loop() {
		out.Reset()
		if err := SVG(&out, fonts, dense(fonts, 1)); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkLoadFonts(b *testing.B) {
	for b.Loop() {
		if _, err := LoadFonts(); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkCheck(b *testing.B) {
	fonts := loadFonts(b)
	page := dense(fonts, 1)
	for b.Loop() {
		Check(fonts, page, Rules{Covered: true, Struck: true})
	}
}

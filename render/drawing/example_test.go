package drawing_test

import (
	"bytes"
	"fmt"

	"threepost/render/drawing"
)

// A page is drawn with a pen and put out as often as wanted.
func Example() {
	fonts, err := drawing.LoadFonts()
	if err != nil {
		fmt.Println(err)
		return
	}
	pen := drawing.NewPen(fonts, drawing.A4())
	pen.Text(20, 30, "October glaze", drawing.Type(24, drawing.Bold))
	pen.Line(20, 34, 190, 34, drawing.Outline(1.7))
	pen.TextRuns(190, 30, drawing.Right,
		drawing.Run{Words: "224", Style: drawing.Type(14, drawing.Bold)},
		drawing.Run{Words: " down", Style: drawing.Type(12, drawing.Regular)})
	fmt.Print(drawing.Dump(pen.Page()))

	var pdf, svg, png bytes.Buffer
	doc := drawing.Document{Title: "October glaze", Pages: []drawing.Page{pen.Page()}}
	fmt.Println(drawing.PDF(&pdf, fonts, doc), drawing.SVG(&svg, fonts, pen.Page()), drawing.PNG(&png, fonts, pen.Page(), 100))
	// Output:
	// page 210 x 297
	// text 20 30 left 24 pt 700 "October glaze" wide 55.76
	// path M 20 34 L 190 34 line 1.7 #000000
	// text 169.52 30 left 14 pt 700 "224" wide 9.36
	// text 178.88 30 left 12 pt 400 " down" wide 11.12
	// <nil> <nil> <nil>
}

// A plan is drawn in the kiln's own mm and shrunk by its group; lines and
// figures keep their size on paper.
func ExamplePen_Group() {
	fonts, _ := drawing.LoadFonts()
	pen := drawing.NewPen(fonts, drawing.A4())
	pen.Group(drawing.Stretch(0.2, -0.2).Then(drawing.Move(105, 100)), func() {
		pen.Line(-200, 0, 200, 0, drawing.Outline(1.1))
		pen.Text(0, 150, "12 hinge", drawing.Type(12, drawing.Regular).Held(drawing.Middle))
	})
	fmt.Print(drawing.Dump(pen.Page()))
	// Output:
	// page 210 x 297
	// path M 65 100 L 145 100 line 1.1 #000000
	// text 105 70 middle 12 pt 400 "12 hinge" wide 16.9
}

// Check finds what nobody should have to look for.
func ExampleCheck() {
	fonts, _ := drawing.LoadFonts()
	pen := drawing.NewPen(fonts, drawing.A4())
	pen.Text(20, 30, "left 2", drawing.Type(16, drawing.Bold))
	pen.Text(30, 31, "takes 98", drawing.Type(9, drawing.Regular))
	for _, c := range drawing.Check(fonts, pen.Page(), drawing.Rules{Margin: 10, Smallest: 12}) {
		fmt.Println(c)
	}
	// Output:
	// too small: "takes 98" at 30, 31 (have 9, need 12)
	// overlap: "takes 98" at 30, 31 with "left 2" (have -1.32, need 0)
}

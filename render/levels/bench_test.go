package levels

import (
	"testing"

	"threepost/layout/measure"
	"threepost/render/drawing"
	"threepost/render/internal/sample"
)

// BenchmarkPages draws the level pages of the studio's load, without putting
// them out.
func BenchmarkPages(b *testing.B) {
	s, built, o := set(b, sample.October(), drawing.A4(), measure.MM)
	b.ReportAllocs()
	for b.Loop() {
		Pages(s, built, o, nil)
	}
}

// BenchmarkPapers draws all shelf papers of the studio's load.
func BenchmarkPapers(b *testing.B) {
	s, built, o := set(b, sample.October(), drawing.A4(), measure.MM)
	b.ReportAllocs()
	for b.Loop() {
		Papers(s, built, o)
	}
}

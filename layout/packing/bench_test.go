package packing

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"threepost/geometry/plane"
)

// BenchmarkEnergy is one evaluation of energy and gradient, no allocation.
func BenchmarkEnergy(b *testing.B) {
	for _, n := range []int{10, 20, 30, 60} {
		b.Run(fmt.Sprintf("discs%d", n), func(b *testing.B) { energyOf(b, pot(40, n)) })
	}
	b.Run("mugs20", func(b *testing.B) { energyOf(b, mug(43, 35, 20)) })
	b.Run("trays6", func(b *testing.B) { energyOf(b, tray(220, 130, 6)) })
}

// packed is a crowd of n alike things on a shelf about as large as they need,
// thrown anywhere.
func packed(b *testing.B, x thing) *crowd {
	g0 := newGround(ptr(scene([]plane.Outline{round(b, 400)}, []thing{x}, 6, 6)))
	across := 2 * 1.2 * g0.kinds[0].size * rootOf(x.count)
	g := newGround(ptr(scene([]plane.Outline{round(b, across)}, []thing{x}, 6, 6)))
	c := newCrowd(g, nil)
	rnd := rand.New(rand.NewPCG(1, 2))
	for i := 0; i < x.count; i++ {
		s := c.anywhere(0, rnd)
		c.add(0, 0, plane.Vec{s.x, s.y}, s.turn, false)
	}
	c.ask(asked{})
	return c
}

func energyOf(b *testing.B, x thing) {
	c := packed(b, x)
	var d descent
	d.lower(c, c.x, stop{rounds: 40, enough: enough})
	g := make([]float64, len(c.x))
	b.ReportAllocs()
	c.work = 0
	for b.Loop() {
		c.energy(c.x, g)
	}
	b.ReportMetric(float64(c.work)/Look/b.Elapsed().Seconds(), "units/s")
}

// BenchmarkHop is one hop of a search: a change and a local minimisation.
func BenchmarkHop(b *testing.B) {
	for _, n := range []int{10, 20, 30, 50} {
		b.Run(fmt.Sprintf("discs%d", n), func(b *testing.B) { hopOf(b, pot(40, n)) })
	}
	b.Run("mugs20", func(b *testing.B) { hopOf(b, mug(43, 35, 20)) })
	b.Run("trays6", func(b *testing.B) { hopOf(b, tray(220, 130, 6)) })
}

func hopOf(b *testing.B, x thing) {
	c := packed(b, x)
	h := newHopper(c, rand.New(rand.NewPCG(1, 2)))
	h.start()
	c.work = 0
	for b.Loop() {
		h.hop()
	}
	b.ReportMetric(float64(c.work)/Look/b.Elapsed().Seconds(), "units/s")
}

// BenchmarkFill is a whole shelf of mixed ware.
func BenchmarkFill(b *testing.B) {
	p := scene([]plane.Outline{round(b, 640)}, []thing{mug(43, 35, 20), tray(220, 130, 3), pot(75, 4), pot(35, 20)}, 6, 6,
		plane.Vec{0, 280}, plane.Vec{-240, -140}, plane.Vec{240, -140})
	for b.Loop() {
		if _, err := Fill(p, 1, 1000); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(1000*float64(b.N)/b.Elapsed().Seconds(), "units/s")
}

func ptr[T any](v T) *T { return &v }

func rootOf(n int) float64 { return math.Sqrt(float64(n)) }

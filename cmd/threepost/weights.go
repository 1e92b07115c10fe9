package main

import (
	"fmt"
	"sort"

	"github.com/spf13/cobra"

	"threepost/layout/measure"
	"threepost/layout/stacks"
	"threepost/layout/statics"
)

func weightsCommand(t *terminal) *cobra.Command {
	return &cobra.Command{
		Use:   "weights LOAD",
		Short: "Tell mass, balance and the weight on every post, level by level",
		Long: `Masses are of ware and furniture as the load gives or assumes them: estimates.
No published load limit per shelf exists; shelves sag with heat and time (creep),
so turn them over now and then and keep heavy ware near the posts.`,
		Example: "  threepost weights october.toml",
		Args:    one("LOAD"),
		RunE: func(_ *cobra.Command, args []string) error {
			_, b, err := openBuilt(args[0])
			if err != nil {
				return err
			}
			w := statics.Weigh(b)
			if t.json {
				return t.answer(weightsAnswer(b, w))
			}
			t.tellWeights(b, w)
			return nil
		},
	}
}

// weighed is the JSON of the weights.
type weighed struct {
	Ware      float64        `json:"ware_kg"`
	Furniture float64        `json:"furniture_kg"`
	Levels    []weighedLevel `json:"levels"`
	Floor     []weighedLine  `json:"floor"`
}

type weighedLevel struct {
	Name    string        `json:"name"`
	Ware    float64       `json:"ware_kg"`
	Share   float64       `json:"ware_share"`
	Carried float64       `json:"carried_kg"`
	Balance [2]float64    `json:"balance_point_mm"`
	Inside  float64       `json:"inside_posts_mm"`
	Posts   []weighedLine `json:"posts"`
}

type weighedLine struct {
	Line string  `json:"line"`
	Mass float64 `json:"kg"`
	Min  float64 `json:"least_kg,omitempty"`
	Max  float64 `json:"most_kg,omitempty"`
}

func weightsAnswer(b *stacks.Built, w *statics.Weights) weighed {
	a := weighed{Ware: w.Ware, Furniture: w.Furniture, Levels: []weighedLevel{}, Floor: []weighedLine{}}
	for i := range b.Levels {
		v, lw := &b.Levels[i], w.Levels[i]
		l := weighedLevel{Name: v.Name, Ware: lw.Ware, Share: lw.WareShare, Carried: lw.Carried,
			Balance: [2]float64{lw.Balance[0], lw.Balance[1]}, Inside: lw.Margin, Posts: []weighedLine{}}
		for _, pi := range byLetter(b, v.Posts) {
			p := w.Posts[pi]
			l.Posts = append(l.Posts, weighedLine{b.Posts[pi].Letter, p.Carries, p.Min, p.Max})
		}
		a.Levels = append(a.Levels, l)
	}
	for _, f := range floorByLetter(w) {
		a.Floor = append(a.Floor, weighedLine{Line: f.Letter, Mass: f.Mass})
	}
	return a
}

func (t *terminal) tellWeights(b *stacks.Built, w *statics.Weights) {
	units := b.Load.Units
	mass := func(kg float64) string { return measure.FormatMass(kg, units) }
	t.say("%s of ware on %s of furniture, by estimate.", mass(w.Ware), mass(w.Furniture))
	for i := len(b.Levels) - 1; i >= 0; i-- {
		v, lw := &b.Levels[i], w.Levels[i]
		posts := ""
		for _, pi := range byLetter(b, v.Posts) {
			posts += fmt.Sprintf("  %s %s", b.Posts[pi].Letter, mass(w.Posts[pi].Carries))
		}
		t.say("  %-10s %8s of ware (%2.0f %%)  balance point %s inside its posts  on%s", v.Name, mass(lw.Ware), 100*lw.WareShare,
			measure.SayLength(lw.Margin, units, measure.Down), posts)
	}
	line := "On the floor:"
	for _, f := range floorByLetter(w) {
		line += fmt.Sprintf("  %s %s", f.Letter, mass(f.Mass))
	}
	t.say("%s", line)
}

// byLetter is posts in the order of their letters.
func byLetter(b *stacks.Built, posts []int) []int {
	out := append([]int(nil), posts...)
	sort.SliceStable(out, func(i, j int) bool { return letterLess(b.Posts[out[i]].Letter, b.Posts[out[j]].Letter) })
	return out
}

// floorByLetter is the lines' loads in the order of their letters.
func floorByLetter(w *statics.Weights) []statics.LineLoad {
	out := append([]statics.LineLoad(nil), w.Floor...)
	sort.SliceStable(out, func(i, j int) bool { return letterLess(out[i].Letter, out[j].Letter) })
	return out
}

// letterLess puts Z before AA.
func letterLess(a, b string) bool {
	if len(a) != len(b) {
		return len(a) < len(b)
	}
	return a < b
}

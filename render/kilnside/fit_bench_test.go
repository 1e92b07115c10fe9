package kilnside

import (
	"fmt"
	"os"
	"sort"
	"strings"
	"testing"
	"time"

	"threepost/layout/session"
)

// questions are what is asked at a step: one of each kind that it can be asked.
func questions(s *Steps, i int, of *session.Session) []session.Change {
	step := &s.Steps[i]
	var out []session.Change
	if len(step.Ask) > 0 {
		pot := step.Ask[0].Pot
		for _, by := range []string{"3", "12", "30"} {
			out = append(out, session.Change{Kind: session.TooTall, Pot: pot, By: by}, session.Change{Kind: session.TooWide, Pot: pot, By: by})
		}
		out = append(out, session.Change{Kind: session.LeaveOut, Pot: pot})
	}
	for k := i; k < len(s.Steps); k++ {
		if len(s.Steps[k].Posts) > 0 {
			p := s.Steps[k].Posts[0]
			for _, n := range []int{1, 2} {
				out = append(out, session.Change{Kind: session.PostMissing, Height: p.Height, Name: p.Name, Count: n})
			}
			break
		}
	}
	rows := of.Load().Ware
	out = append(out, session.Change{Kind: session.OneMore, Ware: rows[i%len(rows)].Name})
	return out
}

// BenchmarkAnswersAtTheKiln asks the samples every kind of question at every
// few steps (at every step with THREEPOST_LONG=1), and for each up to eight
// ways, as the page does. It prints, for each kind, how many answers there were
// and how long each took, the first apart from the later ones. The budget is
// 2 s on one core for any of them.
func BenchmarkAnswersAtTheKiln(b *testing.B) {
	every := 18
	if os.Getenv("THREEPOST_LONG") != "" {
		every = 2
	}
	names := []string{"newcomer", "small-round", "studio", "oval", "front-loader", "bisque"}
	if only := os.Getenv("THREEPOST_SAMPLES"); only != "" {
		names = strings.Split(only, ",")
	}
	for b.Loop() {
		took := map[string][]time.Duration{}
		work := map[string]int64{}
		worst := map[string]string{}
		longest := map[string]time.Duration{}
		for _, name := range names {
			of := opened(b, name)
			built, _ := of.Built()
			s := Of(built, of.Order(), "", "")
			for i := every / 2; i < len(s.Steps); i += every {
				for _, c := range questions(&s, i, of) {
					for nth := range 8 {
						at := time.Now()
						got, err := Fit(of, &s, s.Steps[i].N, c, nth, "")
						if err != nil {
							b.Fatal(err)
						}
						d := time.Since(at)
						key := c.Kind + ", first"
						if nth > 0 {
							key = c.Kind + ", later"
						}
						took[key] = append(took[key], d)
						if got != nil {
							work[key] = max(work[key], got.Work)
						}
						if d > longest[key] {
							longest[key], worst[key] = d, fmt.Sprintf("%s step %d %s%s %s way %d", name, s.Steps[i].N, c.Pot, c.Ware, c.By, nth)
						}
						if got == nil {
							break
						}
					}
				}
			}
		}
		var keys []string
		for k := range took {
			keys = append(keys, k)
		}
		sort.Strings(keys)
		for _, k := range keys {
			list := took[k]
			sort.Slice(list, func(i, j int) bool { return list[i] < list[j] })
			b.Logf("%-22s %4d  median %6d ms  worst %6d ms (%s), at most %d units", k, len(list), list[len(list)/2].Milliseconds(), list[len(list)-1].Milliseconds(), worst[k], work[k])
		}
	}
}

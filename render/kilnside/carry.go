package kilnside

import (
	"math"
	"sort"

	"threepost/geometry/plane"
	"threepost/layout/stacks"
	"threepost/render/views"
)

// Standing is how many acts of the order are done when step n is what hands
// are at: what session.Fit counts by. A later part of a series counts its first
// part as not done, since the order has one act for both; see Keeps.
func (s *Steps) Standing(n int) int {
	done := 0
	for i := range s.Steps {
		if s.Steps[i].N >= n {
			break
		}
		done += len(s.Steps[i].Acts)
	}
	for i := n - 1; i > 0 && i < len(s.Steps) && s.Steps[i].Kind == Pots && len(s.Steps[i].Acts) == 0; i-- {
		if len(s.Steps[i-1].Acts) > 0 {
			done -= len(s.Steps[i-1].Acts)
		}
	}
	return done
}

// Keeps tells whether a changed load leaves what stood before step n of the
// steps before the change: every pot but the one in question is in its place.
func (s *Steps) Keeps(before *Steps, n int, pot string) bool {
	has := s.places()
	for i := range before.Steps {
		one := &before.Steps[i]
		if one.N >= n {
			break
		}
		for k, t := range one.things {
			if k < len(one.Pots) && one.Pots[k] == pot || one.Kind == Posts {
				continue
			}
			if _, ok := has[t.where]; !ok {
				return false
			}
		}
	}
	return true
}

// Carry are the ticks that stay, or come, when the load is changed while hands
// are at step n of the steps before and do what the change asks: things that
// stand where things stood, under new names too, and what did not change.
func (s *Steps) Carry(before *Steps, n int) []string {
	has := s.places()
	own := map[string]bool{}
	for i := range s.Steps {
		for _, t := range s.Steps[i].Ticks {
			own[t] = true
		}
	}
	ticks := map[string]bool{}
	for i := range before.Steps {
		one := &before.Steps[i]
		if one.N >= n {
			break
		}
		for _, t := range one.Ticks {
			if own[t] {
				ticks[t] = true
			}
		}
		for _, t := range one.things {
			if now, ok := has[t.where]; ok {
				ticks[now] = true
			}
		}
	}
	out := make([]string, 0, len(ticks))
	for t := range ticks {
		out = append(out, t)
	}
	sort.Strings(out)
	return out
}

// places are the ticks of all that ever stands, by where it stands.
func (s *Steps) places() map[string]string {
	has := map[string]string{}
	for i := range s.Steps {
		for _, t := range s.Steps[i].things {
			has[t.where] = t.tick
		}
	}
	return has
}

// RoomAt is the room to the lid over a level, by its id; of the whole kiln
// where there is no such level any more.
func (s *Steps) RoomAt(level string) Room {
	whole := Room{}
	for i := range s.Steps {
		at := s.Steps[i].Level
		if at < 0 {
			whole = s.Steps[i].Room
		} else if s.Levels[at].ID == level {
			return s.Steps[i].Room
		}
	}
	return whole
}

// Changed draws the posts of the first level that stand on other pieces than
// before, side by side with their letters, the new pieces marked; nil when
// none do.
func Changed(before, after *stacks.Built, say func(mm float64) string) *Picture {
	was := map[[3]int]*stacks.Post{}
	key := func(b *stacks.Built, p *stacks.Post) [3]int {
		v := &b.Levels[p.Level]
		return [3]int{v.Tower, v.Number, p.Line}
	}
	for i := range before.Posts {
		was[key(before, &before.Posts[i])] = &before.Posts[i]
	}
	var posts []*stacks.Post
	on := ""
	for i := range after.Levels {
		changed := false
		for _, p := range after.Levels[i].Posts {
			old := was[key(after, &after.Posts[p])]
			changed = changed || old == nil || makeUp(old.MakeUp) != makeUp(after.Posts[p].MakeUp)
		}
		if changed {
			for _, p := range after.Levels[i].Posts {
				posts = append(posts, &after.Posts[p])
			}
			on = standsOn(after, i)
			break
		}
	}
	if len(posts) == 0 {
		return nil
	}
	sort.SliceStable(posts, func(i, j int) bool { return posts[i].Letter < posts[j].Letter })
	pic := drawPosts(posts, func(p *stacks.Post) *stacks.Post { return was[key(after, p)] }, say)
	pic.level = on
	return pic
}

// standsOn is the id of the level that the posts under a level stand on; empty
// for the floor.
func standsOn(b *stacks.Built, level int) string {
	w := &way{b: b}
	if under := w.under(level); len(under) > 0 {
		return w.levelID(under[len(under)-1])
	}
	return ""
}

// drawPosts draws posts from the side. Lengths are true to each other; the
// posts stand closer than in the kiln.
func drawPosts(posts []*stacks.Post, old func(*stacks.Post) *stacks.Post, say func(mm float64) string) *Picture {
	pic := &Picture{}
	x, tall, step := 0.0, 0.0, 74.0
	for _, p := range posts {
		g := views.Mark{Kind: views.GroupKind, Class: "pile", ID: "pile:" + p.Letter, Label: "post " + p.Letter}
		z, kept := 0.0, true
		was := old(p)
		for k, piece := range p.Pieces {
			h, half := piece.Top-piece.Bottom, piece.Kind.Section.Width/2
			if half <= 0 {
				half = 19
			}
			kept = kept && was != nil && k < len(was.MakeUp) && was.MakeUp[k] == p.MakeUp[k]
			class := "piece"
			if h < 24 {
				class += " thin"
			}
			if !kept {
				class += " new"
			}
			g.Marks = append(g.Marks, views.Mark{
				Kind: views.PathKind, Class: class,
				D: "M" + number(x-half) + " " + number(-z) + "H" + number(x+half) + "V" + number(-z-h) + "H" + number(x-half) + "Z",
			})
			size := 17.0
			if h >= 24 {
				g.Marks = append(g.Marks, text(plane.Vec{x, z + h/2}, say(piece.Kind.Height), class+" figure", math.Min(size, h*0.7)))
			}
			z += h
		}
		g.Marks = append(g.Marks, text(plane.Vec{x, -17}, p.Letter, "line", 20))
		pic.Marks = append(pic.Marks, g)
		tall = math.Max(tall, z)
		x += step
	}
	right := x - step + 19
	last := posts[len(posts)-1]
	pic.Marks = append([]views.Mark{{Kind: views.PathKind, Class: "ground", D: "M-34 0H" + number(right+15) + "V5H-34Z"}}, pic.Marks...)
	pic.Marks = append(pic.Marks, thinLabels(last, old(last), right, say)...)
	pic.Box = [4]float64{-40, tenth(-tall - 18), tenth(right + 40 + 74), tenth(tall + 18 + 34)}
	return pic
}

// thinLabels are the heights of pieces too thin to carry them, beside the last
// post, spread so that they do not touch.
func thinLabels(p, was *stacks.Post, right float64, say func(mm float64) string) []views.Mark {
	var out []views.Mark
	z, kept, least := 0.0, true, math.Inf(-1)
	for k, piece := range p.Pieces {
		h := piece.Top - piece.Bottom
		kept = kept && was != nil && k < len(was.MakeUp) && was.MakeUp[k] == p.MakeUp[k]
		if h < 24 {
			class := "thin figure"
			if !kept {
				class = "new figure"
			}
			y := math.Max(z+h/2, least+20)
			least = y
			out = append(out,
				views.Mark{Kind: views.PathKind, Class: "leader", D: "M" + number(right+2) + " " + number(-z-h/2) + "L" + number(right+26) + " " + number(-y)},
				text(plane.Vec{right + 46, y}, say(piece.Kind.Height), class, 20))
		}
		z += h
	}
	return out
}

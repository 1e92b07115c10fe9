package kilnside

import (
	"fmt"
	"hash/fnv"
	"strconv"

	"threepost/layout"
	"threepost/layout/measure"
	"threepost/layout/stacks"
)

// tick is the short name of a thing done. Two things of a load with one name
// are as likely as a coin that falls heads sixty times.
func tick(long string) string {
	h := fnv.New64a()
	h.Write([]byte(long)) // a hash never fails
	return strconv.FormatUint(h.Sum64(), 36)
}

// potTick names a pot standing where it stands. Alike pots are one as good as
// the other, so it is the row that counts, not the number.
func (w *way) potTick(i int) string {
	p := &w.b.Pots[i]
	return fmt.Sprintf("pot|%s|%s|%s|%s|%s", p.Pot.Ware, w.levelID(p.Level), number(p.At[0]), number(p.At[1]), number(p.Turn))
}

// potPlace and postPlace are where things stand, whatever they are.

func (w *way) potPlace(i int) string {
	p := &w.b.Pots[i]
	return "pot|" + w.levelID(p.Level) + "|" + number(p.At[0]) + "|" + number(p.At[1])
}

func (w *way) postPlace(i int) string {
	p := &w.b.Posts[i]
	return "post|" + w.levelID(p.Level) + "|" + strconv.Itoa(p.Line)
}

// postTick names a post of its pieces on its line.
func (w *way) postTick(i int) string {
	p := &w.b.Posts[i]
	return fmt.Sprintf("post|%s|%s|%s|%s", w.levelID(p.Level), number(p.At[0]), number(p.At[1]), pieces(p))
}

func pieces(p *stacks.Post) string { return makeUp(p.MakeUp) }

func makeUp(m layout.MakeUp) string {
	out := ""
	for _, piece := range m {
		out += "+" + measure.FormatFile(piece.Height) + piece.Name
	}
	return out
}

// shelfTick names a shelf where it lies. How high it lies is its posts'.
func (w *way) shelfTick(i int) string {
	s := &w.b.Shelves[i]
	return fmt.Sprintf("shelf|%s|%d|%s|%s|%s|%s", w.levelID(s.Level), s.Index, s.Kind.Name, number(s.At[0]), number(s.At[1]), number(s.Turn))
}

// proofTick names a height that was proved: over other posts it has to be
// proved anew.
func (w *way) proofTick(what string, level int, posts []int) string {
	out := what + "|" + w.levelID(level)
	for _, i := range posts {
		out += "|" + w.postTick(i)
	}
	return out
}

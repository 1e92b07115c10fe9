package drawing

import (
	"errors"
	"fmt"
	"math"
)

// farthest is beyond any sheet of paper, mm.
const farthest = 1e5

// largest is beyond any type size or line width, pt: a letter 0.7 m high.
const largest = 2000

// ErrPlace says that a page holds a place that is no number or lies a hundred
// metres off, or a size below nothing or beyond 2000 pt; nothing is put out then.
var ErrPlace = errors.New("a figure of the page is not a number, or no length of paper")

// sound refuses what no output could show.
func sound(page Page) error {
	if !onPaper(page.Width) || !onPaper(page.Height) || page.Width <= 0 || page.Height <= 0 {
		return fmt.Errorf("page %g x %g mm: %w", page.Width, page.Height, ErrPlace)
	}
	return soundItems(page.Items)
}

func soundItems(items []Item) error {
	for _, item := range items {
		var err error
		switch item := item.(type) {
		case Shape:
			err = soundShape(item)
		case Text:
			s := item.Style
			if !onPaper(item.At.X, item.At.Y, s.Turn, item.Width) || !ofPaper(s.Size) || !ofPaper(s.Halo) {
				err = fmt.Errorf("text %q: %w", item.Words, ErrPlace)
			}
		case Clip:
			if err = soundPath(item.Path); err == nil {
				err = soundItems(item.Items)
			}
		}
		if err != nil {
			return err
		}
	}
	return nil
}

func soundShape(s Shape) error {
	if !ofPaper(s.Style.Width) {
		return fmt.Errorf("a line %g pt wide: %w", s.Style.Width, ErrPlace)
	}
	for _, d := range s.Style.Dash {
		if !ofPaper(d) {
			return fmt.Errorf("a dash of %g pt: %w", d, ErrPlace)
		}
	}
	return soundPath(s.Path)
}

func soundPath(p Path) error {
	for i, s := range p {
		if i == 0 && s.Op != MoveTo {
			return fmt.Errorf("a path that begins without a move: %w", ErrPlace)
		}
		for j := range s.points() {
			if !onPaper(s.P[j].X, s.P[j].Y) {
				return fmt.Errorf("a path: %w", ErrPlace)
			}
		}
	}
	return nil
}

// ofPaper says whether a length in pt can be printed.
func ofPaper(pt float64) bool { return pt >= 0 && pt <= largest }

func onPaper(figures ...float64) bool {
	for _, v := range figures {
		if !(math.Abs(v) <= farthest) {
			return false
		}
	}
	return true
}

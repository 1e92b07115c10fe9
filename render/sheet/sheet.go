package sheet

import (
	"errors"

	"threepost/layout/clearance"
	"threepost/layout/measure"
	"threepost/layout/order"
	"threepost/layout/stacks"
	"threepost/layout/statics"
	"threepost/render/drawing"
	"threepost/render/frame"
	"threepost/render/levels"
)

// Parts are which papers to make.
type Parts struct {
	Front     bool // the front page, to tape on the lid
	Boards    bool // which pots to carry out, and on which board
	Levels    bool // top views in order of setting
	Papers    bool // shelf papers at 1:1
	Measuring bool // the measuring sheet at 1:1
}

// Sheets are the parts that are taped and carried: front page, boards and
// level pages.
func Sheets() Parts { return Parts{Front: true, Boards: true, Levels: true} }

// Options say how the paper is made. The zero value makes all sheets on A4 in
// the load's own units and US words.
type Options struct {
	Paper drawing.Paper  // zero: A4
	Units measure.Units  // empty: the load's
	Words measure.Words  // empty: US
	Parts Parts          // none: Sheets
	Fonts *drawing.Fonts // nil: loaded; share them when many loads are drawn

	// Beside are sentences that the front page tells under what waits, in US
	// words and in Units: what nobody can exceed, the price of closer gaps. Who
	// makes the sheet knows them or not. Where the front page would need a
	// second sheet for them, the board list tells them.
	Beside []string

	// Why is a sentence for each level, by its index in Built.Levels, on why it
	// has its height, in US words and in Units; a level page tells it where it
	// has room for it in one line.
	Why map[int]string
}

// Make makes the pages of a load in the order in which they are used. The
// order and the weights are those of the same built load. It refuses paper
// smaller than 180 x 240 mm, on which the front page has no room, and a load
// that was not built.
func Make(b *stacks.Built, report clearance.Report, o *order.Order, w *statics.Weights, opt Options) ([]drawing.Page, error) {
	if b == nil || b.Load == nil || o == nil {
		return nil, errors.New("there is no built load to make a sheet of")
	}
	s, err := style(b, opt)
	if err != nil {
		return nil, err
	}
	parts := opt.Parts
	if parts == (Parts{}) {
		parts = Sheets()
	}
	drafts := lidAndBoards(s, b, report, o, w, opt.Beside, parts)
	if parts.Levels {
		drafts = append(drafts, levels.Pages(s, b, o, opt.Why)...)
	}
	if parts.Papers {
		drafts = append(drafts, levels.Papers(s, b, o)...)
	}
	if parts.Measuring {
		drafts = append(drafts, measuring(s).Draft())
	}
	return s.Assemble(drafts), nil
}

// lidAndBoards are the front page and the board list. What the front page has no
// room for stands under the boards where it goes there, else on a page of its
// own.
func lidAndBoards(s *frame.Sheet, b *stacks.Built, report clearance.Report, o *order.Order, w *statics.Weights, beside []string, parts Parts) []frame.Draft {
	if !parts.Front {
		if !parts.Boards {
			return nil
		}
		boards, _ := boardPages(s, b, o, nil, tail{})
		return boards
	}
	f := &front{s: s, b: b, report: report, weights: w, columns: columnsOf(b), said: beside, boards: parts.Boards}
	drafts := f.pages()
	if !parts.Boards {
		return append(drafts, f.continued()...)
	}
	boards, with := boardPages(s, b, o, f.handed, f.tail())
	if !with {
		drafts = append(drafts, f.continued()...)
	} else { // once more, to say where it stands
		f.said, f.elsewhere = beside, true
		drafts = f.pages()
	}
	return append(drafts, boards...)
}

// style is the shared style of the pages.
func style(b *stacks.Built, opt Options) (*frame.Sheet, error) {
	paper := opt.Paper
	if paper.Width == 0 && paper.Height == 0 {
		paper = drawing.A4()
	}
	if !(paper.Width >= 180 && paper.Height >= 240) {
		return nil, errors.New("the paper is too small for a loading sheet; take A4 or Letter, upright")
	}
	fonts := opt.Fonts
	if fonts == nil {
		loaded, err := drawing.LoadFonts()
		if err != nil {
			return nil, err
		}
		fonts = loaded
	}
	return frame.New(fonts, paper, b.Load, opt.Units, opt.Words), nil
}

// Measuring is the measuring sheet alone: it needs no load.
func Measuring(fonts *drawing.Fonts, paper drawing.Paper, units measure.Units) drawing.Page {
	s := &frame.Sheet{Fonts: fonts, Paper: paper, Units: units}
	return measuring(s).Page()
}

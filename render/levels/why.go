package levels

import (
	"strings"

	"threepost/render/frame"
)

// The quiet lines at a page's foot, mm: the white over them, and from line to
// line.
const (
	whyGap     = 2.5
	whyLeading = 4.2
)

// tellWhy writes at the foot of a page why its levels have their heights, a line
// each, where the legends above leave room for all of them: a crowded page has
// none, and neither has one on which a sentence takes more than a line.
func (m *maker) tellWhy(page *frame.Page, g group, low float64) {
	style := frame.Text(frame.SmallSize)
	lines := m.whyLines(g.plans[0])
	top := page.Bottom - float64(whyLeading*float64(len(lines)))
	if len(lines) == 0 || low+whyGap > top+1e-9 {
		return
	}
	for i, line := range lines {
		page.Text(m.s.Left(), top+float64(whyLeading*float64(i+1))-0.8, line, style)
	}
}

// whyLines are those lines, from left to right; none where one of the levels has
// none.
func (m *maker) whyLines(levels []int) []string {
	var lines []string
	for _, v := range m.leftFirst(levels) {
		line := m.fitted(m.s.Say(m.why[v]))
		if line == "" {
			return nil
		}
		lines = append(lines, line)
	}
	return lines
}

// whyRoom is the height that the lines take from a plan beside a legend of need
// mm; 0 where they would make it clearly smaller.
func (m *maker) whyRoom(levels []int, high, need float64) float64 {
	const clearly = 0.94
	lines := m.whyLines(levels)
	if len(lines) == 0 {
		return 0
	}
	more := whyGap + float64(whyLeading*float64(len(lines)))
	was, _ := m.scale(levels, high, need)
	if now, whole := m.scale(levels, high, need+more); !whole || now < clearly*was {
		return 0
	}
	return more
}

// fitted is a sentence that goes on one line, without its second half where that
// takes; "" where even that is too long.
func (m *maker) fitted(text string) string {
	style := frame.Text(frame.SmallSize)
	if m.s.Fonts.Width(style, text) <= m.s.Width() {
		return text
	}
	short, _, cut := strings.Cut(text, "; ")
	if cut && m.s.Fonts.Width(style, short+".") <= m.s.Width() {
		return short + "."
	}
	return ""
}

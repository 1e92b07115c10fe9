package session

import (
	"fmt"
	"strings"

	"threepost/layout"
	"threepost/layout/begin"
	"threepost/layout/document"
	"threepost/layout/measure"
)

// First is the page before there is a load: usual sizes, the answers so far,
// and what the kiln would be.
type First struct {
	Sizes   []FirstSize  `json:"sizes"`
	Answers Answers      `json:"answers"`
	Says    string       `json:"says"`    // what is assumed, or why these answers make no load
	Refused bool         `json:"refused"` // they make none
	Cone    string       `json:"cone"`    // "cone 6 (1222 C)"; empty when refused
	Load    *layout.Load `json:"-"`       // for the picture; nil when refused
}

// FirstSize is a usual size to pick.
type FirstSize struct {
	Say     string  `json:"say"`
	Answers Answers `json:"answers"`
}

// Answers are the blanks of the first sentence, as texts in the units chosen.
type Answers struct {
	Shape   string       `json:"shape"` // "round", "sided", "oval", "rectangle"
	Sides   string       `json:"sides"`
	Across  string       `json:"across"`
	Width   string       `json:"width"`
	Depth   string       `json:"depth"`
	Height  string       `json:"height"`
	Opens   string       `json:"opens"`   // "top", "front"
	Shelves []FirstShelf `json:"shelves"` // empty: assumed
	Posts   []FirstPost  `json:"posts"`   // empty: assumed
	Cone    string       `json:"cone"`
	Stage   string       `json:"stage"`
	Title   string       `json:"title"`
	Units   string       `json:"units"`
	From    string       `json:"from"` // the units the texts are in, when they are not Units: they are told again
}

// FirstShelf is "5 round shelves, 540 across, 18 thick".
type FirstShelf struct {
	Count string `json:"count"`
	Shape string `json:"shape"` // "round", "half round", "rectangle", "oval", "half oval"
	Size  string `json:"size"`  // "540", or "460 x 600"
	Thick string `json:"thick"`
}

// FirstPost is a height and how many of it.
type FirstPost struct {
	Height string  `json:"height"`
	Count  string  `json:"count"`
	Spacer bool    `json:"spacer"`
	MM     float64 `json:"mm"` // the height, mm, told only: how long it is drawn
}

// Begin is the page before there is a load; without answers it begins with a
// usual kiln and what is assumed to be owned.
func Begin(a *Answers) First {
	out := First{Sizes: []FirstSize{}}
	for _, size := range begin.Sizes() {
		out.Sizes = append(out.Sizes, FirstSize{Say: size.Say, Answers: answersOf(size)})
	}
	if a == nil {
		a = &out.Sizes[4].Answers
	}
	again := retold(*a)
	a = &again
	out.Answers = *a
	l, told, err := load(*a)
	if err != nil {
		out.Says, out.Refused = err.Error(), true
		return out
	}
	out.Load, out.Cone = l, l.Firing.Cone.DescribeIn(l.Units)
	out.Answers = filled(*a, l)
	out.Says = "A guess is enough. Everything can be changed later."
	if len(told) > 1 {
		out.Says = "Assumed: " + strings.Join(told[:len(told)-1], " ")
	}
	return out
}

// retold are the answers with their lengths told in other units, to the
// nearest 1/8 or 1/16 in or whole mm. What cannot be read stays as it is.
func retold(a Answers) Answers {
	from, err1 := measure.ParseUnits(a.From)
	to, err2 := measure.ParseUnits(a.Units)
	if a.From == "" || err1 != nil || err2 != nil || from == to {
		a.From = ""
		return a
	}
	tell := func(text string, grain measure.Grain) string {
		parts := strings.Split(text, " x ")
		for i, part := range parts {
			mm, err := measure.ParsePositive(part, from)
			if err != nil {
				return text
			}
			parts[i] = measure.FormatLengthTo(mm, to, measure.Nearest, grain)
		}
		return strings.Join(parts, " x ")
	}
	for _, text := range []*string{&a.Across, &a.Width, &a.Depth, &a.Height} {
		*text = tell(*text, measure.PotGrain)
	}
	a.Shelves, a.Posts = append([]FirstShelf{}, a.Shelves...), append([]FirstPost{}, a.Posts...)
	for i := range a.Shelves {
		a.Shelves[i].Size, a.Shelves[i].Thick = tell(a.Shelves[i].Size, measure.PotGrain), tell(a.Shelves[i].Thick, measure.PostGrain)
	}
	for i := range a.Posts {
		a.Posts[i].Height = tell(a.Posts[i].Height, measure.PostGrain)
	}
	a.From = ""
	return a
}

// NewText is the text of a new load of these answers, and its title.
func NewText(a Answers) (text, title string, err error) {
	l, _, err := load(a)
	if err != nil {
		return "", "", err
	}
	data := document.Format(l)
	if _, err := document.Parse("new load", data); err != nil {
		return "", "", bare(err)
	}
	return string(data), l.Title, nil
}

// answersOf are the answers that a usual size fills in.
func answersOf(size begin.Size) Answers {
	k, err := begin.Kiln(size.Kiln, measure.MM)
	if err != nil {
		return Answers{}
	}
	show := func(mm float64) string {
		if mm == 0 {
			return ""
		}
		return measure.FormatLength(mm, measure.MM, measure.Exact)
	}
	a := Answers{Shape: string(k.Chamber.Kind), Across: show(k.Chamber.Across), Width: show(k.Chamber.Width), Depth: show(k.Chamber.Depth),
		Height: show(k.Height), Opens: "top", Cone: "6", Stage: string(layout.Glaze), Units: string(measure.MM)}
	if k.Chamber.Sides > 0 {
		a.Sides = fmt.Sprint(k.Chamber.Sides)
	}
	if size.Front {
		a.Opens = "front"
	}
	return a
}

// load reads the answers.
func load(a Answers) (*layout.Load, []string, error) {
	in, err := measure.ParseUnits(a.Units)
	if err != nil {
		return nil, nil, err
	}
	kiln := ""
	switch a.Shape {
	case "", "round":
		kiln = a.Across + " x " + a.Height
	case "sided":
		kiln = "sided " + a.Sides + " " + a.Across + " x " + a.Height
	case "oval", "rectangle":
		kiln = a.Shape + " " + a.Width + " x " + a.Depth + " x " + a.Height
	default:
		return nil, nil, fmt.Errorf("%q is no shape of a kiln; it is round, sided, oval or rectangle", a.Shape)
	}
	if len(a.Shelves) > 50 || len(a.Posts) > 100 {
		return nil, nil, fmt.Errorf("50 rows of shelves and 100 of posts are enough to begin with")
	}
	var shelves, posts []string
	for _, s := range a.Shelves {
		if strings.TrimSpace(s.Count) == "0" {
			continue
		}
		shelves = append(shelves, strings.TrimSpace(s.Count)+" "+s.Shape+" "+s.Size+" x "+s.Thick)
	}
	for _, p := range a.Posts {
		if c := strings.TrimSpace(p.Count); c == "0" || c == "" {
			continue
		}
		posts = append(posts, strings.TrimSpace(p.Count)+onOff(p.Spacer, " spacers of ", " of ")+p.Height)
	}
	title := strings.TrimSpace(a.Title)
	if title == "" {
		title = "New load"
	}
	return begin.Load(begin.Answers{Kiln: kiln, Shelves: strings.Join(shelves, "; "), Posts: strings.Join(posts, "; "), Cone: a.Cone, Stage: a.Stage,
		Front: a.Opens == "front", Title: title, Units: in})
}

// filled are the answers with what was assumed, so that it can be changed.
func filled(a Answers, l *layout.Load) Answers {
	show := func(mm float64) string { return measure.FormatLength(mm, l.Units, measure.Exact) }
	if len(a.Shelves) == 0 {
		for _, s := range l.Furniture.Shelves {
			row := FirstShelf{Count: fmt.Sprint(s.Count), Shape: string(s.Shape.Kind), Size: show(s.Shape.Across), Thick: show(s.Thick)}
			if s.Shape.Across == 0 {
				row.Size = show(s.Shape.Width) + " x " + show(s.Shape.Depth)
			}
			a.Shelves = append(a.Shelves, row)
		}
	}
	if len(a.Posts) == 0 {
		for i := len(l.Furniture.Posts) - 1; i >= 0; i-- {
			p := &l.Furniture.Posts[i]
			a.Posts = append(a.Posts, FirstPost{Height: show(p.Height), Count: fmt.Sprint(p.Count), Spacer: p.Spacer})
		}
	}
	a.Posts = append([]FirstPost{}, a.Posts...)
	for i := range a.Posts {
		a.Posts[i].MM, _ = measure.ParsePositive(a.Posts[i].Height, l.Units)
	}
	return a
}

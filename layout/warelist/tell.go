package warelist

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"threepost/layout"
	"threepost/layout/document"
	"threepost/layout/measure"
)

// What takes more than a figure or a word to tell.

// setCount reads how many there are.
func setCount(w *layout.Ware, text string) error {
	text = strings.TrimSpace(text)
	n, err := strconv.Atoi(text)
	switch {
	case err != nil && digitsOnly(text), n > document.MostPots:
		return fmt.Errorf("the count is %s; at most %d can be planned", clip(text), document.MostPots)
	case err != nil:
		return fmt.Errorf("the count is %s; type a whole number, like 12", show(text))
	case n < 1:
		return fmt.Errorf("the count is %d; type 1 or more", n)
	}
	w.Count = n
	return nil
}

func digitsOnly(text string) bool {
	return text != "" && strings.Trim(text, "0123456789") == ""
}

// clip shortens a long figure for a sentence.
func clip(text string) string {
	if len(text) > 20 {
		return text[:20] + "..."
	}
	return text
}

// setProfile reads "0 x 76 > 95 x 86".
func setProfile(w *layout.Ware, text string, in measure.Units) error {
	const ask = "type height x diameter from the foot up, like 0 x 76 > 95 x 86"
	parts := strings.Split(text, ">")
	if len(parts) > 200 {
		return errors.New("it has more than 200 entries; at most 200 can be read")
	}
	w.Profile = nil
	for _, part := range parts {
		figures := splitSize(part)
		if len(figures) != 2 {
			return fmt.Errorf("%s is not an entry of a profile; %s", show(part), ask)
		}
		h, err1 := measure.ParseNotNegative(figures[0], in)
		d, err2 := measure.ParseNotNegative(figures[1], in)
		if err := errors.Join(err1, err2); err != nil {
			return fmt.Errorf("%s is not an entry of a profile; %s", show(part), ask)
		}
		w.Profile = append(w.Profile, layout.Knot{Height: h, Diameter: d})
	}
	return nil
}

func getProfile(w *layout.Ware, in measure.Units) string {
	parts := make([]string, len(w.Profile))
	for i, k := range w.Profile {
		parts[i] = zeroText(k.Height, in) + " x " + zeroText(k.Diameter, in)
	}
	return strings.Join(parts, " > ")
}

// zeroText is lengthText with 0 written out.
func zeroText(mm float64, in measure.Units) string {
	if mm == 0 {
		return "0"
	}
	return lengthText(mm, in)
}

// readHandle reads "38 from 20 to 80 thick 14 at 180".
func readHandle(text string, in measure.Units) (layout.Handle, error) {
	const ask = "type its reach, lowest and highest height, like 38 from 20 to 80"
	var h layout.Handle
	told := map[string]string{}
	key, order := "reach", []string{"reach"}
	for _, word := range strings.Fields(text) {
		switch low := strings.ToLower(word); low {
		case "from", "to", "thick", "at":
			if _, twice := told[low]; twice {
				return h, fmt.Errorf("%s says %s twice; %s", show(text), low, ask)
			}
			key = low
			order = append(order, key)
			told[key] = ""
		default:
			told[key] = strings.TrimSpace(told[key] + " " + word)
		}
	}
	for _, key := range order {
		var err error
		switch key {
		case "reach":
			h.Reach, err = measure.ParsePositive(told[key], in)
		case "from":
			h.From, err = measure.ParseNotNegative(told[key], in)
		case "to":
			h.To, err = measure.ParsePositive(told[key], in)
		case "thick":
			h.Thick, err = measure.ParsePositive(told[key], in)
		case "at":
			h.At, err = readTurn(told[key])
		}
		if err != nil {
			return h, fmt.Errorf("%w; %s", err, ask)
		}
	}
	if h.To <= h.From {
		return h, fmt.Errorf("%s has no height; %s", show(text), ask)
	}
	return h, nil
}

// readTurn reads degrees clockwise, 0 to 360.
func readTurn(text string) (float64, error) {
	deg, err := strconv.ParseFloat(strings.TrimSpace(strings.TrimSuffix(strings.TrimSuffix(text, "deg"), "°")), 64)
	if err != nil || !(deg >= -360 && deg <= 360) {
		return 0, fmt.Errorf("%s is not a turn in degrees clockwise, like 180", show(text))
	}
	return deg + 0, nil
}

// handleText writes what readHandle reads.
func handleText(h layout.Handle, in measure.Units) string {
	text := lengthText(h.Reach, in) + " from " + zeroText(h.From, in) + " to " + lengthText(h.To, in)
	if h.Thick != 0 {
		text += " thick " + lengthText(h.Thick, in)
	}
	if h.At != 0 {
		text += " at " + measure.FormatFile(h.At)
	}
	return text
}

// setHandles reads handles apart by |.
func setHandles(w *layout.Ware, text string, in measure.Units) error {
	for _, part := range strings.Split(text, "|") {
		if len(w.Handles) == 12 {
			return errors.New("there are more than 12 handles; at most 12 can be read")
		}
		h, err := readHandle(part, in)
		if err != nil {
			return err
		}
		w.Handles = append(w.Handles, h)
	}
	return nil
}

func getHandles(w *layout.Ware, in measure.Units) string {
	parts := make([]string, len(w.Handles))
	for i, h := range w.Handles {
		parts[i] = handleText(h, in)
	}
	return strings.Join(parts, " | ")
}

func setSpout(w *layout.Ware, text string, in measure.Units) error {
	h, err := readHandle(text, in)
	w.Spout = &h
	return err
}

func getSpout(w *layout.Ware, in measure.Units) string {
	if w.Spout == nil {
		return ""
	}
	return handleText(*w.Spout, in)
}

func setLid(w *layout.Ware, text string, _ measure.Units) error {
	var on bool
	switch strings.ToLower(strings.TrimSpace(text)) {
	case "on":
		on = true
	case "beside", "off":
	default:
		return fmt.Errorf("%s is not known; type lid on or lid beside", show(text))
	}
	w.LidOn = &on
	return nil
}

func getLid(w *layout.Ware, _ measure.Units) string {
	switch {
	case w.LidOn == nil:
		return ""
	case *w.LidOn:
		return "on"
	}
	return "beside"
}

func setMass(w *layout.Ware, text string, _ measure.Units) error {
	kg, err := measure.ParseMass(text)
	w.Mass = kg
	return err
}

func getMass(w *layout.Ware, _ measure.Units) string {
	if w.Mass == 0 {
		return ""
	}
	return measure.FormatMassFile(w.Mass)
}

// flag pairs a word with what it sets.
type flag struct {
	word string
	also string
	on   *bool
}

func flagsOf(f *layout.Flags) []flag {
	return []flag{
		{"refire", "refired", &f.Refire}, {"runny", "runs", &f.Runny}, {"bloats", "bloating", &f.Bloats}, {"spits", "spitting", &f.Spits},
		{"glazed foot", "foot glazed", &f.GlazedFoot}, {"fuming", "fumes", &f.Fuming},
		{"fume-sensitive", "fume sensitive", &f.FumeShy}, {"unglazed", "bare", &f.Unglazed},
	}
}

// setFlag sets the flag of a word, if it is one.
func setFlag(w *layout.Ware, word string) bool {
	for _, f := range flagsOf(&w.Flags) {
		if strings.EqualFold(word, f.word) || strings.EqualFold(word, f.also) {
			*f.on = true
			return true
		}
	}
	return false
}

// setFlags reads flags apart by +, / , or ;.
func setFlags(w *layout.Ware, text string, _ measure.Units) error {
	for _, word := range strings.FieldsFunc(text, func(r rune) bool { return strings.ContainsRune("+/,;|", r) }) {
		word = strings.Join(strings.Fields(word), " ")
		if word == "" || setFlag(w, word) {
			continue
		}
		var known []string
		for _, f := range flagsOf(&w.Flags) {
			known = append(known, f.word)
		}
		return fmt.Errorf("%s is not known; %s", show(word), nearestOf(word, known))
	}
	return nil
}

func getFlags(w *layout.Ware, _ measure.Units) string {
	var on []string
	for _, f := range flagsOf(&w.Flags) {
		if *f.on {
			on = append(on, f.word)
		}
	}
	return strings.Join(on, " + ")
}

// setStand reads "cookie 110 wide 10 high".
func setStand(w *layout.Ware, text string, in measure.Units) error {
	fields := strings.Fields(text)
	if len(fields) == 0 {
		return errors.New("type cookie, stilt or wads")
	}
	s := layout.Stand{Kind: layout.StandKind(strings.ToLower(fields[0]))}
	switch s.Kind {
	case layout.Cookie, layout.Stilt, layout.Wads:
	default:
		return fmt.Errorf("%s is not known; %s", show(fields[0]), nearestOf(fields[0], []string{"cookie", "stilt", "wads"}))
	}
	figure := ""
	for _, word := range fields[1:] {
		var err error
		switch strings.ToLower(word) {
		case "wide", "across":
			s.Across, err = measure.ParsePositive(figure, in)
			figure = ""
		case "high":
			s.Height, err = measure.ParsePositive(figure, in)
			figure = ""
		default:
			figure = strings.TrimSpace(figure + " " + word)
		}
		if err != nil {
			return err
		}
	}
	if figure != "" {
		return fmt.Errorf("%s says nothing about a %s; type one like %s 110 wide 10 high", show(figure), s.Kind, s.Kind)
	}
	w.Stand = s
	return nil
}

func getStand(w *layout.Ware, in measure.Units) string {
	text := string(w.Stand.Kind)
	if text == "" {
		return ""
	}
	if w.Stand.Across != 0 {
		text += " " + lengthText(w.Stand.Across, in) + " wide"
	}
	if w.Stand.Height != 0 {
		text += " " + lengthText(w.Stand.Height, in) + " high"
	}
	return text
}

func setNested(w *layout.Ware, text string, _ measure.Units) error {
	n, err := strconv.Atoi(strings.TrimSpace(text))
	if err != nil || n < 1 || n > 100 {
		return fmt.Errorf("%s is not how many stand in or on each other; type 1 to 100", show(text))
	}
	w.Nested = n
	return nil
}

func getNested(w *layout.Ware, _ measure.Units) string {
	if w.Nested == 0 {
		return ""
	}
	return strconv.Itoa(w.Nested)
}

// setSince reads a date, 2026-10-14.
func setSince(w *layout.Ware, text string, _ measure.Units) error {
	text = strings.TrimSpace(text)
	if !document.IsDate(text) {
		return fmt.Errorf("%s is not a date; type one like 2026-10-14", show(text))
	}
	w.Since = text
	return nil
}

func setValue(w *layout.Ware, text string, _ measure.Units) error {
	typed := strings.TrimSpace(text)
	if strings.Count(typed, ",") == 1 && !strings.Contains(typed, ".") {
		typed = strings.Replace(typed, ",", ".", 1)
	}
	v, err := strconv.ParseFloat(typed, 64)
	if err != nil || !(v >= 0 && v <= 1e9) || strings.Trim(typed, "0123456789.") != "" {
		return fmt.Errorf("%s is not a value; type a number of 0 or more", show(text))
	}
	w.Value = v
	return nil
}

func getValue(w *layout.Ware, _ measure.Units) string {
	if w.Value == 0 {
		return ""
	}
	return measure.FormatFile(w.Value)
}

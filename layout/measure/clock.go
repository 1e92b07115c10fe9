package measure

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// A bearing is told as on a clock that lies on the chamber floor, 12 at the
// back. An hour is 30 degrees, a minute half a degree.
const (
	turn      = 360.0
	perHour   = 30.0
	perMinute = 0.5
	// leastTurn is the least angle told from 0, degrees. Bearings lie on a
	// grid of 0.1.
	leastTurn = 1e-6
)

// clockExample is what a refusal asks for.
const clockExample = "4:30, half past 4, 4 o'clock or 135 deg"

// ParseClock reads a bearing and gives degrees clockwise from 12 o'clock, in
// [0, 360): "12:00", "10:30", "half past 4", "quarter to 5", "4 o'clock",
// "toward 4", "135 deg", "-90°". A bare whole number is an hour, 1 to 12.
func ParseClock(text string) (deg float64, err error) {
	if strings.TrimSpace(text) == "" {
		return 0, fmt.Errorf("a clock bearing is missing; type one like %s", clockExample)
	}
	if len(text) <= longest {
		s := tidy(text)
		for _, lead := range []string{"towards ", "toward ", "at ", "to "} {
			if rest, found := strings.CutPrefix(s, lead); found {
				s = rest
				break
			}
		}
		if deg, ok := readDegrees(s); ok {
			return deg, nil
		}
		if minutes, ok := readHours(s); ok {
			return float64(minutes%720) * perMinute, nil
		}
	}
	return 0, fmt.Errorf("%s is not a clock bearing; type one like %s", quote(text), clockExample)
}

// readDegrees reads "135 deg", "135.3°"; up to ten turns either way.
func readDegrees(s string) (float64, bool) {
	negative, terms, ok := readTerms(s)
	if !ok || len(terms) != 1 {
		return 0, false
	}
	switch terms[0].unit {
	case "deg", "degree", "degrees", "°":
	default:
		return 0, false
	}
	x, _ := terms[0].value.Float64()
	if x > 10*turn {
		return 0, false
	}
	if negative {
		x = -x
	}
	return once(x), true
}

// readHours reads a time of the clock face in minutes, 1 to 779: 12 is 720.
func readHours(s string) (minutes int, ok bool) {
	for _, end := range []string{"o'clock", "oclock", "o clock"} {
		if rest, found := strings.CutSuffix(s, end); found {
			s = strings.TrimSpace(rest)
			break
		}
	}
	for _, part := range []struct {
		lead    string
		minutes int
	}{{"half past ", 30}, {"quarter past ", 15}, {"quarter to ", -15}} {
		if rest, found := strings.CutPrefix(s, part.lead); found {
			h, ok := readHour(rest)
			return h*60 + part.minutes, ok
		}
	}
	hour, minute, colon := strings.Cut(s, ":")
	h, ok := readHour(hour)
	if !ok || !colon {
		return h * 60, ok
	}
	run, rest := digits(minute)
	if len(run) != 2 || rest != "" || run > "59" {
		return 0, false
	}
	m, _ := strconv.Atoi(run) // two digits
	return h*60 + m, true
}

// readHour reads "1" to "12".
func readHour(s string) (int, bool) {
	run, rest := digits(s)
	if len(run) < 1 || len(run) > 2 || rest != "" {
		return 0, false
	}
	h, _ := strconv.Atoi(run) // one or two digits
	return h, h >= 1 && h <= 12
}

// once brings an angle into [0, 360).
func once(deg float64) float64 {
	deg = math.Mod(deg, turn)
	if deg < 0 {
		deg += turn
	}
	if deg < leastTurn || turn-deg < leastTurn {
		return 0
	}
	return deg
}

// FormatClock writes a bearing for files: "10:30" on whole minutes (half
// degrees), else the exact degrees, "135.3 deg". ParseClock reads back the same
// float64 for every bearing in [0, 360). What is not finite is "unknown".
func FormatClock(deg float64) string {
	if math.IsNaN(deg) || math.IsInf(deg, 0) {
		return "unknown"
	}
	deg = once(deg)
	minutes := deg / perMinute
	if minutes != math.Floor(minutes) {
		return decimal(deg) + " deg"
	}
	m := int(minutes)
	return fmt.Sprintf("%d:%02d", hourOf(m/60), m%60)
}

// SayClock says a bearing to the nearest half hour: "4 o'clock", "half past 4".
func SayClock(deg float64) string { return sayClock(deg, " o'clock") }

// ShortClock is SayClock without "o'clock", for "handle to 2": "2", "half past 2".
func ShortClock(deg float64) string { return sayClock(deg, "") }

// TowardClock says a direction: "toward 4 o'clock", "toward half past 9".
func TowardClock(deg float64) string { return "toward " + SayClock(deg) }

func sayClock(deg float64, after string) string {
	if math.IsNaN(deg) || math.IsInf(deg, 0) {
		return "unknown"
	}
	halves := int(math.Round(once(deg)/(perHour/2))) % 24
	hour := strconv.Itoa(hourOf(halves / 2))
	if halves%2 == 1 {
		return "half past " + hour
	}
	return hour + after
}

// hourOf writes hour 0 as 12.
func hourOf(h int) int {
	if h == 0 {
		return 12
	}
	return h
}

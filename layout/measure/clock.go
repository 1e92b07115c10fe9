package measure

// ParseClock reads a bearing: degrees clockwise from 12, in [0, 360).
func ParseClock(text string) (deg float64, err error) { return 0, nil }

// FormatClock writes a bearing for files, exact: "10:30", "135.3 deg".
func FormatClock(deg float64) string { return "" }

// SayClock says a bearing to the half hour: "4 o'clock", "half past 4".
func SayClock(deg float64) string { return "" }

// ShortClock is SayClock without "o'clock", for "handle to 2".
func ShortClock(deg float64) string { return "" }

// TowardClock is "toward 4 o'clock".
func TowardClock(deg float64) string { return "" }

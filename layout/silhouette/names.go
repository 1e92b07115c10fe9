package silhouette

import (
	"strconv"
	"strings"
)

// Plural is the name for many of a ware: "mug" - "mugs", "lidded jar" -
// "lidded jars", "butter dish" - "butter dishes", "jar with lid" - "jars with
// lid". A name that is plural already, and a last word that is no word (a
// figure, one letter), stay.
func Plural(name string) string { return inflect(name, pluralWord) }

// Singular is the name for one: "mugs" - "mug", "dishes" - "dish", "vases" -
// "vase". A name that is singular already stays.
func Singular(name string) string { return inflect(name, singularWord) }

// Named is the name for n of a ware: "1 mug" takes "mug", "0" and "2" "mugs".
func Named(n int, name string) string {
	if n == 1 {
		return Singular(name)
	}
	return Plural(name)
}

// Counted is Named with its figure: "1 mug", "12 mugs".
func Counted(n int, name string) string { return strconv.Itoa(n) + " " + Named(n, name) }

// inflect changes the word of a name that carries its number: the last one
// before a preposition that is a word at all.
func inflect(name string, change func(string) string) string {
	head := name
	for i := 1; i < len(name); i++ {
		if name[i-1] != ' ' {
			continue
		}
		word := name[i:]
		if cut := strings.IndexByte(word, ' '); cut >= 0 {
			word = word[:cut]
		}
		if preposition(strings.ToLower(word)) {
			head = strings.TrimRight(name[:i], " ")
			break
		}
	}
	tail := name[len(head):]
	for len(head) > 0 {
		start := strings.LastIndexByte(head, ' ') + 1
		if word := head[start:]; isWord(word) && !isProper(head, start) {
			return head[:start] + change(word) + tail
		}
		if start == 0 {
			return name
		}
		tail = head[start-1:] + tail
		head = head[:start-1]
	}
	return name
}

// isProper tells whether the word that starts there is somebody's name: a
// capital after a word without one, "pot Thomas".
func isProper(head string, start int) bool {
	if start == 0 || head[start] < 'A' || head[start] > 'Z' {
		return false
	}
	before := head[strings.LastIndexByte(strings.TrimRight(head[:start], " "), ' ')+1:]
	return before[0] >= 'a' && before[0] <= 'z'
}

// isWord tells whether a text is two letters or more and ends in one.
func isWord(s string) bool {
	if len(s) < 2 {
		return false
	}
	for i := 0; i < len(s); i++ {
		if s[i] >= '0' && s[i] <= '9' {
			return false
		}
	}
	c := s[len(s)-1] | 0x20
	return c >= 'a' && c <= 'z' || s[len(s)-1] > 127
}

func pluralWord(w string) string {
	low := strings.ToLower(w)
	if singularWord(low) != low || uncounted(low) {
		return w
	}
	for _, p := range irregular() {
		if strings.HasSuffix(low, p[0]) {
			return w[:len(w)-len(p[0])] + matchCase(w, p[1])
		}
	}
	switch {
	case hisses(low):
		return w + matchCase(w, "es")
	case strings.HasSuffix(low, "y") && len(low) > 1 && !strings.ContainsRune("aeiou", rune(low[len(low)-2])):
		return w[:len(w)-1] + matchCase(w, "ies")
	}
	return w + matchCase(w, "s")
}

func singularWord(w string) string {
	low := strings.ToLower(w)
	if uncounted(low) {
		return w
	}
	for _, p := range irregular() {
		if strings.HasSuffix(low, p[1]) {
			return w[:len(w)-len(p[1])] + matchCase(w, p[0])
		}
	}
	switch {
	case !strings.HasSuffix(low, "s"), len(low) < 3,
		strings.HasSuffix(low, "ss"), strings.HasSuffix(low, "us"), strings.HasSuffix(low, "is"):
		return w
	case strings.HasSuffix(low, "ies") && len(low) > 5 && !keepsIe(low):
		return w[:len(w)-3] + matchCase(w, "y")
	case strings.HasSuffix(low, "es") && hisses(low[:len(low)-2]) && !keepsE(low):
		return w[:len(w)-2]
	}
	return w[:len(w)-1]
}

// hisses tells whether a word takes -es.
func hisses(w string) bool {
	for _, end := range [...]string{"ss", "us", "x", "ch", "sh", "zz"} {
		if strings.HasSuffix(w, end) {
			return true
		}
	}
	return false
}

// keepsE are words whose own e stands before the s: "quiches", "caches".
func keepsE(plural string) bool {
	for _, w := range [...]string{"quiches", "niches", "caches", "axes", "houses"} {
		if strings.HasSuffix(plural, w) {
			return true
		}
	}
	return false
}

// keepsIe are words in -ie.
func keepsIe(plural string) bool {
	for _, w := range [...]string{"cookies", "brownies", "smoothies", "pies", "ties"} {
		if strings.HasSuffix(plural, w) {
			return true
		}
	}
	return false
}

// uncounted words have no plural of their own.
func uncounted(w string) bool {
	switch w {
	case "ware", "stoneware", "porcelain", "earthenware", "raku", "sheep", "fish", "lens", "canvas", "christmas", "gas":
		return true
	}
	return false
}

// irregular pairs end a word: one, many.
func irregular() [][2]string {
	return [][2]string{
		{"shelf", "shelves"}, {"half", "halves"}, {"leaf", "leaves"}, {"loaf", "loaves"}, {"knife", "knives"},
	}
}

// matchCase writes an ending in capitals behind a word in capitals.
func matchCase(word, end string) string {
	if len(word) > 1 && word == strings.ToUpper(word) && word != strings.ToLower(word) {
		return strings.ToUpper(end)
	}
	return end
}

package measure

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Words is the person's choice of trade words. The zero value speaks US. Files,
// code and keys keep the US words; only sentences change.
type Words string

const (
	US Words = "us" // shelf, post, spyhole, bisque
	UK Words = "uk" // bat, prop, peephole, biscuit
)

// ParseWords reads "us" or "uk". An empty text is US.
func ParseWords(text string) (Words, error) {
	switch strings.ToLower(strings.TrimSpace(text)) {
	case "", "us":
		return US, nil
	case "uk":
		return UK, nil
	}
	return US, fmt.Errorf("%s is not a choice of words; type us or uk", quote(text))
}

// Say turns a sentence written in US words into the person's: whole words only,
// one and many, a capital kept. What stands in double quotes is somebody's own
// name for a thing and stays.
func (w Words) Say(sentence string) string {
	if w != UK {
		return sentence
	}
	var b strings.Builder
	b.Grow(len(sentence) + 8)
	for i := 0; i < len(sentence); {
		if end := quoted(sentence, i); end > i {
			b.WriteString(sentence[i:end])
			i = end
			continue
		}
		n := wordLength(sentence[i:])
		if n == 0 {
			_, n = utf8.DecodeRuneInString(sentence[i:])
			b.WriteString(sentence[i : i+n])
		} else {
			b.WriteString(british(sentence[i : i+n]))
		}
		i += n
	}
	return b.String()
}

// quoted is where the quotation that opens at i ends, else i. A quote mark
// after a figure is inches, not an opening.
func quoted(s string, i int) int {
	if s[i] != '"' || (i > 0 && !strings.ContainsRune(" (:,", rune(s[i-1]))) {
		return i
	}
	end := strings.IndexByte(s[i+1:], '"')
	if end < 0 {
		return i
	}
	return i + 1 + end + 1
}

// wordLength is how many bytes of letters, figures and low lines s begins with.
func wordLength(s string) int {
	for i, r := range s {
		if !unicode.IsLetter(r) && !unicode.IsDigit(r) && r != '_' {
			return i
		}
	}
	return len(s)
}

// british is the UK word for a US one, or the word itself.
func british(word string) string {
	other := ""
	switch strings.ToLower(word) {
	case "shelf":
		other = "bat"
	case "shelves":
		other = "bats"
	case "post":
		other = "prop"
	case "posts":
		other = "props"
	case "spyhole":
		other = "peephole"
	case "spyholes":
		other = "peepholes"
	case "bisque":
		other = "biscuit"
	default:
		return word
	}
	switch {
	case word == strings.ToUpper(word):
		return strings.ToUpper(other)
	case word[:1] == strings.ToUpper(word[:1]):
		return strings.ToUpper(other[:1]) + other[1:]
	}
	return other
}

package measure

import (
	"fmt"
	"math/big"
	"strings"
	"unicode"
	"unicode/utf8"
)

// longest is how much text a measure may have. It keeps a pasted page out of
// the exact arithmetic; the longest text this package writes is 30 characters.
const longest = 64

// term is a number and the unit written after it, "" for a bare number.
type term struct {
	value *big.Rat
	unit  string
}

// tidy brings the many ways to type a sign, a space or a fraction to one.
func tidy(text string) string {
	text = strings.NewReplacer(
		"\u00a0", " ", "\u2009", " ", "\u202f", " ", "\t", " ", // spaces that do not break
		"\u2212", "-", "\u2044", "/", // minus and fraction slash
		"º", "°", "℃", "°c", "℉", "°f",
		"½", " 1/2", "¼", " 1/4", "¾", " 3/4", "⅓", " 1/3", "⅔", " 2/3",
		"⅛", " 1/8", "⅜", " 3/8", "⅝", " 5/8", "⅞", " 7/8",
		"\u2019", "'", "\u2032", "'", "\u201d", "\"", "\u2033", "\"", "''", "\"", // feet and inches
	).Replace(text)
	return strings.Join(strings.Fields(strings.ToLower(text)), " ")
}

// readTerms splits a text into its sign and one or two terms: "4 1/2 in" is
// one, "2 lb 4 oz" is two. It answers false for anything else; numbers are
// plain decimals and fractions, so there is no "nan", no "0x1p4" and no "1e9".
func readTerms(text string) (negative bool, terms []term, ok bool) {
	if utf8.RuneCountInString(text) > longest || !utf8.ValidString(text) {
		return false, nil, false
	}
	s := tidy(text)
	if strings.Count(s, ",") == 1 && !strings.Contains(s, ".") {
		s = strings.Replace(s, ",", ".", 1) // a decimal comma
	}
	if rest, found := strings.CutPrefix(s, "-"); found {
		negative, s = true, strings.TrimSpace(rest)
	} else if rest, found := strings.CutPrefix(s, "+"); found {
		s = strings.TrimSpace(rest)
	}
	for s != "" {
		value, rest, ok := readNumber(s)
		if !ok || len(terms) == 2 {
			return false, nil, false
		}
		end := strings.IndexFunc(rest, unicode.IsDigit)
		if end < 0 {
			end = len(rest)
		}
		unit := strings.TrimSuffix(strings.TrimSpace(rest[:end]), ".")
		terms = append(terms, term{value, unit})
		s = rest[end:]
	}
	return negative, terms, len(terms) > 0
}

// readNumber takes a number off the front: "12", "4.5", ".5", "1/2", "4 1/2",
// "4-1/2". A fraction over 0 is not a number.
func readNumber(s string) (value *big.Rat, rest string, ok bool) {
	whole, rest := digits(s)
	if tail, found := strings.CutPrefix(rest, "."); found {
		part, after := digits(tail)
		if whole == "" && part == "" {
			return nil, s, false
		}
		return rat(whole + "." + part), after, true
	}
	if whole == "" {
		return nil, s, false
	}
	if tail, found := strings.CutPrefix(rest, "/"); found {
		return readFraction(whole, tail)
	}
	if rest != "" && (rest[0] == ' ' || rest[0] == '-') {
		if top, tail := digits(rest[1:]); top != "" {
			if tail, found := strings.CutPrefix(tail, "/"); found {
				value, after, ok := readFraction(top, tail)
				if !ok || value.Cmp(big.NewRat(1, 1)) >= 0 {
					return nil, s, false // "4 9/2" is a slip, whatever it meant
				}
				return value.Add(value, rat(whole)), after, true
			}
		}
	}
	return rat(whole), rest, true
}

// readFraction is top over the number in front of s.
func readFraction(top, s string) (*big.Rat, string, bool) {
	bottom, rest := digits(s)
	if strings.Trim(bottom, "0") == "" {
		return nil, s, false
	}
	return rat(top + "/" + bottom), rest, true
}

// digits cuts the leading ASCII digits off s.
func digits(s string) (run, rest string) {
	n := 0
	for n < len(s) && s[n] >= '0' && s[n] <= '9' {
		n++
	}
	return s[:n], s[n:]
}

// rat is the exact value of digits with a point or a slash between them.
func rat(s string) *big.Rat {
	if strings.HasPrefix(s, ".") {
		s = "0" + s
	}
	// Base 10 is said outright: SetString alone would read "010/8" as octal.
	if top, bottom, found := strings.Cut(s, "/"); found {
		return new(big.Rat).SetFrac(integer(top), integer(bottom))
	}
	whole, part, _ := strings.Cut(s, ".")
	scale := new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(len(part))), nil)
	return new(big.Rat).SetFrac(integer(whole+part), scale)
}

// integer is the value of decimal digits.
func integer(s string) *big.Int {
	n, _ := new(big.Int).SetString(s, 10)
	return n
}

// kind is one sort of measure: what its units are worth and how it is asked for.
type kind struct {
	name    string                   // "length"
	example string                   // "115, 11.5 cm or 4 1/2 in"
	units   string                   // "mm, cm, m, in or ft"
	worth   func(unit string) string // of one unit in the inner one, exact; "" when unknown
	pair    func(big string) string  // the unit that may follow: oz after lb; "" for none
}

// read is the exact signed value of a text in the inner unit.
func (k kind) read(text, bare string) (*big.Rat, error) {
	if strings.TrimSpace(text) == "" {
		return nil, fmt.Errorf("a %s is missing; type one like %s", k.name, k.example)
	}
	negative, terms, ok := readTerms(text)
	if !ok {
		return nil, fmt.Errorf("%s is not a %s; type one like %s", quote(text), k.name, k.example)
	}
	sum := new(big.Rat)
	for i, t := range terms {
		unit := t.unit
		if unit == "" && len(terms) == 1 {
			unit = bare
		}
		worth := k.worth(unit)
		if worth == "" {
			return nil, fmt.Errorf("%s is not a %s, which is in %s; type one like %s", quote(text), k.name, k.units, k.example)
		}
		if i > 0 && (k.pair(terms[0].unit) == "" || worth != k.worth(k.pair(terms[0].unit))) {
			return nil, fmt.Errorf("%s has two figures; type one like %s", quote(text), k.example)
		}
		sum.Add(sum, new(big.Rat).Mul(t.value, rat(worth)))
	}
	if negative {
		sum.Neg(sum)
	}
	return sum, nil
}

// quote puts what was typed into a sentence: short, on one line, printable.
func quote(text string) string {
	var b strings.Builder
	b.WriteByte('"')
	count := 0
	for _, r := range strings.TrimSpace(text) {
		if count == 40 {
			b.WriteString("...")
			break
		}
		if !unicode.IsPrint(r) {
			r = ' '
		}
		b.WriteRune(r)
		count++
	}
	b.WriteByte('"')
	return b.String()
}

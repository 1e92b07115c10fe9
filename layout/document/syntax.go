package document

import (
	"fmt"
	"strings"
)

// sayTwice says that a key is there already.
func (g *grower) sayTwice(key string, first int) string {
	line, _ := g.place(first)
	return fmt.Sprintf("%s is given twice; the first is on line %d", show(key), line)
}

// saySyntax turns what the TOML reader says into a sentence that tells what to
// type.
func saySyntax(message string) string {
	for _, s := range []struct{ has, say string }{
		{"leading zeroes", `a number has no 0 in front; a cone is a name, so write it in quotes: "06"`},
		{"expected '=' after key", `after a name comes "=" and a value, like count = 12; a name with a space in it stands in quotes`},
		{"close array table name", `a row opens with [[ and closes with ]], like [[ware]]`},
		{"close table name", `a table's name opens with [ and closes with ], like [kiln]`},
		{"array is incomplete", `a list is open at the end of the file; close it with ]`},
		{"after array value", `the values of a list stand apart by commas and end with ]`},
		{"inline table is incomplete", `a { is open at the end of the file; close it with }`},
		{"after inline table", `the values between { and } stand apart by commas and end with }`},
		{"unexpected comma", `a comma stands here with nothing before it; take it out`},
		{"expected value but got", `a comma stands here with nothing before it; take it out`},
		{"basic strings cannot have new lines", `a text ends on its own line; close it with a quote mark "`},
		{"unterminated", `a text is open at the end of the file; close it with a quote mark`},
		{"not terminated", `a text is open at the end of the file; close it with a quote mark`},
		{"literal strings cannot have new lines", `a text ends on its own line; close it with a quote mark '`},
		{"escape", `after \ in a text only \" \\ \n \t and \uXXXX can be read; for a plain \ write \\`},
		{"UTF-8", `the file holds bytes that are not UTF-8 text; save it as UTF-8`},
		{"carriage return", `a line ends with a lone carriage return; save the file with plain line ends`},
		{"control characters", `a control character stands here; take it out`},
		{"at start of value", `a value is a number, a text in quotes, true, false, a [list] or a { table }; put quotes round a text`},
		{"strings must be quoted", `a value is a number, a text in quotes, true, false, a [list] or a { table }; put quotes round a text`},
		{"expected keyword", `a value is a number, a text in quotes, true, false, a [list] or a { table }; put quotes round a text`},
		{"expected value, not end", `a value is missing at the end of the file`},
		{"start of key", `a line begins with a name, like count = 12, or with [ for a table; put quotes round a name with other marks`},
		{"expected key but", `a name is missing at the end of the file`},
		{"expected newline", `one line holds one name and its value; begin the next on a new line, and put quotes round a measure with a unit: "4 1/2 in"`},
		{"nested more than", `lists stand too deep in each other here`},
	} {
		if strings.Contains(message, s.has) {
			return s.say
		}
	}
	return `this cannot be read as a number; write one like 115 or 34.5`
}

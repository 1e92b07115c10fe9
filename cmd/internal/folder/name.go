package folder

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"
)

// ending is that of a load file.
const ending = ".toml"

// longestName is the most bytes of an id; file systems take 255 with endings
// and the marks of a file that is being written.
const longestName = 180

// CheckID refuses what is no file name of a load in this folder: separators,
// dot files, control letters, names that some systems keep for themselves.
func CheckID(id string) error {
	refuse := func(why string) error {
		return Refused{NoSuchLoad, fmt.Sprintf("%.60q is no name of a load: %s.", id, why)}
	}
	switch {
	case id == "":
		return refuse("it is empty")
	case len(id) > longestName:
		return refuse(fmt.Sprintf("it is longer than %d letters", longestName))
	case !utf8.ValidString(id):
		return refuse("it holds broken letters")
	case strings.HasPrefix(id, "."):
		return refuse("it begins with a dot")
	case strings.HasSuffix(id, ".") || strings.TrimSpace(id) != id:
		return refuse("it begins or ends with a space, or ends with a dot")
	case reserved(id):
		return refuse("some systems keep this name for themselves")
	}
	for _, r := range id {
		if strings.ContainsRune(`/\:*?"<>|`, r) {
			return refuse("it holds one of / \\ : * ? \" < > |")
		}
		if unicode.IsControl(r) || r == utf8.RuneError || unicode.Is(unicode.Cf, r) || r == '\u2028' || r == '\u2029' {
			return refuse("it holds a letter that cannot be seen")
		}
	}
	return nil
}

// reserved says whether Windows takes a name for a device (Microsoft, "Naming
// Files, Paths, and Namespaces"), whatever follows its first dot.
func reserved(id string) bool {
	stem, _, _ := strings.Cut(strings.ToLower(id), ".")
	stem = strings.TrimSpace(stem)
	switch stem {
	case "con", "prn", "aux", "nul":
		return true
	}
	return len(stem) == 4 && (strings.HasPrefix(stem, "com") || strings.HasPrefix(stem, "lpt")) && stem[3] >= '0' && stem[3] <= '9'
}

// longestSlug is the most letters of a name made from a title.
const longestSlug = 60

// slug makes a file name of a title: "October glaze, 2nd" -> "october-glaze-2nd".
func slug(title string) string {
	var b strings.Builder
	n, gap := 0, false
	for _, r := range strings.ToLower(title) {
		if !unicode.IsLetter(r) && !unicode.IsDigit(r) {
			gap = n > 0
			continue
		}
		if gap {
			b.WriteByte('-')
			n, gap = n+1, false
		}
		b.WriteRune(r)
		if n++; n >= longestSlug || b.Len() >= 2*longestSlug {
			break
		}
	}
	name := b.String()
	if name == "" || reserved(name) || CheckID(name) != nil {
		name = strings.TrimSuffix("load-"+name, "-")
	}
	if CheckID(name) != nil {
		return "load"
	}
	return name
}

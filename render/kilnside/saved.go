package kilnside

import (
	"bytes"
	"crypto/sha256"
	"encoding/base64"
	"encoding/json"
	"errors"
	"html"
	"strconv"
	"strings"

	"threepost/assets"
	"threepost/assets/page"
)

// fontFiles is how the page's style names the files of its type.
const fontFiles = "/assets/fonts/AtkinsonHyperlegibleNext-"

// Saved is the page at the kiln as one file that needs nothing else: styles,
// script, type and steps are inside, and its own policy lets it load nothing.
// It works where there is no network at all.
func Saved(s *Steps) ([]byte, error) {
	front, ok := page.Web("kiln.html")
	style, okStyle := page.Web("kiln.css")
	script, okScript := page.Web("kiln.js")
	if !ok || !okStyle || !okScript {
		return nil, errors.New("the page at the kiln is not built into this program")
	}
	css := string(style)
	for _, weight := range []int{400, 500, 600, 700} {
		name := fontFiles + strconv.Itoa(weight) + ".ttf"
		if strings.Contains(css, name) {
			css = strings.ReplaceAll(css, name, "data:font/ttf;base64,"+base64.StdEncoding.EncodeToString(assets.Font(weight)))
		}
	}
	steps, err := json.Marshal(s) // escapes < so that no tag can end inside
	if err != nil {
		return nil, err
	}
	policy := "default-src 'none'; script-src " + hashed(script) + "; style-src " + hashed([]byte(css)) + "; font-src data:; base-uri 'none'; form-action 'none'"
	title := "At the kiln"
	if s.Title != "" {
		title = s.Title + ", at the kiln"
	}
	text := string(front)
	for _, one := range [][2]string{
		{`<meta charset="utf-8">`, `<meta charset="utf-8">` + "\n" + `<meta http-equiv="Content-Security-Policy" content="` + policy + `">`},
		{`<title>At the kiln</title>`, "<title>" + html.EscapeString(title) + "</title>"},
		{`<link rel="stylesheet" href="/assets/kiln.css">`, "<style>" + css + "</style>"},
		{`<link rel="icon" href="/assets/mark.svg">` + "\n", ""},
		{`<script src="/assets/kiln.js" defer></script>` + "\n", ""},
		{`</body>`, `<script type="application/json" id="steps">` + string(steps) + "</script>\n<script>" + string(script) + "</script>\n</body>"},
	} {
		if strings.Count(text, one[0]) != 1 {
			return nil, errors.New("the page at the kiln has no place for " + strconv.Quote(one[0]))
		}
		text = strings.Replace(text, one[0], one[1], 1)
	}
	if bytes.Contains(script, []byte("</script")) || bytes.Contains(style, []byte("</style")) {
		return nil, errors.New("the page at the kiln cannot be put into one file")
	}
	return []byte(text), nil
}

// hashed names a text in a content security policy (W3C CSP 3, hash-source).
func hashed(text []byte) string {
	sum := sha256.Sum256(text)
	return "'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'"
}

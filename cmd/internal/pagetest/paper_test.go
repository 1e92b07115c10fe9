//go:build !js

package pagetest

import (
	"bytes"
	"encoding/base64"
	"strings"
	"testing"

	"github.com/pdfcpu/pdfcpu/pkg/api"
	"github.com/stretchr/testify/require"
)

// The sheet is looked at on the page and taken as PDF, which a general library
// reads: as many pages as were shown.
func TestSheetIsPrinted(t *testing.T) {
	h := open(t, "newcomer")
	b := h.visit("/?load=newcomer", 1280, 800)
	b.opened()
	b.press("Print the sheet")
	b.wait(`document.querySelectorAll("[data-page=print] img, [data-page=print] svg[viewBox]").length > 0`)
	b.picture("print")
	// What the button downloads is caught where the page makes it.
	ask[bool](b, `(() => { window.tpMade = []; const make = URL.createObjectURL;
		URL.createObjectURL = (blob) => { tpMade.push(blob); return make.call(URL, blob); }; return true; })()`)
	b.press("Download the PDF")
	b.wait("tpMade.length > 0")
	text := ask[string](b, `new Promise((done) => { const r = new FileReader(); r.onload = () => done(r.result); r.readAsDataURL(tpMade.at(-1)); })`)
	pdf, err := base64.StdEncoding.DecodeString(text[strings.Index(text, ",")+1:])
	require.NoError(t, err)
	pages, err := api.PageCount(bytes.NewReader(pdf), nil)
	require.NoError(t, err)
	require.GreaterOrEqual(t, pages, 3)
}

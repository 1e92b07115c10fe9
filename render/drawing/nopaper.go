//go:build js

package drawing

import (
	"errors"
	"image"
	"io"
)

// noPaper is told by the backends that the page's program leaves out: they
// would double what a browser has to fetch, and the program on the computer
// makes the paper.
func noPaper() error {
	return errors.New("paper is made by the program on the computer, not by the page")
}

// PDF is not made in a browser.
func PDF(io.Writer, *Fonts, Document) error { return noPaper() }

// PNG is not made in a browser.
func PNG(io.Writer, *Fonts, Page, float64) error { return noPaper() }

// Picture is not made in a browser.
func Picture(*Fonts, Page, float64) (*image.RGBA, error) { return nil, noPaper() }

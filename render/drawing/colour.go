package drawing

// Colour is an opaque colour, or None. There is no half transparency: paper
// is printed, copied and faxed.
type Colour uint32

// The two colours of paper, and none at all.
const (
	None  Colour = 0
	Black Colour = 0xFF000000
	White Colour = 0xFFFFFFFF
)

// RGB is the colour with the given red, green and blue, 0 to 255 each.
func RGB(r, g, b uint8) Colour {
	return Black | Colour(r)<<16 | Colour(g)<<8 | Colour(b)
}

// Grey is a grey between 0, black, and 255, white.
func Grey(level uint8) Colour { return RGB(level, level, level) }

// RGB gives red, green and blue of a colour; None is black.
func (c Colour) RGB() (r, g, b uint8) {
	return uint8(c >> 16), uint8(c >> 8), uint8(c)
}

// grey says whether red, green and blue are equal.
func (c Colour) grey() bool {
	r, g, b := c.RGB()
	return r == g && g == b
}

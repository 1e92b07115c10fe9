package scene

// Colour is sRGB, 0 to 1 each.
type Colour [3]float32

// Hex is a colour written 0xRRGGBB.
func Hex(rgb uint32) Colour {
	return Colour{float32(rgb>>16&255) / 255, float32(rgb>>8&255) / 255, float32(rgb&255) / 255}
}

// Times is the colour darkened or lightened by a factor, kept within 0 to 1.
func (c Colour) Times(k float32) Colour {
	for i := range c {
		c[i] = min(1, max(0, c[i]*k))
	}
	return c
}

// Shaded is the colour in a shade of k, 0 black to 1 open: warm, as clay throws
// light on clay.
func (c Colour) Shaded(k float64) Colour {
	d := float32(1 - k)
	return Colour{
		min(1, max(0, c[0]*(1-0.87*d))), min(1, max(0, c[1]*(1-0.99*d))), min(1, max(0, c[2]*(1-1.09*d))),
	}
}

// Mix is the colour t of the way to another.
func (c Colour) Mix(d Colour, t float32) Colour {
	for i := range c {
		c[i] += (d[i] - c[i]) * t
	}
	return c
}

// Look is the colours around and over the load.
type Look struct {
	Dark     bool
	Ground   Colour // behind everything
	Ink      Colour // outlines and creases
	Held     Colour // the piece that is selected
	Watch    Colour
	Problem  Colour
	Section  Colour // where a plane cuts through something
	Light    Light
	LineDown float32 // share of the ink in a crease, 0 to 1
}

// Light is the light of the picture: from above and below, a key light and a
// soft fill from the other side. Directions point from the load to the light;
// they are fixed to the camera: x right, y up, z toward the eye.
type Light struct {
	Sky, Floor float32
	Key, Fill  float32
	KeyAt      [3]float32
	FillAt     [3]float32
	Warm       Colour // what the key light multiplies with
}

// LookOf is the light or the dark look.
func LookOf(dark bool) Look {
	k := Look{
		Ground: Hex(0xF7F3EB), Ink: Hex(0x26231F), Held: Hex(0x2547B8),
		Watch: Hex(0x8A5A00), Problem: Hex(0x8F1F28), Section: Hex(0x6B6156), LineDown: 0.55,
		Light: Light{
			Sky: 0.75, Floor: 0.57, Key: 0.40, Fill: 0.08,
			KeyAt: unit3([3]float32{-0.54, 0.40, 0.74}), FillAt: unit3([3]float32{0.80, 0.15, 0.45}),
			Warm: Colour{1.05, 0.99, 0.90},
		},
	}
	if dark {
		k.Dark = true
		k.Ground, k.Ink, k.Held = Hex(0x1C1A18), Hex(0x0C0B0A), Hex(0x8DA6FF)
		k.Watch, k.Problem, k.Section = Hex(0xE5B65A), Hex(0xF09A93), Hex(0xB5AB9D)
	}
	return k
}

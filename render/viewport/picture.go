package viewport

import (
	"github.com/go-gl/mathgl/mgl64"

	"threepost/render/scene"
)

// Picture is what one frame shows. The meshes of its scene are emptied once they
// lie on the graphics card; a group of the same name and sum stays there.
type Picture struct {
	Scene  *scene.Scene
	Camera scene.Camera
	Cut    *scene.Plane // nil: whole
	Hot    int          // id of the piece under the pointer; 0: none
	Hidden int          // id of the piece that is not drawn because it is held; 0: none
	Wears  []Wear       // by piece id; may be shorter than the pieces
	Ghost  *Ghost
	Lines  []Line
	Moving bool // the camera is still on its way: the next frame is asked for
}

// Wear is what a piece wears for the moment, over what the scene gives it.
type Wear struct {
	Chosen bool        // in the colour of what is held
	Dim    bool        // steps back towards the ground
	Hatch  scene.Hatch // drawn instead of its own; Plain leaves its own
}

// Ghost is a piece by itself that moves by its matrix alone.
type Ghost struct {
	Mesh   *scene.Mesh // the same pointer needs no new upload
	Matrix mgl64.Mat4
	Wear   Wear
}

// Line is a straight line of even width on the screen.
type Line struct {
	A, B   mgl64.Vec3 // mm; equal: a dot
	Colour scene.Colour
	Width  float64 // px
	On     float64 // px of a dash; 0: drawn through
	Off    float64 // px between dashes
	Over   bool    // over everything, else hidden by what stands before it
}

// Pointer is a pointer event, in px of the canvas.
type Pointer struct {
	Kind   PointerKind
	ID     int
	X, Y   float64
	Button Button
	Touch  bool // a finger: coarser than mouse and pen
	Shift  bool
	Time   float64 // ms
}

// PointerKind is what the pointer does.
type PointerKind int

// What a pointer does.
const (
	Down PointerKind = iota
	Move
	Up
	Cancel
	Leave
)

// Button is the button that a pointer went down with.
type Button int

// The buttons.
const (
	Left Button = iota
	Middle
	Right
)

// Key is a key pressed while the canvas has the focus.
type Key struct {
	Name  string // as the browser names it: "ArrowLeft", "Escape", "["
	Shift bool
	Alt   bool
}

// Driver decides what gestures mean and what is seen.
type Driver interface {
	Size(w, h float64) // px of the canvas
	Pointer(Pointer)
	Wheel(x, y, turns float64)           // turns over 0: nearer; one notch of a wheel is 1
	Key(Key) bool                        // false: not ours, the page may have it
	Blur()                               // the canvas lost the focus
	Picture(now float64) (Picture, bool) // at a time in ms; false: nothing to draw yet
	Drawn()                              // after a frame: labels may be placed anew
	Lost()                               // the graphics card was taken away, and all that lay there
	Back()                               // it is back: whole meshes are needed again
}

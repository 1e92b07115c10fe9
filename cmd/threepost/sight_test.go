package main

import (
	"path/filepath"
	"testing"
)

// platters is low wide ware, one to a level: only the top level takes the cone
// pack, and the spyhole lies low.
const platters = `threepost = 1
firing = { stage = "glaze", cone = "6" }

[kiln]
chamber = { shape = "round", across = 460, height = 530 }
opens = "top"
spyholes = [{ at = "6:00", height = 230 }]

[furniture]
shelves = [{ name = "full", shape = "round", across = 410, thick = 15, mass = 4, count = 12 }]
posts = [
  { height = 25, section = "square 30", count = 3 },
  { height = 50, section = "square 30", count = 18 },
]

[[ware]]
name = "platter"
count = 11
height = 36
across = 270
clay = { name = "buff stoneware", cone = "6" }

[[cones]]
name = "cones"
pack = ["5", "6", "7"]
watched = true
`

// plattersLoad is a load of platters in a folder of its own.
func plattersLoad(t *testing.T) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "platters.toml")
	write(t, path, platters)
	return path
}

// TestPlanTellsWhatSightWouldCost plans platters whose cones a spyhole shows
// only at the price of one of seven.
func TestPlanTellsWhatSightWouldCost(t *testing.T) {
	path := plattersLoad(t)
	golden(t, "plan-unseen.txt", threepost(t, "plan", path, "--work", "6000"), path)
}

package document

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Every complaint names its key and says what to write. The rows change one
// thing in the commented load; testdata/bad holds the ways that people are
// most often wrong, these are the others.
func TestParseSaysWhatToWrite(t *testing.T) {
	for _, c := range []struct{ was, is, say string }{
		{`firing = { stage = "glaze", cone = "6" }`, `firing = 6`, `7:10: firing is the number 6 here; write it as { stage = ... }`},
		{`firing = { stage = "glaze", cone = "6" }`, `firing = { stage = "glaze" }`, `7:10: firing has no cone; write one like cone = "6"`},
		{`stage = "glaze"`, `stage = 3`, `7:20: stage is the number 3 here; write one of "bisque", "glaze", "refire", "lustre"`},
		{`stage = "glaze"`, `stage = "glase"`, `7:20: stage: "glase" is not a word for it; the nearest is "glaze"`},
		{`cone = "6"`, `cone = ["6"]`, `7:36: cone is a list here; write a cone in quotes, like "6" or "04"`},
		{`cone = "6"`, `peak = "2500 C"`, `7:36: peak: "2500 C" is hotter than 2000 C, the hottest here; type one like 1222 C or 2232 F`},
		{`units = "mm"`, `units = "cm"`, `5:9: units: "cm" is not a word for it; the nearest is "mm"`},
		{`units = "mm"`, `title = "a\u0007"`, `5:9: title holds a line break or another control character; write it on one line`},
		{`units = "mm"`, `title = 4`, `5:9: title is the number 4 here; write a text in quotes`},
		{`units = "mm"`, `title = "` + strings.Repeat("x", 401) + `"`, `5:9: title has 401 characters; at most 400 can be read`},
		{`opens = "top"`, `probes = [{ at = "13:00", height = 1, reach = 1, diameter = 1 }]`, `12:18: at: "13:00" is not a clock bearing; type one like 4:30, half past 4, 4 o'clock or 135 deg`},
		{`opens = "top"`, `probes = [{ at = "1:00", height = 1, reach = 1 }]`, `12:11: a probe has no diameter; write one like diameter = 12`},
		{`opens = "top"`, `probes = { at = "1:00" }`, `12:10: probes is a table here; write a list: [...]`},
		{`opens = "top"`, `floor_element = "yes"`, `12:17: floor_element is the text "yes" here; write true or false`},
		{`shape = "round", across = 457, `, ``, `11:11: chamber has no shape; write one like shape = "round", across = 410`},
		{`shape = "round", across = 457, `, `sides = 12, `, `11:11: chamber has no across_flats; the shape "sided" has sides and across_flats`},
		{`shape = "round", across = 457, `, `sides = 2, across_flats = 457, `, `11:21: sides is 2; it is 3 or more`},
		{`section = "square 38", count = 6 },`, `section = "square", count = 6 },`, `23:28: section is "square"; write square, round, hexagon or triangle and how wide, like "square 38"`},
		{`section = "square 38", count = 6 },`, `section = 38, count = 6 },`, `23:28: section is the number 38 here; write one like "square 38"`},
		{`section = "square 38", count = 6 },`, `section = "square 38", name = "a+b", count = 6 },`, `23:48: name is "a+b"; a post's name has no ( ) or +`},
		{`name = "full"`, `name = " full"`, `17:12: name " full" begins or ends with a space; take it out`},
		{`name = "full"`, `name = ""`, `17:12: name is empty; give it a name`},
		{`thick = 16, count = 1`, `thick = 16, mass = "2 ft", count = 1`, `17:70: mass: "2 ft" is not a mass, which is in kg, g, lb or oz; type one like 1.2 kg, 310 g or 0.7 lb`},
		{"height = 100\n", "height = 99999999999999999999\n", `32:10: height is 99999999999999999999, beyond any measure; check the figure`},
		{"height = 100\n", "height = 2026-10-14\n", `32:10: height is the date 2026-10-14 here; write a number`},
		{"height = 100\n", "height = 100_000_000\n", `32:10: height is 100_000_000, beyond any kiln; check the figure`},
		{`across = 85`, `length = 85`, `28:1: "mug" is oblong and needs both length and width`},
		{`across = 85`, ``, `28:1: "mug" has no width; write across = 85, or length = 260 and width = 160 for oblong ware`},
		{`across = 85`, "across = 85\nplan = \"oval\"", `34:1: plan is for oblong ware; "mug" is round`},
		{`across = 85`, "across = 85\nadds = 20", `34:1: adds is for a bundle; write how many are nested, like nested = 3`},
		{`across = 85`, `profile = [[0, 85]]`, `33:11: profile has one entry; it goes from the foot at height 0 to the rim`},
		{`across = 85`, `profile = [[5, 85], [100, 85]]`, `33:11: profile begins above height 0; its first entry is the foot, like [0, 76]`},
		{`across = 85`, `profile = [[0, 0], [100, 0]]`, `33:11: profile is 0 wide; each entry is [height, diameter], like [[0, 76], [95, 86]]`},
		{`across = 85`, `profile = [[0, 80], [50, 85], [50, 84], [50, 83], [100, 85]]`, `33:11: profile has three entries at one height; a step takes two`},
		{`across = 85`, `profile = [[0, 80], [100, 85, 3]]`, `33:21: profile: each entry is [height, diameter], like [[0, 76], [95, 86]]`},
		{`across = 85`, `profile = [[0, 80], [100, -85]]`, `33:27: diameter in profile is -85; it is 0 or more`},
		{`across = 85`, `profile = [` + strings.Repeat("[0, 1], ", 201) + `]`, `33:11: profile has 201 entries; at most 200 can be read`},
		{`across = 85`, "across = 80\nprofile = [[0, 80], [100, 85]]", `33:10: across is 80 and the profile is 85 at its widest; make them one`},
		{`across = 85`, "across = 85\nflags = [\"runy\"]", `34:10: flags: "runy" is not a word for it; the nearest is "runny"`},
		{`across = 85`, "across = 85\nsince = \"May\"", `34:9: since is "May"; write a date like "2026-10-14"`},
		{`across = 85`, "across = 85\nvalue = -1", `34:9: value is -1; it is 0 or more`},
		{`across = 85`, "across = 85\nhandles = [{ at = 4000, reach = 3, to = 8 }]", `34:19: at is 4000; a turn is in degrees clockwise, from 0 to 360`},
		{`across = 85`, "across = 85\nhandles = [{ to = 8 }]", `34:12: a handle has no reach; write one like reach = 38`},
		{`across = 85`, "across = 85\nlid = \"off\"", `34:7: lid: "off" is not a word for it; there is "on", "beside"`},
		{`[[ware]]  # the one for the show`, "[[cones]]\nname = \"cones\"\npack = [\"6\"]\nspyhole = 0\n[[ware]]", `38:11: spyhole is 0; it is 1 or more`},
		{`on = ["floor"]`, `on = []`, `43:6: on is empty; write on = ["floor"], or the level it stands on`},
		{`on = ["floor"]`, `on = ["ground"]`, `43:7: on is the text "ground"; write "floor", or a tower and its level, like "base 1"`},
		{`name = "base"`, `name = "floor"`, `42:8: a tower cannot be called "floor"; name its place, like "left side"`},
		{`[60, 90]`, `[60]`, `44:21: a line: write where it stands as [x, y] or [x, y, turn]`},
		{`shelves = [{ kind = "full" }]`, `shelves = []`, `47:11: shelves is empty; a level has at least one shelf`},
		{`shelves = [{ kind = "full" }]`, `shelves = [{ at = [0, 0] }]`, `47:12: a shelf of a level has no kind; write one like kind = "full"`},
		{`posts = "25"`, `posts = []`, `48:9: posts is empty; write one make-up for all, like "150 + 5"`},
		{`posts = "25"`, `posts = "25 + "`, `48:9: posts is "25 + ": a length is missing; type one like 115, 11.5 cm or 4 1/2 in; write the pieces from the bottom up, like "150 + 5"`},
		{`posts = "25"`, `posts = true`, `48:9: posts is true here; write the pieces from the bottom up, like "150 + 5"`},
		{`posts = "25"`, `posts = "25 (short)"`, `48:9: posts: there is no post of 25 (short); the furniture has 25, 100`},
		{`posts = "25"`, `posts = "25` + strings.Repeat(" + 25", 20) + `"`, `48:9: posts has 21 pieces in one post; at most 20 can be read`},
		{`posts = "25"`, "posts = \"25\"\nlocked_pots = [\"mug 3\"]", `49:16: locked_pots: "mug 3" does not stand on this level`},
		{`vase = [0, 80, 0]`, `vase = [0, 80, "noon"]`, `53:16: turn of "vase": "noon" is not a clock bearing; type one like 4:30, half past 4, 4 o'clock or 135 deg`},
		{`vase = [0, 80, 0]`, `"vase 1" = [0, 80, 0]` + "\nvase = [0, 80]", `54:1: "vase" is set twice; the first is on line 53`},
		{`vase = [0, 80, 0]`, `jar = [0, 80, 0]`, `53:1: "jar" is neither a pot nor a cone pack of this load`},
		{`vase = [0, 80, 0]`, `vase = [0, 80, 0]` + "\n[rules]\n\"pot to pot\" = 8", `55:16: pot to pot is the number 8 here; write it as { problem = ... }`},
		{`vase = [0, 80, 0]`, `vase = [0, 80, 0]` + "\n[rules]\n\"pot to pot\" = { plan = -8 }", `55:25: plan is -8; it is 0 or more`},
		{`vase = [0, 80, 0]`, `vase = [0, 80, 0]` + "\n[[accepted]]\nfinding = \"x\"", `54:1: [[accepted]] has no reason; write one like reason = "..."`},
	} {
		require.Contains(t, commented, c.was)
		_, err := Parse("", []byte(strings.Replace(commented, c.was, c.is, 1)))
		if assert.Error(t, err, c.is) {
			assert.Equal(t, c.say, err.Error(), c.is)
		}
	}
}

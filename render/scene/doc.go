// Package scene turns a built load into what a renderer draws in three
// dimensions: merged meshes, a table of pieces, anchors for labels, the post
// triangles with their balance points, a camera and a picking ray. It knows no
// graphics library: package raster draws a scene in pure Go, package viewport
// on the graphics card. It decides nothing: places come from stacks, weights
// from statics, verdicts from clearance.
//
// Groups keep drawing cheap and lifting levels away easy: each level is one
// mesh of its shelves and pots and one of the posts under them.
//
//	group "left 2"        shelf + pots + cone packs   } hidden together when
//	group "left 2 posts"  posts A B C under it         } the level is lifted
//	group "kiln"          floor and walls, inner sides only: of a shell
//	                      seen from outside just the far half shows
//
// Everything is in mm in the kiln's frame: x right, y to the back, z up.
// Bearings are degrees clockwise from 12. Colours are sRGB from 0 to 1, shade
// of covered levels and contact shadows included, light not. Triangles are
// counter-clockwise seen from outside and every mesh but the kiln's is closed,
// so back faces may be left out, or painted flat where a plane cuts.
//
//	       elevation
//	eye o_  |            azimuth: bearing on which the eye stands,
//	     \`-.            180 is in front, where a person stands
//	      \  `-._
//	       \_____`_ target
//
// The parts of a pot contain its mesh (law): what is drawn is never larger
// than what is checked.
package scene

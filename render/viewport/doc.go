// Package viewport draws a scene on a canvas of the page with WebGL 2, by an own
// draw loop on g3n's geometry and gls, and hands pointer, wheel and key to
// whoever drives it. What is drawn, where the camera stands and what a
// gesture means is not decided here.
//
//	DOM events -> Canvas -> Driver.Pointer, Wheel, Key        (what it means)
//	                 |
//	                 '- one animation frame when dirty -> Driver.Picture -> draw
//
// Nothing is drawn while nothing changes: Refresh asks for one frame, and a
// picture that still moves asks for the next.
//
// One group of the scene is one mesh on the graphics card, uploaded again only
// when its sum changes. A frame is, group by group: triangles, then the same
// triangles grown by 1.25 px and seen from behind as outline, then creases;
// then the ghost of the pot that is held; then lines that lie over everything,
// always in this order.
//
// Everything that imports g3n is built for js/wasm only; what packs vertices
// builds everywhere and is tested natively.
package viewport

// Package raster draws a scene in pure Go, without a graphics card: for the
// command line, for the documents and for tests. It draws what package
// viewport draws, from the same meshes, cameras and colours; speed matters
// less than that every machine gives the same picture.
//
//	triangles --> depth, colour, piece id, hatch    one sample grid, n x n a px
//	outlines  --> where the piece or the depth jumps, 1.25 px
//	creases   --> lines a hair before the surface, at 55 %
//	samples   --> averaged to px
//
// It places no text.
package raster

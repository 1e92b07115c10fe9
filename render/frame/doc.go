// Package frame is the style that all pages of a loading sheet share: paper,
// margins, sizes of type, widths of lines, the band on top, the footer, boxes
// to tick, hatching, and how figures are written in the person's units.
//
//	+-------------------------------+
//	|  Title                 Right  |  Top
//	|  Sub                SubRight  |
//	|  ===========================  |  rule
//	|                               |  Body from Page.Top
//	|                               |       to   Page.Bottom
//	|  ---------------------------  |
//	|  Foot     scale · sheet 4 of 7|
//	+-------------------------------+
//
// Everything is black on white and survives a photocopy. A Sheet starts pages,
// Assemble numbers them. It draws no kiln and no pot; packages sheet, levels
// and elevation do.
package frame

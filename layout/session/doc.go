// Package session is one open load while a person works on it: edits with undo
// and redo, findings with their mends, a pot that is held and moved, a shelf
// that stops where the remaining posts make a height, searches in slices.
//
//	text -> Open -> Session -- Apply, Undo, Redo --> State (what the page shows)
//	                   |-- Hold, Move, Drop           Near, ring, sentence
//	                   |-- Lift, Stop, Put            the stops of one shelf
//	                   |-- Spread, RoomForOne         jobs, a slice at a time
//	                   '-- Offer, Take                a plan that came from elsewhere
//
// It is the page's whole logic and knows no page: no pixels, no files, no
// clock. Everything that it tells is JSON with plain field names; lengths are
// mm and every figure that is shown comes with its text in the person's units.
package session

// Package desk is what the page works at: one open load, the pictures that are
// on the page with their sizes, and the 3D picture with its camera. The page
// knows no Go value; it makes calls by name with JSON and gets JSON back:
//
//	Call("move", {"x":210,"y":144})
//
//	{"ok": ...}               what the call answers
//	{"refusal": "sentence"}   it has no meaning; nothing has changed
//	{"fault": "sentence"}     the program is wrong; the page starts it again
//
// The desk is where px become mm: it remembers the frame of every picture it
// has drawn, so that the page forwards where the pointer is and computes
// nothing. Everything it tells comes from package session, views or scene.
//
// It does not know a browser: package main of cmd/viewport hands the strings
// through, and a canvas drives Eye, the part of the desk that is looked at in
// three dimensions. So the whole vocabulary is tested natively.
package desk

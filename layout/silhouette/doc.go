// Package silhouette fills in what a person did not say about a row of ware:
// from the name the usual form, and from the form the foot, the profile, the
// handles, the spout and the knob that go with the height and the width.
//
// Only what is empty is filled, and what was filled is named, so that it can
// be shown as "assumed". The forms are common practice, from memory, rounded
// to figures that are easy to check on a table of pots; they are good for
// pictures and for where a foot stands, and package stacks never lets pots
// interlock on the strength of them.
//
//	 mug      bowl       plate        bottle   teapot
//	 ____    \     /   \_       _/     ||     __o_
//	|    |D   \   /      \_____/      /  \   \    |D
//	|____|     \_/                   |____|   \___|
package silhouette

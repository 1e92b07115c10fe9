// Package begin makes a new load of a few answers: how large the kiln is
// inside, which shelves and posts there are, which cone is fired. What is not
// answered is assumed after common practice and told.
//
//	"sided 12 712 x 686"        Kiln ---.
//	"6 half round 660 x 19"     Shelves -+-> Load, and a sentence for each
//	"6 of 25, 50, 100"          Posts --'    thing assumed
//
// The command line and the first page of a new load share it. It writes no
// files and arranges nothing.
package begin

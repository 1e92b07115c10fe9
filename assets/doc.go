// Package assets holds the files that are built into the program. It has no
// code of its own beyond reading them.
package assets

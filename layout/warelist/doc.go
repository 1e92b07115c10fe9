// Package warelist reads and writes ware rows as people type and paste them:
// the short form, one line a row, and CSV.
package warelist

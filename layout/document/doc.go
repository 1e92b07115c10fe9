// Package document reads and writes the load document: one TOML file per load,
// strict, versioned, in one canonical form, with the comments that people put
// into it.
//
//	bytes --plant--> tree --migrate--> tree --read--> layout.Load
//	                  |                                   |
//	                  | comments, by what they stand at   | writeBody
//	                  v                                   v
//	                 transplant <-------plant-------- canonical bytes
//
// Every table of the file is described once, by its fields in canonical order
// (loadTable, wareTable, ...). The description reads, writes and explains the
// table, so Parse, Format and Schema cannot drift apart. Laws, each with a test:
//
//	Parse(Format(l)) == l
//	Format(Parse(b)) == b            for canonical b
//	Update(b, Parse(b)) == b         for canonical b with comments
//	Update loses no comment
//
// Parse refuses what has no meaning: unknown keys, wrong types, figures that
// are no measures, counts beyond what can be planned, names used twice or not
// at all, towers on nothing. It tells all of it at once, by line and column.
// What has a meaning and is unwise (a pot taller than the kiln, a post over
// air) reads; package clearance judges it.
//
// # The file
//
// Keys stand as in the example in testdata. A few that it does not show:
//
//   - A shape is told by shape = "round" (across), "half round" (across, depth),
//     "sided" (sides, across_flats, flat_at), "half sided" (sides, across_flats,
//     depth), "oval" or "half oval" (width, depth), "rectangle" (width, depth,
//     corner). Where sides are given the word may be left out.
//   - Posts of a matched set have a name; make-ups say it in brackets:
//     "100 (short) + 5".
//   - A level has locked = true, or locked_pots = ["mug 1"] for some of its pots.
//   - [[cones]] has name and pack = ["5", "6", "7"]; a pack is set by its name.
//   - Rules are changed by name, only the columns that differ:
//     "pot to pot" = { plan = 8 }.
//   - In a load in inches a length that is no fraction of an inch down to 1/64
//     is written in mm: "34.5 mm".
//
// Formats of other versions are brought to the newest one by a table of steps;
// each version has a file in testdata/versions.
package document

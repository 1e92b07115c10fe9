// Package stacks turns a load into solids with heights, once: which heights
// the owned posts can make, what furniture is used, and Build, the flattened
// load that every check, picture and planner reads.
//
// It judges nothing; package clearance does.
package stacks

// Package planner decides how a load is stacked: how the kiln is divided into
// towers, which storeys each tower gets and on which posts, which pots stand on
// which level, where, turned how.
//
// It works in three widening rings:
//
//	divisions   full shelves, two halves, full below and halves above,
//	            half, board and half, shelves side by side    (site.go)
//	storeys     lists of heights that the owned posts make, ranked by a
//	            quick estimate of what they would hold        (storeys.go, estimate.go)
//	shelves     the pots of a level, packed round its posts
//	            at the plan distances                         (level.go, package packing)
//
// A plan counts only after package clearance has found no problem in it. The
// search holds its best plan from early on, improves it, and can be stopped at
// any moment. Work is counted in units of package packing, never in time: the
// same load, wishes, seed and work give the same bytes.
//
// Beside a plan stands a bound, what nobody can exceed (bound.go, package bounds).
//
// It plans one firing; package firings splits a list into several.
package planner

// Package sample builds the loads that the paper's tests draw: invented
// kilns with their ware set by a plain first fit. The arrangement is clear of
// posts, edges and neighbours by the figures of the rules, but nobody planned
// it: package planner does that.
package sample

// Package tree holds the test that keeps the project's rooms in their order:
//
//	geometry <- layout <- render <- cmd      assets: embedded files
//
// Each room imports only rooms to its left.
package tree

// Package whole holds tests that no single package can make: they take the
// sample loads and their reference arrangements through everything there is,
// from the file to the hands and the paper.
//
//	file -> document -> stacks -> clearance   a reference passes the check
//	                           -> order       hands can set it, pot by pot
//	                           -> edit        every mend offered works
//	                           -> render      every page can be read
//
// It has no code of its own.
package whole

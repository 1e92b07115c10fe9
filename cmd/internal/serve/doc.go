// Package serve answers the page: its files, the loads of a folder, plans,
// papers and the steps at the kiln, over HTTP on this computer, or, when asked,
// for a phone or tablet in the studio.
//
//	request -> guard (host, origin, path, pairing) -> handler -> folder, search, paper
//	              |                                      |
//	              '---------- refusal: {refusal: "..."} -'
//
// What it keeps out: other sites (Host, Origin and Sec-Fetch-Site are looked
// at on every request, writes want JSON), other devices (loopback only, or a
// pairing code), other files (ids are names in one folder), and endless
// bodies, headers and connections. Handlers return an error; one place makes
// it a status and a sentence. A panic is a fault of the program: 500, and
// nothing is written.
//
// It decides nothing about loads and keeps no load in memory.
package serve

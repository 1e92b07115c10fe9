// Package pagetest drives the page in a browser, as a person does: it builds
// the program, opens a folder of loads, clicks, types and drags, and reads what
// stands on the page, on disk and in the printed PDF.
//
// It holds tests only. They need a Chromium (THREEPOST_BROWSER names one that
// is not on the path), the compiled viewport (make viewport) and, for the
// accessibility audit, axe-core in build/axe; `make browser` installs what is
// missing. Without a browser the tests say so and are left out, unless
// THREEPOST_CI is set: then that is a failure.
package pagetest

// Package page holds what the browser is given: the page's own files, the
// viewport compiled for it, and planned sample loads. It has no code of its
// own beyond reading them.
//
//	web/       styles, scripts and documents, as they are written
//	built/     viewport.wasm.gz and wasm_exec.js, made by `make viewport`
//	samples/   planned loads, copies of testdata/loads/reference
package page

// Package document reads and writes the load document: one TOML file per load.
package document

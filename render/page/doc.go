// Package page makes one lot into one HTML file that a person can play with:
// trees ticked in and out, sun and cost at once, shadows through the year. The
// file holds the ledger's terms and needs no network. The package turns values
// into bytes; it knows no files.
package page

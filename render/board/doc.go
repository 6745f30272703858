// Package board draws many lots on one page: small plans with their figures
// beside them, twelve a page, for two minutes at a table.
package board

// Package study puts the pieces together for one lot: it casts the scene once,
// reads solar access off the ledger for today, for every plan and for the lot
// without trees, ranks the removals for each target, works out what the sun is
// worth in heat and money, and shapes the results for tables, files and
// pictures. It reads and writes no files.
package study

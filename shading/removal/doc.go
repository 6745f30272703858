// Package removal answers which trees to take out, in what order, for what
// money, and how sure the answer is. It works on a Game, the sum that the
// shading ledger boils down to for one target, and on a list of Candidates with
// their costs. It knows no sun, no geometry and no files: values in, plain
// structs out that marshal to JSON as they are.
//
// Energy is kWh of the target over its season, money is dollars.
package removal

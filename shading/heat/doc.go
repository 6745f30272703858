// Package heat says what sun on a house is worth: the heat windows, wall air
// heaters and roof hot-water panels put to use, where the panels would hang,
// what that saves in money, and a verdict in plain words.
//
// It casts no rays. Sun comes in hour by hour, already shaded, for each
// window, wall strip or roof panel; results are plain values that marshal to
// JSON as they are. Every assumed figure is returned as a Default with its
// source. Values marked "from memory" were not read in their source by us.
//
// SI inside: m², W/K, °C, kWh; R-values are m²·K/W unless a name says RUS.
package heat

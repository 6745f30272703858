// Package shading says what stands between the sun and each surface of a
// house. It casts the scene at two moments of every hour of the year and for
// every patch of the sky, and keeps who stands in the way in a Ledger. Solar
// access, the worth of a removal and whole plans are then readings of that
// ledger.
package shading

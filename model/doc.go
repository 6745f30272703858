// Package model holds what stands on a lot: the site, its buildings, windows,
// trees and plans, and the flat faces that walls, windows and roof planes are
// made of. It knows neither the sun nor files.
//
// Lengths are metres. Plan coordinates are orb.Point{x east, y north} after
// the sketch has been turned to true north; z is up, and z = 0 is the ground
// at the house. Azimuths are clockwise from true north.
package model

package sun

// horizonAltitude of the sun's centre at sunrise and sunset, degrees: 0.5667°
// of refraction and 0.26667° of half its disk (Reda & Andreas 2008, A.2).
const horizonAltitude = -0.8333

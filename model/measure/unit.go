package measure

// Unit is the length unit that a number without a unit is taken to be in,
// and the system that lengths are shown in.
type Unit int

// The two systems.
const (
	Feet Unit = iota
	Metres
)

// String names the unit.
func (u Unit) String() string {
	if u == Metres {
		return "metres"
	}
	return "feet"
}

// Exact by definition: the international foot of 1959 and what follows from it.
const (
	metresPerFoot = 0.3048
	metresPerInch = 0.0254
	metresPerYard = 0.9144
	m2PerSqFoot   = metresPerFoot * metresPerFoot
	m3PerCuFoot   = m2PerSqFoot * metresPerFoot
	m2PerAcre     = 43560 * m2PerSqFoot
	rsiPerUSR     = 0.17611 // 1 h·ft²·°F/Btu in m²·K/W (ISO 80000-5 / NIST SP 811, app. B)
)

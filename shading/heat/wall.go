package heat

// Layers of an old wood-frame wall with lath and plaster, R in
// h·ft²·°F/Btu. ASHRAE Handbook of Fundamentals, from memory.
const (
	insideFilmRUS  = 0.68
	plasterRUS     = 0.47
	airSpaceRUS    = 0.97
	boardingRUS    = 0.94
	sidingRUS      = 0.81
	outsideFilmRUS = 0.17
	studRUS        = 4.38 // 3½ in of softwood
	framingShare   = 0.20
	celluloseRUS   = 3.7 // an inch, blown (DOE insulation fact sheet, from memory)
	ceilingRUS     = 1.7 // plaster ceiling with both films (ASHRAE, from memory)
)

// parallelPath is the R-value of a wall of which a share is framing, both
// paths losing heat side by side (ASHRAE Fundamentals, parallel-path method).
func parallelPath(framing, rFraming, rCavity float64) float64 {
	return 1 / (framing/rFraming + (1-framing)/rCavity)
}

// FramedWall is the R-value of a 2×4 wall with lath and plaster, board
// sheathing and wood siding whose cavities hold insulation of R cavity
// (m²·K/W); 0 means empty cavities.
func FramedWall(cavity float64) float64 {
	rest := insideFilmRUS + plasterRUS + boardingRUS + sidingRUS + outsideFilmRUS
	in := airSpaceRUS
	if cavity > 0 {
		in = cavity / RSI
	}
	return parallelPath(framingShare, rest+studRUS, rest+in) * RSI
}

// AtticFloor is the R-value (m²·K/W) of a plaster ceiling under depth metres
// of blown cellulose.
func AtticFloor(depth float64) float64 {
	return (ceilingRUS + celluloseRUS*depth/metresPerInch) * RSI
}

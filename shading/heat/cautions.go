package heat

import "github.com/southyard/southyard/model/measure"

// Cautions are short warnings to print beside a topic: "felling", "digging",
// "wall", "roof", "hot water", "windows", "tightening", "air heater", "duct
// coil", for a reader of feet or of metres. They defer to local codes and
// licensed practice and are not legal advice. An unknown topic has none.
func Cautions(topic string, unit measure.Unit) []string {
	var out []string
	for _, text := range cautions[plainName(topic)] {
		out = append(out, readFor(unit, text))
	}
	return out
}

// CautionTopics in the order of the work.
func CautionTopics() []string {
	return []string{"felling", "digging", "tightening", "windows", "wall", "air heater", "roof", "hot water", "duct coil"}
}

const localCode = "State and local codes and the licensed trades decide; this page does not."

var cautions = map[string][]string{
	"felling": {
		"Felling and climbing are not work for trainees: falls and power lines kill. Hire an insured arborist.",
		"Any branch, rope, tool or person within ‹10 ft|3 m (10 ft)› of an overhead wire: stop. It is work for a qualified line-clearance arborist, and the line's owner is told first (ANSI Z133; 29 CFR 1910.269).",
		"A trunk on the lot line belongs to both owners: get the neighbour's consent in writing. A street tree belongs to the city and needs its permit; some places ask a permit for large private trees too.",
		"Shade lost in summer is part of the price. Look at the summer column, and at raising or thinning a crown, before felling.",
		localCode,
	},
	"digging": {
		"Before grinding a stump or digging: call 811 two to three working days ahead. The marks cover public lines only, not private ones.",
	},
	"tightening": {
		"A tighter house can pull flue gas back inside. Have a licensed trade check the draught of every flue after sealing; fit smoke and CO alarms.",
		"Before filling wall cavities look for knob-and-tube wiring, recessed lights and damp; before drilling, for asbestos and vermiculite. Wiring is work for a licensed electrician.",
		localCode,
	},
	"windows": {
		"More winter sun can mean more summer heat. Look at the summer column; shade outside (overhang, awning, blind) works better than inside.",
		"Glass low down or near doors, stairs and tubs must be safety glazing by code; keep children in mind.",
		"Built before 1978: window work counts as lead-paint work whatever its size (EPA RRP rule, 40 CFR 745 subpart E).",
		localCode,
	},
	"wall": {
		"Old paint under mounting rails: in a house built before 1978, disturbing ‹20 ft²|20 ft² (1.9 m²)› or more of outside paint for pay needs an EPA-certified firm and renovator (40 CFR 745 subpart E); owners should work the same way.",
		"Fix rails to studs, not to siding, and keep water out of every hole.",
		localCode,
	},
	"air heater": {
		"Glass within reach of children and balls: tempered glass or plastic, set out of reach where it can be.",
		"A panel with no flow can pass ‹212 °F (100 °C)|100 °C (212 °F)›. No foam, wood or plastic sealed against the absorber; in summer cover it or vent it outdoors.",
		"Fit a back-draught damper for the night, screens on the openings, and keep clear of flues and gas meters.",
		"Fan and thermostat on a grounded circuit, wired by a licensed electrician.",
		localCode,
	},
	"roof": {
		"Fall protection from ‹6 ft|6 ft (1.8 m)› up on every roof job: guardrail, net or harness (29 CFR 1926.501(b)(13)). No roof work in wind, frost or rain.",
		"Flat panels with fluid weigh about ‹3–5 lb/ft²|15–25 kg/m² (3–5 lb/ft²)›, tanks on the roof far more. Have dead load, snow drift and wind uplift checked before mounting (ASCE 7, local code).",
		"Replace a worn roof first; taking panels off again costs more than waiting.",
		"Fire crews need paths and a clear ridge: the setbacks shown are common practice, the local fire code rules.",
		localCode,
	},
	"hot water": {
		"Scald: water at ‹140 °F|60 °C (140 °F)› burns adults deeply in about 5–15 seconds and children sooner; a solar tank can pass ‹165 °F|74 °C (165 °F)›. A thermostatic mixing valve at the outlet (ASSE 1017) is standard practice. Lowering the water heater's thermostat does not limit the solar side.",
		"Legionella grows at about ‹68–122 °F|20–50 °C (68–122 °F)›, where a preheat tank often stands. Let the water heater bring what leaves it to ‹140 °F|60 °C (140 °F)›, and mix down after.",
		"Stagnation: with no flow a panel in full sun stands about ‹240 °F|130 °C (240 °F)› (flat plate) or ‹390 °F|215 °C (390 °F)› (evacuated tube) above the air. Relief valve and expansion vessel in the loop, no valve between panel and relief, a plan for vacations.",
		"Temperature-and-pressure valve on the tank; food-grade antifreeze and the heat exchanger your code asks for.",
		"Plumbing, gas and wiring are work for licensed trades.",
		localCode,
	},
	"duct coil": {
		"Water that may stagnate in the coil must not flow back to the taps: a closed loop with its own pump and a heat exchanger, as the plumbing code asks; never tank water of the house standing in a coil all summer.",
		"A coil narrows the duct: have the furnace's air flow checked, or its heat exchanger may overheat. It hangs behind the furnace, not before it.",
		"An antifreeze loop or a shut damper where the duct runs through an unheated attic: coils burst in frost. A drain pan under it.",
		"Control: no flow while the tank is wanted for hot water or the house is warm. Wiring and gas appliances are for licensed trades.",
		localCode,
	},
}

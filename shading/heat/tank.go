package heat

import "math"

// TankRun is a year of the solar tank as one well-stirred lump, kWh: an
// independent check of the monthly method. Useful is the draw above what the
// same tank would give without panels (a room warms cold water too).
type TankRun struct {
	Useful    float64 `json:"useful_kwh"`
	Collected float64 `json:"collected_kwh"`
	Drawn     float64 `json:"drawn_kwh"`
	Lost      float64 `json:"lost_kwh"` // to the room; negative: the room warmed the tank
	SpaceHeat float64 `json:"space_heat_kwh"`
	Stored    float64 `json:"stored_kwh"`
	Residual  float64 `json:"residual_kwh"`
	PumpHours float64 `json:"pump_hours"`
	CoilHours float64 `json:"coil_hours,omitempty"`
	IdleHours float64 `json:"idle_sunny_hours"` // tank full while the sun shone: the panel stands hot
	Hottest   float64 `json:"hottest_c"`

	usefulBy Months
	spaceBy  []float64
}

const (
	stepsAnHour = 12
	pumpStarts  = 5.0 // K the panel's air-side balance must beat the tank by
)

// run steps the tank through the year twice, so that it starts as it ends.
func (w WaterSystem) run(s Sun, air []float64, mains Months, houseNeed []float64) TankRun {
	with, drawn := w.step(s, air, mains, houseNeed)
	bare := w
	bare.Area, bare.Coil = 0, Coil{}
	_, without := bare.step(s, air, mains, nil)
	for m := range drawn {
		with.usefulBy[m] = (drawn[m] - without[m]) / 1000
	}
	with.Useful = with.usefulBy.Sum()
	return with
}

// step returns the run and the heat drawn by month, Wh.
func (w WaterSystem) step(s Sun, air []float64, mains Months, houseNeed []float64) (run TankRun, drawn Months) {
	tank := w.Tank * waterWh // Wh/K
	area := w.Area * loopEfficiency
	pipes := 0.0
	if w.Area > 0 {
		pipes = pipeLoss(w.Area)
	}
	const dt = 1.0 / stepsAnHour
	tanks := stepper{capacity: tank, dt: dt}
	t := mains[0]
	for pass := 0; pass < 2; pass++ {
		run, drawn = TankRun{Hottest: t}, Months{}
		if houseNeed != nil {
			run.spaceBy = make([]float64, len(air))
		}
		began := t
		for i := range air {
			month := monthOf(i)
			beam, diffuse := s.Hour(i)
			taken := w.Collector.Eta0 * (beam*AngleModifier(w.Collector.B0, s.Incidence[i]) + diffuse*diffuseModifier(w.Collector.B0))
			flow := w.Persons * w.Litres * drawProfile[i%24] * waterWh // W/K of hot water asked
			for k := 0; k < stepsAnHour; k++ {
				cold := mains[month]
				// Power is a + b·T for each way in or out over this step.
				var gain, pull, coil line
				rise := t - air[i]
				loss := w.Collector.A1 + pipes + w.Collector.A2*max(0, rise)
				if w.Area > 0 && taken > 0 {
					switch {
					case taken-loss*(max(0, rise)+pumpStarts) <= 0:
					case t >= w.MaxTank:
						run.IdleHours += dt
					default:
						gain = line{area * (taken + loss*air[i]), -area * loss}
						if rise < 0 { // warm air is no sun: not counted
							gain = line{area * taken, 0}
						}
						run.PumpHours += dt
					}
				}
				if t > cold && w.Hot > cold {
					// A mixing valve draws less of a tank hotter than asked.
					pull = line{-flow * cold, flow}
					if t > w.Hot {
						pull = line{flow * (w.Hot - cold), 0}
					}
				}
				if houseNeed != nil && w.Coil.Conductance > 0 && t > max(w.Coil.KeepAbove, w.Coil.Air) && houseNeed[i] > 0 {
					coil = line{-w.Coil.Conductance * w.Coil.Air, w.Coil.Conductance}
					if coil.at(t) > houseNeed[i] {
						coil = line{houseNeed[i], 0}
					}
				}
				lost := line{-w.TankLoss * w.Room, w.TankLoss}
				next, mean := tanks.advance(gain.less(pull).less(coil).less(lost), t)
				// A step that crosses a limit is taken again with the limited power.
				if full := flow * (w.Hot - cold); pull.at(mean) > full {
					pull = line{full, 0}
					next, mean = tanks.advance(gain.less(pull).less(coil).less(lost), t)
				}
				if coil != (line{}) && coil.at(mean) < 0 { // never from the house to the tank
					coil = line{}
					next, mean = tanks.advance(gain.less(pull).less(lost), t)
				}
				if coil != (line{}) && coil.at(mean) > houseNeed[i] {
					coil = line{houseNeed[i], 0}
					next, mean = tanks.advance(gain.less(pull).less(coil).less(lost), t)
				}
				if gain != (line{}) && next > w.MaxTank {
					rest := line{}.less(pull).less(coil).less(lost)
					gain = line{rest.lack(t, w.MaxTank, tank, dt), 0}
					next, mean = tanks.advance(gain.less(pull).less(coil).less(lost), t)
				}
				run.Collected += gain.at(mean) * dt
				drawn[month] += pull.at(mean) * dt
				run.Lost += lost.at(mean) * dt
				if coil != (line{}) {
					run.SpaceHeat += coil.at(mean) * dt
					run.spaceBy[i] += coil.at(mean) * dt
					run.CoilHours += dt
				}
				t = next
				run.Hottest = max(run.Hottest, t)
			}
		}
		run.Stored = tank * (t - began)
	}
	run.Drawn = drawn.Sum()
	run.Residual = run.Collected - run.Drawn - run.Lost - run.SpaceHeat - run.Stored
	for _, x := range []*float64{&run.Collected, &run.Drawn, &run.Lost, &run.SpaceHeat, &run.Stored, &run.Residual} {
		*x /= 1000
	}
	return run, drawn
}

// line is a power that changes straight with temperature: a + b·T.
type line struct{ a, b float64 }

func (l line) at(t float64) float64 { return l.a + l.b*t }

func (l line) less(m line) line { return line{l.a - m.a, l.b - m.b} }

// lack is the steady power to add to l for t to become end after dt hours.
func (l line) lack(t, end, capacity, dt float64) float64 {
	k := l.b / capacity * dt
	if math.Abs(k) < 1e-9 {
		return (end-t)*capacity/dt - l.at(t)
	}
	settles := (end - t*math.Exp(k)) / -math.Expm1(k)
	return -l.b*settles - l.a
}

// stepper advances one tank by equal steps and keeps the last exponential,
// which through a night is that of every step.
type stepper struct{ capacity, dt, k, grow float64 }

// advance solves capacity·dT/dt = l exactly over dt hours: the end and the
// mean temperature.
func (s *stepper) advance(l line, t float64) (end, mean float64) {
	capacity, dt := s.capacity, s.dt
	k := l.b / capacity * dt
	if math.Abs(k) < 1e-9 {
		d := l.at(t) / capacity * dt
		return t + d, t + d/2
	}
	settles := -l.a / l.b
	if k != s.k {
		s.k, s.grow = k, math.Expm1(k)
	}
	grow := s.grow
	return settles + (t-settles)*(1+grow), settles + (t-settles)*grow/k
}

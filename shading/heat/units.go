package heat

// Exact conversions (NIST SP 811, from the definitions of foot, pound and
// International Table Btu).
const (
	JoulesPerBtu  = 1055.05585262
	BtuPerKWh     = 3.6e6 / JoulesPerBtu
	KWhPerMMBtu   = 1e6 / BtuPerKWh
	LitresPerGal  = 3.785411784
	metresPerFoot = 0.3048
	metresPerInch = 0.0254
	// RSI is one US R-value (h·ft²·°F/Btu) in m²·K/W.
	RSI = metresPerFoot * metresPerFoot * 3600 / (JoulesPerBtu * 1.8)
)

// waterWh is the heat that warms a litre of water by 1 K, Wh: 4186 J/kg·K at
// about 1 kg/L (handbook value, common knowledge).
const waterWh = 4186.0 / 3600

// Fahrenheit of a temperature in °C.
func Fahrenheit(celsius float64) float64 { return celsius*1.8 + 32 }

// Celsius of a temperature in °F.
func Celsius(fahrenheit float64) float64 { return (fahrenheit - 32) / 1.8 }

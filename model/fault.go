package model

import (
	"errors"
	"fmt"
	"math"

	"github.com/southyard/southyard/model/measure"
)

// Severity tells whether a fault stops the work.
type Severity string

// The severities.
const (
	FaultError   Severity = "error"   // nothing can be computed from it
	FaultWarning Severity = "warning" // possible, but worth a second look
)

// Fault is something wrong with a site or a building. Field says where, by
// the keys of the site file with list places counted from 0:
// house.parts[0].roof.pitch. A fault that a building reports has its field
// counted from the building.
type Fault struct {
	Field    string
	Wrong    string // what is wrong
	Right    string // what would be right
	Severity Severity
}

// Error is the fault in one line.
func (f Fault) Error() string {
	s := f.Wrong
	if f.Field != "" {
		s = f.Field + ": " + s
	}
	if f.Right != "" {
		s += "; right would be: " + f.Right
	}
	return s
}

// at puts a path before the fault's field.
func (f Fault) at(path string) Fault {
	f.Field = joined(path, f.Field)
	return f
}

// asFault keeps a Fault and makes one of any other error.
func asFault(err error) Fault {
	var f Fault
	if errors.As(err, &f) {
		return f
	}
	return Fault{Wrong: err.Error(), Severity: FaultError}
}

func joined(path, field string) string {
	switch {
	case field == "":
		return path
	case path == "":
		return field
	}
	return path + "." + field
}

func faultOf(field, right, format string, args ...any) Fault {
	return Fault{Field: field, Wrong: fmt.Sprintf(format, args...), Right: right, Severity: FaultError}
}

// bothUnits writes a length for readers whose unit is not known here.
func bothUnits(metres float64) string {
	if math.IsNaN(metres) || math.IsInf(metres, 0) {
		return "not a number"
	}
	return fmt.Sprintf("%s (%s)", measure.FormatLength(metres, measure.Feet), measure.FormatLength(metres, measure.Metres))
}

// Limits on what a site may hold, so that no file can take all memory.
const (
	farthest     = 5000.0 // m from the origin
	maxTrees     = 5000
	maxWindows   = 1000
	maxParts     = 100 // of one building
	maxBuildings = 2000
	maxFences    = 2000
	maxPlans     = 500
	maxSteps     = 5000 // of one plan
	maxLotPoints = 2000
)

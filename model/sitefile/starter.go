package sitefile

import _ "embed"

//go:embed starter.yaml
var starter string

// Starter is a commented site file to begin from. It reads without faults.
func Starter() []byte { return []byte(starter) }

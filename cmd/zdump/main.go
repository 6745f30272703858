package main

import (
	"fmt"
	"os"

	"github.com/golang/geo/r3"
	"github.com/southyard/southyard/model/sitefile"
	"github.com/southyard/southyard/sun/climate"
	"github.com/southyard/southyard/sun/sky"
	"github.com/southyard/southyard/shading"
)

func main() {
	b, _ := os.ReadFile(os.Args[1])
	site, err := sitefile.Read(os.Args[1], b)
	if site == nil { fmt.Fprintln(os.Stderr, err); os.Exit(1) }
	y, _, e := climate.ForSite(site.Place, site.Climate, os.ReadFile, 1)
	if e != nil { panic(e) }
	sc, e := shading.NewScene(site)
	if e != nil { panic(e) }
	fmt.Printf("# calendar %d offset %v\n", y.Calendar, y.Offset)
	fmt.Println("i,up,extra,beam,diffuse,global,albedo,surf...")
	for i, h := range y.Hours {
		fmt.Printf("%d,%.6f,%.3f,%.5f,%.5f,%.5f,%.4f", i, h.Up, h.Extra, h.Beam, h.Diffuse, h.Global, h.Albedo)
		for _, id := range []string{"south", "W2", "roof-south"} {
			n := r3.Vector{}
			for _, s := range sc.Surfaces { if s.ID == id { n = s.Face.N } }
			p := sky.OnPlane(h, n, sky.Anisotropic)
			fmt.Printf(",%.4f,%.4f,%.4f,%.4f,%.4f", p.Beam, p.Circumsolar, p.Dome, p.Horizon, p.Ground)
		}
		fmt.Println()
	}
}

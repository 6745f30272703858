package shading

import (
	"fmt"
	"math"
	"strings"

	"github.com/golang/geo/r3"
	"github.com/golang/geo/s1"
	"github.com/southyard/southyard/model"
)

// BlockerKind is what a blocker is.
type BlockerKind string

// The kinds of blocker.
const (
	Crown     BlockerKind = "crown"
	Trunk     BlockerKind = "trunk"
	Structure BlockerKind = "structure"
)

// Optics is how much sun passes a blocker, between 0 (all is stopped) and 1
// (nothing stands there): in leaf and bare, and when it is which.
type Optics struct {
	InLeaf, Bare float64
	Evergreen    bool
	Leafing      model.Leafing
}

// Clear lets everything pass.
var Clear = Optics{InLeaf: 1, Bare: 1, Evergreen: true}

// Opaque lets nothing pass.
var Opaque = Optics{Evergreen: true}

// Blocker is one thing that stands in the way and that a plan could change.
// The crown and the trunk of a tree are two blockers of one thing. A blocker
// with Variant set is not there today: it stands for what a plan would make of
// the thing (a raised crown), or for a new thing.
type Blocker struct {
	Thing   string // id of the tree or structure
	Kind    BlockerKind
	Variant string // "" for what stands today
	Optics  Optics
	solids  []model.Solid
	screens []model.Face
	footing []model.Face // stands before the ground alone; see model.Building.Footing
}

// Surface is a receiver: a wall without its windows, a window, or a roof plane.
type Surface struct {
	ID   string
	Kind model.FaceKind
	Wall string // for a window, the wall it is in
	Face model.Face
	own  []model.Face // what shades this surface alone: the reveal of a window
	land bool         // a piece of the ground as it lies, not a level stand-in for it
}

// Reveal are the faces of a window's reveal, which shade its glass alone; nil
// for other surfaces.
func (s *Surface) Reveal() []model.Face { return s.own }

// Words name a surface as a sentence does: "south wall", "south roof",
// "window W2".
func (s *Surface) Words() string {
	switch s.Kind {
	case model.WallFace:
		return s.ID + " wall"
	case model.WindowFace:
		return "window " + s.ID
	}
	if side, ok := strings.CutPrefix(s.ID, "roof-"); ok {
		return side + " roof"
	}
	if s.ID == "roof" {
		return s.ID
	}
	return "roof plane " + s.ID
}

// Scene is everything that receives or stops sun on a lot.
type Scene struct {
	Surfaces []Surface
	Blockers []Blocker
	house    []model.Face // stands whatever the plan
	land     []model.Face // the ground between spot heights, which no plan moves either
	ground   model.Ground
	footing  []model.Face // of the house, before the ground alone
	terrain  model.Terrain
}

// NewScene builds the scene of a site as it is. Surfaces are the house's
// walls, windows and roof planes, in that order; blockers are trees, then
// neighbours, porches and fences.
func NewScene(site *model.Site) (*Scene, error) {
	faces, err := site.House.Faces()
	if err != nil {
		return nil, fmt.Errorf("house: %w", err)
	}
	ground := site.Ground()
	sc := &Scene{house: site.House.Screens(), terrain: site.Terrain, ground: ground, land: ground.Faces(farthestLand), footing: site.House.Footing(ground)}
	glass := map[string][]model.Face{}
	var windows []Surface
	for _, w := range site.Windows {
		wall, err := model.FindWall(faces, w.Wall)
		if err != nil {
			return nil, fmt.Errorf("window %s: %w", w.ID, err)
		}
		face, reveal, err := model.GlassFace(w, wall)
		if err != nil {
			return nil, fmt.Errorf("window %s: %w", w.ID, err)
		}
		glass[wall.ID] = append(glass[wall.ID], face)
		windows = append(windows, Surface{ID: w.ID, Kind: model.WindowFace, Wall: wall.ID, Face: face, own: reveal})
	}
	for _, f := range faces {
		if f.Kind == model.WallFace {
			sc.Surfaces = append(sc.Surfaces, Surface{ID: f.ID, Kind: f.Kind, Face: model.CutWindows(f, glass[f.ID])})
		}
	}
	sc.Surfaces = append(sc.Surfaces, windows...)
	for _, f := range faces {
		if f.Kind == model.RoofFace {
			sc.Surfaces = append(sc.Surfaces, Surface{ID: f.ID, Kind: f.Kind, Face: f})
		}
	}
	for i := range site.Trees {
		sc.AddTree(&site.Trees[i], "")
	}
	for _, buildings := range [][]model.Building{site.Neighbours, site.Porches} {
		for i := range buildings {
			b := &buildings[i]
			if _, err := b.Faces(); err != nil { // it would cast no shadow
				return nil, fmt.Errorf("building %s: %w", b.ID, err)
			}
			sc.AddBuilding(b, "")
		}
	}
	for i := range site.Fences {
		sc.AddFence(&site.Fences[i], "")
	}
	return sc, nil
}

// treeOptics is how the crown of a tree passes the sun.
func treeOptics(t *model.Tree) Optics {
	return Optics{InLeaf: t.InLeaf, Bare: t.Bare, Evergreen: t.Evergreen, Leafing: t.Leafing}
}

// AddTree adds a tree's crown and trunk as blockers and returns the number of
// the crown; the trunk follows it. A raised crown still holds the trunk that
// it bared.
func (sc *Scene) AddTree(t *model.Tree, variant string) int {
	sc.Blockers = append(sc.Blockers,
		Blocker{Thing: t.ID, Kind: Crown, Variant: variant, Optics: treeOptics(t), solids: []model.Solid{t.Crown(), t.BaredTrunk()}},
		Blocker{Thing: t.ID, Kind: Trunk, Variant: variant, Optics: Opaque, solids: []model.Solid{t.TrunkSolid()}})
	return len(sc.Blockers) - 2
}

// AddBuilding adds a neighbour's house, a shed or a porch as one blocker.
func (sc *Scene) AddBuilding(b *model.Building, variant string) int {
	sc.Blockers = append(sc.Blockers, Blocker{Thing: b.ID, Kind: Structure, Variant: variant, Optics: Opaque, screens: b.Screens(), footing: b.Footing(sc.ground)})
	return len(sc.Blockers) - 1
}

// AddFence adds a fence as a blocker.
func (sc *Scene) AddFence(f *model.Fence, variant string) int {
	o := Optics{InLeaf: f.Transmissivity, Bare: f.Transmissivity, Evergreen: true}
	sc.Blockers = append(sc.Blockers, Blocker{Thing: f.ID, Kind: Structure, Variant: variant, Optics: o, screens: f.Screens()})
	return len(sc.Blockers) - 1
}

// SurfaceNamed finds a surface by id, or -1.
func (sc *Scene) SurfaceNamed(id string) int {
	for i := range sc.Surfaces {
		if sc.Surfaces[i].ID == id {
			return i
		}
	}
	return -1
}

// plateOf makes a surface ready for casting.
func (sc *Scene) plateOf(s *Surface, step float64, heights []float64) *plate {
	p := newPlate(s.Face, step, heights)
	for _, f := range sc.landBefore(s, p) {
		for _, sheet := range sheetsBefore(p, house, f) {
			p.sheets = append(p.sheets, sheet)
			if s.land {
				p.facing = append(p.facing, f.N)
			}
		}
	}
	for _, f := range sc.house {
		if s.Wall != "" && f.ID == s.Wall {
			continue // glass set back behind its own wall is lit through the opening
		}
		p.sheets = append(p.sheets, sheetsBefore(p, house, f)...)
	}
	for _, f := range s.own {
		p.sheets = append(p.sheets, sheetsBefore(p, house, f)...)
	}
	if s.land {
		for _, f := range sc.footing {
			p.sheets = append(p.sheets, sheetsBefore(p, house, f)...)
		}
	}
	for i := range sc.Blockers {
		b := &sc.Blockers[i]
		for _, f := range b.screens {
			p.sheets = append(p.sheets, sheetsBefore(p, int32(i), f)...)
		}
		if s.land {
			for _, f := range b.footing {
				p.sheets = append(p.sheets, sheetsBefore(p, int32(i), f)...)
			}
		}
		for _, solid := range b.solids {
			if solid.Top <= solid.Bottom {
				continue
			}
			body := newSolidBody(int32(i), solid, &s.Face)
			if body.rel.Dot(s.Face.N)+body.reach(s.Face.N) > inFront {
				p.solids = append(p.solids, body)
			}
		}
	}
	return p
}

// hidden reports whether the land itself, far hills or the rising ground, is
// in front of the given direction.
func (sc *Scene) hidden(direction r3.Vector) bool {
	if direction.Z <= 0 {
		return true
	}
	level := math.Hypot(direction.X, direction.Y)
	if sc.terrain.SlopeRise > 0 {
		sin, cos := math.Sincos(sc.terrain.SlopeUphill.Radians())
		if direction.Z <= sc.terrain.SlopeRise*(direction.X*sin+direction.Y*cos) {
			return true
		}
	}
	if len(sc.terrain.Skyline) == 0 {
		return false
	}
	azimuth := s1.Angle(math.Atan2(direction.X, direction.Y))
	return math.Atan2(direction.Z, level) <= Skyline(sc.terrain.Skyline, azimuth).Radians()
}

// Skyline is the altitude of the far skyline at an azimuth, on a straight line
// between the two readings beside it.
func Skyline(points []model.SkylinePoint, azimuth s1.Angle) s1.Angle {
	const turn = 2 * math.Pi
	at := math.Mod(math.Mod(azimuth.Radians(), turn)+turn, turn)
	n := len(points)
	if n == 0 {
		return 0
	}
	for i := range n {
		a, b := points[i], points[(i+1)%n]
		from := a.Azimuth.Radians()
		width := math.Mod(b.Azimuth.Radians()-from+turn, turn)
		if width == 0 {
			width = turn
		}
		ahead := math.Mod(at-from+turn, turn)
		if ahead <= width {
			return a.Altitude + s1.Angle(ahead/width)*(b.Altitude-a.Altitude)
		}
	}
	return points[0].Altitude
}

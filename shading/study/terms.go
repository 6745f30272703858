package study

import (
	"encoding/binary"

	"github.com/southyard/southyard/shading/removal"
)

// termBook collects the terms of several games over the same trees. Terms with
// the same trees and transmissivities are one, whatever set of blockers and
// moment they come from.
type termBook struct {
	fixed  []float64 // by game: the energy that no player stands in front of
	shapes []shape
	energy [][]float64 // game → by shape
	place  map[string]int32

	kinds [][]kind // player → the transmissivities it was met with
	next  uint32
	lists termLists

	seen []sighting // by set of blockers: when it was entered last

	// Of the set being entered.
	players []int
	taus    []float64
	staying []float64 // what those that are no players let through
	key     []byte
}

// sighting is what each blocker let through when a set was entered, and the shape
// that made; the shape counts from 1.
type sighting struct {
	on    []float64
	shape int32
}

// shape is the trees of a term and what each lets through.
type shape struct {
	trees []int
	taus  []float64
}

// kind numbers a transmissivity of one player.
type kind struct {
	tau    float64
	number uint32
}

func newTermBook(players, games, sets int) *termBook {
	return &termBook{
		fixed: make([]float64, games), energy: make([][]float64, games),
		place: make(map[string]int32, sets), kinds: make([][]kind, players),
		seen: make([]sighting, sets),
	}
}

// enter adds the energies behind set number k of the blockers, a game's at a
// time. Nothing gets through a wall, whatever goes.
func (b *termBook) enter(k int32, set []uint16, playerOf []int, on []float64, energy func(game int) float64) {
	b.staying = b.staying[:0]
	alike := b.seen[k].shape > 0
	for _, blocker := range set {
		if playerOf[blocker] < 0 {
			b.staying = append(b.staying, on[blocker])
		} else if alike {
			alike = b.seen[k].on[blocker] == on[blocker]
		}
	}
	at := int32(-1) // not looked for yet
	if alike {
		at = b.seen[k].shape - 1
	} else {
		b.players, b.taus = b.players[:0], b.taus[:0]
		for _, blocker := range set {
			if p, tau := playerOf[blocker], on[blocker]; p >= 0 && tau < 1 {
				b.cross(p, tau)
			}
		}
	}
	for n := range b.fixed {
		e := energy(n)
		for _, tau := range b.staying {
			e *= tau
		}
		switch {
		case e == 0:
			continue
		case at < 0 && len(b.players) == 0:
			b.fixed[n] += e
			continue
		case at < 0:
			at = b.shape()
			b.seen[k] = sighting{on, at + 1}
		}
		for len(b.energy[n]) <= int(at) {
			b.energy[n] = append(b.energy[n], 0)
		}
		b.energy[n][at] += e
	}
}

// cross puts a player on the term, in its place; crown and trunk of one tree are
// one.
func (b *termBook) cross(player int, tau float64) {
	b.players, b.taus = append(b.players, player), append(b.taus, tau)
	at := len(b.players) - 1
	for ; at > 0 && b.players[at-1] > player; at-- {
		b.players[at], b.taus[at] = b.players[at-1], b.taus[at-1]
	}
	b.players[at], b.taus[at] = player, tau
	if at > 0 && b.players[at-1] == player {
		b.taus[at-1] *= tau
		b.players = append(b.players[:at], b.players[at+1:]...)
		b.taus = append(b.taus[:at], b.taus[at+1:]...)
	}
}

// shape is the number of the term's trees and transmissivities.
func (b *termBook) shape() int32 {
	b.key = b.key[:0]
	for k, p := range b.players {
		b.key = binary.LittleEndian.AppendUint32(b.key, b.kind(p, b.taus[k]))
	}
	at, ok := b.place[string(b.key)]
	if !ok {
		at = int32(len(b.shapes))
		b.place[string(b.key)] = at
		b.shapes = append(b.shapes, b.lists.keep(b.players, b.taus))
	}
	return at
}

// kind is the number of a player with a transmissivity.
func (b *termBook) kind(player int, tau float64) uint32 {
	for _, k := range b.kinds[player] {
		if k.tau == tau {
			return k.number
		}
	}
	b.next++
	b.kinds[player] = append(b.kinds[player], kind{tau, b.next})
	return b.next
}

// game is one of the games.
func (b *termBook) game(n int) removal.Game {
	g := removal.Game{Trees: len(b.kinds), Fixed: b.fixed[n]}
	count := 0
	for _, e := range b.energy[n] {
		if e > 0 {
			count++
		}
	}
	g.Terms = make([]removal.Term, 0, count)
	for at, e := range b.energy[n] {
		if e > 0 {
			g.Terms = append(g.Terms, removal.Term{Energy: e, Trees: b.shapes[at].trees, Tau: b.shapes[at].taus})
		}
	}
	return g
}

// termLists lays lists down in blocks.
type termLists struct {
	trees []int
	taus  []float64
}

func (l *termLists) keep(trees []int, taus []float64) shape {
	if cap(l.trees)-len(l.trees) < len(trees) {
		size := max(1<<14, len(trees))
		l.trees, l.taus = make([]int, 0, size), make([]float64, 0, size)
	}
	first := len(l.trees)
	l.trees, l.taus = append(l.trees, trees...), append(l.taus, taus...)
	last := len(l.trees)
	return shape{l.trees[first:last:last], l.taus[first:last:last]}
}

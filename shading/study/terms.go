package study

import (
	"math"
	"slices"

	"github.com/southyard/southyard/shading/removal"
)

// termBook collects the terms of several games over the same trees. Terms with
// the same trees and transmissivities are one, whatever set of blockers and
// moment they come from.
type termBook struct {
	players int
	fixed   []float64 // by game: the energy that no player stands in front of
	shapes  []shape
	energy  [][]float64 // game → by shape
	place   []int32     // shapes by their mark, from 1, in open addressing; a power of two long
	lists   termLists

	seen []sighting // by set of blockers: when it was entered last

	// Of the set being entered.
	trees   []int
	taus    []float64
	staying []float64 // what those that are no players let through
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

func newTermBook(players, games, sets int) *termBook {
	return &termBook{
		fixed: make([]float64, games), energy: make([][]float64, games),
		place: make([]int32, 1<<10), players: players,
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
		b.trees, b.taus = b.trees[:0], b.taus[:0]
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
		case at < 0 && len(b.trees) == 0:
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
	b.trees, b.taus = append(b.trees, player), append(b.taus, tau)
	at := len(b.trees) - 1
	for ; at > 0 && b.trees[at-1] > player; at-- {
		b.trees[at], b.taus[at] = b.trees[at-1], b.taus[at-1]
	}
	b.trees[at], b.taus[at] = player, tau
	if at > 0 && b.trees[at-1] == player {
		b.taus[at-1] *= tau
		b.trees = append(b.trees[:at], b.trees[at+1:]...)
		b.taus = append(b.taus[:at], b.taus[at+1:]...)
	}
}

// shape is the number of the term's trees and transmissivities.
func (b *termBook) shape() int32 {
	if 2*len(b.shapes) >= len(b.place) {
		b.place = make([]int32, 4*len(b.place))
		for at, s := range b.shapes {
			b.place[b.find(s.trees, s.taus)] = int32(at) + 1
		}
	}
	slot := b.find(b.trees, b.taus)
	if b.place[slot] == 0 {
		b.shapes = append(b.shapes, b.lists.keep(b.trees, b.taus))
		b.place[slot] = int32(len(b.shapes))
	}
	return b.place[slot] - 1
}

// find is the place of a shape, or a free one where it is not in yet.
func (b *termBook) find(trees []int, taus []float64) uint64 {
	mark := uint64(len(trees))
	for k, tree := range trees {
		mark = (mark ^ uint64(tree)) * 0x9E3779B97F4A7C15
		mark = (mark ^ mark>>29 ^ math.Float64bits(taus[k])) * 0xBF58476D1CE4E5B9
		mark ^= mark >> 32
	}
	last := uint64(len(b.place) - 1)
	for slot := mark & last; ; slot = (slot + 1) & last {
		at := b.place[slot]
		if at == 0 || slices.Equal(b.shapes[at-1].trees, trees) && slices.Equal(b.shapes[at-1].taus, taus) {
			return slot
		}
	}
}

// game is one of the games.
func (b *termBook) game(n int) removal.Game {
	g := removal.Game{Trees: b.players, Fixed: b.fixed[n]}
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

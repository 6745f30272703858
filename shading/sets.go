package shading

import (
	"encoding/binary"
	"slices"
)

// setTable numbers the sets of blockers met so far. Set 0 is empty. Moving
// from a set to the one with a blocker more or less is remembered, so that the
// sweep along a row costs one look-up an edge.
type setTable struct {
	sets  [][]uint16
	index map[string]int32
	moves map[uint64]int32
	// A small direct-mapped cache in front of moves.
	cacheKey [512]uint64
	cacheSet [512]int32
}

func newSetTable() *setTable {
	t := &setTable{index: map[string]int32{"": 0}, moves: map[uint64]int32{}}
	t.sets = append(t.sets, nil)
	return t
}

// toggle is the set with blocker b added where it is missing, or taken out
// where it is in.
func (t *setTable) toggle(set int32, b int32) int32 {
	key := uint64(set)<<16 | uint64(b) | 1<<63
	slot := (key * 0x9E3779B97F4A7C15) >> 55
	if t.cacheKey[slot] == key {
		return t.cacheSet[slot]
	}
	next, ok := t.moves[key]
	if !ok {
		next = t.id(toggled(t.sets[set], uint16(b)))
		t.moves[key] = next
	}
	t.cacheKey[slot], t.cacheSet[slot] = key, next
	return next
}

func toggled(set []uint16, b uint16) []uint16 {
	at, in := slices.BinarySearch(set, b)
	if in {
		return slices.Concat(set[:at], set[at+1:])
	}
	return slices.Concat(set[:at], []uint16{b}, set[at:])
}

// id numbers a sorted set.
func (t *setTable) id(set []uint16) int32 {
	name := make([]byte, 2*len(set))
	for i, b := range set {
		binary.LittleEndian.PutUint16(name[2*i:], b)
	}
	if id, ok := t.index[string(name)]; ok {
		return id
	}
	id := int32(len(t.sets))
	t.sets = append(t.sets, set)
	t.index[string(name)] = id
	return id
}

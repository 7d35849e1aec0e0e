package main

import "math"

// noise is a stream of made-up numbers that no library update can change: the
// SplitMix64 generator (Steele, Lea and Flood, Fast splittable pseudorandom
// number generators, OOPSLA 2014).
type noise struct {
	state uint64
	last  float64 // of the persistent series
}

func newNoise(seed uint64) *noise { return &noise{state: seed * 0x51ed2701} }

func (n *noise) next() uint64 {
	n.state += 0x9e3779b97f4a7c15
	z := n.state
	z = (z ^ z>>30) * 0xbf58476d1ce4e5b9
	z = (z ^ z>>27) * 0x94d049bb133111eb
	return z ^ z>>31
}

// normal is near enough to a standard normal: twelve uniform numbers less six.
func (n *noise) normal() float64 {
	sum := -6.0
	for range 12 {
		sum += float64(n.next()>>11) / (1 << 53)
	}
	return sum
}

// persistent is the next of a series with unit variance whose neighbours are
// correlated by r.
func (n *noise) persistent(r float64) float64 {
	n.last = r*n.last + math.Sqrt(1-r*r)*n.normal()
	return n.last
}

package rowflate

import (
	"cmp"
	"math/bits"
	"slices"
)

// code is the bits that stand for a symbol, the first lowest.
type code struct{ bits, width int }

// codesOf are Huffman codes of at most so many bits for symbols that occur so
// often. Deflate wants two symbols at least, so one that occurs alone, or none, has company.
func codesOf(counts []int, most int) []code {
	counts = slices.Clone(counts)
	used := 0
	for _, n := range counts {
		used += min(n, 1)
	}
	for k := 0; used < 2; k++ {
		if counts[k] == 0 {
			counts[k] = 1
			used++
		}
	}
	for {
		widths := widthsOf(counts)
		if slices.Max(widths) <= most {
			return canonical(widths)
		}
		for k, n := range counts { // the rare ones come nearer to the others
			counts[k] = (n + 1) / 2
		}
	}
}

// node is a symbol or two nodes together, with how often they occur.
type node struct{ count, left, right int }

// widthsOf builds the tree and gives how deep each symbol lies.
func widthsOf(counts []int) []int {
	nodes := make([]node, len(counts), 2*len(counts))
	var leaves []int
	for k, n := range counts {
		nodes[k] = node{n, -1, -1}
		if n > 0 {
			leaves = append(leaves, k)
		}
	}
	slices.SortStableFunc(leaves, func(a, b int) int { return cmp.Compare(counts[a], counts[b]) })
	var inner []int // made in order of count
	take := func() (k int) {
		if len(inner) == 0 || len(leaves) > 0 && nodes[leaves[0]].count <= nodes[inner[0]].count {
			k, leaves = leaves[0], leaves[1:]
		} else {
			k, inner = inner[0], inner[1:]
		}
		return k
	}
	for len(leaves)+len(inner) > 1 {
		a, b := take(), take()
		inner = append(inner, len(nodes))
		nodes = append(nodes, node{nodes[a].count + nodes[b].count, a, b})
	}
	depth := make([]int, len(nodes))
	for k := len(nodes) - 1; k >= len(counts); k-- {
		depth[nodes[k].left], depth[nodes[k].right] = depth[k]+1, depth[k]+1
	}
	return depth[:len(counts)]
}

// canonical gives codes of the given widths in the order of RFC 1951, 3.2.2.
func canonical(widths []int) []code {
	codes := make([]code, len(widths))
	next := 0
	for width := 1; width <= slices.Max(widths); width++ {
		for k, w := range widths {
			if w == width {
				codes[k] = code{int(bits.Reverse16(uint16(next)) >> (16 - width)), width}
				next++
			}
		}
		next <<= 1
	}
	return codes
}

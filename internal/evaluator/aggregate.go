package evaluator

import (
	"math"
	"slices"
)

func sum(c *calculation, args []node) value {
	total := 0.0
	if bad := c.values(args, func(x float64) { total += x }); bad.kind == failure {
		return bad
	}
	return numberOf(total)
}

func average(c *calculation, args []node) value {
	total, n := 0.0, 0
	if bad := c.values(args, func(x float64) { total += x; n++ }); bad.kind == failure {
		return bad
	}
	return mean(total, n)
}

func mean(total float64, n int) value {
	if n == 0 {
		return errDiv
	}
	return numberOf(total / float64(n))
}

// count counts the numbers; errors are none.
func count(c *calculation, args []node) value {
	n := 0
	for _, arg := range args {
		a, bad, isRef := c.areaOf(arg)
		if !isRef {
			if v := arg.eval(c).toNumber(); v.kind == number {
				n++
			}
			continue
		}
		if bad.kind != failure {
			c.cells(a, func(v value) bool {
				refuseLogical(v)
				if v.kind == number {
					n++
				}
				return true
			})
		}
	}
	return numberOf(float64(n))
}

// extreme is MAX or MIN; of nothing it is 0.
func extreme(beyond func(a, b float64) bool) func(c *calculation, args []node) value {
	return func(c *calculation, args []node) value {
		best, any := 0.0, false
		bad := c.values(args, func(x float64) {
			if !any || beyond(x, best) {
				best, any = x, true
			}
		})
		if bad.kind == failure {
			return bad
		}
		return numberOf(best)
	}
}

// sorted are the numbers of arguments in order.
func (c *calculation) sorted(args []node) (all []float64, bad value) {
	bad = c.values(args, func(x float64) { all = append(all, x) })
	slices.Sort(all)
	return all, bad
}

func median(c *calculation, args []node) value {
	all, bad := c.sorted(args)
	if bad.kind == failure {
		return bad
	}
	return quantile(all, 0.5)
}

func percentile(c *calculation, args []node) value {
	all, bad := c.sorted(args[:1])
	share := args[1].eval(c).toNumber()
	switch {
	case bad.kind == failure:
		return bad
	case share.kind == failure:
		return share
	case share.num < 0 || share.num > 1:
		return errNum
	}
	return quantile(all, share.num)
}

// quantile interpolates between the two values beside rank 1 + share (n - 1).
func quantile(all []float64, share float64) value {
	if len(all) == 0 {
		return errNum
	}
	rank := share * float64(len(all)-1)
	low := int(math.Floor(rank))
	if low+1 == len(all) {
		return numberOf(all[low])
	}
	return numberOf(all[low] + (rank-float64(low))*(all[low+1]-all[low]))
}

func large(c *calculation, args []node) value {
	all, bad := c.sorted(args[:1])
	k := args[1].eval(c).toNumber()
	switch {
	case bad.kind == failure:
		return bad
	case k.kind == failure:
		return k
	case k.num < 1 || math.Ceil(k.num) > float64(len(all)):
		return errNum
	}
	return numberOf(all[len(all)-int(math.Ceil(k.num))])
}

// slope is that of the line of least squares through the pairs in which both
// values are numbers: y first, then x.
func slope(c *calculation, args []node) value {
	y, x := c.matrixOf(args[0]), c.matrixOf(args[1])
	if len(x.values) != len(y.values) {
		return errNA
	}
	var n, meanX, meanY, xx, xy float64
	for i := range x.values {
		a, b := x.values[i], y.values[i]
		switch {
		case a.kind == failure:
			return a
		case b.kind == failure:
			return b
		case a.kind != number || b.kind != number:
			continue
		}
		n++
		dx := a.num - meanX
		meanX += dx / n
		meanY += (b.num - meanY) / n
		xx += dx * (a.num - meanX)
		xy += dx * (b.num - meanY)
	}
	if xx == 0 {
		return errDiv
	}
	return numberOf(xy / xx)
}

// sumProduct multiplies cell by cell and adds up; what is no number counts as 0.
func sumProduct(c *calculation, args []node) value {
	product := c.matrixOf(args[0])
	for _, n := range args[1:] {
		m := c.matrixOf(n)
		if m.rows != product.rows || m.cols != product.cols {
			return errValue
		}
		product = combine(product, m, func(a, b value) value {
			if a.kind == failure || b.kind == failure || a.kind == number && b.kind == number {
				return operation["*"](a, b)
			}
			return value{kind: number}
		})
	}
	total := 0.0
	for _, v := range product.values {
		if v.kind == failure {
			return v
		}
		if v.kind == number {
			total += v.num
		}
	}
	return numberOf(total)
}

func countIfs(c *calculation, args []node) value {
	n := 0
	if bad := c.where(args, func(int, int) { n++ }); bad.kind == failure {
		return bad
	}
	return numberOf(float64(n))
}

func sumIfs(c *calculation, args []node) value {
	total := 0.0
	if bad := c.whereNumbers(args[0], args[1:], func(x float64) { total += x }); bad.kind == failure {
		return bad
	}
	return numberOf(total)
}

func averageIfs(c *calculation, args []node) value {
	total, n := 0.0, 0
	if bad := c.whereNumbers(args[0], args[1:], func(x float64) { total += x; n++ }); bad.kind == failure {
		return bad
	}
	return mean(total, n)
}

package climate

import (
	"math"
	"math/rand/v2"
	"sort"
)

// leastClearness of a day: Bendt, Collares-Pereira & Rabl 1981.
const leastClearness = 0.05

// mostClearness of a day in a month of mean clearness k: Hollands, K.G.T. &
// Huget, R.G., A probability density function for the clearness index, Solar
// Energy 30 (1983) 195–209, from memory.
func mostClearness(k float64) float64 {
	return 0.6313 + 0.267*k - 11.9*math.Pow(k-0.75, 8)
}

// dailyClearness is the clearness of n days, dullest first, of a month whose
// mean clearness is k: the quantiles of the distribution of Bendt, P.,
// Collares-Pereira, M. & Rabl, A., The frequency distribution of daily
// insolation values, Solar Energy 27 (1981) 1–5, from memory. Their share of
// days below K is (e^(γKmin) − e^(γK))/(e^(γKmin) − e^(γKmax)); γ follows
// from the mean by bisection. The quantiles' mean is k within 0.01.
func dailyClearness(k float64, n int) []float64 {
	low, high := leastClearness, mostClearness(k)
	out := make([]float64, n)
	if !(k > low+0.01 && k < high-0.01) {
		for i := range out { // no room for a spread
			out[i] = k
		}
		return out
	}
	a, b := -60.0, 60.0
	for range 60 {
		if middle := (a + b) / 2; bendtMean(middle, low, high) < k {
			a = middle
		} else {
			b = middle
		}
	}
	gamma := (a + b) / 2
	for i := range out {
		p := (float64(i) + 0.5) / float64(n)
		out[i] = bendtQuantile(p, gamma, low, high)
	}
	return out
}

// bendtMean is Bendt et al. 1981 eq. 9, written about the lower end so that
// it neither overflows nor divides by zero.
func bendtMean(gamma, low, high float64) float64 {
	w := high - low
	if x := gamma * w; math.Abs(x) > 1e-6 {
		return low + w*(1/(1-math.Exp(-x))-1/x)
	}
	return low + w/2
}

func bendtQuantile(p, gamma, low, high float64) float64 {
	w := high - low
	if math.Abs(gamma*w) < 1e-6 {
		return low + p*w
	}
	return low + math.Log1p(p*math.Expm1(gamma*w))/gamma
}

// clearnessPersistence is the correlation of a day's clearness, as a normal
// deviate, with the day's before: Graham, V.A., Hollands, K.G.T. & Unny, T.E.,
// A time series model for Kt with application to global synthetic weather
// generation, Solar Energy 40 (1988) 83–92, from memory.
const clearnessPersistence = 0.29

// orderDraws is how many orders of a month are drawn to keep the evenest.
const orderDraws = 16

// weatherOrder gives each of 365 days a rank of clearness among the days of
// its month, 0 dullest: a first-order autoregression, ranked month by month.
// Of several draws a month the one is kept in which clear and dull days are
// most evenly spread from the month's beginning to its end, since twelve
// figures say nothing about that and the sun's height changes within the month.
func weatherOrder(random *rand.Rand) []int {
	order := make([]int, 0, 365)
	previous := random.NormFloat64()
	for m := range 12 {
		n := int(days(m))
		var best []int
		least, last := math.Inf(1), previous
		for range orderDraws {
			z := make([]float64, n)
			at := previous
			for d := range z {
				at = clearnessPersistence*at + math.Sqrt(1-clearnessPersistence*clearnessPersistence)*random.NormFloat64()
				z[d] = at
			}
			ranks := ranksOf(z)
			if tilt := math.Abs(tiltOf(ranks)); tilt < least {
				least, best, last = tilt, ranks, at
			}
		}
		order, previous = append(order, best...), last
	}
	return order
}

// ranksOf values, 0 the least.
func ranksOf(values []float64) []int {
	byValue := make([]int, len(values))
	for i := range byValue {
		byValue[i] = i
	}
	sort.Slice(byValue, func(i, j int) bool { return values[byValue[i]] < values[byValue[j]] })
	ranks := make([]int, len(values))
	for rank, i := range byValue {
		ranks[i] = rank
	}
	return ranks
}

// tiltOf ranks: 0 when they neither rise nor fall along the month.
func tiltOf(ranks []int) float64 {
	tilt, middle := 0.0, float64(len(ranks)-1)/2
	for d, rank := range ranks {
		tilt += (float64(d) - middle) * (float64(rank) - middle)
	}
	return tilt
}

// fitSum scales values by one factor, none above its limit, so that they add
// up to target; in place. Where the limits add up to less, every value is at
// its limit.
func fitSum(values, limits []float64, target float64) {
	sumAt := func(s float64) float64 {
		sum := 0.0
		for i, v := range values {
			sum += min(limits[i], s*v)
		}
		return sum
	}
	high := 1.0
	for sumAt(high) < target && high < 1e12 {
		high *= 2
	}
	low := 0.0
	for range 80 {
		if middle := (low + high) / 2; sumAt(middle) < target {
			low = middle
		} else {
			high = middle
		}
	}
	for i, v := range values {
		values[i] = min(limits[i], high*v)
	}
}

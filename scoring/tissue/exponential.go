package tissue

// The standard library's exp and log may differ between platforms in the last
// bit, because some have them in assembly. A grade must not, so these two are
// our own. Each product is rounded before it is added: a compiler may
// otherwise fuse the two on some processors.

const (
	ln2Hi = 6.93147180369123816490e-01 // ln 2 in two parts, whose products
	ln2Lo = 1.90821492927058770002e-10 // with small whole numbers are exact
	log2e = 1.44269504088896338700e+00
)

// exp is e to the x, within two units of the last place for |x| < 700; it is
// 0 below -700 and stops growing at 700.
func exp(x float64) float64 {
	switch {
	case x < -700:
		return 0
	case x > 700:
		x = 700
	}
	n := int(float64(x*log2e) + 0.5)
	if x < 0 {
		n = int(float64(x*log2e) - 0.5)
	}
	r := float64(x-float64(float64(n)*ln2Hi)) - float64(float64(n)*ln2Lo)
	// The series of e^r for |r| <= ln(2)/2 by Horner's rule; the first term
	// left out is under 1e-18.
	sum := 1.0
	for k := 16; k >= 1; k-- {
		sum = 1 + float64(float64(r*sum)/float64(k))
	}
	return scale2(sum, n)
}

// scale2 is x times two to the n, without rounding for the sizes used here.
func scale2(x float64, n int) float64 {
	for ; n >= 30; n -= 30 {
		x *= 1 << 30
	}
	for ; n <= -30; n += 30 {
		x /= 1 << 30
	}
	if n >= 0 {
		return x * float64(int64(1)<<n)
	}
	return x / float64(int64(1)<<-n)
}

// log is the natural logarithm of a finite x above 0.
func log(x float64) float64 {
	n := 0
	for x > 1.4142135623730951 {
		x, n = x/2, n+1
	}
	for x < 0.70710678118654757 {
		x, n = x*2, n-1
	}
	// ln x = 2 artanh((x-1)/(x+1)), whose argument is under 0.172.
	s := (x - 1) / (x + 1)
	s2 := float64(s * s)
	sum := 0.0
	for k := 23; k >= 1; k -= 2 {
		sum = float64(1/float64(k)) + float64(s2*sum)
	}
	return float64(float64(n)*ln2Hi) + float64(float64(2*float64(s*sum))+float64(float64(n)*ln2Lo))
}

package form

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"
)

// skip passes over what may stand between commands.
func (p *pathParser) skip() {
	for p.at < len(p.text) && strings.IndexByte(" \t\n\f\r", p.text[p.at]) >= 0 {
		p.at++
	}
}

// separate passes over spaces with at most one comma.
func (p *pathParser) separate() {
	p.skip()
	if p.at < len(p.text) && p.text[p.at] == ',' {
		p.at++
		p.skip()
	}
}

// more tells whether another set of numbers follows for the same command.
func (p *pathParser) more() bool {
	p.skip()
	return p.at < len(p.text) && strings.IndexByte("+-.,0123456789", p.text[p.at]) >= 0
}

// number reads a number, or a flag, which is a single 0 or 1.
func (p *pathParser) number(flag, first bool) (float64, error) {
	if first {
		p.skip()
	} else {
		p.separate()
	}
	p.began = p.at
	if flag {
		if p.at < len(p.text) && (p.text[p.at] == '0' || p.text[p.at] == '1') {
			p.at++
			return float64(p.text[p.at-1] - '0'), nil
		}
		return 0, errors.New("a flag of an arc is expected here, 0 or 1")
	}
	end := p.numberEnd()
	v, err := strconv.ParseFloat(p.text[p.at:end], 64)
	if end == p.at || err != nil {
		return 0, errors.New("a number is expected here")
	}
	if math.Abs(v) > maxPathNumber {
		return 0, fmt.Errorf("the number is larger than %g", maxPathNumber)
	}
	p.at = end
	return v, nil
}

// numberEnd finds the longest number of SVG's grammar: a sign, digits with at
// most one point, an exponent.
func (p *pathParser) numberEnd() int {
	i := p.at
	digits := func() (n int) {
		for i < len(p.text) && p.text[i] >= '0' && p.text[i] <= '9' {
			i, n = i+1, n+1
		}
		return n
	}
	one := func(of string) bool {
		ok := i < len(p.text) && strings.IndexByte(of, p.text[i]) >= 0
		if ok {
			i++
		}
		return ok
	}
	one("+-")
	n := digits()
	if one(".") {
		n += digits()
	}
	if n == 0 {
		return p.at
	}
	mantissa := i
	if one("eE") {
		one("+-")
		if digits() == 0 {
			return mantissa
		}
	}
	return i
}

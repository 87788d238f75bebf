package quantity

import (
	"errors"
	"fmt"
	"math/big"
	"strings"
	"time"
	"unicode"
)

// Text becomes a quantity by these rules, the same in a document and at the
// bench. A number is written in digits with a decimal point or a decimal comma.
// Nothing separates thousands, and "1,500" is refused, because half of its
// readers take it for one and a half and the other half for fifteen hundred.
// There are no signs, exponents or leading zeros. A unit always follows,
// except where a function says otherwise.

// Bounds above which a value is taken for a slip of the keyboard.
const (
	MaxMass        Mass          = 1000 * Kilogram
	MaxLength      Length        = 10_000 * Millimetre
	MaxRatio       Ratio         = 10 * Whole
	MaxTemperature Temperature   = 250 * Degree
	MaxDuration    time.Duration = 2 * 366 * 24 * time.Hour
)

// unit is one spelling of a unit. One of it is num/den of the smallest part in
// which the quantity is counted.
type unit struct {
	num, den int64
}

// kind is a family of units with what is said when a text does not fit it.
type kind struct {
	noun    string           // noun names the quantity, with its article.
	example string           // example is a well-formed text.
	units   map[string]unit  // units are by lower-case spelling.
	below   map[string]int64 // below has the units that may follow a larger one, and how many make one of that.
	hints   map[string]string
	max     int64
	maxText string
}

// parse reads one number with its unit, or a larger unit followed by a smaller
// one where the kind allows that. The result is rounded to a whole number of
// the smallest part, halves away from zero.
func (k kind) parse(text string) (int64, error) {
	parts, err := k.split(text)
	if err != nil {
		return 0, k.errorf(text, "%w", err)
	}
	total := new(big.Rat)
	for i, p := range parts {
		u := k.units[p.unit]
		if err := k.follows(parts, i); err != nil {
			return 0, k.errorf(text, "%w", err)
		}
		total.Add(total, new(big.Rat).Mul(p.number, big.NewRat(u.num, u.den)))
	}
	return k.whole(text, total)
}

// whole rounds a number of the smallest part, within what makes sense.
func (k kind) whole(text string, n *big.Rat) (int64, error) {
	whole := round(n)
	switch {
	case !whole.IsInt64() || whole.Int64() > k.max:
		return 0, k.errorf(text, "more than %s, which is the most that is accepted", k.maxText)
	case whole.Sign() == 0 && n.Sign() > 0:
		return 0, k.errorf(text, "so little that nothing is left of it when it is rounded")
	}
	return whole.Int64(), nil
}

// part is a number as it was written and the unit behind it.
type part struct {
	number *big.Rat
	unit   string
}

// split cuts text into numbers and units.
func (k kind) split(text string) ([]part, error) {
	rest := strings.TrimSpace(text)
	if rest == "" {
		return nil, errors.New("nothing is written")
	}
	var parts []part
	for rest != "" {
		if len(parts) == 2 {
			return nil, errors.New("too many parts")
		}
		n, after, err := number(rest)
		if err != nil {
			return nil, err
		}
		after = strings.TrimLeftFunc(after, unicode.IsSpace)
		end := strings.IndexFunc(after, func(r rune) bool { return r >= '0' && r <= '9' })
		if end < 0 {
			end = len(after)
		}
		name := strings.ToLower(strings.TrimSpace(after[:end]))
		if _, ok := k.units[name]; !ok {
			return nil, k.unknown(name, after[end:])
		}
		parts = append(parts, part{n, name})
		rest = after[end:]
	}
	return parts, nil
}

// follows says what is wrong with the i-th part in its place, if anything is.
func (k kind) follows(parts []part, i int) error {
	if i == 0 {
		return nil
	}
	before, p := parts[i-1], parts[i]
	if !before.number.IsInt() {
		return errors.New("only the last of two numbers may have decimals")
	}
	larger, smaller := k.units[before.unit], k.units[p.unit]
	most, ok := k.below[p.unit]
	if !ok || larger.num*smaller.den != smaller.num*most*larger.den {
		return fmt.Errorf("%s cannot follow %s", quote(p.unit), quote(before.unit))
	}
	if p.number.Cmp(big.NewRat(most, 1)) >= 0 {
		return fmt.Errorf("%d %s or more belong to the number before", most, p.unit)
	}
	return nil
}

// unknown says what is wrong with what stands behind a number; more comes after it.
func (k kind) unknown(name, more string) error {
	if name == "" {
		return errors.New("the unit is missing")
	}
	if hint, ok := k.hints[name]; ok {
		return errors.New(hint)
	}
	if more != "" {
		return fmt.Errorf("%s stands among the figures and is no unit", quote(strings.Trim(name, "., ")))
	}
	return fmt.Errorf("%s is not a unit that fits", quote(name))
}

// errorf says what is wrong with text and how this kind of quantity is written.
func (k kind) errorf(text, format string, args ...any) error {
	return fmt.Errorf("%s is not %s: %w; write it like %s", quote(text), k.noun, fmt.Errorf(format, args...), k.example)
}

// round gives the whole number nearest to r, halves away from zero, for r of
// zero or more.
func round(r *big.Rat) *big.Int {
	twice := new(big.Int).Lsh(r.Denom(), 1)
	n := new(big.Int).Lsh(r.Num(), 1)
	return n.Add(n, r.Denom()).Quo(n, twice)
}

// quote makes a piece of input fit to be shown inside an error.
func quote(text string) string {
	const most = 40
	if r := []rune(text); len(r) > most {
		text = string(r[:most]) + "…"
	}
	return fmt.Sprintf("%q", text)
}

package quantity

import (
	"errors"
	"fmt"
	"math/big"
	"strings"
)

// maxDigits bounds a number on each side of its decimal mark.
const maxDigits = 12

// number reads the number at the start of text and gives what comes after it.
func number(text string) (n *big.Rat, after string, err error) {
	if err := sign(text); err != nil {
		return nil, "", err
	}
	whole, rest := digits(text)
	if whole == "" {
		return nil, "", errors.New("a number is missing, or does not start with a digit")
	}
	if len(whole) > 1 && whole[0] == '0' {
		return nil, "", fmt.Errorf("the number %s starts with an idle zero", quote(whole))
	}
	written, decimals := whole, ""
	if mark := strings.IndexAny(rest, ".,"); mark == 0 {
		decimals, after = digits(rest[1:])
		if decimals == "" {
			return nil, "", errors.New("a digit is missing after the decimal mark")
		}
		if rest[0] == ',' && len(decimals) == 3 && len(whole) <= 3 && whole != "0" {
			return nil, "", fmt.Errorf("%s can be read in two ways, so write %s.%s or %s%s",
				quote(whole+","+decimals), whole, decimals, whole, decimals)
		}
		written = whole + "." + decimals
	} else {
		after = rest
	}
	if len(whole) > maxDigits || len(decimals) > maxDigits {
		return nil, "", errors.New("the number has too many digits")
	}
	if err := tail(after); err != nil {
		return nil, "", err
	}
	n, ok := new(big.Rat).SetString(written)
	if !ok {
		return nil, "", fmt.Errorf("%s is not a number", quote(written))
	}
	return n, after, nil
}

func sign(text string) error {
	switch {
	case strings.HasPrefix(text, "-"), strings.HasPrefix(text, "−"):
		return errors.New("it cannot be negative")
	case strings.HasPrefix(text, "+"):
		return errors.New("leave out the plus sign")
	}
	return nil
}

// tail refuses what looks like the rest of the number just read.
func tail(after string) error {
	trimmed := strings.TrimLeft(after, " \u00a0\u202f\u2009'_’")
	switch {
	case after == "":
		return nil
	case strings.ContainsRune(".,", rune(after[0])),
		trimmed != "" && trimmed[0] >= '0' && trimmed[0] <= '9':
		return errors.New("nothing separates thousands, and there is one decimal mark")
	case len(after) > 1 && (after[0] == 'e' || after[0] == 'E') && strings.ContainsRune("+-0123456789", rune(after[1])):
		return errors.New("write the number without an exponent")
	}
	return nil
}

// digits cuts the ASCII digits off the start of text.
func digits(text string) (run, rest string) {
	i := 0
	for i < len(text) && text[i] >= '0' && text[i] <= '9' {
		i++
	}
	return text[:i], text[i:]
}

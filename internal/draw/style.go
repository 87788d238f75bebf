package draw

import "strings"

// look is a style taken apart (SGR; ECMA-48, 8.3.117).
type look struct {
	on     uint16 // on has bit n for parameter n, from 1 (bold) to 9 (struck out).
	fg, bg string // fg and bg are the parameters of colours, "" for the usual ones.
	other  bool   // other says that there is more, which is not known here.
}

const (
	boldFaint = 1<<1 | 1<<2
	italic    = 1 << 3
	blinking  = 1<<5 | 1<<6
)

// off is a parameter that switches others off.
type off struct {
	what uint16
	by   string
}

func offs() [7]off {
	return [...]off{{boldFaint, "22"}, {italic, "23"}, {1 << 4, "24"}, {blinking, "25"}, {1 << 7, "27"}, {1 << 8, "28"}, {1 << 9, "29"}}
}

func lookOf(style string) (l look) {
	for style != "" {
		style = strings.TrimPrefix(style, "\x1b[")
		p, rest := parameter(style)
		switch {
		case p == "" || p == "0":
			l = look{}
		case len(p) == 1 && p[0] <= '9':
			l.on |= 1 << (p[0] - '0')
		case p == "38" || p == "48":
			var colour string
			if colour, rest = ofMany(style); colour == "" {
				return look{other: true}
			}
			l.colour(colour)
		case len(p) == 2 && p[0] == '2':
			if !l.off(p) {
				return look{other: true}
			}
		case !l.colour(p):
			return look{other: true}
		}
		style = rest
	}
	return l
}

// parameter cuts the first parameter from a style.
func parameter(style string) (first, rest string) {
	if i := strings.IndexAny(style, ";m"); i >= 0 {
		return style[:i], style[i+1:]
	}
	return style, ""
}

// ofMany gives the parameters at the front of a style that are a colour of a
// table, or of red, green and blue (ISO 8613-6), and the rest; "" if they are not
// like that.
func ofMany(style string) (colour, rest string) {
	_, rest = parameter(style)
	kind, rest := parameter(rest)
	more := 0
	switch kind {
	case "5":
		more = 1
	case "2":
		more = 3
	}
	for range more {
		_, rest = parameter(rest)
	}
	colour = strings.TrimRight(style[:len(style)-len(rest)], ";m")
	if more == 0 || strings.Count(colour, ";") != more+1 || strings.Contains(colour, "m") {
		return "", rest
	}
	return colour, rest
}

// off takes a parameter that switches something off; false if it does not.
func (l *look) off(p string) bool {
	for _, o := range offs() {
		if o.by == p {
			l.on &^= o.what
			return true
		}
	}
	return false
}

// colour takes the parameters of a colour; false if they are not one's.
func (l *look) colour(p string) bool {
	switch {
	case p == "39":
		l.fg = ""
	case p == "49":
		l.bg = ""
	case p[0] == '3' || p[0] == '9' && len(p) == 2 && p[1] <= '7':
		l.fg = p
	case p[0] == '4' || len(p) == 3 && p[:2] == "10" && p[2] <= '7':
		l.bg = p
	default:
		return false
	}
	return !strings.Contains(p, ":")
}

// inked says that a look shows on blanks: it has more than the weight, the slant
// and the colour of text.
func (l look) inked() bool {
	return l.other || l.bg != "" || l.on&^(boldFaint|italic) != 0
}

// after appends the parameters that make this look of another one, each with a
// semicolon after it.
func (l look) after(from look, to []byte) []byte {
	add := func(p string) { to = append(append(to, p...), ';') }
	for _, o := range offs() {
		if from.on&^l.on&o.what != 0 {
			add(o.by)
			from.on &^= o.what
		}
	}
	for n := range uint16(10) {
		if l.on&^from.on&(1<<n) != 0 {
			to = append(to, byte('0'+n), ';')
		}
	}
	for _, c := range [][3]string{{from.fg, l.fg, "39"}, {from.bg, l.bg, "49"}} {
		switch {
		case c[0] == c[1]:
		case c[1] == "":
			add(c[2])
		default:
			add(c[1])
		}
	}
	return to
}

// appendChange appends the shorter of two ways to a style: from the look in force,
// or from a reset.
func appendChange(out []byte, from, to look, style string) []byte {
	switch {
	case from == to && !to.other:
		return out
	case to == look{}:
		return append(out, "\x1b[m"...)
	case to.other && from == look{}:
		return append(out, style...)
	case to.other: // Reset and first sequence in one.
		return append(append(out, "\x1b[0;"...), style[len("\x1b["):]...)
	}
	var room [2][64]byte
	anew := to.after(look{}, append(room[0][:0], "\x1b[0;"...))
	if change := to.after(from, append(room[1][:0], "\x1b["...)); !from.other && len(change) <= len(anew) {
		anew = change
	}
	anew[len(anew)-1] = 'm'
	return append(out, anew...)
}

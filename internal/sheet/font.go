package sheet

import (
	"strings"
	"sync"

	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// missing stands for a character that the typeface does not have.
const missing = '□'

// cut is one cut of the typeface, parsed, with what was asked of it before.
type cut struct {
	mu     sync.Mutex
	font   *sfnt.Font
	buffer sfnt.Buffer
	em     fixed.Int26_6
	widths map[rune]float64
}

// cuts are parsed when they are first needed: a start of the program is not
// the moment.
var cuts = map[Face]func() *cut{ //nolint:gochecknoglobals // Constant data, parsed once.
	Regular: sync.OnceValue(func() *cut { return parsed(goregular.TTF) }),
	Bold:    sync.OnceValue(func() *cut { return parsed(gobold.TTF) }),
}

func parsed(ttf []byte) *cut {
	f, err := sfnt.Parse(ttf)
	if err != nil {
		panic(err) // It is compiled in.
	}
	return &cut{font: f, em: fixed.I(int(f.UnitsPerEm())), widths: map[rune]float64{}}
}

func ttf(f Face) []byte {
	if f == Bold {
		return gobold.TTF
	}
	return goregular.TTF
}

// glyph gives the number of a character's shape, 0 where there is none.
func (c *cut) glyph(r rune) sfnt.GlyphIndex {
	i, err := c.font.GlyphIndex(&c.buffer, r)
	if err != nil {
		return 0
	}
	return i
}

// advance gives a character's width as a fraction of the em.
func (c *cut) advance(r rune) float64 {
	if w, ok := c.widths[r]; ok {
		return w
	}
	w := 0.0
	if a, err := c.font.GlyphAdvance(&c.buffer, c.glyph(r), c.em, font.HintingNone); err == nil {
		w = float64(a) / float64(c.em)
	}
	c.widths[r] = w
	return w
}

// Width gives how wide words are in millimetres, without kerning, as both
// writers set them.
func Width(s Style, words string) float64 {
	c := cuts[s.Face]()
	c.mu.Lock()
	defer c.mu.Unlock()
	sum := 0.0
	for _, r := range drawable1(c, words) {
		sum += c.advance(r)
	}
	return sum * s.Size
}

// drawable puts a box in the place of what the typeface cannot show.
func drawable(words string) string {
	c := cuts[Regular]()
	c.mu.Lock()
	defer c.mu.Unlock()
	return drawable1(c, words)
}

func drawable1(c *cut, words string) string {
	return strings.Map(func(r rune) rune {
		if r > 0xffff || c.glyph(r) == 0 {
			return missing
		}
		return r
	}, words)
}

// XHeight gives the height of a small x in millimetres, by which rules on the
// size of print go.
func XHeight(s Style) float64 {
	return s.Size * ofEm(s.Face, func(m font.Metrics) fixed.Int26_6 { return m.XHeight })
}

// CapHeight gives the height of a capital in millimetres.
func CapHeight(s Style) float64 {
	return s.Size * ofEm(s.Face, func(m font.Metrics) fixed.Int26_6 { return m.CapHeight })
}

func ofEm(f Face, height func(font.Metrics) fixed.Int26_6) float64 {
	c := cuts[f]()
	c.mu.Lock()
	defer c.mu.Unlock()
	m, err := c.font.Metrics(&c.buffer, c.em, font.HintingNone)
	if err != nil {
		panic(err) // It is compiled in.
	}
	return float64(height(m)) / float64(c.em)
}

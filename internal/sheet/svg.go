package sheet

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"strconv"
	"strings"

	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// SVG writes a page as SVG 1.1 in real millimetres. Text is drawn as outlines,
// so that it is as wide on every machine as it is here; what it says is kept
// beside it for readers and search.
func SVG(title string, p Page) []byte {
	var b bytes.Buffer
	fmt.Fprintf(&b, `<?xml version="1.0" encoding="UTF-8"?>
<svg xmlns="http://www.w3.org/2000/svg" version="1.1" width="%[1]smm" height="%[2]smm" viewBox="0 0 %[1]s %[2]s">
<title>%[3]s</title>
<rect width="%[1]s" height="%[2]s" fill="#ffffff"/>
`, mm(p.Width), mm(p.Height), escaped(title))
	for _, s := range p.strokes {
		fmt.Fprintf(&b, "<path d=\"%s\" %s/>\n", s.path(), s.look())
	}
	for _, t := range p.texts {
		fmt.Fprintf(&b, "<path aria-label=\"%s\" d=\"%s\"%s/>\n", escaped(t.words), t.path(), t.style.look())
	}
	b.WriteString("</svg>\n")
	return b.Bytes()
}

func (s stroke) look() string {
	if s.fill != nil {
		return fmt.Sprintf(`fill="%s"`, s.fill.hex())
	}
	look := fmt.Sprintf(`fill="none" stroke="%s" stroke-width="%s" stroke-linejoin="round"`, s.colour.hex(), mm(s.width))
	if s.dash > 0 {
		look += fmt.Sprintf(` stroke-dasharray="%s"`, mm(s.dash))
	}
	return look
}

func (s Style) look() string {
	if s.Colour == (Colour{}) {
		return ""
	}
	return fmt.Sprintf(` fill="%s"`, s.Colour.hex())
}

func (c Colour) hex() string { return fmt.Sprintf("#%02x%02x%02x", c.R, c.G, c.B) }

func escaped(s string) string {
	var b strings.Builder
	_ = xml.EscapeText(&b, []byte(s)) // A builder never fails.
	return b.String()
}

// mm writes millimetres to a ten-thousandth, without idle zeros.
func mm(v float64) string {
	s := strings.TrimRight(strconv.FormatFloat(v, 'f', 4, 64), "0")
	if s = strings.TrimRight(s, "."); s == "-0" {
		return "0"
	}
	return s
}

func (s stroke) path() string {
	var b strings.Builder
	for i, p := range s.points {
		b.WriteString(map[bool]string{true: "M", false: "L"}[i == 0] + mm(p.X) + " " + mm(p.Y))
	}
	if s.closed {
		b.WriteString("Z")
	}
	return b.String()
}

// path gives the outlines of the characters where they stand on the page.
func (t text) path() string {
	c := cuts[t.style.Face]()
	c.mu.Lock()
	defer c.mu.Unlock()
	var b strings.Builder
	x := t.x
	for _, r := range t.words {
		segments, err := c.font.LoadGlyph(&c.buffer, c.glyph(r), c.em, nil)
		if err != nil {
			continue // It has no outline, such as a space.
		}
		b.WriteString(outline(segments, func(p fixed.Point26_6) string {
			scale := t.style.Size / float64(c.em)
			return mm(x+float64(p.X)*scale) + " " + mm(t.y+float64(p.Y)*scale)
		}))
		x += c.advance(r) * t.style.Size
	}
	return b.String()
}

func outline(segments sfnt.Segments, at func(fixed.Point26_6) string) string {
	var b strings.Builder
	for i, s := range segments {
		switch s.Op {
		case sfnt.SegmentOpMoveTo:
			if i > 0 {
				b.WriteByte('Z')
			}
			b.WriteString("M" + at(s.Args[0]))
		case sfnt.SegmentOpLineTo:
			b.WriteString("L" + at(s.Args[0]))
		case sfnt.SegmentOpQuadTo:
			b.WriteString("Q" + at(s.Args[0]) + " " + at(s.Args[1]))
		case sfnt.SegmentOpCubeTo:
			b.WriteString("C" + at(s.Args[0]) + " " + at(s.Args[1]) + " " + at(s.Args[2]))
		}
	}
	if b.Len() > 0 {
		b.WriteByte('Z')
	}
	return b.String()
}

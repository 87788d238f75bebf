package scene

import (
	"cmp"
	"fmt"
	"html"
	"strconv"
	"strings"
)

// SVG writes the drawing as an SVG document (W3C SVG 1.1) of its real size in
// millimetres, on a page without colour.
func SVG(s Scene) []byte {
	w := svg{box: s.Box}
	w.linef(`<?xml version="1.0" encoding="UTF-8"?>`)
	w.linef(`<svg xmlns="http://www.w3.org/2000/svg" version="1.1" width="%smm" height="%smm" viewBox="0 0 %[1]s %[2]s">`,
		figure(s.Box.Width()), figure(s.Box.Height()))
	w.linef(`<title>%s</title>`, html.EscapeString(s.Title))
	for _, shape := range s.Shapes {
		w.shape(shape)
	}
	for _, l := range s.Labels {
		w.label(l)
	}
	w.linef(`</svg>`)
	return []byte(w.String())
}

type svg struct {
	strings.Builder
	box Box
}

func (w *svg) linef(format string, args ...any) {
	_, _ = fmt.Fprintf(w, format, args...) // A builder never fails.
	w.WriteByte('\n')
}

func (w *svg) shape(s Shape) {
	if len(s.Points) < 2 || !s.Fill.On && s.Line.Width <= 0 {
		return
	}
	var d strings.Builder
	for i, p := range s.Points {
		d.WriteString(map[bool]string{true: "M", false: "L"}[i == 0])
		d.WriteString(figure(p.X-w.box.Left) + " " + figure(w.box.Top-p.Y))
	}
	if !s.Open {
		d.WriteByte('Z')
	}
	look := `fill="none"`
	if s.Fill.On && !s.Open {
		look = fmt.Sprintf(`fill="%s"`, s.Fill.Colour)
	}
	if s.Line.Width > 0 {
		colour := s.Line.Colour
		if s.Line.Ink {
			colour = Colour{}
		}
		look += fmt.Sprintf(` stroke="%s" stroke-width="%s" stroke-linejoin="round"`, colour, figure(s.Line.Width))
	}
	if s.Line.Dash > 0 {
		look += fmt.Sprintf(` stroke-dasharray="%s"`, figure(s.Line.Dash))
	}
	if s.Name == "" {
		w.linef(`<path d="%s" %s/>`, d.String(), look)
		return
	}
	w.linef(`<path d="%s" %s><title>%s</title></path>`, d.String(), look, html.EscapeString(s.Name))
}

func (w *svg) label(l Label) {
	anchor := map[Anchor]string{Start: "start", Middle: "middle", End: "end"}[l.Anchor]
	bold := ""
	if l.Bold {
		bold = ` font-weight="bold"`
	}
	w.linef(`<text x="%s" y="%s" font-family="sans-serif" font-size="%s" text-anchor="%s" fill="%s"%s>%s</text>`,
		figure(l.At.X-w.box.Left), figure(w.box.Top-l.Baseline()), figure(l.Type()), anchor, l.Colour(), bold, html.EscapeString(l.Text))
}

// figure writes millimetres to a micrometre, without idle zeros.
func figure(mm float64) string {
	s := strings.TrimRight(strconv.FormatFloat(mm, 'f', 3, 64), "0")
	s = strings.TrimSuffix(s, ".")
	if s == "-0" {
		return "0"
	}
	return cmp.Or(s, "0")
}

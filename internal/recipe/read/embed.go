package read

import (
	"fmt"
	"strings"

	"gopkg.in/yaml.v3"

	"bench/internal/form"
	"bench/internal/quantity"
	"bench/internal/recipe"
)

// flatness is how far the sides of an outline may stray from its curves, in mm:
// no more than shows on a bar.
const flatness = 0.05

// The bounds of an outline.
const (
	maxCorners = 2000
	maxAcross  = 1000.0 // mm
)

// drawing is what an embed says of an outline of its own.
type drawing struct {
	points        []recipe.Corner
	path          string
	unit          float64 // unit is what a unit of the path is in mm; zero is not known.
	width, height quantity.Length
}

func (r *reader) embed(n *yaml.Node, p recipe.Path) recipe.Embed {
	var e recipe.Embed
	var d drawing
	length := measure(r, positive(quantity.ParseLength))
	r.mapping(n, p, fields{
		"name": into(&e.Name, r.name),
		"shape": func(n *yaml.Node, p recipe.Path) {
			o := measure(r, parseShape)(n, p)
			e.Shape, e.Width, e.Height = o.shape, o.width, o.height
		},
		"points": each(r, &d.points, measure(r, parseCorner)),
		"path":   func(n *yaml.Node, p recipe.Path) { d.path, d.unit = r.line(n, p), 1 },
		"file": func(n *yaml.Node, p recipe.Path) {
			path, unit, err := r.svg(r.line(n, p))
			if err != nil && !r.source.failed[p] {
				r.failf(n, p, "%v", err)
			}
			d.path, d.unit = path, unit
		},
		"width":  into(&d.width, length),
		"height": into(&d.height, length),
		"turn":   into(&e.Turn, measure(r, quantity.ParseAngle)),
		"mirror": into(&e.Mirror, r.yes),
		"stood":  into(&e.Stood, r.yes),
		"proud":  into(&e.Proud, r.yes),
		"stick":  into(&e.Stick, r.name),
		"dough":  into(&e.Dough, r.name),
		"across": into(&e.Across, length),
		"sink":   into(&e.Sink, length),
	}, "name", "shape", "across")
	if _, given := r.source.at[p.Field("sink")]; !given && !e.Stood && n.Kind == yaml.MappingNode {
		r.failf(n, p.Field("sink"), "%q is missing", "sink")
	}
	if e.Shape != "" {
		r.draw(n, p, &e, d)
	}
	return e
}

// draw gives an embed the outline that it draws itself, and refuses one that
// does not go with its shape.
func (r *reader) draw(n *yaml.Node, p recipe.Path, e *recipe.Embed, d drawing) {
	given := func(field string) bool { _, ok := r.source.at[p.Field(field)]; return ok }
	misplaced := func(fields ...string) {
		for _, f := range fields {
			if given(f) {
				r.addf(r.source.at[p.Field(f)], "%q does not go with %s: leave it out", f, withArticle(e.Shape))
			}
		}
	}
	switch e.Shape {
	case recipe.Polygon:
		misplaced("path", "file", "width", "height")
		if !given("points") {
			r.failf(n, p.Field("points"), "a polygon needs its \"points\", such as [0 x 0 mm, 30 x 0 mm, 15 x 26 mm] (to the right x up)")
		}
		e.Corners = d.points
		e.Width, e.Height = extent(e.Corners)
	case recipe.PathShape:
		misplaced("points")
		r.source.failed[p.Field("shape")] = d.path == "" || given("path") && given("file") // Then what it lacks was said.
		switch {
		case given("path") && given("file"):
			r.addf(r.source.at[p.Field("path")], "state the \"file\" or the \"path\", not both")
		case !given("path") && !given("file"):
			r.failf(n, p.Field("shape"), "a path needs a \"file\", such as gull.svg, or its \"path\" data in mm")
		case d.path != "":
			r.flatten(p, e, d)
		}
	case recipe.Circle, recipe.Ellipse, recipe.Rectangle:
		misplaced("points", "path", "file", "width", "height")
	}
}

// flatten turns path data into corners, in mm, of the size that is wanted.
func (r *reader) flatten(p recipe.Path, e *recipe.Embed, d drawing) {
	at := p.Field("path")
	if _, ok := r.source.at[at]; !ok {
		at = p.Field("file")
	}
	fail := func(format string, args ...any) {
		r.source.failed[p.Field("shape")] = true
		r.addf(r.source.at[at], format, args...)
	}
	path, err := form.ParsePath(d.path)
	if err != nil {
		fail("%v", err)
		return
	}
	unit, err := d.scale(path)
	if err != nil {
		fail("%v", err)
		return
	}
	polygon := path.Flatten(flatness / unit).Scaled(unit)
	if len(polygon) > maxCorners {
		fail("the outline has more than %d corners: draw it simpler", maxCorners)
		return
	}
	left, bottom, _, _ := polygon.Box()
	for _, q := range polygon {
		e.Corners = append(e.Corners, recipe.Corner{X: quantity.FromMillimetres(q.X - left), Y: quantity.FromMillimetres(q.Y - bottom)})
	}
	e.Path = d.path
	e.Width, e.Height = extent(e.Corners)
}

// scale gives what a unit of the path is in mm, by the size that the embed is to
// have or else by what its file says.
func (d drawing) scale(path form.Path) (float64, error) {
	left, bottom, right, top := path.Flatten(1e6).Box()
	if size := max(right-left, top-bottom); size > 0 {
		left, bottom, right, top = path.Flatten(size / 5000).Box()
	}
	unit := d.unit
	switch {
	case d.width > 0 && d.height > 0:
		return 0, fmt.Errorf("state the width or the height, not both: the other follows")
	case d.width > 0 && right > left:
		unit = d.width.Millimetres() / (right - left)
	case d.height > 0 && top > bottom:
		unit = d.height.Millimetres() / (top - bottom)
	case unit == 0:
		return 0, fmt.Errorf("the file does not say how large it is in millimetres: add the \"width\" or the \"height\" of the embed")
	}
	if size := unit * max(right-left, top-bottom); size > maxAcross {
		return 0, fmt.Errorf("the outline is %.0f mm across: give the \"width\" or the \"height\" that the embed has", size)
	}
	return unit, nil
}

// extent gives the width and the height of some corners.
func extent(corners []recipe.Corner) (width, height quantity.Length) {
	if len(corners) == 0 {
		return 0, 0
	}
	low, high := corners[0], corners[0]
	for _, c := range corners {
		low = recipe.Corner{X: min(low.X, c.X), Y: min(low.Y, c.Y)}
		high = recipe.Corner{X: max(high.X, c.X), Y: max(high.Y, c.Y)}
	}
	return high.X - low.X, high.Y - low.Y
}

// parseCorner reads "12 x 30 mm": to the right, and up.
func parseCorner(text string) (recipe.Corner, error) {
	sides := times().Split(text, -1)
	if len(sides) != 2 {
		return recipe.Corner{}, fmt.Errorf("%q is not a point: write it like \"12 x 30 mm\" (to the right x up)", short(text))
	}
	y, err := quantity.ParseLength(sides[1])
	if err != nil {
		return recipe.Corner{}, err
	}
	x, err := quantity.ParseLength(withUnit(sides[0], sides[1]))
	return recipe.Corner{X: x, Y: y}, err
}

// yes reads yes or no.
func (r *reader) yes(n *yaml.Node, p recipe.Path) bool {
	return choice(r, yesWord, noWord)(n, p) == yesWord
}

type word string

const (
	yesWord word = "yes"
	noWord  word = "no"
)

// parsePropping reads "8 mm left": how much higher that side of the mould
// stands.
func parsePropping(text string) (recipe.Propping, error) {
	for _, side := range []recipe.Side{recipe.LeftSide, recipe.RightSide} {
		if size, ok := strings.CutSuffix(text, string(side)); ok {
			by, err := positive(quantity.ParseLength)(strings.TrimSpace(size))
			return recipe.Propping{By: by, Side: side}, err
		}
	}
	return recipe.Propping{}, fmt.Errorf("%q does not say which side stands higher: write it like \"8 mm left\" or \"8 mm right\"", short(text))
}

package read

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"math"
	"slices"
	"strconv"
	"strings"

	"bench/internal/recipe"
)

// maxSVG is the most that is read of a drawing.
const maxSVG = 256 << 10

// svg reads the one path of an SVG file that lies beside the recipe or below
// it, and what a unit of it is in mm; zero if the file does not say.
func (r *reader) svg(name string) (path string, unit float64, err error) {
	if name == "" {
		return "", 0, nil // That was said already.
	}
	switch {
	case r.beside == nil:
		return "", 0, fmt.Errorf("%q cannot be read here: this recipe does not come from a folder", short(name))
	case !fs.ValidPath(name):
		return "", 0, fmt.Errorf("%q is not a file beside the recipe: keep drawings in the recipe's folder or below it", short(name))
	}
	info, err := fs.Stat(r.beside, name)
	if err == nil && !info.Mode().IsRegular() {
		err = errors.New("it is no file") // A pipe would be waited for.
	}
	if err != nil {
		return "", 0, fmt.Errorf("%q cannot be read: %w", short(name), reason(err))
	}
	file, err := r.beside.Open(name)
	if err != nil {
		return "", 0, fmt.Errorf("%q cannot be read: %w", short(name), reason(err))
	}
	defer file.Close() //nolint:errcheck // It was only read.
	data, err := io.ReadAll(io.LimitReader(file, maxSVG+1))
	switch {
	case err != nil:
		return "", 0, fmt.Errorf("%q cannot be read: %w", short(name), reason(err))
	case len(data) > maxSVG:
		return "", 0, fmt.Errorf("%q is larger than %d KiB: draw the outline with fewer points", short(name), maxSVG>>10)
	}
	path, unit, err = parseSVG(data)
	if err != nil {
		return "", 0, fmt.Errorf("%q: %w", short(name), err)
	}
	return recipe.Clean(path), unit, nil
}

// reason leaves the path out, which the sentence names already.
func reason(err error) error {
	var at *fs.PathError
	if errors.As(err, &at) {
		return at.Err
	}
	return err
}

// What an SVG file may hold besides the path, and what would draw more.
var (
	unseen   = []string{"defs", "metadata", "title", "desc", "style", "clipPath", "mask", "symbol", "pattern", "marker", "namedview"} //nolint:gochecknoglobals // A table.
	drawings = []string{"rect", "circle", "ellipse", "line", "polyline", "polygon", "text", "image", "use"}                           //nolint:gochecknoglobals // A table.
)

// malformed says what is wrong with the XML; the error repeats names from it.
func malformed(err error) error {
	return fmt.Errorf("this is not a well-formed SVG file: %s", shortened(err.Error(), 200))
}

// parseSVG finds the one path of an SVG document (W3C, Scalable Vector
// Graphics 2).
func parseSVG(data []byte) (path string, unit float64, err error) {
	decoder := xml.NewDecoder(bytes.NewReader(data))
	depth, paths := 0, 0
	for {
		token, err := decoder.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return "", 0, malformed(err)
		}
		start, ok := token.(xml.StartElement)
		if !ok {
			continue
		}
		name := start.Name.Local
		line, _ := decoder.InputPos()
		switch {
		case depth == 0 && name != "svg":
			return "", 0, fmt.Errorf("line %d: this is not an SVG file: it begins with <%s>", line, short(name))
		case depth == 0:
			if unit, err = unitOf(start); err != nil {
				return "", 0, err
			}
		case slices.Contains(unseen, name):
			if err := decoder.Skip(); err != nil {
				return "", 0, malformed(err)
			}
			continue
		case slices.Contains(drawings, name):
			return "", 0, fmt.Errorf("line %d: it also draws a <%s>: turn everything into one path", line, short(name))
		}
		depth++
		if attribute(start, "transform") != "" {
			return "", 0, fmt.Errorf("line %d: it is moved by a \"transform\": draw the path where it lies, without one", line)
		}
		if name == "path" {
			if paths++; paths > 1 {
				return "", 0, fmt.Errorf("line %d: a second path begins here: an embed has one outline", line)
			}
			path = attribute(start, "d")
		}
	}
	if strings.TrimSpace(path) == "" {
		return "", 0, errors.New("it draws no path: one closed outline is wanted")
	}
	return path, unit, nil
}

func attribute(e xml.StartElement, name string) string {
	for _, a := range e.Attr {
		if a.Name.Local == name && a.Name.Space == "" {
			return a.Value
		}
	}
	return ""
}

// unitOf gives what a unit of a drawing is in mm, by its width and height and
// its view box; zero if the size is not stated in units of length. Without a
// view box a unit is a pixel of 1/96 in (CSS Values and Units).
func unitOf(svg xml.StartElement) (float64, error) {
	width, wide := inMillimetres(attribute(svg, "width"))
	height, high := inMillimetres(attribute(svg, "height"))
	box := strings.FieldsFunc(attribute(svg, "viewBox"), func(r rune) bool { return r == ' ' || r == ',' || r == '\n' || r == '\t' })
	switch {
	case !wide && !high:
		return 0, nil
	case len(box) != 4:
		return 25.4 / 96, nil
	}
	boxWidth, err1 := strconv.ParseFloat(box[2], 64)
	boxHeight, err2 := strconv.ParseFloat(box[3], 64)
	if err1 != nil || err2 != nil || !(boxWidth > 0) || !(boxHeight > 0) {
		return 0, fmt.Errorf("its viewBox %q is not four numbers with a size above zero", short(strings.Join(box, " ")))
	}
	units := []float64{}
	if wide {
		units = append(units, width/boxWidth)
	}
	if high {
		units = append(units, height/boxHeight)
	}
	if math.Abs(units[0]/units[len(units)-1]-1) > 0.01 {
		return 0, errors.New("its width and height do not go with its viewBox: one would stretch the outline")
	}
	return units[0], nil
}

// inMillimetres reads a length of SVG that has a unit of length.
func inMillimetres(text string) (float64, bool) {
	for unit, mm := range map[string]float64{"mm": 1, "cm": 10, "in": 25.4, "pt": 25.4 / 72} {
		if number, ok := strings.CutSuffix(strings.TrimSpace(text), unit); ok {
			v, err := strconv.ParseFloat(strings.TrimSpace(number), 64)
			return v * mm, err == nil && v > 0
		}
	}
	return 0, false
}

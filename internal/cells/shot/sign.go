package shot

import (
	"image"
	"image/color"

	"golang.org/x/image/vector"
)

// signs are the characters of the screens that Go Mono has no letter for, as
// outlines in a cell.
//
//nolint:gochecknoglobals // A table.
var signs = map[rune][][2]float32{
	'✓': {{1, 13}, {3, 11}, {5, 14}, {9, 5}, {11, 6}, {6, 18}, {4, 18}},
	'▶': {{1, 5}, {11, 12}, {1, 19}},
	'◀': {{11, 5}, {1, 12}, {11, 19}},
}

// sign paints an outline into a cell.
func (p *pen) sign(cell image.Rectangle, outline [][2]float32, fore color.RGBA) {
	r := vector.NewRasterizer(CellW, CellH)
	for i, at := range outline {
		if i == 0 {
			r.MoveTo(at[0], at[1])
		} else {
			r.LineTo(at[0], at[1])
		}
	}
	r.ClosePath()
	r.Draw(p.img, cell, image.NewUniform(fore), image.Point{})
}

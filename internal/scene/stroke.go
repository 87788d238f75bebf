package scene

import "math"

// stroke gives the outlines that a line of this width covers: a bar for each
// side and a round end at each corner, all turning the same way.
func stroke(points []Point, open bool, width float64) [][]Point {
	var bars [][]Point
	for _, p := range points {
		bars = append(bars, disc(p, width/2))
	}
	n := len(points)
	if open {
		n--
	}
	for i := range max(0, n) {
		if b := bar(points[i], points[(i+1)%len(points)], width); b != nil {
			bars = append(bars, b)
		}
	}
	return bars
}

// bar gives the rectangle along a line, or nothing for one of no length.
func bar(a, b Point, width float64) []Point {
	length := math.Hypot(b.X-a.X, b.Y-a.Y)
	if length == 0 {
		return nil
	}
	dx, dy := (b.Y-a.Y)/length*width/2, (b.X-a.X)/length*width/2
	return []Point{{a.X + dx, a.Y - dy}, {b.X + dx, b.Y - dy}, {b.X - dx, b.Y + dy}, {a.X - dx, a.Y + dy}}
}

// disc gives a circle as a polygon of eight sides: it only rounds a corner.
func disc(at Point, radius float64) []Point {
	points := make([]Point, 8)
	for i := range points {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / 8)
		points[i] = Point{at.X + radius*cos, at.Y + radius*sin}
	}
	return points
}

// dashes cuts a line into pieces of one length with gaps as long, beginning
// with half a piece so that a closed outline looks the same all round.
func dashes(points []Point, open bool, dash float64) [][]Point {
	if !open {
		points = append(points[:len(points):len(points)], points[0])
	}
	var pieces [][]Point
	piece, left, on := []Point{points[0]}, dash/2, true
	for i := 1; i < len(points); i++ {
		for from, to := points[i-1], points[i]; ; {
			length := math.Hypot(to.X-from.X, to.Y-from.Y)
			if length <= left {
				left -= length
				piece = append(piece, to)
				break
			}
			from = Point{from.X + (to.X-from.X)*left/length, from.Y + (to.Y-from.Y)*left/length}
			piece = append(piece, from)
			if on {
				pieces = append(pieces, piece)
			}
			piece, left, on = []Point{from}, dash, !on
		}
	}
	if on && len(piece) > 1 {
		pieces = append(pieces, piece)
	}
	return pieces
}

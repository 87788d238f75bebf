package cut

import "bench/internal/quantity"

// settle gives the pieces the lengths that are really cut. A stick that is a
// little short makes one of its pieces short, which moves the joins after it;
// the next piece from a stick with something left makes that good.
func (p *Plan) settle(knife quantity.Length) {
	short := p.shortages(knife)
	keep := p.longest()
	for i := range p.Loaves {
		for j := range p.Loaves[i].Rows {
			at := quantity.Length(0)
			for k := range p.Loaves[i].Rows[j].Pieces {
				piece := &p.Loaves[i].Rows[j].Pieces[k]
				stick := &p.Sticks[piece.Stick-1]
				length := piece.To - piece.From - short[piece.Stick]
				if short[piece.Stick] > 0 {
					short[piece.Stick] = 0
				} else if spare := min(piece.From-at, stick.Offcut); spare > 0 && piece.Stick != keep {
					length += spare
					stick.Offcut -= spare
				}
				piece.Drift = piece.To - at - length
				piece.From, piece.To, piece.Length = at, at+length, length
				at += length
			}
		}
	}
}

// shortages gives by how much each stick is shorter than what is cut from it.
func (p *Plan) shortages(knife quantity.Length) map[int]quantity.Length {
	short := map[int]quantity.Length{}
	pieces := map[int]int{}
	for _, loaf := range p.Loaves {
		for _, row := range loaf.Rows {
			for _, piece := range row.Pieces {
				short[piece.Stick] += piece.To - piece.From
				pieces[piece.Stick]++
			}
		}
	}
	for n := range short {
		short[n] = max(0, short[n]+quantity.Length(pieces[n]-1)*knife-p.Sticks[n-1].Length)
	}
	return short
}

// longest gives the number of the stick that leaves the longest offcut.
func (p *Plan) longest() int {
	best, n := quantity.Length(-1), 0
	for _, s := range p.Sticks {
		if s.Offcut > best {
			best, n = s.Offcut, s.N
		}
	}
	return n
}

// drift gives how far a join lies from where it was meant to at most.
func (p Plan) drift() quantity.Length {
	most := quantity.Length(0)
	for _, loaf := range p.Loaves {
		for _, row := range loaf.Rows {
			for _, piece := range row.Pieces[:len(row.Pieces)-1] {
				most = max(most, piece.Drift)
			}
		}
	}
	return most
}

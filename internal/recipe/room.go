package recipe

import "bench/internal/quantity"

// defaultRoom is how warm a workshop is that does not say so (common practice,
// no source).
const defaultRoom = 20 * quantity.Degree

// RoomTemperature gives how warm the workshop is.
func (c Control) RoomTemperature() quantity.Temperature {
	if c.Room == 0 {
		return defaultRoom
	}
	return c.Room
}

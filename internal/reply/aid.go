package reply

// Caution comes before everything else on a plan.
const Caution = "Lye burns skin and blinds eyes: goggles, gloves, long sleeves, fresh air. Water at hand. Alkali into water, never water into alkali. ! shows first aid. " + AidSource

// Aid is what to do about lye on or in a place.
type Aid struct{ On, Do string }

// FirstAid is for hydroxide and lye solution. It says what to do with water,
// and leaves the rest to those who know (common practice, and what supplier's
// safety data sheets agree on: GHS hazard statement H314 with precautionary
// statements P301+P330+P331, P303+P361+P353, P305+P351+P338, P310; from
// memory).
func FirstAid() []Aid {
	return []Aid{
		{"SKIN", "Water, at once and long: 15 minutes at least. Clothes that it touched off, under the water."},
		{"EYES", "Water, at once and long: 15 minutes at least, lids held open, lenses out if that is easy. Then a doctor, always."},
		{"SWALLOWED", "Rinse the mouth; do not bring it up. Emergency services now."},
		{"BREATHED IN", "Out into fresh air. Trouble breathing: emergency services now."},
		{"NEVER", "Vinegar or anything sour on a burn. Water, and more water."},
		{"CALL", "Emergency services or the poison centre. Have the container's label at hand."},
		{"SPILL", "Keep others away. Gloves and goggles on. Soak it up or sweep it up, then rinse with much cold water. Never put water onto a heap of dry hydroxide: it boils."},
	}
}

// AidSource says whose word comes first.
const AidSource = "The supplier's safety data sheet and local rules come first."

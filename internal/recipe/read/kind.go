package read

// IsWorkshop tells a workshop's document from a recipe's by its top-level
// field "workshop".
func IsWorkshop(data []byte) bool { return workshopLine().Match(data) }

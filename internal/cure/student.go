package cure

// quantiles are Student's t for a two-sided 95 % interval at 1, 2, 3 ...
// degrees of freedom (NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.2,
// from memory; a test compares them with a library).
var quantiles = [...]float64{ //nolint:gochecknoglobals // A table.
	12.706, 4.303, 3.182, 2.776, 2.571, 2.447, 2.365, 2.306, 2.262, 2.228,
	2.201, 2.179, 2.160, 2.145, 2.131, 2.120, 2.110, 2.101, 2.093, 2.086,
	2.080, 2.074, 2.069, 2.064, 2.060, 2.056, 2.052, 2.048, 2.045, 2.042,
}

// student gives t for so many degrees of freedom, at least one. Beyond the table
// it falls to the 1.960 of the normal distribution (Cornish and Fisher's
// expansion in 1/ν).
func student(free int) float64 {
	if free <= len(quantiles) {
		return quantiles[max(free, 1)-1]
	}
	nu := float64(free)
	return 1.960 + 2.372/nu + 2.823/(nu*nu)
}

package journal

// WithStep has the store know one more step of its schema than was released.
func (o Options) WithStep(sql string) Options {
	o.schema = append(released(), sql)
	return o
}

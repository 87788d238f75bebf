package main

import "fmt"

// printAs prints a value as text or as JSON.
func printAs[T any](a *app, asJSON bool, v T, text func(T) string, toJSON func(T) ([]byte, error)) error {
	if !asJSON {
		_, err := fmt.Fprint(a.out, text(v))
		return failed(err)
	}
	out, err := toJSON(v)
	if err == nil {
		_, err = a.out.Write(out)
	}
	return failed(err)
}

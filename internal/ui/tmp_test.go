package ui

import (
	"fmt"
	"testing"
	"time"
)

func TestTmp(t *testing.T) {
	p := arrives(t, newMemory()).starts()
	show := func() { fmt.Println(p.m.View()); fmt.Println("=====") }
	seen := map[string]bool{}
	for i := 0; i < 400; i++ {
		tk, st, ok := p.m.bench.current(p.moment())
		if !ok {
			show()
			break
		}
		k := string(st.Kind) + string(tk.Do)
		if !seen[k] || st.Kind == "split" {
			fmt.Println(tk.ID)
			show()
			seen[k] = true
		}
		number, _ := panel{b: p.m.bench, task: tk}.asked()
		if tk.Numeric() {
			p.types(number)
			if !seen["typed"+string(tk.Do)] {
				show()
				seen["typed"+string(tk.Do)] = true
			}
			p.press("enter")
		} else {
			p.press("space")
		}
	}
	p.looks(24 * time.Hour)
	show()
	p.press("q")
}

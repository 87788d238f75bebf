package face

import (
	"image/png"
	"io/fs"
	"os"
	"testing"
	"fmt"

	"bench/internal/batch"
	"bench/internal/cells"
	"bench/internal/cells/shot"
	"bench/internal/recipe"
	"bench/internal/recipe/read"
	"bench/internal/steps"
	"bench/recipes"
)

func control(t *testing.T, name string) recipe.Control {
	data, _ := fs.ReadFile(recipes.FS(), recipes.WorkshopFile)
	w, _, _ := read.Workshop("w", data)
	data, _ = fs.ReadFile(recipes.FS(), name)
	r, _, _ := read.CheckedRecipe(name, data, w)
	c, _ := recipe.Resolve(r, string(data), w, 0)
	return c
}

func TestProto(t *testing.T) {
	for _, name := range recipes.Files() {
		c := control(t, name)
		plan := steps.Of(batch.State{Control: c})
		l := Of(plan, c, 0, steps.Stage{Layer: c.Recipe.Layers[0].Name})
		for n, size := range [][2]int{{34, 16}, {60, 26}} {
			var all []string
			for _, look := range []cells.Look{{cells.Quadrants, cells.True, true}, {cells.Sextants, cells.True, true}, {cells.Octants, cells.True, true}, {cells.Quadrants, cells.Sixteen, true}, {cells.Braille, cells.None, true}, {cells.Plain, cells.None, false}} {
				a := l.Finished().Terminal(size[0], size[1], look, Frame{Rule: true, Names: true})
				b := l.Terminal(size[0], size[1], look, Frame{Rule: true, Names: true, Mould: true})
				for len(a) < size[1] { a = append([]string{fmt.Sprintf("%*s", cellsWide(a[len(a)-1]), "")}, a...) }
				for len(b) < size[1] { b = append([]string{""}, b...) }
				for i := range b { all = append(all, a[i]+"   "+b[i]) }
				all = append(all, "")
			}
			third := len(all)/2
			for i := range third { all[i] += "     "+all[third+i] }
			img, err := shot.Paint(all[:third], shot.Dark)
			if err != nil { t.Fatal(err) }
			f, _ := os.Create(fmt.Sprintf("/tmp/face-%s-%d.png", name, n))
			png.Encode(f, img)
			f.Close()
		}
	}
}
func cellsWide(s string) int { n:=0; esc:=false; for _, r := range s { if r==27 {esc=true} else if esc { esc = r!='m'} else {n++}}; return n }

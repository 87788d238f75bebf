package face

import (
	"os"
	"testing"
	"time"

	"bench/internal/batch"
	"bench/internal/picture"
	"bench/internal/scene"
	"bench/internal/steps"
	"bench/recipes"
)

func XTestProto2(t *testing.T) {
	for _, name := range recipes.Files() {
		c := control(t, name)
		plan := steps.Of(batch.State{Control: c})
		l := Of(plan, c, 0, steps.Stage{Layer: c.Recipe.Layers[0].Name})
		for what, s := range map[string]scene.Scene{"bar": l.Bar(), "note": l.Notebook(), "end": l.End(), "side": l.Side(Cut{Trim: 5, Bar: 25, Rows: []Row{{"moon", []float64{80, 155}}}})} {
			os.WriteFile("/tmp/p-"+name+"-"+what+".svg", scene.SVG(s), 0o644)
			b, err := picture.PNG(s, 10)
			if err != nil { t.Fatal(err) }
			os.WriteFile("/tmp/p-"+name+"-"+what+".png", b, 0o644)
			b, err = picture.PDF(s, time.Unix(0,0))
			if err != nil { t.Fatal(err) }
			os.WriteFile("/tmp/p-"+name+"-"+what+".pdf", b, 0o644)
		}
	}
}

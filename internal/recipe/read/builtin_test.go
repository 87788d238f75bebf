package read

import (
	"encoding/json"
	"io/fs"
	"reflect"
	"testing"

	"bench/internal/recipe"
	"bench/internal/recipe/check"
	"bench/recipes"
)

// builtinWorkshop reads the workshop that the tests of recipes rest on.
func builtinWorkshop(t testing.TB) recipe.Workshop {
	t.Helper()
	data, err := fs.ReadFile(recipes.FS(), recipes.WorkshopFile)
	if err != nil {
		t.Fatal(err)
	}
	w, _, problems := Workshop(recipes.WorkshopFile, data)
	for _, p := range problems {
		t.Error(p)
	}
	return w
}

// TestBuiltin holds the built-in documents to having nothing wrong, and their
// control recipes to surviving the store.
func TestBuiltin(t *testing.T) {
	w := builtinWorkshop(t)
	if len(recipes.Files()) < 3 {
		t.Fatalf("built-in recipes: %v", recipes.Files())
	}
	for _, file := range recipes.Files() {
		data, err := fs.ReadFile(recipes.FS(), file)
		if err != nil {
			t.Fatal(err)
		}
		r, source, problems := CheckedRecipe(file, data, w, recipes.FS())
		control, more := check.Resolve(r, string(data), w, 0)
		for _, p := range append(problems, source.Place(more)...) {
			t.Error(p)
		}
		if control.Loaves != r.Loaves || control.LeftInVessel != w.LeftInVessel {
			t.Errorf("%s: %d loaves, %v left in a vessel", file, control.Loaves, control.LeftInVessel)
		}
		stored, err := json.Marshal(control)
		if err != nil {
			t.Fatal(err)
		}
		var back recipe.Control
		if err := json.Unmarshal(stored, &back); err != nil {
			t.Fatal(err)
		}
		if !reflect.DeepEqual(control, back) {
			t.Errorf("%s: the control recipe changed on its way through JSON:\n%+v\n%+v", file, control, back)
		}
		for _, b := range control.Recipe.Batters {
			for _, o := range b.Oils {
				if use, ok := control.Oil(o.Oil); !ok || use.Lot == "" || use.Density < 0.8 || use.SV.Nominal < 150 {
					t.Errorf("%s: oil %q is %+v", file, o.Oil, use)
				}
			}
		}
	}
}

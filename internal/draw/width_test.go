package draw

import "testing"

func TestWaryOf(t *testing.T) {
	for _, c := range []struct {
		env  map[string]string
		want bool
	}{
		{map[string]string{}, false},
		{map[string]string{"LANG": "en_GB.UTF-8"}, false},
		{map[string]string{"LANG": "ja_JP.UTF-8"}, true},
		{map[string]string{"LANG": "ja_JP.UTF-8", "LC_ALL": "C.UTF-8"}, false},
		{map[string]string{"RUNEWIDTH_EASTASIAN": "1"}, true},
		{map[string]string{"RUNEWIDTH_EASTASIAN": "0", "LANG": "zh_CN.UTF-8"}, false},
	} {
		if got := waryOf(func(key string) string { return c.env[key] }); got != c.want {
			t.Errorf("%v: %v", c.env, got)
		}
	}
}

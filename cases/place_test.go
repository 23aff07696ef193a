package cases

import "testing"

func TestPlace(t *testing.T) {
	for _, tt := range []struct{ site, side, want string }{
		{"cheek", "left", "left cheek"},
		{"back", "left", "left side of the back"},
		{"hand_back", "right", "back of the right hand"},
		{"nose", "midline", "nose"},
		{"chest", "", "chest"},
	} {
		if got := Place(tt.site, tt.side, UK); got != tt.want {
			t.Errorf("%s %s: %q, want %q", tt.side, tt.site, got, tt.want)
		}
	}
}

package ui

// KeyDown tells of a named key, or of a letter or digit with Ctrl or Alt.
// Typed characters arrive through Type.
func (h *Host) KeyDown(k Key) {
	f := h.Frame()
	if k.Name == "Tab" && !k.Ctrl && !k.Alt {
		dir := 1
		if k.Shift {
			dir = -1
		}
		h.moveFocus(dir, func(Stop) bool { return true })
		return
	}
	if s := f.Stop(h.st.Focus); s != nil && s.Layer == f.Layers-1 && h.keyOn(*s, k) {
		return
	}
	if s := f.Stop(h.st.Focus); s != nil {
		if _, stage := s.Of.(Stage); stage {
			h.send(k)
			return
		}
	}
	if !k.Ctrl && !k.Alt && h.scrollKey(k.Name) {
		return
	}
	h.send(k)
}

// KeyUp tells that a key was let go.
func (h *Host) KeyUp(name string) { h.send(KeyUp{name}) }

// Type tells of typed characters.
func (h *Host) Type(text string) {
	f := h.Frame()
	s := f.Stop(h.st.Focus)
	if s != nil && s.Layer != f.Layers-1 {
		s = nil
	}
	if s != nil {
		if fl, ok := s.Of.(Field); ok {
			h.insert(fl, text)
			return
		}
		if _, stage := s.Of.(Stage); text == " " && !stage {
			h.space(*s)
			return
		}
	}
	if h.screen.WantsText() && text != " " {
		h.send(TextInput{h.st.Focus, text})
		return
	}
	for _, r := range text {
		if r == ' ' {
			h.send(Key{Name: "Space"})
			continue
		}
		h.send(Key{Name: string(r)})
	}
}

// moveFocus goes to the next stop of the Tab key in a direction, round the end.
// It reports whether the neighbour was one that ok accepts.
func (h *Host) moveFocus(dir int, ok func(Stop) bool) bool {
	f := h.Frame()
	n := len(f.Stops)
	if n == 0 {
		return false
	}
	at := indexOf(f.Stops, h.st.Focus)
	if at < 0 {
		at = h.lastIndex
		if h.st.Focus == "" && dir > 0 {
			at = -1
		}
		if h.st.Focus == "" && dir < 0 {
			at = n
		}
	}
	for range n {
		at = ((at+dir)%n + n) % n
		s := f.Stops[at]
		if !s.Tab || s.Layer != f.Layers-1 {
			continue
		}
		if !ok(s) {
			return false
		}
		h.setFocus(s.ID)
		return true
	}
	return false
}

// At says in words which tick the arrows stand on, so that it can be spoken;
// it is empty where the focus has no ticks.
func (h *Host) At() string {
	s := h.Frame().Stop(h.st.Focus)
	if s == nil {
		return ""
	}
	t, ok := h.ticksOf(*s)
	if !ok || len(t.Items) == 0 {
		return ""
	}
	i := clampInt(h.st.Cursor[t.ID], 0, len(t.Items)-1)
	if t.ticked(i) {
		return t.Items[i].Label + ", ticked"
	}
	return t.Items[i].Label
}

// space activates, or toggles what the cursor stands on.
func (h *Host) space(s Stop) {
	if t, ok := h.ticksOf(s); ok {
		h.send(Choose{t.ID, clampInt(h.st.Cursor[t.ID], 0, len(t.Items)-1)})
		return
	}
	if t, ok := s.Of.(Tabs); ok {
		h.send(Choose{t.ID, cursorOf(h.st, t.ID, t.At)})
		return
	}
	h.send(Activate{s.ID})
}

// ticksOf finds the ticks that keys on a stop work on: itself, or the editor of
// a phrase.
func (h *Host) ticksOf(s Stop) (Ticks, bool) {
	if t, ok := s.Of.(Ticks); ok {
		return t, len(t.Items) > 0
	}
	if p, ok := s.Of.(Phrase); ok {
		for _, o := range h.frame.Stops {
			if t, ok := o.Of.(Ticks); ok && t.For == p.ID && len(t.Items) > 0 {
				return t, true
			}
		}
	}
	return Ticks{}, false
}

// keyOn lets the focused control have a key first.
func (h *Host) keyOn(s Stop, k Key) bool {
	if fl, ok := s.Of.(Field); ok && h.editKey(fl, k) {
		return true
	}
	if _, stage := s.Of.(Stage); k.Ctrl || k.Alt || stage {
		return false
	}
	if k.Name == "Enter" {
		switch s.Of.(type) {
		case Tabs, Ticks:
			h.space(s)
		default:
			h.send(Activate{s.ID})
		}
		return true
	}
	if t, ok := h.ticksOf(s); ok {
		if to, ok := stepped(k.Name, clampInt(h.st.Cursor[t.ID], 0, len(t.Items)-1), len(t.Items)); ok {
			h.st.Cursor[t.ID] = to
			h.place, h.reveal = true, true
			return true
		}
	}
	switch n := s.Of.(type) {
	case ChoiceList:
		return h.chooseKey(n.ID, k.Name, n.Chosen, len(n.Items), func(i int) bool { return n.Items[i].Off })
	case List:
		return h.chooseKey(n.ID, k.Name, n.Chosen, len(n.Rows), func(int) bool { return false })
	case Tabs:
		return h.tabKey(n, k.Name)
	case Dial:
		return h.dialKey(n, k.Name)
	case ActStrip:
		if by := numberStep(k.Name); by != 0 {
			h.send(Step{n.ID, by})
			return true
		}
	case Phrase:
		return h.phraseKey(n, k.Name)
	}
	return false
}

// stepped moves an index by a list key; it stays inside the list.
func stepped(key string, at, n int) (int, bool) {
	switch key {
	case "Up":
		return max(0, at-1), true
	case "Down":
		return min(n-1, at+1), true
	case "Home":
		return 0, true
	case "End":
		return n - 1, true
	}
	return at, false
}

func (h *Host) chooseKey(id, key string, chosen, n int, off func(int) bool) bool {
	if n == 0 {
		return false
	}
	to, ok := stepped(key, chosen, n)
	if chosen < 0 && ok && key != "End" {
		to = 0
	}
	if !ok {
		return false
	}
	dir := 1
	if key == "Up" || key == "End" {
		dir = -1
	}
	for to >= 0 && to < n && off(to) {
		to += dir
	}
	if to >= 0 && to < n && to != chosen {
		h.reveal = true
		h.send(Choose{id, to})
	}
	return true
}

func (h *Host) tabKey(n Tabs, key string) bool {
	at := clampInt(cursorOf(h.st, n.ID, n.At), 0, len(n.Tabs)-1)
	switch key {
	case "Left":
		at--
	case "Right":
		at++
	default:
		return false
	}
	if at >= 0 && at < len(n.Tabs) {
		h.st.Cursor[n.ID] = at
		h.place = true
	}
	return true
}

// bigStep is how many steps Page Up and Page Down make on a number.
const bigStep = 10

func numberStep(key string) int {
	switch key {
	case "Up", "Right":
		return 1
	case "Down", "Left":
		return -1
	case "PageUp":
		return bigStep
	case "PageDown":
		return -bigStep
	}
	return 0
}

func (h *Host) dialKey(n Dial, key string) bool {
	if by := numberStep(key); by != 0 {
		h.send(Step{n.ID, by})
		return true
	}
	switch key {
	case "Home":
		h.send(SetFraction{n.ID, 0})
		return true
	case "End":
		h.send(SetFraction{n.ID, 1})
		return true
	}
	return false
}

// phraseKey: up and down step, left and right go to the neighbouring phrase.
func (h *Host) phraseKey(p Phrase, key string) bool {
	isPhrase := func(s Stop) bool { _, ok := s.Of.(Phrase); return ok }
	switch key {
	case "Left":
		return h.moveFocus(-1, isPhrase)
	case "Right":
		return h.moveFocus(1, isPhrase)
	}
	switch p.Steps {
	case StepNumber:
		if by := numberStep(key); by != 0 {
			h.send(Step{p.ID, by})
			return true
		}
	case StepList:
		switch key {
		case "Up":
			h.reveal = true
			h.send(Step{p.ID, -1})
			return true
		case "Down":
			h.reveal = true
			h.send(Step{p.ID, 1})
			return true
		}
	}
	return false
}

// scrollKey scrolls the area that the focus is in, else the outermost one.
func (h *Host) scrollKey(name string) bool {
	f := h.frame
	var d float64
	switch name {
	case "Up":
		d = -wheelStep * h.st.TextScale
	case "Down":
		d = wheelStep * h.st.TextScale
	case "PageUp", "PageDown", "Home", "End":
	default:
		return false
	}
	var area *Area
	if s := f.Stop(h.st.Focus); s != nil && s.Layer == f.Layers-1 {
		area = areaOf(f, s.Scroll)
	}
	for i := 0; area == nil && i < len(f.Areas); i++ {
		a := &f.Areas[i]
		if a.Layer == f.Layers-1 && a.Content > a.View.H+0.5 {
			area = a
		}
	}
	if area == nil {
		return false
	}
	switch name {
	case "PageUp":
		d = -area.View.H * 0.85
	case "PageDown":
		d = area.View.H * 0.85
	case "Home":
		d = -area.Content
	case "End":
		d = area.Content
	}
	return h.scrollBy(*area, d)
}

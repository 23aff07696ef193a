package skin

import "image"

// grains are the fixed patterns of one view: where edges wander, where a
// coagulum is denser, where crust cracks. They depend on seed and place alone.
type grains struct {
	wanderX, wanderY []float32 // bends the edges of all that heat does
	mottle           []float32 // of half a millimetre
	fine             []float32
	wrinkle          []float32 // of dried skin: ridges, 0 to 1
	crack            []float32 // of char, 1 in a crack
	weave            []float32 // of the reticular dermis
	loop             []float32 // capillary loops of the papillary dermis, 0 to 1
	bead             []float32 // mm of blood in beads
}

func newGrains(c *canvas) grains {
	g, seed := c.grid, c.seed("treated")
	n := grains{
		wanderX: g.fbm(seed+1, 0.30, 2, 0.6), wanderY: g.fbm(seed+2, 0.30, 2, 0.6),
		mottle: g.fbm(seed+3, 0.55, 3, 0.5), fine: g.fbm(seed+4, 0.13, 2, 0.6),
		wrinkle: g.fbmXY(seed+5, 0.42, 0.26, 2, 0.5), weave: g.fbmXY(seed+6, 0.55, 0.30, 3, 0.55),
		crack: g.plane(), loop: g.plane(), bead: g.plane(),
	}
	s1, s2 := uint32(seed>>9), uint32(seed>>21)
	g.rows(func(y0, y1 int) {
		cracks, loops := cellsOf(s1, 0.95), cellsOf(s2, 0.9)
		for row := y0; row < y1; row++ {
			for col := range g.w {
				i := row*g.w + col
				x, y := g.x(col)+0.10*n.wanderX[i], g.y(row)+0.10*n.wanderY[i]
				n.crack[i] = bell(cracks.at(x/0.34, y/0.34).edge / 0.10)
				cl := loops.at(x/0.21, y/0.21)
				n.loop[i] = bell(cl.near/0.20) * smooth(0.35, 0.8, low16(cl.id))
				n.wrinkle[i] = 1 - min(abs32(n.wrinkle[i])*2.6, 1)
			}
		}
	})
	return n
}

// treat works out the fields of a part of the picture from the untreated ones.
func (t *Treated) treat(r image.Rectangle) {
	c := t.canvas
	t.beads(r)
	split(r.Dy(), func(y0, y1 int) {
		var m marks
		for row := r.Min.Y + y0; row < r.Min.Y+y1; row++ {
			y := c.y(row)
			for col := r.Min.X; col < r.Max.X; col++ {
				i := row*c.w + col
				t.restore(i)
				x := c.x(col)
				t.inkAt(i, x, y)
				if red := t.flush.at(x, y); red > 0.01 {
					c.Blood[i] *= 1 + 1.9*red*clamp(1+0.35*t.grain.mottle[i]+0.2*t.grain.fine[i], 0.3, 2)
					mix(c.Oxygen, i, 0.86, min(red, 1))
				}
				u := t.columnAt(x+0.055*t.grain.wanderX[i], t.nx)
				v := t.columnAt(y+0.055*t.grain.wanderY[i], t.ny)
				if t.blend(u, v, &m) {
					t.change(i, &m)
				}
				if b := t.grain.bead[i]; b > 0 {
					t.lie(i, b, 0, c.Height[i])
				}
			}
		}
	})
}

// restore brings back the untreated skin at pixel i.
func (t *Treated) restore(i int) {
	f, b := t.canvas.Fields, t.base
	f.Height[i], f.Melanin[i], f.Blood[i], f.Oxygen[i] = b.Height[i], b.Melanin[i], b.Blood[i], b.Oxygen[i]
	f.Scatter[i], f.Epidermis[i], f.Deep[i], f.Rough[i] = b.Scatter[i], b.Epidermis[i], b.Deep[i], b.Rough[i]
	f.Gloss[i], f.Stay[i], f.Hair[i], f.HairShade[i] = b.Gloss[i], b.Stay[i], b.Hair[i], b.HairShade[i]
	f.Cover.Share[i], f.Cover.R[i], f.Cover.G[i], f.Cover.B[i] = b.Cover.Share[i], b.Cover.R[i], b.Cover.G[i], b.Cover.B[i]
	f.Heat.clear(i)
}

// change does to pixel i what has happened to its tissue, in the order of the
// acts: fluid and pressure, what was taken, heat, what lies on top.
func (t *Treated) change(i int, m *marks) {
	f := t.canvas.Fields
	bleb := smooth(0.05, 0.8, m[markBleb])
	if bleb > 0 || m[markBleb] > 0 {
		f.Height[i] += m[markBleb] - 0.6*bleb*(t.base.Height[i]-t.low[i])
		f.Gloss[i] *= 1 + 0.3*bleb
		f.Blood[i] *= 1 - 0.3*bleb
	}
	if k := clamp(m[markBlanch]*(1+0.3*t.grain.mottle[i]), 0, 1); k > 0 {
		f.Blood[i] *= lerp(1, 0.14+0.5*max(f.Stay[i]-plainStay, 0), k)
		f.Deep[i] *= 1 - 0.4*k
	}
	is := matter{held: 0.10, shrinks: 0.35}
	lesion := smooth(0.3, 0.7, m[markLesion])
	is = is.mix(t.inside, lesion)
	cut := smooth(0.36, 0.56, m[markCut]+0.05*t.grain.fine[i]+0.06*t.grain.mottle[i]) * smooth(0.01, 0.05, m[markTaken])
	level := t.low[i] + m[markBleb]
	if cut > 0 {
		level, is = t.cut(i, m, cut, lesion)
	}
	t.heat(i, m, is, cut, level)
	if m[markPool] > 0.003 {
		t.lie(i, m[markPool], m[markCooked], level)
	}
	if wet := max(smooth(0, 0.04, m[markWater]), 0.8*m[markDamp]); wet > 0 {
		f.Height[i] = lerp(f.Height[i]+m[markWater], level+m[markWater], 0.35*wet+0.5*smooth(0.02, 0.2, m[markWater]))
		mix(f.Rough, i, 0.15, 0.85*wet)
		mix(f.Gloss, i, 1.5, 0.7*wet)
	}
}

// cut lays bare what was beneath: lesion, or dermis by its depth. It returns
// the level of the new surface without its grain, and what it is made of.
func (t *Treated) cut(i int, m *marks, k, lesion float32) (levelMM float32, is matter) {
	f, n := t.canvas.Fields, &t.grain
	proud := max(t.low[i]-t.ground[i], 0) // height of the untreated lesion here
	below := t.ground[i] + m[markFloor] + m[markBleb]
	levelMM = lerp(t.low[i]-m[markTaken]+m[markBleb], below, smooth(0.25, 0.8, m[markTaken]/(proud+0.15)))
	depth := -m[markFloor] + 0.05*n.mottle[i]
	reticular := smooth(-0.06, 0.08, depth-t.depth.reticular)
	fat := smooth(-0.04, 0.08, depth-t.depth.fat)
	floor := papillaryFloor.mix(reticularFloor, reticular).mix(fatFloor, fat)
	is = floor.mix(t.inside, lesion)
	sound := (1 - lesion) * (1 - fat)
	grain := 0.012*n.fine[i] + 0.030*n.mottle[i] + sound*reticular*0.022*n.weave[i] + fat*0.07*(0.5-n.crack[i]) + lesion*0.03*n.weave[i]
	f.Height[i] = lerp(f.Height[i], levelMM+grain, k)
	fibre := sound * smooth(-0.1, 0.8, n.weave[i])
	red := sound * (1 - 0.75*reticular) * n.loop[i]
	f.fill(i, k, body{
		melanin: is.melaninShare * t.base.Melanin[i], blood: max(is.blood*(1+0.45*n.mottle[i]+0.2*n.fine[i]-0.45*fibre)+0.16*red, 0.003), oxygen: is.oxygen,
		scatter: is.scatter * (1 + 0.22*fibre + 0.08*n.fine[i]), epidermis: 0.10, rough: is.rough, gloss: is.gloss, stay: 0.6,
	})
	f.Deep[i] *= 1 - k
	f.uncover(i, k)
	f.Hair[i] *= 1 - k
	f.HairShade[i] *= 1 - k
	f.Heat.Brown[i] += k * fat * 0.55 * (1 - 0.6*n.crack[i]) // carotene: fat is yellow
	// The torn edge of the horny layer stands up a little, pale.
	if edge := 4 * k * (1 - k); edge > 0.05 {
		f.Heat.Veil[i] += 0.22 * edge * clamp(0.7+1.3*n.mottle[i], 0, 1.6)
		f.Height[i] += 0.05 * edge * clamp(0.8+n.mottle[i], 0, 1.5)
	}
	return levelMM, is
}

// heat curdles, dries, browns and chars.
func (t *Treated) heat(i int, m *marks, is matter, cut, levelMM float32) {
	f, n := t.canvas.Fields, &t.grain
	shut := max(m[markShut], m[markWhite])
	if shut < 0.004 && m[markChar] == 0 && m[markDry] < 0.01 {
		return
	}
	uneven := 1 + 0.28*n.mottle[i] + 0.10*n.fine[i]
	white := clamp(m[markWhite]*uneven, 0, 1)
	dry := clamp(m[markDry]*(1+0.2*n.fine[i]), 0, 1)
	gel, brown := m[markGel]*white, m[markBrown]*clamp(1+0.55*n.mottle[i], 0.3, 2)
	// Blood: vessels close and empty; where it is dense it curdles in place.
	f.Blood[i] *= lerp(1, lerp(0.10, 0.80, is.held), shut)
	mix(f.Oxygen, i, 0.25, white)
	h := f.Heat
	h.Cooked[i] = white * (0.45 + 0.55*gel)
	// Protein: many small scatterers, fewer again as collagen melts.
	f.Scatter[i] *= lerp(1, 2.7, white) * lerp(1, 0.66, gel)
	skin := 1 - cut
	h.Veil[i] += white*(0.18+0.38*skin)*(1-0.6*is.held)*(1-0.35*gel)*uneven + dry*(0.16+0.75*is.horny-0.10*is.held)*clamp(1+0.5*n.mottle[i], 0.2, 2)
	h.Brown[i] += 0.10*gel + dry*(0.22+0.12*n.mottle[i]+is.held*(0.45+0.35*n.mottle[i]))*(1-0.5*is.horny) + 2.6*brown
	h.Veil[i] *= 1 - 0.75*min(brown, 1)
	// Relief: fine lines fade, what has dried shrinks and wrinkles.
	rise := f.Height[i] - t.ground[i]
	if rise > 0 {
		f.Height[i] -= rise * is.shrinks * max(dry, 0.25*white)
	}
	f.Height[i] -= skin * 0.40 * white * (t.base.Height[i] - t.low[i])
	f.Height[i] += -0.03*white - 0.05*dry + dry*(0.040*n.wrinkle[i]-0.02+0.014*n.fine[i]) + dry*is.horny*0.05*max(n.mottle[i], 0)
	mix(f.Rough, i, 0.50, max(white, dry))
	f.Gloss[i] *= (1 - 0.45*white) * (1 - 0.45*dry)
	t.burnCover(i, dry, h.Brown[i])
	f.Hair[i] *= 1 - max(white, dry)
	f.HairShade[i] *= 1 - max(white, dry)
	if char := smooth(0.30, 0.62, m[markChar]+0.16*n.fine[i]+0.10*n.mottle[i]); char > 0 && m[markChar] > 0.02 {
		t.carbon(i, char)
	}
}

// burnCover changes horn and crust that heat has reached: steam whitens,
// browning darkens.
func (t *Treated) burnCover(i int, dry, brown float32) {
	v := &t.canvas.Cover
	s := v.Share[i]
	if s == 0 {
		return
	}
	pale := 0.85 * dry * clamp(0.9+0.9*t.grain.mottle[i]+0.5*t.grain.fine[i], 0, 1.1)
	k := [3]float32{0.5 * bakedRed.brown, 0.5 * bakedGreen.brown, 0.5 * bakedBlue.brown}
	for n, p := range [3][]float32{v.R, v.G, v.B} {
		p[i] = lerp(p[i], s*hornSilver[n], pale) * exp32(-k[n]*brown)
	}
}

// carbon blackens share k of pixel i: a sunken, cracked, dull crust.
func (t *Treated) carbon(i int, k float32) {
	f, n := t.canvas.Fields, &t.grain
	f.Heat.Char[i] = k * clamp(0.85+0.25*n.fine[i]-0.35*n.crack[i], 0.3, 1.2)
	f.Heat.Veil[i] *= 1 - k
	f.Cover.R[i] *= 1 - 0.95*k
	f.Cover.G[i] *= 1 - 0.95*k
	f.Cover.B[i] *= 1 - 0.95*k
	f.Height[i] += k * (-0.05 - 0.07*n.crack[i] + 0.045*n.fine[i])
	mix(f.Rough, i, 0.48, k)
	mix(f.Gloss, i, 0.35, k)
}

// lie lays a depth of blood on pixel i, of which a share has curdled. Its
// surface is level: fine relief drowns.
func (t *Treated) lie(i int, depthMM, cooked, levelMM float32) {
	f, n := t.canvas.Fields, &t.grain
	hides := smooth(0, 0.05, depthMM)
	f.Heat.PoolMM[i] += depthMM
	mix(f.Heat.Cooked, i, cooked, hides)
	mix(f.Heat.Brown, i, 0, hides)
	mix(f.Heat.Char, i, 0, hides*(1-cooked))
	f.Height[i] = lerp(f.Height[i]+depthMM, levelMM+depthMM, 0.9*smooth(0.01, 0.12, depthMM))
	f.Height[i] += cooked * hides * (0.05*n.mottle[i] + 0.03*n.fine[i])
	f.uncover(i, hides)
	mix(f.Rough, i, lerp(0.12, 0.40, cooked), hides)
	mix(f.Gloss, i, lerp(1.9, 0.7, cooked), hides)
	mix(f.Stay, i, 1, hides)
	f.Hair[i] *= 1 - 0.8*hides
}

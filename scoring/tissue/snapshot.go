package tissue

// Maps is the surface of the patch as seen from above, one value a column,
// row by row from the corner of least x and y.
type Maps struct {
	NX, NY    int
	GridMM    float64
	HeightMM  []float32 // of the surface over the level of the skin
	TempC     []float32
	Omega     []float32 // damage integral of the chosen set
	Stasis    []float32 // the same of the small vessels
	Water     []float32 // share of the first water that is left
	Charred   []bool
	Lesion    []bool    // the uppermost voxel is lesion
	Wet       []bool    // blood or saline lies there
	WhitenMM  []float32 // depth of destroyed tissue from the surface down
	ClockMS   int
	Delivered float64 // W
}

// Snapshot fills m, reusing its memory.
func (t *Tissue) Snapshot(m *Maps) {
	b := t.body
	n := b.nx * b.ny
	if len(m.HeightMM) != n {
		*m = Maps{
			HeightMM: make([]float32, n), TempC: make([]float32, n), Omega: make([]float32, n), Stasis: make([]float32, n), Water: make([]float32, n),
			WhitenMM: make([]float32, n), Charred: make([]bool, n), Lesion: make([]bool, n), Wet: make([]bool, n),
		}
	}
	m.NX, m.NY, m.GridMM, m.ClockMS, m.Delivered = b.nx, b.ny, b.hM*1e3, t.clockMS, t.DeliveredW()
	k := 0
	for y := range b.ny {
		for x := range b.nx {
			z := min(b.firstSolid(x, y), b.nz-1)
			i := b.at(x, y, z)
			m.HeightMM[k] = float32(float64(b.planesUp-z) * b.hM * 1e3)
			m.TempC[k] = float32(b.firstC[z] + b.rise[i])
			m.Omega[k], m.Stasis[k], m.Water[k] = b.omega[i], b.stasis[i], b.water[i]
			m.Charred[k] = b.charred(i)
			m.Lesion[k] = b.mark[i]&(markLesion|markFilm) == markLesion
			m.Wet[k] = b.mark[i]&markFilm != 0
			deep := 0
			for j := i; z+deep < b.nz && b.omega[j] >= 1; j += b.plane {
				deep++
			}
			m.WhitenMM[k] = float32(float64(deep) * b.hM * 1e3)
			k++
		}
	}
}

// Slice is a cut through the patch along x, one value a voxel, row by row from
// the top.
type Slice struct {
	NX, NZ  int
	GridMM  float64
	TopMM   float64 // of the first row, over the level of the skin
	Solid   []bool
	Lesion  []bool
	Kind    []Kind
	TempC   []float32
	Omega   []float32
	Water   []float32
	Charred []bool
}

// Section cuts the patch at yMM.
func (t *Tissue) Section(yMM float64) Slice {
	b := t.body
	n := b.nx * b.nz
	s := Slice{
		NX: b.nx, NZ: b.nz, GridMM: b.hM * 1e3, TopMM: float64(b.planesUp) * b.hM * 1e3,
		Solid: make([]bool, n), Lesion: make([]bool, n), Kind: make([]Kind, n),
		TempC: make([]float32, n), Omega: make([]float32, n), Water: make([]float32, n), Charred: make([]bool, n),
	}
	y := clampInt(whole(yMM*1e-3/b.hM+float64(b.ny)/2), b.ny)
	k := 0
	for z := range b.nz {
		i := b.at(0, y, z)
		for range b.nx {
			mat := &b.mats[b.mat[i]]
			s.Solid[k], s.Kind[k] = mat.solid, mat.kind
			s.Lesion[k] = b.mark[i]&markLesion != 0 && mat.solid
			s.TempC[k] = float32(b.physics.AmbientC)
			if mat.solid {
				s.TempC[k] = float32(b.firstC[z] + b.rise[i])
			}
			s.Omega[k], s.Water[k], s.Charred[k] = b.omega[i], b.water[i], b.charred(i)
			k++
			i++
		}
	}
	return s
}

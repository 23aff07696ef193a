package tissue

import "math"

// body is the tissue: a box of voxels, each with its rise over the first
// temperature, its water, its damage and its material.
type body struct {
	lattice
	stencil    // of heat
	hM         float64
	planesUp   int // planes of z above the level of the skin
	physics    Physics
	mats       []material
	mat        []uint8
	first      profile
	firstC     []float32 // of each plane of z
	rise, next []float32 // K over firstC
	water      []float32 // share of the first water that is left
	omega      []float32 // damage integral of the chosen set
	stasis     []float32 // the same of the vessels
	mark       []uint8
	tops       []int32 // plane of the first solid voxel of every column
	tiles      []tile
	awake      []int32 // numbers of the tiles that are, rising
	stasisRate *rateTable
	faces      faceLists
	ledger     ledger
	crew       crew
	pressed    []pressedVoxel
	extra      map[string]uint8 // materials that may be laid on later
	stepS      float64          // longest stable step
	steps      int
	byField    bool      // gains come from the electric field, and end where it dries
	dt         float32   // of the step under way
	flows      []float32 // of each material, blood flow now wanted, W/K a voxel
	marchTile  func(piece int)
}

// Materials that are none.
const (
	matAir = 0
	matFar = 1 // beyond the faces of the box: held at the first temperature
)

// Marks of a voxel.
const (
	markCharred uint8 = 1 << iota
	markLesion        // was lesion at the start
	markGone          // taken away since
	markFilm          // blood or saline that lies on the skin
	markSettled       // killed and closed as far as the integrals go
)

// ledger is the account of energy since the start, J.
type ledger struct {
	in, surface, far, blood, removed float64
}

func newBody(spec *RunSpec) *body {
	hM := spec.GridMM * 1e-3
	count := func(mm float64) int { return int(math.Ceil(mm/spec.GridMM - 0.01)) }
	up := count(spec.RoomMM)
	if spec.Lesion != nil {
		up = max(up, count(spec.Lesion.HeightMM))
	}
	down := count(spec.SizeMM[2])
	b := &body{hM: hM, planesUp: up, physics: spec.Physics}
	b.lattice = newLattice(count(spec.SizeMM[0]), count(spec.SizeMM[1]), down+up)
	b.stencil = stencil{
		gx: make([]float32, b.size), gy: make([]float32, b.size), gz: make([]float32, b.size), loss: make([]float32, b.size),
		gain: make([]float32, b.size), weight: make([]float32, b.size), rowStep: b.row, planeStep: b.plane,
	}
	for _, f := range []*[]float32{&b.rise, &b.next, &b.water, &b.omega, &b.stasis} {
		*f = make([]float32, b.size)
	}
	b.mat, b.mark = make([]uint8, b.size), make([]uint8, b.size)
	layers := newStack(spec.Layers)
	b.first = firstProfile(layers, hM, down, spec.Physics)
	b.layMaterials(layers)
	b.extra = map[string]uint8{}
	for _, id := range spec.Extra {
		b.addMaterial(id)
	}
	if spec.Lesion != nil {
		b.layLesion(*spec.Lesion, layers)
	}
	b.firstC = make([]float32, b.nz)
	for z := range b.firstC {
		b.firstC[z] = float32(b.first.at((float64(z-up) + 0.5) * hM))
	}
	b.prepareMaterials()
	b.connectAll()
	b.layTiles()
	b.findTops()
	b.findFaces()
	b.findLayers()
	b.setStep()
	b.marchTile = b.marchOne
	b.crew.start(spec.Workers)
	return b
}

// layMaterials fills the box: air above the skin, layers below, and the far
// material in the ghosts of all faces but the top.
func (b *body) layMaterials(layers stack) {
	b.mats = []material{{name: "air"}, {name: "far"}}
	for i := range b.mat {
		b.mat[i] = matFar
	}
	plane := make([]uint8, b.nz)
	for z := b.planesUp; z < b.nz; z++ {
		from := float64(float64(z-b.planesUp) * b.hM)
		m := layers.between(from, from+b.hM)
		if m != b.mats[len(b.mats)-1] {
			b.mats = append(b.mats, m)
		}
		plane[z] = uint8(len(b.mats) - 1)
	}
	for z := -1; z < b.nz; z++ {
		for y := range b.ny {
			for x := range b.nx {
				i := b.at(x, y, z)
				b.mat[i] = matAir
				if z >= 0 {
					b.mat[i] = plane[z]
				}
				b.water[i] = 1
			}
		}
	}
}

func (b *body) prepareMaterials() {
	var epidermis, deeper *rateTable
	if set := DamageByID(b.physics.Damage); set != nil {
		epidermis, deeper = newRateTable(set.branches(Epidermis)), newRateTable(set.branches(Reticular))
		b.stasisRate = newRateTable(stasis)
	}
	for i := range b.mats {
		m := &b.mats[i]
		m.prepare(b.hM, b.physics.BloodRhoCJm3K)
		m.rate = deeper
		if m.kind == Epidermis || m.kind == Horny {
			m.rate = epidermis
		}
	}
	b.flows = make([]float32, len(b.mats))
	for i := range b.mats {
		b.flows[i] = b.mats[i].perfusionBlood
	}
	for i, m := range b.mat {
		if b.mats[m].solid {
			b.loss[i] = b.mats[m].perfusionBlood
			b.weight[i] = 1 / b.mats[m].wetJK
		}
	}
}

// connectAll works out every face.
func (b *body) connectAll() {
	for z := -1; z <= b.nz; z++ {
		for y := -1; y <= b.ny; y++ {
			for x := -1; x <= b.nx; x++ {
				i := b.at(x, y, z)
				if x >= 0 {
					b.gx[i] = b.face(i-1, i)
				}
				if y >= 0 {
					b.gy[i] = b.face(i-b.row, i)
				}
				if z >= 0 {
					b.gz[i] = b.face(i-b.plane, i)
				}
			}
		}
	}
}

// reconnect works out the six faces of one voxel again.
func (b *body) reconnect(i int) {
	b.unlike(i)
	b.gx[i], b.gx[i+1] = b.face(i-1, i), b.face(i, i+1)
	b.gy[i], b.gy[i+b.row] = b.face(i-b.row, i), b.face(i, i+b.row)
	b.gz[i], b.gz[i+b.plane] = b.face(i-b.plane, i), b.face(i, i+b.plane)
}

// face is the heat conductance in W/K between two neighbours: half a voxel of
// each in row, half a voxel to a far face, half a voxel and the loss to air.
func (b *body) face(i, j int) float32 {
	mi, mj := &b.mats[b.mat[i]], &b.mats[b.mat[j]]
	switch {
	case mi.solid && mj.solid:
		ki, kj := mi.conducts(b.water[i]), mj.conducts(b.water[j])
		return float32(2 * b.hM * float64(ki) * float64(kj) / (float64(ki) + float64(kj)))
	case !mi.solid && !mj.solid:
		return 0
	case mj.solid:
		i, j, mi, mj = j, i, mj, mi
	}
	k := float64(mi.conducts(b.water[i]))
	if b.mat[j] == matFar {
		return float32(2 * b.hM * k)
	}
	h := b.physics.SurfaceHWm2K
	return float32(b.hM * b.hM * h * 2 * k / (float64(h*b.hM) + 2*k))
}

// setStep finds the longest stable step of an explicit march, with some
// reserve: a voxel may not pass on more heat than it has. Only what is in the
// box counts, and only wet voxels in its corners, whose far faces pass twice as
// much.
func (b *body) setStep() {
	const reserve = 0.9
	var present [256]bool
	for _, m := range b.mat {
		present[m] = true
	}
	top := 0.0
	for i, m := range b.mats {
		if present[i] {
			top = max(top, m.kWmK)
		}
	}
	b.stepS = math.Inf(1)
	for i, m := range b.mats {
		if !m.solid || !present[i] {
			continue
		}
		blood := float64(b.hM * b.hM * m.perfusion1S * b.physics.BloodRhoCJm3K)
		faces := func(k float64) float64 { return 2 * k * top / (k + top) }
		wet := float64(3*faces(m.kWmK)) + float64(6*m.kWmK) + blood
		b.stepS = min(b.stepS, reserve*m.rhoCJm3K*b.hM*b.hM/wet)
		if b.physics.Vaporise {
			dry := float64(6*faces(m.kDryWmK)) + blood
			b.stepS = min(b.stepS, reserve*m.rhoCDryJm3K*b.hM*b.hM/dry)
		}
	}
}

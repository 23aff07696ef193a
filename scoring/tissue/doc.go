// Package tissue works out what a fine electrode does to layered skin and to a
// lesion on and in it: where current flows, where it heats, what boils dry,
// what dies, and what is left when a blade, a curette or gauze has passed. It
// is the real computation behind the bench and behind the words "minimum
// effective power". Nothing in it looks up a wished-for result.
//
// # The tissue
//
// A [body] is a box of cubic voxels, 0.1 mm by default. The level of the skin
// is z = 0 and z grows inward; a lesion stands in planes of air above it, with
// overhangs and stalks. A voxel has a rise of temperature over its first one,
// the share of its first water that is left, damage integrals and a material.
// Layers by site, matters and forms of lesions are tables with a source a row:
// sites.json, materials.json, lesions.json.
//
// The first temperature is the steady profile of Pennes' equation down the
// layers (firsttemp.go). Only the rise over it is marched, so that skin which
// nothing happens to costs nothing and never drifts; what a changed
// conductivity does to the first, gentle gradient is left out.
//
// # A step
//
// The march (march.go) is explicit: flow through six faces, loss to the blood,
// gain from the current. Heat over 100 C turns water to steam, which leaves;
// so boiling adds no stiffness. What has dried conducts heat and holds it
// less. Damage integrals grow by Arrhenius' law from tables of the rate
// (damage.go); an integral of the small vessels closes the blood flow.
// Boxes of voxels called tiles (tile.go) sleep until heat comes near, and the
// planes of a tile that are still all alike are marched without reading their
// conductances (layerflow.go).
//
// # The current
//
// The potential obeys div(sigma grad phi) = 0 (field.go), with the disc of the
// tip held at one volt, the rest of the surface insulated, and the far faces
// open as a point source would have them. Conductivity rises with temperature
// and falls with the square of the water left. Cells are single voxels about
// the tip and grow outwards (axis.go). Conjugate gradients with a V-cycle as
// preconditioner solve it (multigrid.go); how cells are joined for the coarse
// nets follows their shape, which keeps a dozen cycles from becoming a
// hundred. It is solved again every few milliseconds of pedal, from the last
// solution; in between, a voxel that dries out takes no more current.
//
// The unit (output.go, outputs.json) is a source of voltage behind a
// resistance, with the patient's capacitance to earth in the way back. As
// tissue dries its resistance grows and it takes less power. When the peak
// voltage can jump the dried crust an arc goes to the nearest wet tissue round
// it (crust.go), and drying goes on. How thick the crust is follows from the
// water left in its voxels, so that it may be thinner than one: else a coarse
// grid would bridge it too late. An arc that burns follows a tip that creeps over
// crust, and takes its voltage from the share of the current that goes through
// it. In gap mode sparks land about the tip,
// seeded (arc.go), on what conducts best and lies nearest; a gap that is too
// wide, or a voltage too low, gives none.
//
// # Two ways in
//
// [ReadRun] and [Run] make one run from a file and measure it. [New] makes a
// patch for the bench: [Tissue.Take] an electrode, [Tissue.Step] it through
// milliseconds, act on it ([Tissue.Shave], [Tissue.Snip], [Tissue.Curette],
// [Tissue.Wipe], [Tissue.Press], [Tissue.Flood]), look at it
// ([Tissue.Snapshot], [Tissue.Section], [Tissue.Outcome]). The bench leaves out
// heat that would warm by less than a kelvin a second far from the tip and
// solves the field a little more coarsely; the rest is the same.
//
// # The same bits everywhere
//
// A replay and a grade must not depend on the machine. Every product is
// rounded before it is added, so that no compiler fuses the two; exp and log
// are our own; sums run over planes or tiles of fixed size in their order,
// whatever the workers; vector code (kernel_amd64.s) does the operations of the
// plain code in its order. bench_test.go holds the committed digests of five
// sessions. A doubling of a product counts too: twice x is x + x, and may
// fuse. `GOARCH=arm64 go build -gcflags=-S` shows what was fused; only
// products with powers of two may be.
//
// # What it leaves out
//
// Steam does not wander and warm its neighbours. Tissue does not shrink. The
// horny layer is one conductor, with the size of its admittance at 500 kHz,
// and does not break down. Sparks of one set are solved together, not one by
// one. Nothing burns: char only grows hot.
package tissue

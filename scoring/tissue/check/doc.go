// Package check holds the tissue model against the outside world. It has no
// code to import: only tests, which reach the model as any other program
// would, by writing a run as JSON, reading it with tissue.ReadRun and running
// it with tissue.Run. So a fault in the reader, in a default or in a unit is
// seen here too.
//
// Each test names the published work it stands on:
//
//   - closed forms of heat conduction and of a disc of current, from
//     textbooks, with the order at which the error falls as the grid is halved;
//   - an own radial solution on a very fine line, for sources and drying fronts
//     that have no closed form; it is first held against closed forms itself;
//   - an independent finite-element program, FreeFem++ from Debian, with our
//     own scripts in testdata/freefem;
//   - the energy account of random runs;
//   - the burn experiments of 1947 and the contact burn standard, through a
//     skin model of one dimension;
//   - the customary settings of the trade in testdata/trade, which have no
//     source and therefore judge nothing but plain sense.
//
// A test prints its error figures with -v. Runs that take long are made only
// with LEASTWATT_LONG set. No constant of the model is changed to please a
// test: what the model misses is written in the test that shows it.
package check

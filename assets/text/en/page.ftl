# The page for the bench: two sheets to print, and what stands below them on a screen.

page-sheet-make = Sheet 1 of 2: make it
page-sheet-prove = Sheet 2 of 2: prove it
page-sheet-only = One sheet: nothing to make yet
page-more = More, on the screen only

page-cautions = Cautions
page-caution-old-winding = Remove the old high-voltage winding before any mains reaches the core.
page-caution-earth = No mains until core and enclosure are grounded (earthed), fuse and strain relief are fitted, and every live part is enclosed.
page-caution-code = Your local code rules the mains wiring. Where it asks for a licensed person, call one.
page-caution-plug = Pull the plug before you touch anything. A switch is not enough.

page-core = Core
page-core-lengths = Tongue { $tongue }, stack { $stack }, window { $width } × { $height }, limb { $limb }, yoke { $yoke }.
page-primary = Primary, which stays: { $turns } turns, { $ohms } at 20 °C.
page-coil-empty = Every old winding is out: the coil alone goes on this core.
page-coil-layers = { $layers } layers, { $each } turns each, { $last } in the last. Build { $build }. One turn { $turn } on average.
page-coil-wire = Each wire { $each } long, a lead-out of { $lead } at each end in it. Mark the start.
page-coil-gap = spacer { $shim } in all three faces
page-winding = Winding
page-none = No winding was found for this use: see the limits below.
page-lies = Lies { $where }.
page-layer = Layer
page-turns = Turns
page-turn-length = One turn
page-layer-length = Wire in it
page-all-layers = all
page-parallel = { $count } conductors in parallel: each of them is that long.
page-leads = Lead-outs: { $each } at each end, start marked with a dot. One conductor { $one }, both lead-outs in it.
page-build = Build { $build }, room left above it { $spare }.
page-stop = Stop: { $limit }.

page-materials = Materials
page-fuse = Mains fuse: { $fuse }, in the live wire.
page-fuse-material = mains fuse: { $fuse }
page-no-fuse = No standard fuse up to the circuit's rating carries this current. Do not connect it to this outlet.
page-outlet = Outlet: { $outlet } or more; check your local code.
page-no-outlet = No common outlet of these mains feeds it. Ask a licensed electrician.

page-work = Order of work
page-work-old-winding = Check that no old high-voltage winding is left and the windows are clean.
page-work-primary-back = Put the primary back where it was, in front and the same side up.
page-work-primary-back-if-off = If the primary came off, put it back where it was, the same side up.
page-work-ground = Line the tongue and the window with { $ground } of insulating sheet. Leave no burr and no bare iron.
page-work-barrier = Set the { $barrier } barrier against the primary.
page-work-over = Lay { $barrier } of insulation over the primary. Turn its edges up.
page-work-wind-one = Wind { $turns } in one layer, tight. Mark the start.
page-work-wind = Wind { $turns } in { $layers } layers as listed, film over each layer. Mark the start.
page-work-leads = Sleeve the lead-outs and tie them down. Crimp the lugs on bright metal.
page-work-leads-aluminium = Sleeve the lead-outs and tie them down. Brush the aluminium bright under joint compound. Crimp lugs made for aluminium.
page-work-leads-strip = Sleeve the strip ends and tie them down. Drill and deburr them. Bolt them on bright metal with spring washers.
page-work-leads-strip-aluminium = Sleeve the strip ends and tie them down. Drill and deburr them. Brush the aluminium bright under joint compound. Bolt with spring washers.
page-work-close = Close the core: the same gap, the seam held, the ground (earth) lug on bare metal.
page-work-close-whole = The core was kept whole: leave the seam closed. Bolt the ground (earth) lug on bare metal.
page-work-close-if-opened = If the core was opened, close it: the same gap, the seam held. Bolt the ground (earth) lug on bare metal.
page-coil-work-empty = Take every old winding out. Clean the windows.
page-coil-work-wind = Wind { $turns } turns in { $layers } layers, film over each layer. Mark the start.
page-coil-work-gap = Lay { $sheets } sheets of { $sheet } in each of the three faces between E and I.
page-coil-work-close = Clamp or band the core tight. Bolt the ground (earth) lug on bare metal.
page-coil-work-wire = Wire fuse, switch in both poles, cut-out, strain relief and enclosure on the mains side.
page-coil-work-test = Test in the order of sheet 2. No mains before the low-voltage tests.
page-work-wire = Wire the mains side as drawn on sheet 2: fuse, switch in both poles, cut-out, strain relief, enclosure.
page-work-test = Test in the order of sheet 2 before the first full mains.

page-wiring = The finished supply
page-mains = { $volts } V { $hertz } Hz, { $amps } A at work
page-output = To { $load }: { $amps } A at { $volts } V
page-load-spot_welder = the weld tips
page-load-stick_welder = electrode and work clamp
page-load-arc_furnace = the electrodes
page-load-plasma_cutter = torch and work clamp
page-load-battery_charger = the battery
page-load-plain_supply = the load
page-reactor = Series reactor: { $ohms } Ω, a part of its own. Make it with the use choke or ballast.

page-tests = Tests, in this order
page-tests-old = The design has changed since these tests began. They prove another winding.
page-test = Test
page-expected = Expected
page-read = Read
page-on-primary = primary
page-on-winding = new winding
page-in-band = in its band
page-outside = outside its band
page-explained = outside, explained
page-stop-outside = Stop at the first reading outside its band. Find out why before you go on.
page-by = Tested on ____________________ by ____________________ , meter ____________________

page-expect = What to expect
page-plus-minus = ± is the half-width that holds the true value about 95 times in 100 (k = 2).
page-heat = Heat and duty cycle

page-left-out = What the search left out
page-tried = { $count } windings tried.
page-measured = Measured
page-breaker = Breaker { $amps } A (accepted: { $range }).
page-not-measured = Not measured
page-beside-primary = beside the primary
page-over-primary = over the primary

# The page for the bench: two sheets to print, and what stands below them on a screen.

page-sheet-make = Sheet 1 of 2: make it
page-sheet-prove = Sheet 2 of 2: prove it
page-more = More, on the screen only

page-cautions = Cautions
page-caution-old-winding = Stop unless the old high-voltage winding is out of the core before any mains reaches it.
page-caution-earth = Stop unless the core is earthed, the mains side has a fuse and a strain relief, and everything live is enclosed.
page-caution-code = Mains wiring follows your local code; where it asks for a licensed person, so does this page.
page-caution-plug = Pull the plug before you touch; a switch is not enough.

page-core = Core
page-core-lengths = Tongue { $tongue }, stack { $stack }, window { $width } × { $height }, limb { $limb }, yoke { $yoke }.
page-primary = Primary, which stays: { $turns } turns, { $ohms } at 20 °C.
page-winding = Winding
page-none = No winding was found for this goal: see the limits below.
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
page-outlet = Outlet: { $outlet } or more; check your local code.
page-no-outlet = No common outlet of this mains feeds it; ask a licensed electrician.

page-work = Order of work
page-work-old-winding = Prove that the old high-voltage winding is out and the windows are clean.
page-work-ground = Line the tongue and the window with { $ground } of insulating sheet; no burr, no bare iron.
page-work-barrier = Set the { $barrier } barrier against the primary.
page-work-over = Lay { $barrier } of insulation over the primary, edges turned up.
page-work-wind-one = Wind { $turns } in one layer, tight, start marked.
page-work-wind = Wind { $turns } in { $layers } layers as listed, film over each layer, start marked.
page-work-leads = Sleeve the lead-outs, tie them down, crimp the lugs on bright metal.
page-work-close = Close the core as it was fitted: seam held, the same gap, earth lug on bare metal.
page-work-wire = Wire the mains side as drawn on sheet 2: fuse, switch in both poles, cut-out, strain relief, enclosure.
page-work-test = Test in the order of sheet 2, before the first full mains.

page-wiring = The finished supply
page-mains = { $volts } V { $hertz } Hz, { $amps } A at work
page-output = To { $load }: { $amps } A at { $volts } V
page-load-spot_welder = the weld tips
page-load-stick_welder = electrode and work clamp
page-load-arc_furnace = the electrodes
page-load-plasma_cutter = torch and work clamp
page-load-battery_charger = the battery
page-load-plain_supply = the load
page-reactor = Series reactor: { $ohms } Ω, a part of its own (see the use choke or ballast).

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
page-stop-outside = Stop at the first reading outside its band, and find out why before you go on.
page-by = Tested on ____________________ by ____________________ , meter ____________________

page-expect = What to expect
page-plus-minus = ± is the half-width that holds the truth about 95 times in 100 (k = 2).
page-heat = Heat and duty

page-left-out = What the search left out
page-tried = { $count } windings tried.
page-measured = Measured
page-breaker = Breaker { $amps } A (accepted: { $range }).
page-not-measured = Not measured

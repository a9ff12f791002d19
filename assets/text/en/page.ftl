# The page for the bench: two sheets to print, and what stands below them on a screen.

page-sheet-make = Build sheet
page-sheet-prove = Test sheet
page-sheet-only = Sheet 1 of 1
page-more = More, on screen only

page-unsettled = Two devices differ. Choose the right values before you use this page. In use here:
page-cautions = Cautions
page-caution-old-winding = Remove the old high-voltage winding before any mains reaches the core.
page-caution-earth = No mains before core and enclosure are grounded (earthed). No mains before fuse and strain relief are fitted and every live part is enclosed.
page-caution-code = Your local code rules the mains wiring. Where the code asks for a licensed person, call one.
page-caution-plug = Pull the plug before you touch anything. A switch is not enough.

page-core = Core
page-core-lengths = Tongue { $tongue }, stack { $stack }, window { $width } × { $height }, limb { $limb }, yoke { $yoke }.
page-primary = Primary, kept: { $turns } turns, { $ohms } at 20 °C.
page-coil-empty = Every old winding is out. The coil alone goes on this core.
page-coil-layers = { $layers } layers, { $each } turns each, { $last } in the last. Build { $build }. One turn { $turn } on average.
page-coil-wire = Each wire { $each } long, a lead-out of { $lead } at each end in it. Cut { $cut }, with a turn to spare. Mark the start.
page-coil-gap = spacer { $shim } in all three faces
page-winding = Winding
page-none = No winding was found for this use: see the limits below.
page-lies = Place: { $where }.
page-layer = Layer
page-turns = Turns
page-turn-length = One turn
page-layer-length = Wire in the layer
page-all-layers = all
page-parallel = { $count } conductors in parallel. Each conductor is that long.
page-leads = Lead-outs: { $each } at each end, start marked with a dot. One conductor { $one }, both lead-outs in it: cut { $cut }, with a turn to spare.
page-build = Build { $build }, room left in the window { $spare }.
page-stop = Stop: { $limit }.

page-materials = Materials
page-fuse = Mains fuse: { $fuse }, in the live wire.
material-fuse = mains fuse: { $fuse }
page-no-fuse = No standard fuse up to the circuit's rating carries this current. Do not connect it to this outlet.
page-outlet-holds = Outlet: { $plug }. { $own }: holds under this load. Check your local code.
page-outlet-may-open = Outlet: { $plug }. { $own }: may open under this load. { $other } holds. Check your local code.
page-outlet-may-open-alone = Outlet: { $plug }. { $own }: may open under this load. No common outlet of these mains is sure to hold. Check your local code.
page-outlet-opens = Outlet: { $plug }. { $own }: opens under this load. { $other } holds. Check your local code.
page-no-outlet = No common outlet of these mains feeds this part. Ask a licensed electrician.

page-work = Order of work
page-work-old-winding = No old high-voltage winding left, windows clean.
page-work-primary-back = Where it was, in front and the same side up.
page-work-primary-back-if-off = If the primary came off: where it was, in front, the same side up.
page-work-ground = { $ground } of insulating sheet round the tongue and in the window. No burr, no bare iron.
page-work-barrier = { $barrier } of board against the primary.
page-work-over = { $barrier } of insulation over the primary, its edges turned up.
page-work-prove = { $ohms } at 20 °C. To the core { $insulation }, at 500 V d.c.
page-work-shunts = Both, in their paper, against the primary's side.
page-work-wind-turn = 1 turn, tight. Mark the start.
page-work-wind-one = { $turns } turns in one layer, tight. Mark the start.
page-work-wind = { $turns } turns in { $layers } layers as listed, film over each layer. Mark the start.
page-work-wind-tapped = Two halves of { $half } turns, one after the other, the same way round. Both ends between them are the tap.
page-work-pair = With the other core. Primaries: { $primaries }. New windings: { $windings }. Leave the last joint open: the bench tests it first.
page-work-fix = Tape the winding all round, or varnish it.
page-work-leads = Sleeve and tie the ends. Crimp the lugs on bright metal.
page-work-leads-aluminium = Sleeve and tie the ends. Brush the aluminium bright under joint compound. Crimp lugs made for aluminium.
page-work-leads-strip = Sleeve and tie the strip ends. Drill and deburr them. Bolt them on bright metal with spring washers.
page-work-leads-strip-aluminium = Sleeve and tie the strip ends. Drill and deburr them. Brush the aluminium bright under joint compound. Bolt with spring washers.
page-work-close = The same gap, the seam held. Bolt the ground (earth) lug on bare metal.
page-work-close-whole = The core was kept whole: leave the seam closed. Bolt the ground (earth) lug on bare metal.
page-work-close-if-opened = If the core was opened: the same gap, the seam held. Bolt the ground (earth) lug on bare metal.
page-coil-work-empty = Every old winding out, windows clean.
page-coil-work-wind = { $turns } turns in { $layers } layers, film over each layer. Mark the start.
page-coil-work-gap = In each of the three faces between E and I: { $stack }.
page-coil-work-close = Clamp or band the core tight. Bolt the ground (earth) lug on bare metal.
page-coil-work-wire = Fuse, switch in both poles, cut-out and strain relief on the mains side.
page-coil-work-test = The order of the test sheet. No mains before the low-voltage tests.
page-work-wire = As drawn on the test sheet: fuse, switch in both poles, cut-out, strain relief.
page-work-test = The order of the test sheet, before the first full mains.

page-wiring = The finished supply
page-mains = { $volts } V { $hertz } Hz, { $amps } A at work
page-mains-cord = cord 3 × { $size }
page-two-leads = Leads: two of { $each }, { $section }
page-two-leads-shorter = Leads: two of { $each }, { $section }; half as long: { $half }
page-ends-carry = Clamps: { $on } under load; { $steady } continuous
page-fuse-time-lag = time-lag T
page-fuse-time-delay = time-delay
page-fuse-general = gG
page-at-outlet = Outlet: { $breaker }
page-output = To { $load }: { $amps } A at { $volts } V
page-load-spot_welder = the weld tips
page-load-stick_welder = electrode and work clamp
page-load-arc_furnace = the electrodes
page-load-plasma_cutter = torch and work clamp
page-load-battery_charger = the battery
page-load-plain_supply = the load

circuit-of-coil = Circuit of the coil
circuit-breaker = Breaker
circuit-breaker-is = { $breaker }, at the outlet
circuit-cord = Cord
circuit-cord-is = 3 × { $size } copper, for { $amps }; the ground (earth) wire has that section too
circuit-cord-none = No common cord carries this current. Ask a licensed electrician.
material-cord = mains cord with plug, 3 × { $size }
circuit-fuse = Fuse
circuit-fuse-is = { $fuse }, in the live wire
circuit-start = Soft start
circuit-start-opens = the first peak opens breaker or fuse. Put { $ohms } in the live wire. A relay bridges it after { $seconds }. Until then the resistor takes { $watts }
circuit-start-may = if the first peak opens breaker or fuse, put { $ohms } in the live wire. A relay bridges it after { $seconds }. Until then the resistor takes { $watts }
material-start = soft start: { $ohms }, timed relay
circuit-cut-out = Cut-out
circuit-cut-out-is = { $degrees }, for { $amps } or more, tied to the winding's outside, in the live wire
material-cut-out = thermal cut-out, { $degrees }, { $amps } or more
circuit-reactor = Reactor
circuit-reactor-is = { $mh } for { $amps }, in series with the winding, on a core of its own
material-reactor = reactor: { $mh } for { $amps }, bought or made from another core
circuit-diodes = Diodes
circuit-diodes-are = { $count } of { $amps } and { $volts } or more, on a heat sink
material-diodes = diode, { $amps } and { $volts } or more
circuit-battery-fuse = Battery fuse
circuit-battery-fuse-is = { $amps }, for direct current, at the battery's plus
material-battery-fuse = battery fuse with holder, { $amps }
circuit-leads = Leads
circuit-leads-are = two of { $each }, { $section }: they lose { $drop } and { $watts }
circuit-shorter = Shorter leads
circuit-shorter-is = two of { $half } give { $amps } in place of { $now }
circuit-output = Clamps and ends
circuit-output-is = { $on } under load, as warm as { $steady } continuous

page-tests = Tests, in this order
page-tests-old = The design has changed since these tests began. The tests prove another winding.
page-test = Test
page-expected = Expected
page-read = Read
page-second-core = Left: the first core. Right: the second core, { $name }. Wind both with the same turns, in the same direction.
page-second-core-turns = Left: the first core. Right: the second core, { $name }. The second core takes { $turns } turns of the same conductor, wound in the same direction.
page-on-primary = primary
page-on-winding = new winding
page-on-second-primary = primary, second core
page-on-second-winding = new winding, second core
page-in-band = in its band
page-outside = outside its band
page-explained = outside, explained
page-stop-outside = Stop at the first reading outside its band. Find out why before you go on.
page-by = Tested on ____________________ by ____________________ , meter ____________________

page-expect = What to expect
page-plus-minus = ± is the half-width that holds the true value about 95 times in 100 (k = 2).
page-heat = Heat and duty cycle

page-left-out = Windings left out
page-tried = { $count } windings tried.
page-measured = Measured
page-breaker = Breaker { $amps } A (accepted: { $range }).
page-not-measured = Not measured
page-beside-primary = beside the primary
page-over-primary = over the primary
page-far-end = at the far end of the tongue, away from the primary

# Conductors, and windings of them
conductor-enamelled = { $size } enamelled
conductor-solid = { $size } solid
conductor-flexible = { $size } flexible
conductor-stranded = { $size } stranded
conductor-welding = { $size } welding cable
conductor-rectangular = { $size } rectangular wire
conductor-strip = { $size } strip
conductor-bar = { $size } bar
conductor-foil = { $size } foil
conductor-own-wire = own { $size } mm wire, { $over } mm outside
conductor-own-cable = own { $size } mm² cable, { $over } mm outside
conductor-aluminium = { $conductor }, aluminium
conductor-also = { $conductor } ({ $size })
conductor-unknown = unknown conductor
winding-title =
    { $turns ->
        [one] { $turns } turn of { $conductor }
       *[other] { $turns } turns of { $conductor }
    }
winding-title-parallel =
    { $turns ->
        [one] { $turns } turn of { $conductor }, { $parallel } in parallel
       *[other] { $turns } turns of { $conductor }, { $parallel } in parallel
    }

# What to get
material-insulating-sheet = insulating sheet, { $thickness } in all
material-board = insulating board, { $thickness }
material-film = interlayer film, { $thickness }
material-gap-sheet = hard paper or glass laminate, { $thickness }
material-strip-bolts = { $bolt } bolts, nuts, flat and spring washers, sleeving
material-foil-ends = strip of 2 mm to solder or bolt across the foil, M8 bolts with spring washers, sleeving
material-lug = crimped lug, { $size } mm², { $bolt } hole
material-joint-compound = joint compound for aluminium
material-mains-fittings = holder for the mains fuse, switch with two poles, strain relief
purpose-new-winding = the new winding, a turn to spare
purpose-coil = the coil, a turn to spare
purpose-over-tongue = between tongue and winding; class F or better
purpose-over-tongue-of-coil = between tongue and coil; class F or better
purpose-barrier = barrier between primary and winding
purpose-interlayer = between layers
purpose-gap = spacer in the gap
purpose-lead-outs = lead-outs
purpose-aluminium-joints = every aluminium joint
purpose-mains-side = mains side
purpose-mains-ratings = mains side; ratings as your local code asks
purpose-live-wire = in the live wire
purpose-on-winding = on the winding
purpose-in-series = in series
purpose-behind-winding = behind the winding, on a heat sink
purpose-battery-plus = at the positive terminal of the battery

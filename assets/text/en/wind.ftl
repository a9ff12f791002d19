### The steps of the winding. In ".do" each line is one action; in ".caution" each line is one warning.

wind-prepare = Prepare
    .do =
        Print the page, or open it on a second device.
        Lay out wire, sheet, film, board and sleeving.
        Measure the wire with its enamel. Compare it with the page.
        Check that the wire on the reel is long enough.
    .wrong = The reel ends in the middle of a layer. The enamel is thicker than the table says.
    .caution = Keep mains away from this part until it is at the bench. Nothing here is plugged in.
wind-clean-core = Clean core, line tongue
    .do =
        Scrape varnish off the faces where E and I meet.
        File burrs off the tongue's corners. Round each corner.
        Wipe the core with soap and a damp cloth. Dry it well.
        Line the tongue with the insulating sheet, two layers or more.
        Fold the sheet over both yokes. Tape it.
    .wrong = A burr cuts through the lining later. Varnish between the faces is a gap that nobody planned.
    .caution =
        Stop at grey or white felt or cloth: it may be asbestos.
        Wear glasses and a dust mask: scraped varnish and steel dust fly.
        Keep fingers off cut laminations: their edges are sharp.
        Clamp the core: it is heavy and can fall.
wind-primary-back = Put the primary back
    .do =
        Look at the primary all round for nicks.
        Tape every nick with two layers.
        Slide the primary on the way it came off.
        Push the primary home by hand. Never strike the wire.
    .wrong = The primary goes on the wrong way round. Its leads end on the wrong side. A forced primary loses its enamel.
    .caution =
        Stop at grey or white felt or cloth: it may be asbestos.
        Keep fingers off sharp edges of the core.
        Hold the core: it is heavy and can fall.
wind-prove-primary = Prove the primary
    .do =
        Let everything come to the temperature of the room.
        Subtract the resistance of the meter's leads.
        Measure the primary's resistance.
        Test the insulation from primary to core, 500 V d.c.
        Short the primary to the core after the test.
    .wrong = A shorted turn changes the resistance very little. The lamp test at the bench finds it. A damp primary fails the insulation test until it is dry.
    .caution =
        Stop if the old high-voltage winding is still on the core.
        Hands off while the tester works: its test voltage stays afterwards.
        Keep fingers off sharp edges.
wind-shunts-back = Put the shunts back
    .do =
        Put the paper back round both shunts.
        Push them in level, against the primary's side.
        Wedge them so that nothing rattles.
    .wrong = A loose shunt hums and wears its paper through. Shunts on the other side make another transformer.
    .caution =
        Keep fingers off sharp edges.
        Clamp the core: it is heavy and can fall.
wind-barrier = Set the barrier
    .do =
        Cut the board so that it fills the window.
        Set the board between primary and new winding.
        Close its slits with tape, overlapped.
    .wrong = A slit in the barrier lets mains reach the new winding.
    .caution =
        Never leave the barrier out: it parts mains from what you touch.
        Keep fingers off sharp edges.
        Clamp the core: it is heavy and can fall.
wind-wind-turns = Wind
    .do =
        Mark the start. Sleeve it and tie it down.
        Pull each turn tight and lay it against the last.
        Press the large button once for each turn.
        Lay the film after each layer, wider than the layer.
    .wrong = Turns that cross take room of a whole layer. A turn too few or too many changes the voltage. A dropped turn slips beside the layer.
    .caution =
        Keep fingers off sharp edges: pulled wire cuts.
        Clamp the core: it is heavy and can fall.
wind-lead-out = Lead the ends out
    .do =
        Mark start and finish before you cut.
        Sleeve both ends from inside the window outwards.
        Tie both ends to the winding.
        Leave the length that the page gives.
        Fit the ends as the page shows.
    .do-tapped =
        Before you cut, mark start and finish of each half.
        Sleeve every end from inside the window outwards.
        Tie all four ends to the winding.
        Join the two inner ends in one lug.
        That lug is the tap.
        Start and last finish go to the diodes.
        Fit the ends as the page shows.
    .wrong = An end that moves breaks at the core's edge. Unmarked ends are found at the bench only.
    .caution =
        Keep sleeved ends off sharp edges of the core.
        Clamp the core: it is heavy and can fall.
    .caution-tapped = { wind-lead-out.caution }
wind-choose = Choose closing and fixing
    .do =
        Choose how the core is closed.
        Choose how the winding is fixed.
    .do-coil =
        Choose how the core is closed: by a strap, or by bolts.
        Choose how the winding is fixed.
    .wrong = A weld near fresh varnish sets it alight. Varnish comes after closing.
    .caution = Choose a strap or bolts if you are no welder.
    .caution-coil = Never weld the seam of this core: a weld bridges the gap.
wind-cut-shims = Cut the spacers
    .do =
        Cut the sheets for the face of each of the three limbs.
        Cut them a little smaller than the face, with no burr.
        Lay as many sheets on each face as the screen says.
        Use the same number under all three limbs.
    .wrong = A sheet too many or too few changes the inductance. Sheets that crumple make an uneven gap, and the core hums.
    .caution =
        Keep fingers off sharp edges.
        Clamp the core: it is heavy and can fall.
wind-close = Close the core
    .do-strap =
        Wipe the faces once more.
        Set the spacer in where the page asks for a gap.
        Press E and I together in a vice.
        Pull the strap tight round the core.
        Crimp the strap. Cut its end and cover it.
    .do-bolts =
        Wipe the faces once more.
        Set the spacer in where the page asks for a gap.
        Press E and I together in a vice.
        Put an insulating sleeve on every bolt through the core.
        Tighten the bolts in turns, crosswise.
    .do-weld =
        Wipe the faces once more. Use no chlorinated cleaner.
        Set the spacer in where the page asks for a gap.
        Press E and I together in a vice.
        File paint and plating off the seam, by hand.
        Cover the winding against spatter.
        Weld short beads along the old seam. Let each cool.
        Watch the place for one hour afterwards.
    .wrong = A gap that nobody planned takes magnetising current. A bolt without sleeve is a shorted turn of the core. One long bead burns the winding beside it.
    .caution-strap =
        Wear glasses. Keep your face away. The strap's sharp end springs back. Its cut pieces fly.
        Clamp the core: it is heavy and can fall.
    .caution-bolts =
        Keep fingers off sharp edges.
        Clamp the core: it is heavy and can fall.
    .caution-weld =
        Wear a welding helmet and cover all skin: the arc burns both.
        Keep bystanders away and screened.
        Never weld zinc, cadmium, paint or chlorinated cleaner: the fumes are poisonous.
        Wear glasses and a dust mask to file. Chips and dust of paint and plating fly.
        Clear away everything that can catch fire. Keep watch for one hour.
        Do not touch the seam: it stays hot for long.
        Never leave the core alone while it is hot.
        Keep fingers off sharp edges.
        Clamp the core: it is heavy and can fall.
wind-ground = Join the ground (earth)
    .do =
        Scrape a spot of the core to bare metal.
        Bolt the ground (earth) lug there with a toothed washer.
        Measure from the lug to the core: less than 0.1 Ω.
    .wrong = A lug on varnish grounds nothing.
    .caution =
        Never go on without the ground (earth): nothing else trips the fuse.
        Keep fingers off sharp edges.
        Clamp the core: it is heavy and can fall.
wind-fix = Fix the winding
    .do-tape =
        Tape the winding all round with tape of the design's class.
        Tie the ends once more.
        Wedge the winding in the window.
    .do-varnish =
        Warm nothing. Work outdoors or with a fan to the outside.
        Pour air-drying varnish through the winding until it runs out.
        Let the part drip. Turn the part once.
        Let the varnish dry as long as its label says.
    .do-oven =
        Use a workshop oven with a fan, never one for food.
        Warm the part to drive out damp, as the label says.
        Pour the varnish through the winding. Let it drip dry first.
        Cure the varnish as its label says. Vent the oven outdoors.
        Let the part cool with the door shut. Stay there.
    .wrong = Varnish that is not dry inside keeps damp in. Turns that move wear their enamel off.
    .caution-tape =
        Keep fingers off sharp edges.
        Clamp the core: it is heavy and can fall.
    .caution-varnish =
        Keep flames and sparks away: the vapour makes a fire.
        Never work in a closed room: the fumes harm you.
        Keep fingers off sharp edges.
        Clamp the core: it is heavy and can fall.
    .caution-oven =
        Let all solvent evaporate first: its vapour catches fire in the oven.
        Never use this oven for food again. Keep its fumes outdoors.
        Do not touch the part: it stays hot for long.
        Never leave the part alone.
        Keep fingers off sharp edges.
        Clamp the core: it is heavy and can fall.
wind-join-pair = Join the two cores
    .do =
        Bolt both cores to one board.
        Join both ground (earth) lugs to one point.
        Lay out all eight ends. A dot is a start mark.
        Join the primaries as drawn.
        Join one end of each new winding as drawn.
        Lead the other ends out, apart and covered.
        Leave the last joint open: the bench tests it first.
    .wrong = A start mark is lost, and one winding works against the other. A joint that is not crimped or bolted burns.
    .caution =
        Never close the last joint now. In parallel a turned winding is a short circuit.
        Keep mains away: nothing here is plugged in.
        Keep fingers off sharp edges.
        Clamp both cores: they are heavy and can fall.
wind-enclose = Fit the enclosure
    .do =
        Bolt the core into the enclosure.
        Fit the strain relief. Lead the cord in.
        Join the cord's ground (earth) to the lug first.
        Put the fuse and the switch into the live wire.
        Put the thermal cut-out on the winding where one is planned.
        Close the enclosure. Leave the plug out of the wall.
    .do-coil =
        Bolt the core into the enclosure of what it works with.
        Keep other steel a hand away from the gap.
        Join the ground (earth) of that enclosure to the lug first.
        Join both ends as the circuit of that device shows.
        Put the thermal cut-out on the coil where one is planned.
        Close the enclosure. Leave the plug out of the wall.
    .wrong = The cord's pull reaches a terminal. A switch in one wire leaves the other live.
    .caution =
        Leave the plug out: the bench gives mains, stage by stage.
        Follow your local code. Let a licensed person do the mains side.
        Keep fingers off sharp edges.
        Clamp the core: it is heavy and can fall.
    .caution-coil =
        Leave the plug out: the bench gives current, stage by stage.
        Never open the circuit while current flows. The coil throws an arc and a high voltage.
        Follow your local code. Let a licensed person do the mains side.
        Keep fingers off sharp edges.
        Clamp the core: it is heavy and can fall.

closing-strap = Steel strap, pulled tight
closing-bolts = Bolts or a frame
closing-weld = Weld along the seam
fixing-tape = Tape and ties
fixing-varnish = Air-drying varnish
fixing-oven-varnish = Oven-cured varnish

refusal-primary-not-measured = Measure the primary first. Record what you found.
refusal-primary-damaged = Do not go on with a damaged primary. Repair it, or take another core, and measure again.
refusal-turns-missing = Turns are missing. Wind them before you go on.
refusal-all-wound = All turns are wound. Take a press back if one was too many.
refusal-nothing-to-take-back = There is no press to take back.
refusal-no-layer = The layer has no turn yet, or is at its end already.
refusal-first-layer-first = Finish the first layer, then measure it.
refusal-tap-first = Lead both ends of the tap out first. Then wind the second half.
refusal-no-tap = There is no tap here. Wind on.
refusal-not-off-shelf = No wire was taken off your shelf for this winding.
refusal-off-shelf-already = This wire was taken off your shelf already.
refusal-weld-over-gap = A weld bridges the gap of this core. Choose a strap, or bolts.
refusal-second-not-wound = Wind the second core first, as the design has it now. The second core has steps of its own.
refusal-pair-not-joined = Join both cores as drawn first. Record that the last joint is open.
refusal-not-chosen = Choose how to close the core and how to fix the winding.

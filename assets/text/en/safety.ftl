### Hazards, gates and the items of the gates.
### "Stop unless ...", never "it is safe now". Local codes and licensed practice come first.

## Hazards

hazard-mains = Mains voltage
    .arises = A donor that is plugged in, or that someone plugs in while you work.
    .harm = It kills.
hazard-charged-capacitor = Charged capacitor
    .arises = The donor's high-voltage capacitor keeps about two thousand volts after the plug is out. Its bleeder may have failed.
    .harm = One touch can kill. Waiting proves nothing.
hazard-capacitor-oil = Oil in the capacitor
    .arises = A capacitor that leaks, bulges or is cut. Very old ones may hold PCB oil.
    .harm = Poison through the skin and in the ground.
hazard-sharp-edges = Sharp edges
    .arises = Sheet metal, laminations, cut wire.
    .harm = Deep cuts.
hazard-heavy-part = Heavy part
    .arises = The transformer weighs several kilograms and sits on small screws or feet.
    .harm = Crushed fingers and feet, a strained back.
hazard-flying-pieces = Flying pieces
    .arises = Grinding, sawing, chiselling, driving a winding out.
    .harm = Lost sight, cuts.
hazard-noise = Noise
    .arises = Grinding and hammering on steel.
    .harm = Hearing lost for good.
hazard-dust = Dust
    .arises = Cutting steel, varnish, paper and glass sleeving.
    .harm = Harm to lungs and eyes.
hazard-fire = Fire
    .arises = Sparks, welding, a hot core left alone.
    .harm = Burns; fire can start half an hour after the last spark.
hazard-fumes = Fumes
    .arises = Warm varnish, paper and enamel.
    .harm = They irritate and can poison; an oven used for this taints food.
hazard-hot-surface = Hot surface
    .arises = A warmed core, a loaded winding, a cut edge.
    .harm = Burns; a startled hand drops what it holds.
hazard-beryllia = Possible beryllia
    .arises = The magnetron's pink or white ceramic. Nobody can tell by eye.
    .harm = The dust of a broken one can harm the lungs for life.
hazard-strong-magnets = Strong magnets
    .arises = The two rings on the magnetron.
    .harm = They pinch, break into splinters and disturb implants.
hazard-old-high-voltage = Old high-voltage winding
    .arises = Mains or any supply on a core that still carries its old winding.
    .harm = About two thousand volts with enough current to kill at once.
hazard-tester-voltage = Test voltage
    .arises = An insulation tester puts 250 to 1000 V on the winding and leaves it charged.
    .harm = A shock, and the start it gives you.
hazard-stepped-up = Stepped-up voltage
    .arises = A few volts on a winding of few turns make mains voltage on the primary.
    .harm = A shock from a part that looked harmless.
hazard-mains-on-bench = Mains on the bench
    .arises = A rebuilt core that is fed from the mains for a test.
    .harm = It kills.
hazard-heavy-current = Heavy current
    .arises = Hundreds of amperes at a few volts.
    .harm = Red-hot rings and tools, drops of molten metal, deep burns.

## Where hazards arise

arises-size-up = At the curb
arises-teardown = Teardown
arises-bench = Bench
arises-parts = Parts kept or thrown away

## Gates

gate-unplugged = The plug is out and in sight
    .why = Stop unless you see the whole plug. Do not trust a switch, a timer or a tripped breaker.
gate-capacitor-tool = Tool, meter, training, company
    .why = Stop unless you have all four. The cover stays on until then.
gate-capacitor = Capacitor discharged, proved, shorted
    .why = Stop unless each of these was done just now, on this donor, in this order. Time does not do it for you.
gate-hands = Hands and eyes covered
    .why = Stop unless gloves and glasses are on.
gate-cutting = Dressed for cutting
    .why = Stop unless eyes, ears, breath and hands are covered and the tool is whole.
gate-sparks = Sparks and fire
    .why = Stop unless a spark that flies has nothing to light.
gate-fumes = Fumes
    .why = Stop unless the fumes go outside and no food ever follows.
gate-hot-part = Hot part
    .why = Stop unless someone stays with it and the hot part has a place to lie.
gate-heavy-part = Heavy part held
    .why = Stop unless it can't fall, tip or turn.
gate-magnetron-whole = The magnetron stays whole
    .why = Stop unless everyone here knows which part it is and leaves it whole.
gate-old-winding-out = The old winding is out
    .why = Stop unless you can see that no old winding is left on this core. No supply of any kind before that.
gate-reassembly = The core is together
    .why = Stop unless each of these is done as the design says.
gate-insulation-tester = Ready for the insulation tester
    .why = Stop unless nothing and nobody else is joined to the core.
gate-low-voltage = Ready for a low voltage
    .why = Stop unless the source is isolated and feeds the right winding.
gate-mains-on-bench = Ready for mains
    .why = Stop unless all of these hold for this one test. Where the law asks for a licensed person, call one.
gate-heavy-current = Ready for heavy current
    .why = Stop unless nothing on you and nothing loose can close the circuit.

## Items: what is held to confirm, and what to do next if it could not be done

item-plug-out = I pulled the plug out of the wall with my own hand.
    .stop = Leave the cover on. If the plug is stuck or the donor is wired in, have a licensed electrician part it from the mains.
item-plug-in-sight = The plug lies where I see it while I work, and nobody can put it back.
    .stop = Leave the cover on. Tie the plug to the handle, or work where you see it.

item-trained = I was taught to discharge high-voltage capacitors, or someone who was is doing it with me.
    .stop = Leave the cover on. Find someone who was taught, or pass the donor to a repair shop or recycler.
item-resistor-tool = I hold an insulated resistor tool rated for more than the capacitor's voltage. It is whole.
    .stop = Leave the cover on. Get or borrow the tool; a screwdriver is no substitute.
item-rated-meter = My meter and probe are rated for this voltage, and I tried them on a known source just now.
    .stop = Leave the cover on. A common meter can break down at two thousand volts; get a rated probe.
item-someone-near = Someone near knows what I do and how to call for help.
    .stop = Leave the cover on and wait for company.

item-terminal-to-terminal = I held the tool across the two terminals for the time shown, and longer.
    .stop = Hands out. Put the cover back on, mark it "capacitor may be charged", and fetch someone who was taught this.
item-first-to-case = I held the tool from the first terminal to the bare metal of the case.
    .stop = Hands out. Put the cover back on, mark it "capacitor may be charged", and fetch someone who was taught this.
item-second-to-case = I held the tool from the second terminal to the bare metal of the case.
    .stop = Hands out. Put the cover back on, mark it "capacitor may be charged", and fetch someone who was taught this.
item-proved-by-meter = The meter reads below the limit between the terminals and from each to the case.
    .stop = Treat it as charged. Hands out, cover on, marked. The tool or the meter may be broken; get another of each.
item-clip-left-on = A clip lead joins the terminals and stays on.
    .stop = Without the clip the voltage can creep back. Discharge again, then fit a clip before you reach in.

item-gloves-on = Cut-resistant gloves are on, whole and dry; rings and watch are off.
    .stop = Wait until you have gloves. The donor can stay closed as long as you like.
item-glasses-on = Glasses with side shields are on.
    .stop = Wait until you have glasses with side shields.

item-eyes-for-cutting = A face shield or goggles made for this work are on.
    .stop = Do not cut. Common glasses do not stop a piece of disc.
item-ears-covered = Ear muffs or plugs are in.
    .stop = Do not cut. Get muffs or plugs, or saw by hand.
item-mask-on = A particle mask is on and sits tight.
    .stop = Do not cut. Get a mask, or have the core cut in a workshop with extraction.
item-gloves-suit-tool = My gloves suit this tool, and nothing loose is near anything that turns.
    .stop = Do not cut. Tie back hair, cords and sleeves; take tight gloves for a turning tool.
item-guard-on = The tool is whole: guard on, disc rated for it and uncracked; on a hand saw the blade is tight.
    .stop = Do not use this tool. Saw by hand, or have it cut.

item-nothing-burns = Nothing within reach of a spark can burn: no paper, rags, solvent, sawdust, dry grass.
    .stop = Move outdoors onto bare ground, or saw by hand.
item-extinguisher-near = An extinguisher or a bucket of sand is in reach.
    .stop = Do not make sparks. Fetch one first.
item-fire-watch = Someone watches this place for half an hour after the last spark or heat.
    .stop = Do not start now. Begin when someone can stay.

item-fresh-air = Outside air moves through this place.
    .stop = Do not warm it here. Go outdoors or to a workshop with extraction.
item-never-for-food = This oven or tool never touches food again, and stands away from any kitchen.
    .stop = Do not warm it. Work the winding out cold, which only takes longer.

item-stay-with-it = Someone stays with it from start to end.
    .stop = Do not start. Begin when someone can stay.
item-hot-part-place = Heat-proof gloves are here and the hot part has a place to lie.
    .stop = Do not start. Find gloves and a bare metal or stone surface.

item-part-held = The part is clamped or held so that it can't fall, tip or turn.
    .stop = Leave it where it is. Get a vice, a clamp or a second person.
item-feet-clear = Firm shoes are on; feet and fingers are clear.
    .stop = Leave it where it is until you have firm shoes.

item-magnetron-found = I know which part is the magnetron, and it will be set aside whole.
    .stop = Leave every part with cooling fins and a metal dome alone. Ask someone who knows.
item-magnetron-stays-whole = Nobody will cut, crush, file or open it; its magnets stay on it. It goes to electronic waste whole.
    .stop = If it is broken already: leave, close the room, do not sweep or vacuum. Ask your waste authority for advice on beryllia.
item-no-implant = Nobody here has a pacemaker or another implant.
    .stop = Keep that person away from the magnetron; someone else takes it out.

item-high-voltage-out = The old high-voltage winding is out of the core; I hold it in my hand.
    .stop = No supply of any kind. Go back to the teardown and take it out.
item-filament-out = The old filament winding and every old lead are out too.
    .stop = No supply of any kind. Go back to the teardown and take them out.

item-core-closed = The core is closed; its joints are clean, flat and tight.
    .stop = Take the core apart again and clean the joints with a fine file.
item-gap-set = The gap is the design's, with its spacer in; or the design has none and the joints touch.
    .stop = Measure the spacer again, or design for the gap that you have.
item-seam-held = The seam is welded again by someone practised, or banded tight.
    .stop = A core that hums apart ruins its windings. Band it, or have it welded.
item-insulation-in = Insulation lies between core and windings and between windings, thick and warm enough for the design.
    .stop = Take the winding off and add it. Tape alone over a sharp edge is not enough.
item-core-earthed = The core is joined to the earth wire by a bolted lug on bare metal.
    .stop = No mains. Fit the lug. An earth is never left off.
item-fuse-in = A fuse of the design's rating is in the live wire. Nothing bridges it.
    .stop = No mains. Fit the fuse. A fuse is never bridged.
item-strain-relief = A strain relief holds the cord.
    .stop = No mains. Fit one.
item-enclosed = The enclosure is made and fitted; with it on, no live part can be touched.
    .stop = No mains. Build the enclosure first.

item-nothing-joined = The plug is out and nothing else is joined to windings or core.
    .stop = Do not test. Take everything off first.
item-short-after-test = I keep hands off during the test and short the winding to the core afterwards.
    .stop = Do not test. Let someone who has an insulation tester and knows it do it.

item-isolated-source = The source is isolated from the mains and gives no more than 24 V.
    .stop = Do not test. A variable transformer alone does not isolate.
item-feed-most-turns = It feeds the winding with the most turns. The other ends are apart and covered.
    .stop = Do not test. Count again which winding has the most turns.

item-residual-device = A residual-current device feeds this bench, and its test button tripped it today.
    .stop = No mains. Fit one, or have the core tested by a licensed person.
item-leads-with-plug-out = Meter leads were clipped on with the plug out, and come off the same way.
    .stop = Pull the plug, then clip the leads.
item-switch-in-reach = A switch that cuts the mains is in reach, away from the core.
    .stop = No mains. Rearrange the bench.
item-helper-knows-switch = Someone near knows how to cut the mains and call for help.
    .stop = No mains. Wait for company.

item-rings-off = Rings, watch and chain are off.
    .stop = Take them off, or let someone else do this test.
item-leads-clamped = The heavy leads are bolted or clamped and can't touch each other by chance.
    .stop = Do not switch on. Bolt them down.
item-covered-from-drops = Eyes, arms and feet are covered against drops of metal.
    .stop = Do not switch on. Dress first.

## Why something is not taken

refusal-gate-needed = Stop: a gate stands before this. Confirm its items one by one.
refusal-not-from-here = Only the next one or an earlier one can be opened. Take them in order.
refusal-must-record = Record what was found before going on.
refusal-not-asked-here = This is not recorded here. Go to the place that asks for it.
refusal-out-of-range = That can't be right. Enter { $range }.
refusal-not-this-gate = This is not the gate in front of you. Read the screen again.
refusal-not-yet = Confirm the items in order. Another one comes first.
refusal-needs-readings = Enter the three readings. A press alone does not prove the capacitor.
refusal-no-reading = A reading is missing. Measure between the terminals and from each to the case.
refusal-only-at-capacitor = Stop: go to the capacitor, and discharge, prove and short it there.
refusal-not-read = A reading is missing here. Take it before going on.
refusal-outside-band = Stop: a reading lies outside its band. Explain it, mend it or read it again.
refusal-no-explanation = This cause does not explain the reading away. Mend it, or read it again.
refusal-stopped = This is stopped. Take it up again first; nothing that was confirmed counts any more.
refusal-finished = This is finished. Take it up again first.
refusal-going-on = This is going on already.

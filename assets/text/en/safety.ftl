### Hazards, gates and the items of the gates.
### "Do not go on until ...", never "it is safe now". Local codes and licensed practice come first.

## Hazards

hazard-mains = Mains voltage
    .arises = An oven that is plugged in, or that someone plugs in while you work.
    .harm = It kills.
hazard-charged-capacitor = Charged capacitor
    .arises = The oven's high-voltage capacitor keeps about two thousand volts after the plug is out. Its bleeder may have failed.
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
hazard-jammed-disc = Jammed or burst disc
    .arises = A grinder's disc that jams in the cut, is cracked, or turns faster than it may.
    .harm = The grinder kicks back and the disc flies apart: deep cuts, lost sight.
hazard-noise = Noise
    .arises = Grinding and hammering on steel.
    .harm = Hearing lost for good.
hazard-dust = Dust
    .arises = Cutting steel, varnish, paper and glass sleeving.
    .harm = Harm to lungs and eyes.
hazard-old-insulation = Old insulation that may be asbestos
    .arises = Grey or white insulation, woven or felted, in a very old oven or on its leads.
    .harm = Its dust can cause cancer of the lungs, decades later.
hazard-fire = Fire
    .arises = Sparks, welding, a hot core left alone.
    .harm = Burns; fire can start an hour after the last spark.
hazard-fumes = Fumes
    .arises = Warm varnish, paper and enamel.
    .harm = They irritate and can poison; an oven used for this taints food.
hazard-hot-surface = Hot surface
    .arises = A warmed core, a loaded winding, a cut edge.
    .harm = Burns; a startled hand drops what it holds.
hazard-heat-left-alone = Heat left alone
    .arises = An oven, a hot-air tool or a hot core that nobody watches.
    .harm = Fire, up to an hour after the heat is off.
hazard-beryllia = Possible beryllia
    .arises = The magnetron's pink or white ceramic. Nobody can tell by eye.
    .harm = The dust of a broken one can harm the lungs for life.
hazard-strong-magnets = Strong magnets
    .arises = The two rings on the magnetron.
    .harm = They pinch, break into splinters and disturb implants.
hazard-old-high-voltage = Old high-voltage winding
    .arises = Mains or any supply on a core that still carries its old high-voltage winding.
    .harm = About two thousand volts with enough current to kill at once.
hazard-tester-voltage = Test voltage
    .arises = An insulation tester puts 250 to 1000 V on the winding and leaves it charged.
    .harm = A shock; jumping back can injure you.
hazard-stepped-up = Stepped-up voltage
    .arises = A few volts on a winding of few turns make mains voltage on the primary.
    .harm = A shock from a part that looked harmless.
hazard-mains-on-bench = Mains on the bench
    .arises = A rebuilt core that is fed from the mains for a test.
    .harm = It kills.
hazard-heavy-current = Heavy current
    .arises = Hundreds of amperes at a few volts.
    .harm = Red-hot rings and tools, drops of molten metal, deep burns. Its magnetic field can stop a pacemaker.
hazard-arc-light = Arc light
    .arises = Any arc: when the seam is welded, and when a welder, a furnace or a cutter is under load. Nearby, too.
    .harm = Burnt eyes and skin within seconds, also at a distance. The welding current can stop a pacemaker.
hazard-welding-fumes = Welding fumes and gas
    .arises = Zinc or cadmium plating, paint, varnish or chlorinated cleaner under the arc.
    .harm = Zinc brings fever. Cadmium, and gas from chlorinated cleaner, can kill hours later.
hazard-hydrogen = Hydrogen and acid
    .arises = A lead-acid battery on charge.
    .harm = The gas explodes at a spark and throws acid into the face.
hazard-wrong-battery = Wrong battery
    .arises = A lithium battery, or a frozen or damaged one, on this charger.
    .harm = Fire that water hardly stops, and poisonous smoke.
hazard-molten-metal = Molten metal
    .arises = A damp charge or tool, a cracked crucible, a spill on concrete or water.
    .harm = Steam bursts and throws the melt: deep burns, lost sight.
hazard-carbon-monoxide = Carbon monoxide
    .arises = Graphite, charcoal or flux that burns in a furnace.
    .harm = It kills without a smell.
hazard-plasma-voltage = Plasma torch voltage
    .arises = Hundreds of volts between the torch and the work, before an arc burns.
    .harm = One touch of torch and work can kill.

## Where hazards arise

arises-size-up = At the curb
arises-teardown = Teardown
arises-wind = Winding
arises-bench = Bench
arises-parts = Parts kept or thrown away

## Gates

gate-unplugged = The plug is out and in sight
    .why = Do not go on until you can see the whole plug. Do not trust a switch, a timer or a tripped breaker.
gate-capacitor-tool = Tool, meter, training, company
    .why = Do not go on until you have all four. The cover stays on until then.
gate-capacitor = Capacitor discharged, proved, shorted
    .why = Do each of these now, on this oven, in this order, with one hand. Waiting does not discharge it.
gate-hands = Hands, eyes and feet covered
    .why = Do not go on until gloves, glasses and shoes are on.
gate-cutting = Dressed for cutting
    .why = Do not cut until eyes, ears, lungs and hands are covered.
gate-grinder = Grinder whole and guarded
    .why = Do not start the grinder until each of these is true.
gate-old-insulation = Old insulation looked at
    .why = Look at the old insulation on windings, slots and leads. Do not cut, warm, scrape or brush it until you have looked.
gate-sparks = Sparks and fire
    .why = Clear away everything a spark can light. Do not go on until that is done.
gate-fumes = Fumes
    .why = Vent outdoors. Never use this oven for food again.
gate-hot-part = Hot part
    .why = Do not go on until someone stays with it and it has a place to lie.
gate-heavy-part = Heavy part held
    .why = Do not go on until the part can't fall, tip or turn.
gate-magnetron-whole = The magnetron stays whole
    .why = Do not go on until everyone here knows which part it is and leaves it whole.
gate-old-winding-out = The old winding is out
    .why = Do not go on until you can see that no old winding is left on this core. No supply of any kind before that.
gate-reassembly = The core is together
    .why = Do not go on until each of these is done as the design says.
gate-insulation-tester = Ready for the insulation tester
    .why = Disconnect everything else. Hands off. Keep everyone else away.
gate-low-voltage = Ready for a low voltage
    .why = Do not go on until the source is isolated and feeds the right winding.
gate-mains-on-bench = Ready for mains
    .why = Do not switch on until all of these are true for this one test. Where the law asks for a licensed person, call one.
gate-heavy-current = Ready for heavy current
    .why = Do not switch on until nothing on you and nothing loose can close the circuit.
gate-arc = Ready for an arc
    .why = Do not strike an arc until each of these is true. If you have not welded before, let someone practised do it. A seam can be banded instead.
gate-battery = Ready to charge a battery
    .why = Do not connect the battery until each of these is true.
gate-furnace = Ready to melt metal
    .why = Do not heat the crucible until each of these is true.
gate-plasma-voltage = Ready for the plasma torch's voltage
    .why = Do not build or switch on until each of these is true. Where the law asks for a licensed person, call one.

## Items: what is held to confirm, and what to do next if it could not be done

item-plug-out = I pulled the plug out of the wall with my own hand.
    .stop = Leave the cover on. If the plug is stuck or the oven is wired in, have a licensed electrician disconnect it.
item-plug-in-sight = The plug lies where I see it while I work, and nobody can put it back.
    .stop = Leave the cover on. Tie the plug to the handle, or work where you see it.

item-trained = I was taught to discharge high-voltage capacitors, or someone who was is doing it with me.
    .stop = Leave the cover on. Find someone who was taught, or pass the oven to a repair shop or recycler.
item-resistor-tool = I have the discharge tool: a chain of resistors rated for high voltage, insulated handle, chassis clip. It is whole.
    .stop = Leave the cover on. Get or borrow the tool; a screwdriver is no substitute.
item-rated-meter = My meter and probe are rated for this voltage, and I tried them on a known source just now.
    .stop = Leave the cover on. A common meter can break down at two thousand volts; get a rated probe.
item-someone-near = Someone near knows what I do and how to call for help.
    .stop = Leave the cover on and wait for company.

item-chassis-clip-on = The tool's clip grips bare metal of the oven chassis. My other hand is behind my back and stays there.
    .stop = Touch nothing. Scrape a spot of the oven chassis bare from outside, or find a bare screw, and clip there.
item-first-terminal = I held the tool's tip on the capacitor's first terminal for a slow count of ten.
    .stop = Hands out. Put the cover back on, mark it "capacitor may be charged", and fetch someone who was taught this.
item-second-terminal = I held the tool's tip on the second terminal for a slow count of ten.
    .stop = Hands out. Put the cover back on, mark it "capacitor may be charged", and fetch someone who was taught this.
item-across-terminals = I held the tool across the two terminals for a slow count of ten.
    .stop = Hands out. Put the cover back on, mark it "capacitor may be charged", and fetch someone who was taught this.
item-proved-by-meter = The meter reads below the limit from each terminal to the oven chassis and between the terminals.
    .stop = Treat it as charged. Hands out, cover on, marked. The tool or the meter may be broken; get another of each.
item-meter-proved-again = I tried the meter on the known source again straight after, and it still reads right.
    .stop = The readings prove nothing. Treat it as charged: hands out, cover on, marked. Get another meter and begin again.
item-clip-left-on = A clip lead joins the two terminals and stays on.
    .stop = Without the clip lead the voltage can creep back. Discharge again, then fit it before you reach in.

item-gloves-on = Cut-resistant gloves are on, whole and dry; rings and watch are off. They do not protect from shock.
    .stop = Wait until you have gloves. The oven can stay closed as long as you like.
item-glasses-on = Glasses with side shields and firm shoes are on.
    .stop = Wait until you have glasses with side shields, and firm shoes.

item-eyes-and-ears = A face shield or goggles made for this work are on; ear muffs or plugs are in.
    .stop = Do not cut. Common glasses do not stop a piece of steel. Get both first.
item-dust-mask-on = A dust mask (FFP2, N95 or better) is on and sits tight.
    .stop = Do not cut. Get a dust mask, or have the core cut in a workshop with extraction.
item-gloves-suit-tool = My gloves suit this tool, the tool is whole, and nothing loose is near anything that turns.
    .stop = Do not cut. Tie back hair, cords and sleeves; take tight gloves for a turning tool.

item-guard-on = Guard and side handle are on; both my hands stay on the grinder.
    .stop = Do not use this grinder. Saw by hand, or have it cut.
item-disc-rated = The disc is whole, made for this cut, and rated at least for the grinder's speed.
    .stop = Do not use this disc. A disc that turns faster than its rating bursts. Fit the right one, or saw by hand.
item-grinder-unplugged = I unplug the grinder each time before I touch or change its disc.
    .stop = Do not use this grinder. Saw by hand.

item-no-grey-felt = None of the old insulation is grey or white and woven or felted.
    .stop = Do not cut, warm, scrape or brush it. Leave the room air still. Bag the core and ask your waste authority about asbestos.

item-nothing-burns = Nothing within reach of a spark can burn: no paper, rags, solvent, sawdust, dry grass.
    .stop = Move outdoors onto bare ground, or saw by hand.
item-extinguisher-near = An extinguisher or a bucket of sand is in reach.
    .stop = Do not make sparks. Fetch one first.
item-fire-watch = Someone watches this place for one hour after the last spark or heat.
    .stop = Do not start now. Begin when someone can stay.

item-fresh-air = Outside air moves through this place.
    .stop = Do not warm it here. Go outdoors or to a workshop with extraction.
item-never-for-food = This oven or tool never touches food again, and stays out of any kitchen.
    .stop = Do not warm it. Work the winding out cold, which only takes longer.

item-stay-with-it = Someone stays with it from start to one hour after, with an extinguisher or sand in reach.
    .stop = Do not start. Begin when someone can stay.
item-hot-part-place = Heat-proof gloves are here. The hot part has a place to lie where nothing can burn.
    .stop = Do not start. Find gloves and a bare metal or stone surface, and clear away what burns.

item-part-held = The part is clamped or held: it can't fall, tip or turn. Feet and fingers are clear.
    .stop = Leave it where it is. Get a vice, a clamp or a second person.

item-magnetron-stays-whole = I know which part is the magnetron. Nobody will cut, crush, file or open it; its magnets stay on it.
    .stop = Leave every part with cooling fins and a metal dome alone. If it is broken already: leave, close the room, do not sweep or vacuum. Ask your waste authority for advice on beryllia.
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
item-seam-held = The seam was never opened; or someone practised welded it again; or it is banded tight.
    .stop = A loose core vibrates and wears through its insulation. Band it, or have it welded.
item-insulation-in = Insulation lies between core and windings and between windings, thick enough and rated for the temperature.
    .stop = Take the winding off and add it. Tape alone over a sharp edge is not enough.
item-core-earthed = The core is joined to the ground (earth) wire by a bolted lug on bare metal.
    .stop = No mains. Fit the lug. A ground (earth) is never left off.
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

item-residual-device = A GFCI (RCD) feeds this bench, and its test button tripped it today.
    .stop = No mains. Fit one, or have the core tested by a licensed person.
item-leads-with-plug-out = Meter leads were clipped on with the plug out, and come off the same way.
    .stop = Pull the plug, then clip the leads.
item-switch-in-reach = A switch that cuts the mains is in reach, away from the core.
    .stop = No mains. Rearrange the bench.
item-helper-knows-switch = Someone near knows how to cut the mains and call for help.
    .stop = No mains. Wait for company.

item-rings-off = Rings, watch and chain are off.
    .stop = Take them off, or let someone else do this test.
item-no-implant-at-current = Nobody with a pacemaker or another implant is in this room.
    .stop = Do not switch on. That person leaves the room first; ask their doctor before they come near heavy current.
item-leads-clamped = The heavy leads are bolted or clamped and can't touch each other by chance.
    .stop = Do not switch on. Bolt them down.
item-covered-from-drops = Eyes, arms and feet are covered against drops of metal.
    .stop = Do not switch on. Dress first.

item-no-implant-at-arc = Nobody with a pacemaker or another implant is at the arc or near it.
    .stop = Do not strike an arc. That person leaves first. A seam can be banded instead.
item-bare-steel = The metal is bare under the arc and a thumb's length around it: no zinc, cadmium, paint or varnish.
    .stop = Do not strike an arc. File it bare by hand, glasses and a dust mask on, outdoors. If you cannot tell the plating, do not weld on it; band a core's seam.
item-no-chlorinated-cleaner = No chlorinated cleaner was used on what the arc touches, and none is near.
    .stop = Do not strike an arc. An arc turns its traces into deadly gas. Wash with soap and water, dry it, air the place.
item-weld-fumes-drawn-off = The fumes are drawn off or blow away from my face.
    .stop = Do not strike an arc here. Go outdoors, upwind, or to a workshop with extraction.
item-helmet-on = My welding helmet is of shade 10 or darker, or switches to it, and I tried it.
    .stop = Do not strike an arc. Sunglasses and cutting goggles do not stop arc light.
item-skin-covered = Leather gloves and cotton or leather cover all my skin, neck too; nothing synthetic.
    .stop = Do not strike an arc. Dress first.
item-bystanders-screened = A screen keeps the arc's light from everyone else, and everyone is told not to look.
    .stop = Do not strike an arc. Put up a screen, or send the others away.

item-lead-acid-only = The battery is lead-acid, never lithium. It is whole and not frozen.
    .stop = Do not connect it. A lithium battery burns on this charger; use the charger made for it.
item-battery-aired = Outside air moves here, caps or vents are free, and nothing near makes sparks or flames.
    .stop = Do not charge here. Take it outdoors or to an open garage.
item-battery-fused = A fuse sits at the battery's own terminal, and leads go on and off with the charger unplugged.
    .stop = Do not connect it. Fit the fuse first.
item-eyes-for-acid = Tight goggles are on, and water to rinse eyes and skin is in reach.
    .stop = Do not connect it. Fetch goggles and water.
item-stay-with-battery = Someone stays with it and switches off when it gasses or gets warm.
    .stop = Do not start now. Begin when someone can stay.

item-charge-dry = The charge and every tool that touches the melt are dry and warm.
    .stop = Do not melt. A drop of water under the melt bursts it out of the crucible. Dry them warm first.
item-dry-floor = Dry sand lies under the crucible; no water and no bare concrete are within its reach.
    .stop = Do not melt. A spill on concrete or water bursts. Lay dry sand.
item-covered-from-melt = A face shield, leather gloves, apron and boots cover me; nothing synthetic.
    .stop = Do not melt. Dress first.
item-furnace-outdoors = The furnace is outdoors, or in moving fresh air with a carbon monoxide alarm.
    .stop = Do not melt here. Carbon monoxide has no smell. Go outdoors.

item-build-overseen = Someone licensed oversees this build and has seen the circuit.
    .stop = Do not build it. Hundreds of volts kill; look for another use of this core.
item-torch-interlocked = The torch has an interlock: no voltage without its cup in place.
    .stop = Do not build it. Get a torch with an interlock.
item-plasma-grounded = Core, work and enclosure are grounded (earthed).
    .stop = Do not switch on. Ground (earth) all three first.

## Why something is not taken

refusal-gate-needed = A gate comes before this. Confirm its items one by one.
refusal-not-from-here = Only the next one or an earlier one can be opened. Take them in order.
refusal-must-record = Record what was found before going on.
refusal-not-asked-here = This is not recorded here. Go to the place that asks for it.
refusal-out-of-range = Outside the range. Enter { $range }.
refusal-not-this-gate = The screen has changed: another gate is next. Read it again.
refusal-not-yet = Confirm the items in order. Another one comes first.
refusal-needs-readings = Enter the three readings. Holding the button alone does not prove the capacitor.
refusal-no-reading = A reading is missing. Measure from each terminal to the oven chassis and between the terminals.
refusal-only-at-capacitor = Go to the capacitor first. Discharge, prove and short it there.
refusal-not-read = A reading is missing here. Take it before going on.
refusal-outside-band = Do not go on: a reading lies outside its band. Explain it, fix the cause or read it again.
refusal-no-explanation = This cause does not explain the reading away. Fix it, or read it again.
refusal-stopped = Stopped. Resume, then confirm every gate again.
refusal-finished = Finished. Resume it first.
refusal-going-on = Already in progress.

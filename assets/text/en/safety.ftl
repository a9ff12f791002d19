### Hazards, gates and the items of the gates.
### "Do not go on until ...", never "it is safe now". Local codes and licensed practice come first.

## Hazards

hazard-mains = Mains voltage
    .arises = An oven that is plugged in. Someone may plug it in while you work.
    .harm = Mains voltage kills.
hazard-charged-capacitor = Charged capacitor
    .arises = The oven's capacitor keeps about two thousand volts. Pulling the plug does not discharge it. Its bleeder may have failed.
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
    .arises = A grinder's disc that jams, is cracked, or turns too fast.
    .harm = The grinder kicks back. The disc flies apart. Deep cuts, lost sight.
hazard-noise = Noise
    .arises = Grinding and hammering on steel.
    .harm = Hearing lost for good.
hazard-dust = Dust
    .arises = Cutting steel, varnish, paper and glass sleeving.
    .harm = Harm to lungs and eyes.
hazard-old-insulation = Old insulation, possibly asbestos
    .arises = Old grey or white insulation, woven or felted, also on leads.
    .harm = Its dust can cause cancer of the lungs, decades later.
hazard-fire = Fire
    .arises = Sparks, welding, a hot core left alone.
    .harm = Burns. Fire can start an hour after the last spark.
hazard-fumes = Fumes
    .arises = Warm varnish, paper and enamel.
    .harm = The fumes irritate and can poison. An oven used for this taints food.
hazard-hot-surface = Hot surface
    .arises = A warmed core, a loaded winding, a cut edge.
    .harm = Burns. A startled hand drops what it holds.
hazard-heat-left-alone = Heat left alone
    .arises = An oven, a hot-air tool or a hot core that nobody watches.
    .harm = Fire, up to an hour after the heat is off.
hazard-beryllia = Possible beryllia
    .arises = The magnetron's pink or white ceramic. Nobody can tell by eye.
    .harm = The dust of a broken one can harm the lungs for life.
hazard-strong-magnets = Strong magnets
    .arises = The two rings on the magnetron.
    .harm = The magnets pinch, break into splinters and disturb implants.
hazard-old-high-voltage = Old high-voltage winding
    .arises = Any supply on a core that still has its old high-voltage winding.
    .harm = About two thousand volts with enough current to kill at once.
hazard-tester-voltage = Test voltage
    .arises = An insulation tester puts 250 to 1000 V on the winding. The winding stays charged.
    .harm = A shock; jumping back can injure you.
hazard-stepped-up = Stepped-up voltage
    .arises = A few volts on few turns make mains voltage on the primary.
    .harm = A shock from a part that looked harmless.
hazard-mains-on-bench = Mains on the bench
    .arises = A rebuilt core that is fed from the mains for a test.
    .harm = Mains voltage kills.
hazard-heavy-current = Heavy current
    .arises = Hundreds of amperes at a few volts.
    .harm = Red-hot rings and tools, drops of molten metal, deep burns. Its magnetic field can stop a pacemaker.
hazard-arc-light = Arc light
    .arises = Any arc: a seam weld, a welder, a furnace, a cutter. Nearby, too.
    .harm = Burnt eyes and skin within seconds, also at a distance. The welding current can stop a pacemaker.
hazard-welding-fumes = Welding fumes and gas
    .arises = Zinc or cadmium plating, paint, varnish or chlorinated cleaner under the arc.
    .harm = Zinc brings fever. Cadmium, and gas from chlorinated cleaner, can kill hours later.
hazard-hydrogen = Hydrogen and acid
    .arises = A lead-acid battery on charge.
    .harm = The gas explodes at a spark and throws acid into the face.
hazard-wrong-battery = Wrong battery
    .arises = A lithium battery, or a frozen or damaged one, on this charger.
    .harm = Fire that water does not stop, and poisonous smoke.
hazard-molten-metal = Molten metal
    .arises = A damp charge or tool. A cracked crucible. A spill on concrete or water.
    .harm = Steam bursts and throws the melt: deep burns, lost sight.
hazard-carbon-monoxide = Carbon monoxide
    .arises = Graphite, charcoal or flux that burns in a furnace.
    .harm = Carbon monoxide kills without a smell.
hazard-plasma-voltage = Plasma torch voltage
    .arises = Hundreds of volts between torch and work, before an arc burns.
    .harm = One touch of torch and work can kill.

## Where hazards arise

arises-size-up = At the curb
arises-teardown = Teardown
arises-wind = Winding
arises-bench = Bench
arises-parts = Parts kept or discarded

## Gates

gate-unplugged = Plug out, in sight
    .why = Do not go on until you can see the whole plug. Do not trust a switch, a timer or a tripped breaker.
gate-capacitor-tool = Tool, meter, training, company
    .why = Do not go on until you have all four. Leave the cover on.
gate-capacitor = Capacitor discharged, proved, shorted
    .why = Do every item now, in this order, with one hand. Waiting does not discharge it.
gate-hands = Hands, eyes, feet covered
    .why = Do not go on until gloves, glasses and shoes are on.
gate-cutting = Dressed for cutting
    .why = Do not cut until eyes, ears, lungs and hands are covered.
gate-grinder = Grinder whole and guarded
    .why = Do not start the grinder until every item is true.
gate-old-insulation = Old insulation looked at
    .why = Look at the old insulation on windings, slots and leads. Do not cut, warm, scrape or brush it until you have looked.
gate-sparks = Sparks and fire
    .why = Clear away everything a spark can light. Do not go on until that is done.
gate-fumes = Fumes
    .why = Vent outdoors. Never use this oven for food again.
gate-hot-part = Hot part
    .why = Do not go on until someone stays with the hot part. Prepare a place for it.
gate-heavy-part = Heavy part held
    .why = Do not go on until the part can't fall, tip or turn.
gate-magnetron-whole = The magnetron stays whole
    .why = Do not go on until everyone here knows the magnetron. Leave it whole.
gate-old-winding-out = Old winding out
    .why = Do not go on until you see the core without old windings. No supply of any kind before that.
gate-reassembly = Core together
    .why = Do not go on until every item is done by the design.
gate-insulation-tester = Ready for insulation tester
    .why = Disconnect everything else. Hands off. Keep everyone else away.
gate-low-voltage = Ready for low voltage
    .why = Do not go on until an isolated source feeds the right winding.
gate-mains-on-bench = Ready for mains
    .why = Do not switch on until every item is true for this test. Where the law asks for a licensed person, call one.
gate-heavy-current = Ready for heavy current
    .why = Do not switch on until nothing you wear can close the circuit. Clear away loose metal.
gate-arc = Ready for an arc
    .why = Do not strike an arc until every item is true. If you have not welded before, let someone practised weld. Or band the seam instead.
gate-battery = Ready for the battery
    .why = Do not connect the battery until every item is true.
gate-furnace = Ready to melt metal
    .why = Do not heat the crucible until every item is true.
gate-plasma-voltage = Ready for torch voltage
    .why = Do not build or switch on until every item is true. Where the law asks for a licensed person, call one.

## Items: what is held to confirm, and what to do next if it could not be done

item-plug-out = I pulled the plug out of the wall with my own hand.
    .stop = Leave the cover on. Plug stuck or oven wired in: let a licensed electrician disconnect it.
item-plug-in-sight = I see the plug while I work. Nobody can put it back.
    .stop = Leave the cover on. Tie the plug to the handle, or work where you see it.

item-trained = I was taught to discharge high-voltage capacitors. Or someone who was taught does it with me.
    .stop = Leave the cover on. Find someone who was taught. Or give the oven to a repair shop or recycler.
item-resistor-tool = I have the discharge tool: rated resistor chain, insulated handle, chassis clip. The tool is whole.
    .stop = Leave the cover on. Get or borrow the tool. A screwdriver is no substitute.
item-rated-meter = My meter and probe are rated for this voltage. I tried them on a known source just now.
    .stop = Leave the cover on. A common meter can break down at two thousand volts. Get a rated probe.
item-someone-near = Someone near knows what I do and how to call for help.
    .stop = Leave the cover on and wait for company.

item-chassis-clip-on = The tool's clip grips bare metal of the oven chassis. My other hand is behind my back and stays there.
    .stop = Touch nothing. Scrape a spot of the oven chassis bare, from outside. Or find a bare screw. Clip there.
item-first-terminal = Tip held on the capacitor's first terminal: a slow count of ten.
    .stop = Hands out. Put the cover back on. Mark it "capacitor may be charged". Fetch someone who was taught this.
item-second-terminal = Tip held on the capacitor's second terminal: a slow count of ten.
    .stop = Hands out. Put the cover back on. Mark it "capacitor may be charged". Fetch someone who was taught this.
item-across-terminals = Tool held across the capacitor's terminals: a slow count of ten.
    .stop = Hands out. Put the cover back on. Mark it "capacitor may be charged". Fetch someone who was taught this.
item-proved-by-meter = Each terminal to the oven chassis reads below the limit. Between the terminals too.
    .stop = Treat the capacitor as charged. Hands out, cover on, marked. The tool or the meter may be broken. Get another of each.
item-meter-proved-again = I tried the meter on the known source again straight after. The meter reads right.
    .stop = The readings prove nothing. Treat the capacitor as charged. Hands out, cover on, marked. Get another meter and begin again.
item-clip-left-on = A clip lead joins the two terminals and stays on.
    .stop = Without the clip lead the voltage can creep back. Discharge again. Fit the clip lead before you reach in.

item-gloves-on = Cut-resistant gloves are on, whole and dry. Rings and watch are off. Gloves do not protect from shock.
    .stop = Wait until you have gloves. The oven can stay closed as long as you like.
item-glasses-on = Glasses with side shields and firm shoes are on.
    .stop = Wait until you have glasses with side shields, and firm shoes.

item-eyes-and-ears = A face shield or goggles for this work are on. Ear muffs or plugs are on.
    .stop = Do not cut. Common glasses do not stop a piece of steel. Get eye and ear protection first.
item-dust-mask-on = A dust mask (FFP2, N95 or better) is on and sits tight.
    .stop = Do not cut. Get a dust mask. Or have the core cut in a workshop with extraction.
item-gloves-suit-tool = My gloves suit this tool. The tool is whole. Nothing loose is near parts that turn.
    .stop = Do not cut. Tie back hair, cords and sleeves. Take tight gloves for a turning tool.

item-guard-on = Guard and side handle are on. I keep both my hands on the grinder.
    .stop = Do not use this grinder. Saw by hand, or have the core cut.
item-disc-rated = The disc is whole and made for this cut. The disc is rated at least for the grinder's speed.
    .stop = Do not use this disc. A disc that turns faster than its rating bursts. Fit the right one, or saw by hand.
item-grinder-unplugged = I unplug the grinder each time before I touch its disc.
    .stop = Do not use this grinder. Saw by hand.

item-no-grey-felt = No old insulation is grey or white, and woven or felted.
    .stop = Do not cut, warm, scrape or brush the insulation. Leave the room air still. Bag the core. Ask your waste authority about asbestos.

item-nothing-burns = Nothing burnable is in a spark's reach: paper, rags, solvent, sawdust, grass.
    .stop = Move outdoors onto bare ground, or saw by hand.
item-extinguisher-near = An extinguisher or a bucket of sand is in reach.
    .stop = Do not make sparks. Fetch one first.
item-fire-watch = Someone watches here for one hour after the last spark or heat.
    .stop = Do not start now. Begin when someone can stay.

item-fresh-air = Outside air moves through this place.
    .stop = Do not warm the core here. Go outdoors or to a workshop with extraction.
item-never-for-food = This oven or tool never touches food again. Oven and tool stay out of any kitchen.
    .stop = Do not warm the core. Work the winding out cold, with more time.

item-stay-with-it = Someone stays with the hot part from start to one hour after. An extinguisher or sand is in reach.
    .stop = Do not start. Begin when someone can stay.
item-hot-part-place = Heat-proof gloves are here. The hot part has a place to lie where nothing can burn.
    .stop = Do not start. Find gloves and a bare metal or stone surface. Clear away what burns.

item-part-held = The part is clamped or held: it can't fall, tip or turn. Feet and fingers are clear.
    .stop = Leave the part where it is. Get a vice, a clamp or a second person.

item-magnetron-stays-whole = I know which part is the magnetron. Nobody will cut, crush, file or open it. Its magnets stay on.
    .stop = Leave every part with cooling fins and a metal dome alone. If the magnetron is broken: leave and close the room. Do not sweep or vacuum. Ask your waste authority for advice on beryllia.
item-no-implant = Nobody here has a pacemaker or another implant.
    .stop = Keep that person away from the magnetron. Let someone else take it out.

item-high-voltage-out = The old high-voltage winding is out. I hold it in my hand.
    .stop = No supply of any kind. Go back to the teardown and take it out.
item-filament-out = The old filament winding and every old lead are out too.
    .stop = No supply of any kind. Go back to the teardown and take them out.

item-core-closed = The core is closed. Its joints are clean, flat and tight.
    .stop = Take the core apart again. Clean the joints with a fine file.
item-gap-set = The gap is the design's, with its spacer in. If the design has no gap, the joints touch.
    .stop = Measure the spacer again, or design for the gap that you have.
item-seam-held = The seam is unopened, banded tight, or welded by someone practised.
    .stop = A loose core vibrates and wears through its insulation. Band the core, or have the seam welded.
item-insulation-in = Insulation separates core and windings, and the windings. The insulation is thick enough and rated for the temperature.
    .stop = Take the winding off. Add insulation. Tape alone over a sharp edge is not enough.
item-core-earthed = A bolted lug on bare metal joins the core to ground (earth).
    .stop = No mains. Fit the lug. Never leave the ground (earth) off.
item-fuse-in = A fuse of the design's rating is in the live wire. Nothing bridges it.
    .stop = No mains. Fit the fuse. Never bridge a fuse.
item-strain-relief = A strain relief holds the cord.
    .stop = No mains. Fit a strain relief.
item-enclosed = The enclosure is on. With it on, nobody can touch a live part.
    .stop = No mains. Build the enclosure first.

item-nothing-joined = The plug is out. Nothing else is joined to windings or core.
    .stop = Do not test. Take everything off first.
item-short-after-test = I keep hands off during the test. I short the winding to the core afterwards.
    .stop = Do not test. Let someone do it who knows the insulation tester.

item-isolated-source = The source is isolated from the mains. The source gives 24 V at most.
    .stop = Do not test. A variable transformer alone does not isolate.
item-feed-most-turns = The source feeds the winding with the most turns. The other ends are apart and covered.
    .stop = Do not test. Count again which winding has the most turns.

item-residual-device = A GFCI (RCD) feeds this bench. Its test button tripped it today.
    .stop = No mains. Fit a GFCI (RCD). Or have a licensed person test the core.
item-leads-with-plug-out = I clip meter leads on and off only with the plug out.
    .stop = Pull the plug, then clip the leads.
item-switch-in-reach = A switch for the mains is in reach, away from the core.
    .stop = No mains. Rearrange the bench.
item-helper-knows-switch = Someone near knows how to cut the mains and call for help.
    .stop = No mains. Wait for company.

item-rings-off = Rings, watch and chain are off.
    .stop = Take them off, or let someone else do this test.
item-no-implant-at-current = Nobody with a pacemaker or another implant is in this room.
    .stop = Do not switch on. That person leaves the room first. That person must ask a doctor before coming near heavy current.
item-leads-clamped = The heavy leads are bolted or clamped. The leads can't touch each other by chance.
    .stop = Do not switch on. Bolt them down.
item-covered-from-drops = Eyes, arms and feet are covered against drops of metal.
    .stop = Do not switch on. Dress first.

item-no-implant-at-arc = Nobody with a pacemaker or another implant is near the arc.
    .stop = Do not strike an arc. That person leaves first. Or band the seam instead.
item-bare-steel = The metal is bare: no zinc, cadmium, paint or varnish. The metal is bare a thumb's length around the arc, too.
    .stop = Do not strike an arc. File the metal bare by hand, outdoors. Wear glasses and a dust mask. If you cannot tell the plating, do not weld on it. Band a core's seam.
item-no-chlorinated-cleaner = No chlorinated cleaner was used where the arc touches. None is near.
    .stop = Do not strike an arc. An arc turns its traces into deadly gas. Wash with soap and water. Dry the metal. Air the place.
item-weld-fumes-drawn-off = The fumes are drawn off or blow away from my face.
    .stop = Do not strike an arc here. Go outdoors, upwind of the arc, or to a workshop with extraction.
item-helmet-on = My welding helmet is shade 10 or darker, or switches to it. I tried it.
    .stop = Do not strike an arc. Sunglasses and cutting goggles do not stop arc light.
item-skin-covered = Leather or cotton covers all my skin, neck too. Gloves are leather. Nothing is synthetic.
    .stop = Do not strike an arc. Dress first.
item-bystanders-screened = A screen keeps the arc's light from everyone else. Everyone knows not to look.
    .stop = Do not strike an arc. Put up a screen, or send the others away.

item-lead-acid-only = The battery is lead-acid, never lithium. The battery is whole and not frozen.
    .stop = Do not connect the battery. A lithium battery burns on this charger. Use the charger made for it.
item-battery-aired = Outside air moves here. Caps or vents are free. Nothing near makes sparks or flames.
    .stop = Do not charge here. Take it outdoors or to an open garage.
item-battery-fused = A fuse is at the battery's own terminal. I unplug the charger before leads go on or off.
    .stop = Do not connect the battery. Fit the fuse first.
item-eyes-for-acid = Tight goggles are on. Water to rinse eyes and skin is in reach.
    .stop = Do not connect the battery. Fetch goggles and water.
item-stay-with-battery = Someone stays with the battery. That person switches off when the battery gasses or gets warm.
    .stop = Do not start now. Begin when someone can stay.

item-charge-dry = The charge and every tool for the melt are dry and warm.
    .stop = Do not melt. A drop of water bursts the melt out of the crucible. Dry charge and tools warm first.
item-dry-floor = Dry sand lies under the crucible. No water and no bare concrete are in reach.
    .stop = Do not melt. A spill on concrete or water bursts. Lay dry sand.
item-covered-from-melt = A face shield, leather gloves, apron and boots cover me. Nothing is synthetic.
    .stop = Do not melt. Dress first.
item-furnace-outdoors = The furnace is outdoors. Or fresh air moves, and a carbon monoxide alarm is on.
    .stop = Do not melt here. Carbon monoxide has no smell. Go outdoors.

item-build-overseen = Someone licensed oversees this build and has seen the circuit.
    .stop = Do not build the cutter. Hundreds of volts kill. Look for another use of this core.
item-torch-interlocked = The torch has an interlock: no voltage without its cup in place.
    .stop = Do not build the cutter. Get a torch with an interlock.
item-plasma-grounded = Core, work and enclosure are grounded (earthed).
    .stop = Do not switch on. Ground (earth) all three first.

## Why something is not taken

refusal-gate-needed = A gate comes before this. Confirm its items one by one.
refusal-not-from-here = Open the next step or an earlier step. Take the steps in order.
refusal-must-record = Record what you found before you go on.
refusal-not-asked-here = Nothing of this kind is recorded here. Go to the step that asks for it.
refusal-out-of-range = Outside the range. Enter { $range }.
refusal-not-this-gate = The screen has changed: another gate is next. Read it again.
refusal-not-yet = Confirm the items in order. Another item comes first.
refusal-needs-readings = Enter the three readings. Holding the button alone does not prove the capacitor.
refusal-no-reading = A reading is missing. Measure from each terminal to the oven chassis and between the terminals.
refusal-only-at-capacitor = Go to the capacitor first. Discharge, prove and short it there.
refusal-not-read = A reading is missing here. Take the reading before you go on.
refusal-outside-band = Do not go on: a reading is outside its band. Explain the reading, fix its cause or read again.
refusal-no-explanation = This cause does not explain the reading. Fix the cause, or read again.
refusal-stopped = Stopped. Resume, then confirm every gate again.
refusal-finished = Finished. Resume the work first.
refusal-going-on = Already in progress.

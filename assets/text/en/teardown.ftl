### The steps of the teardown. In ".do" each line is one action; in ".caution" each line is one warning.

step-prepare = Prepare
    .do =
        Clear a dry bench in good light.
        Lay out the tools below. Open nothing until all are there.
        Check the discharge tool: chain, handle, tip and clip are whole.
        Read the list of all steps once.
    .wrong = Starting without the discharge tool, and finding out with the cover off.
    .caution = Keep children and bystanders out. Your local rules on electrical work and waste come first.
step-unplug = Unplug
    .do =
        Pull the plug out of the wall.
        Lay the plug where you see it.
    .wrong = The cord is cut. Its other end is still in the wall.
    .caution = Leave the cover on. Unplugged is not discharged.
step-open = Take the cover off
    .do =
        Undo the screws of the cover. Security screws need their own bit.
        Slide the cover backwards and lift it off.
        Look, hands out: an iron block with windings, or a circuit board?
    .wrong = A wrong bit slips off a security screw. The cover's edge cuts. A hand goes in while the capacitor is still charged.
    .caution =
        Leave the cover on until you have tool, meter and training. The terminals inside are bare.
        Keep both hands out of the oven.
step-capacitor-safe = Discharge the capacitor
    .do =
        Look first: does the capacitor bulge or leak? Then stop here.
        Put one hand behind your back. Leave it there.
        Try the meter on a known source.
        Clip the tool to bare metal of the oven chassis.
        Touch the first terminal with the tip. Count slowly to ten.
        Touch the second terminal. Count slowly to ten.
        Hold the tool across both terminals. Count slowly to ten.
        Touch each magnetron terminal the same way: its filter has capacitors.
        Measure from each terminal to the oven chassis, then between them.
        Try the meter on the known source again.
        Join the two terminals with the clip lead. Leave it on.
    .wrong = The tool's clip has no contact. The wrong part is discharged. A blown in-line high-voltage fuse parts it from the transformer. The transformer reads nothing. The capacitor is charged. Charge creeps back by itself, also where the bleeder is whole.
    .caution =
        Treat the capacitor as charged until you have proved the discharge. Measure at the capacitor itself.
        Do not touch a capacitor that bulges or leaks. Put the cover on. Mark the oven. Take it whole to hazardous waste.
        Do not trust gloves against shock.
    .tool = The tool is a chain of resistors rated for high voltage. The chain is in an insulated handle. The tool has two prongs, or a tip and a clip lead. The clip goes to the oven chassis first. Across the terminals, clip one and touch the other. A screwdriver is no such tool.
step-disconnect = Take the wires off
    .do =
        Check that the clip lead is still on the capacitor.
        Touch each terminal of the magnetron with the tool once more.
        Photograph the wiring.
        Count the wires on the transformer: usually four or five.
        Pull each push-on terminal by its metal, not by its wire.
    .wrong = The clip lead falls off the capacitor. A terminal tears. Nobody knows later which tab was the primary.
    .caution = Stop if the clip lead is no longer on the capacitor. Hands out, discharge and prove again.
step-unbolt = Take the transformer out
    .do =
        Lay the oven on its back. Support it against tipping.
        Undo the transformer's bolts, usually four, all but one.
        Take the weight of the transformer. Undo the last bolt.
        Lift the transformer out and weigh it.
        Lift the magnetron out whole.
    .wrong = The oven tips as the weight leaves it. A bolt turns in rusty sheet.
    .caution =
        Do not cut, crush or open the magnetron. Its ceramic may hold beryllia.
        Keep its magnets away from implants and cards.
step-keep-parts = Keep what is useful
    .do =
        Take a cord with whole plug and sheath: for the mains.
        Take the fan: for cooling the new winding.
        Take door switches and fuse holder: for the primary's circuit.
        Take the thermal cut-outs: for the new winding.
        Note the temperature printed on each cut-out.
        Bag and label each part.
    .wrong = The cord's sheath is cracked, or its ground (earth) pin loose. A cut-out is kept without its temperature.
    .caution =
        Leave the clip lead on the capacitor, also while you remove it.
        Do not use the oven's capacitor, diode or high-voltage fuse on mains.
step-inspect = Inspect windings and shunts
    .do =
        Find the primary: thick wire, two tabs.
        Find the old high-voltage winding: fine wire.
        Find its end that is usually tied to the core.
        Find the filament winding: a few insulated turns.
        Find the shunts: blocks of steel between the windings.
        Record which winding is at the back, away from the seam.
        Cut a lead end and look: copper-clad aluminium is red only outside.
    .wrong = Aluminium under brown varnish passes for copper. The tabs are plated and show nothing.
    .caution =
        Do not apply any voltage to see whether the transformer works. With its old high-voltage winding it gives about two thousand volts.
        Do not touch grey or white insulation, woven or felted. Such insulation may be asbestos.
step-choose-way = Choose how to open
    .do =
        Choose to open the seam: saw, cut or grind it.
        Or keep the core whole and drive the old winding out.
        Choose what becomes of the shunts.
    .wrong = Cutting a seam that needed no cutting. For a few thick turns a whole core is often enough.
    .caution = Choose a way you have the tools and clothing for. A hand saw makes no sparks.
step-split = Open the seam
    .do-saw =
        Clamp the core with the seam up. Tighten the blade.
        Saw along the weld, just through it: about 1.6 mm (1/16 in).
        Go deeper at the corners, where the weld is thicker.
        Turn the core and saw the other seam.
        Set a wooden drift on the I from inside a window.
        Strike lightly, left and right in turn, until E and I part.
        If they will not part, warm the core first.
    .do-disc =
        Clamp the core with the seam up.
        Cut along the weld, just through it: about 1.6 mm (1/16 in).
        Go deeper at the corners, where the weld is thicker.
        Turn the core and cut the other seam.
        Set a wooden drift on the I from inside a window.
        Strike lightly, left and right in turn, until E and I part.
        If they will not part, warm the core first.
    .do-grind =
        Clamp the core with the seam up.
        Grind until the joint shows: about 1.6 mm (1/16 in) down.
        Go deeper at the corners, where the weld is thicker.
        Turn the core and grind the other seam.
        Set a wooden drift on the I from inside a window.
        Strike lightly, left and right in turn, until E and I part.
        If they will not part, warm the core first.
    .wrong-saw = Sawing on into the laminations. Prising the laminations apart bends them.
    .wrong-disc = Cutting on into the laminations. Prising the laminations apart bends them. The disc jams.
    .wrong-grind = Grinding on into the laminations. Prising the laminations apart bends them. The disc jams.
    .caution-saw =
        Keep the other hand behind the blade. A loose blade snaps.
        Clamp the core again after turning it.
    .caution-disc =
        Stand out of line with the disc. A jammed disc kicks and breaks.
        Keep both hands on the grinder. Unplug it to change discs.
        Look for fire while you work and for one hour after. Sparks light what you do not see.
    .caution-grind =
        Stand out of line with the disc. A jammed disc kicks and breaks.
        Keep both hands on the grinder. Unplug it to change discs.
        Look for fire while you work and for one hour after. Sparks light what you do not see.
step-warm = Warm the varnish
    .do =
        Warm the core in a workshop oven or with hot air.
        Keep to the temperature and the time shown.
        Work on the core while it is warm.
    .wrong = Too hot: enamel blisters and paper chars. Too short: the middle stays hard.
    .caution =
        Never warm the core by putting current or voltage on a winding.
        Do not leave the warm core. Lead the fumes outdoors.
step-remove = Remove windings and shunts
    .do-apart =
        Take the parts out in the order shown.
        Cover the primary with card.
        Snip the few insulated turns of the filament and pull them out.
        Push a thin blade round the tongue, between winding and core.
        Wedge evenly on both sides and pull the winding straight off.
        Never strike the wire of a primary that you keep.
        Drive the shunts out along the stack with a punch, while warm.
        If they will not move, pull them layer by layer with pliers.
        Remove the old card.
    .do-whole =
        Take the parts out in the order shown.
        Cover the primary with card.
        Drive the shunts out along the stack with a punch, while warm.
        If they will not move, pull them layer by layer with pliers.
        Snip the few insulated turns of the filament and pull them out.
        Saw the old high-voltage winding off flush on one side.
        Drive the winding out from that side with a wooden drift.
        Never strike the wire of the primary.
        Remove the old card.
    .wrong = A slip nicks the primary. A punch spreads the laminations. Shunts get mixed up.
    .caution =
        Keep your face out of line: cut wire ends spring.
        Clamp the core. Keep the primary covered with card.
step-clean = Clean the core
    .do-apart =
        Scrape varnish and burrs off joint faces and windows.
        File along the laminations, never across.
        Brush the dust out and wipe it up wet.
    .do-whole =
        Scrape varnish and burrs off the windows.
        File along the laminations, never across.
        Brush the dust out and wipe it up wet.
    .wrong = Filing across the laminations smears them together. Rust is left on the joint faces.
    .caution = Wipe the dust up wet. Do not blow. The dust is steel, varnish and glass.
step-measure = Measure
    .do =
        Measure tongue, stack and both windows with the calipers.
        Weigh the bare core.
        Enter each number here, with the tool you used.
    .wrong = Measuring over burrs or varnish. Taking the E alone for the whole core.
    .caution = Keep gloves on. Lamination edges cut like knives.
step-store = Put the core away
    .do-apart =
        Oil the bare faces.
        Tie E, I and shunts into one bundle.
        Label the bundle with the oven's name.
        Put the bundle low and dry.
    .do-whole =
        Oil the bare faces.
        Tie the shunts to the core.
        Label the core with the oven's name.
        Put the core low and dry.
    .wrong = Loose laminations, lost shunts, rust.
    .caution =
        Store the core low.
        Take capacitor, diode and magnetron whole to electronic waste. Follow your local rules. Leave the clip lead on the capacitor.

## Tools

tool-gloves = Cut-resistant gloves (no protection from shock)
tool-glasses = Glasses with side shields
tool-screwdrivers = Screwdrivers, with the bits for security screws
tool-resistor-tool = Discharge tool: resistor chain rated for high voltage, insulated handle, chassis clip
tool-rated-meter = Meter and high-voltage probe
tool-clip-lead = Insulated clip lead
tool-pliers = Pliers
tool-nut-drivers = Nut drivers or sockets
tool-bags-and-pen = Bags, tags and a pen
tool-lamp = Good lamp
tool-vice = Vice
tool-hacksaw = Hacksaw, fine blade
tool-cutting-disc = Grinder with guard and side handle. Thin cutting disc, rated at least for its speed
tool-grinding-disc = Grinder with guard and side handle. Grinding disc, rated at least for its speed
tool-cutting-wear = Face shield, ear muffs, dust mask (FFP2, N95 or better)
tool-extinguisher = Extinguisher or sand
tool-workshop-heat = Workshop oven or hot-air tool, never for food
tool-thermometer = Thermometer for the core
tool-hammer-and-drift = Hammer, punch, wooden drift, thin blade, wedges
tool-scraper = Scraper, brush, fine file
tool-calipers = Calipers and rule
tool-scale = Scale
tool-oil-and-label = Oil and a label

## Records

field-photo = Photo
field-supply = Transformer or inverter?
field-wire-count = Wires on the transformer
field-terminals = Terminals
field-transformer-mass = Mass of the transformer
field-winding-at-back = Winding at the back
field-primary-metal = Metal of the primary
field-seam-thickness = Seam weld thickness
field-way = Way of opening
field-shunts = Shunts

supply-transformer = Iron-core transformer
supply-inverter = Inverter board
way-hacksaw = Saw by hand
way-abrasive = Cut with a disc
way-grinder = Grind the seam down
way-drive-out = Keep the core whole
winding-primary = Primary
winding-high-voltage = Old high-voltage winding
winding-filament = Filament winding
shunts-keep = Shunts go back in
shunts-leave-out = Shunts stay out
pull-primary = Primary, whole
pull-shunts = Shunts
pull-filament = Filament winding
pull-high-voltage = Old high-voltage winding

note-inverter-no-core = There is no iron core here. Do not touch the capacitors on the board. Close the oven. Size up the parts.
note-aluminium-primary = The primary is aluminium. Crimp it with sleeves for aluminium. Bend it once only. Expect more resistance than copper.
note-primary-at-back = The primary is at the back. Once old windings and shunts are off, pull nothing more.
note-primary-in-front = The primary is in front. Ease it off whole and keep it. Only then take the old high-voltage winding out.
note-shunts-kept = The new use wants the shunts. Keep them in order; they go back where they were.
note-shunts-left-out = The new use does without the shunts. Store them with the core.
note-primary-goes-back = Put the primary back where it was, in front. Keep the same side up.
note-thick-seam = The seam is thicker than usual. Work in several shallow passes.

end-stored = Measured and put away
    .next = Enter the measurements and design the new winding.
end-no-core = No iron core here
    .next = Close the oven, hands clear of the board. See which parts are worth keeping.

air-still-oven = Oven without a fan
air-fan-oven = Oven with a fan
air-hot-air = Hot air

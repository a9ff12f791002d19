### The verdict on an oven.

verdict-take = Take it
    .next = Carry it unplugged, cover on. Hold it close, back straight.
verdict-take-for-parts = Take it for parts
    .next = Pass every gate of the teardown before a part comes out.
verdict-leave = Leave it
    .next = Leave it closed, or bring it to electronic waste.
verdict-look-closer = Look closer
    .next = Look for what is asked below. Leave the cover on.

reason-core-seen = An iron core was seen.
reason-core-likely = An iron core is likely.
reason-core-uncertain = The oven may have a core or an inverter.
reason-inverter-likely = An inverter is likely: there would be no iron core.
reason-sized-from-microwave-part = Sized from its microwave part, not from grill or hot air.
reason-crushed = The oven is crushed. The magnetron may be broken: its dust harms the lungs.
reason-flooded = The oven was in water: look at the core for rust.
reason-burnt = The oven burnt. The old winding may be ruined, the core rarely is.
reason-parts-missing = Someone opened it before; the transformer may be gone.
reason-deep-rust = Deep rust: laminations may have rusted together.
reason-pays-back = The oven pays back against a new transformer.
reason-does-not-pay-back = The oven does not pay back. Never pay for such an oven.
reason-may-pay-back = The oven may pay back, or not.
reason-no-prices = A price is asked. Set your prices to compare it.
reason-suits = The core suits a use you want.
reason-suits-with-shelf = The core suits a use together with one on your shelf.
reason-too-small = The core is likely too small for the uses you want.
reason-very-old = The oven is so old that its capacitor may hold PCB oil.

ask-word = Is the word "inverter" on door, panel or label?
ask-vents = Shine a lamp through the vents: iron block or circuit board?
ask-heavy-side = Lift one side, then the other: is the panel's side much heavier?
ask-power = What power does the label give for microwaves?
ask-price = What price is asked for the oven?
ask-prices = What do a new transformer and copper cost where you live?
ask-open = Open the oven here only through the gates of the teardown.

sign-word = The word "inverter"
sign-core-seen = Iron block seen inside
sign-board-seen = Circuit board seen inside
sign-heavy-side = One side much heavier

oven-solo = Microwaves only
oven-grill = With grill
oven-combination = Hot air or steam

rust-clean = No rust
rust-surface = Rust on edges, screws
rust-deep = Deep rust

damage-burnt = Burnt
damage-flooded = Flooded
damage-crushed = Crushed or dropped
damage-parts-missing = Parts missing
damage-cord-cut = Cord cut off
damage-door-broken = Door broken

part-fan = Fan
    .worth = Cools the rebuilt core. Check that its voltage is the mains'.
part-cord = Cord
    .worth = Feeds the rebuilt core. The cord must be whole and carry the current. Check its ground (earth) wire.
part-interlocks = Door switches
    .worth = Good mains switches for a lid or a foot pedal. Door switches never replace a fuse.
part-cut-outs = Thermal cut-outs
    .worth = A cut-out on the new winding opens before the winding burns. Read the temperature printed on it.
part-switches = Relays and switches
    .worth = Relays, timers and a triac for later work.
part-turntable-motor = Turntable motor
    .worth = Turns slowly, for a display, a stirrer or a winding aid. Check its voltage.
part-lamp = Lamp and holder
    .worth = A pilot or bench lamp. The oven's lamp is too small for the series lamp.
part-magnets = Ring magnets
    .worth = Leave the rings on a magnetron. Only rings that lie loose already are worth keeping.
part-diode = High-voltage diode
    .worth = None for low voltages. The diode goes to electronic waste.
part-capacitor = High-voltage capacitor
    .worth = None for home use. The capacitor goes to electronic waste whole: discharged, proved and shorted.

worth-for-the-rebuild = For the rebuild
worth-workshop = For the workshop
worth-waste = For electronic waste

fit-alone = suits by itself
fit-with-shelf = suits with one on your shelf
fit-too-small = likely too small

pays-yes = pays back
pays-no = does not pay back
pays-unsure = may pay back

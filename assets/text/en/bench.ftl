### The stages of the bench, and the causes of readings outside their bands.

stage-prepare = Prepare
    .do =
        Clear the bench and dry it.
        Lay out the meters and the design's numbers.
        For a winding, lay out a series lamp: filament, not LED.
    .wrong = Testing in a hurry, alone or in the wet.
    .caution = Do not begin until the bench is dry and you are rested. Where the law asks for a licensed person, call one.
stage-reassembly = Put the core together
    .do =
        Lay the insulation in.
        If the core was opened, set the gap and close the core.
        Band the seam, or weld it behind its gate below.
        Bolt the ground (earth) lug to the core on bare metal.
        Fit fuse, strain relief and enclosure.
    .do-whole =
        Lay the insulation in. The seam stays closed.
        Bolt the ground (earth) lug to the core on bare metal.
        Fit fuse, strain relief and enclosure.
    .wrong = A burr through the paper. A slack band. Paint under the ground (earth) lug.
    .caution =
        Keep the plug out.
        Keep gloves on: edges and cut wire cut deep.
        Clamp the core: it is heavy and can fall.
        Let only a practised person weld, behind the gate. Helmet on, skin covered, bystanders shielded, fumes led outdoors.
        Keep the arc away from the windings' paper: the paper catches fire.
stage-continuity = Continuity and resistance
    .do =
        Keep the plug out.
        Below 1 Ω, pass 1 to 10 A d.c. through the winding.
        Read the millivolts at the winding's own ends.
        Above 1 Ω, use an ohmmeter and subtract its leads.
        Enter the winding's temperature.
    .wrong = A meter with two leads cannot read milliohms. The millivolts were read at the source's clips. The winding is still warm.
    .caution =
        Keep the plug out and your hands off bare ends.
        Switch the source off before a probe comes off. A winding can shock you.
        Keep gloves on: cut wire ends are sharp.
# 500 V d.c.: IEC 60974-4 (M).
stage-insulation = Insulation resistance
    .do =
        Set the tester to 500 V d.c.
        Test each winding to the others for one minute.
        Test each winding to the core for one minute.
        Short the winding to the core after each test.
    .wrong = A damp winding. A tester with a weak battery. A multimeter in place of a tester.
    .caution =
        Hands off during the test: the test voltage can shock you.
        Short the winding to the core before you touch it. The winding keeps a charge.
stage-ratio-polarity = Ratio and polarity
    .do =
        Take an isolated source of 24 V a.c. at most.
        Feed the winding with the most turns.
        Read the voltage of every other winding.
        Note whether its marked end is in step.
    .wrong = Feeding the winding of few turns. Mixing up start and end.
    .caution =
        Never feed the winding of few turns. The other winding then gives mains voltage.
        Never feed a core that still has its old high-voltage winding.
stage-pair-phasing = Phasing of the pair
    .do =
        Join the primaries as drawn.
        Tie one end of each new winding together, as drawn.
        Take an isolated, fused source of 24 V a.c. at most.
        Feed the primaries.
        Read the voltage between the two free ends.
        Read each new winding.
        Close the last joint only after this test.
    .wrong = One winding is turned round. A joint is open. The readings belong to other windings.
    .caution =
        Keep the last joint open until this reading is in its band. In parallel a turned winding is a short circuit.
        Never feed a new winding of few turns. The primaries then give mains voltage.
        Never feed a core that still has its old high-voltage winding.
stage-impedance = Impedance at low voltage
    .do =
        Put the spacer in and clamp the core.
        Take an isolated source at mains frequency, 24 V a.c. at most.
        Raise the current to about a tenth of the rated one.
        Read volts over the coil and amperes at the same moment.
    .wrong = The gap is clamped unevenly. Burrs bridge the spacer. The meter's frequency range is too low.
    .caution =
        Turn the source down to zero before you unclip. A cut current makes a coil throw a high voltage.
        Never feed a core that still has its old high-voltage winding.
stage-lamp-idle = No-load through a lamp
    .do =
        Enter the watts of your filament lamp.
        With the plug out, put the lamp in series.
        Put the enclosure on.
        Switch on and read the current.
        Look at the lamp: it stays faint or dark.
    .wrong = Bright lamp: a shorted turn, swapped ends or too few turns. An LED lamp shows nothing.
    .caution =
        Keep the enclosure on. Behind the lamp all is live: mains voltage.
        Switch off at a loud hum, a smell or a bright lamp.
        Pull the plug before you move a lead.
        Never feed a core that still has its old high-voltage winding.
stage-mains-idle = No-load at full mains
    .do =
        Pull the plug and take the lamp out.
        Put the enclosure on.
        Switch on and read the no-load current.
    .wrong = The fuse blows at switch-on. Then pull the plug and repeat the lamp test. Lamp dim: fit a time-delay fuse of the same rating. Never fit a bigger fuse.
    .caution =
        Stand clear at switch-on: full mains.
        Switch off at the first smell. Pull the plug before you move a lead.
        Never feed a core that still has its old high-voltage winding.
stage-loaded = Under load
    .do =
        Connect the load with the plug out.
        Switch on.
        Read the voltage at the winding's own terminals.
    .wrong = Reading at the load instead of at the terminals.
    .caution =
        Keep the enclosure on and stand clear: mains and heavy current.
        Switch off at a hot joint. A hot joint is a bad joint.
        Do not touch core, winding or leads: they get hot.
        Never feed a core that still has its old high-voltage winding.
stage-short-circuit = Dead short
    .do =
        With the plug out, bolt the two output leads together.
        Leave no work between them.
        Set a clamp meter to hold.
        Switch on for half a second.
        Read the current.
        Let everything cool before you repeat.
    .wrong = The clamp meter is out of range. Work is between the leads. The leads warm before the reading settles.
    .caution =
        Switch on for half a second, no longer: mains and heavy current.
        Keep faces and hands away from the leads.
        Clear away everything that burns. Sparks from a bad joint start a fire.
        Do not touch winding or leads: they get hot.
        Never feed a core that still has its old high-voltage winding.
stage-rated-current = At rated current
    .do =
        Choke: pass its rated direct current, from its own supply.
        Ballast: connect it in series with its lamp.
        Set the meters: d.c. for a choke, a.c. for a ballast.
        Read volts over the coil and amperes at the same moment.
    .wrong = Volts read over coil and leads together. A meter set to the wrong kind of current.
    .caution =
        Switch on the mains side only. A cut current makes a coil throw an arc.
        Keep the enclosure on and stand clear: mains and heavy current.
        Switch off at a hot joint. A hot joint is a bad joint.
        Do not touch core or coil: they get hot.
        Never feed a core that still has its old high-voltage winding.
stage-temperature-rise = Temperature rise
    .do =
        Measure a winding cold.
        Run the part at its load and duty cycle.
        Go on until the part gets no warmer. Note the current.
        Pull the plug.
        Measure the winding again at once, the same way.
    .wrong = The reading comes a minute late. The winding was warm at the start.
    .caution =
        Stay with the core: mains and heavy current. A hot part can start a fire.
        Measure resistance only with the plug out.
        Do not touch winding or core: they get hot.
        Never feed a core that still has its old high-voltage winding.

# What the load adds to the caution of each stage with mains or under load.
load-battery = A battery on charge
    .caution =
        Charge lead-acid only, never lithium: lithium burns.
        Air the place. Keep sparks away: charging gives off hydrogen, which explodes.
        Keep goggles on: acid sprays.
load-lamp = A discharge lamp
    .caution =
        Check that the lamp's outer glass is whole. Without the glass its light burns eyes and skin.
        Stand behind a screen until the lamp is warm. The lamp can burst. Hot glass starts a fire.
        Never feed an open arc from a ballast. Choose a use with an arc: it has the gate.
load-electrode = A welding arc
    .caution =
        Helmet down before the arc. The arc's light burns eyes and skin, also of bystanders.
        Lead the fumes away. Never weld on zinc, cadmium, paint or chlorinated cleaner.
        Clear away everything that burns: sparks start a fire.
load-furnace = Melt in the furnace
    .caution =
        Keep charge and tools dry. A drop of water bursts the molten metal.
        Stay outdoors: carbon monoxide kills without a smell.
        Wear a welding helmet. Cover your skin. The arc's light burns eyes and skin.
        Lead the fumes away. Clear away everything that burns: splashes start a fire.
load-plasma = A plasma torch
    .caution =
        Never touch torch and work at once. Hundreds of volts at the torch kill.
        Wear a welding helmet. Cover your skin. The arc's light burns eyes and skin.
        Lead the fumes away. Clear away everything that burns: sparks start a fire.
        Where the law asks for a licensed person, call one.

direction-too-low = below its band
direction-too-high = above its band
direction-reversed = out of step

cause-open-winding = A wire is broken or not joined.
    .fix = Trace the winding from end to end with the meter.
cause-bad-joint = A joint or crimp is bad, or enamel is left under it.
    .fix = Make the joint again on bright metal.
cause-wrong-count = The number of turns is not the design's.
    .fix = Count again; add or take off turns.
cause-wrong-wire = The wire is not the design's size or metal.
    .fix = Measure the bare wire and calculate the design again.
cause-shorted-turn = Turns touch each other.
    .fix = Take the winding off, find the damaged enamel, wind again.
cause-meter-leads = The resistance of the meter's leads was not subtracted.
    .fix = Short the leads, note the reading and subtract it. Below 1 Ω use the four-wire way.
cause-winding-temperature = The winding was not at the temperature entered.
    .fix = Let the winding rest at room temperature. Read again.
cause-nicked-insulation = The core's edge nicked the insulation.
    .fix = Take the winding off, round the edge, insulate again.
cause-damp = Paper or varnish is damp.
    .fix = Dry the winding warm with the plug out. Test again.
cause-chips = Dust or chips bridge the windings.
    .fix = Brush and vacuum, then test again.
cause-phasing = A winding's ends are swapped.
    .fix = Swap its ends and mark the start.
cause-loose-core = The core is not closed tight.
    .fix = Tighten clamp or band; clean the joints.
cause-wide-gap = The gap is wider than designed.
    .fix = Measure the spacer; clean burrs off the joints.
cause-narrow-gap = The gap is narrower than designed.
    .fix = Measure the spacer; the design may have counted on a larger gap.
cause-joined-laminations = Weld or burrs join the laminations.
    .fix = File the burrs along the laminations; keep the weld shallow.
cause-shunts-in = Shunts are in though the design has none, or sit loose.
    .fix = Take the shunts out, or fix them as designed.
cause-shunts-missing = Shunts are out though the design counts on them.
    .fix = Put the shunts back in.
cause-poor-steel = The steel is poorer than assumed.
    .fix = Enter the measured no-load current and calculate the design again.
cause-mains-voltage = The mains is not at the voltage assumed.
    .fix = Enter the mains voltage that a rated meter reads at an outlet.
cause-wrong-lamp = The lamp is not the one assumed.
    .fix = Enter the lamp's watts above, or use a lamp of those watts. Filament lamp, not LED.
cause-wrong-load = The load is not the one assumed.
    .fix = Measure the load, or use the right one.
cause-thin-leads = Leads are longer or thinner than assumed.
    .fix = Shorten the leads, or use thicker ones.
cause-fuse-open = A fuse or switch is open.
    .fix = Pull the plug, then look at fuse and switch.
cause-late-reading = The resistance was read late.
    .fix = Run the test again. Read within seconds of pulling the plug.
cause-not-cold = The winding was not cold at the start.
    .fix = Leave the part overnight. Begin again.
cause-overloaded = The load was heavier or longer than designed.
    .fix = Run the part at the design's load and duty cycle.
cause-no-air = Air cannot reach the windings.
    .fix = Open the vents, or design for less.

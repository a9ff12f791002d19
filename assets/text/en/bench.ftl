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
    .wrong = A burr through the paper; a slack band; paint under the ground (earth) lug.
    .caution =
        Keep the plug out.
        Keep gloves on: edges and cut wire cut deep.
        Clamp the core: it is heavy and can fall.
        Only a practised person welds, behind the gate: helmet on, skin covered, bystanders shielded, fumes led outdoors.
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
        Switch the source off before a probe comes off: a winding can shock you.
        Keep gloves on: cut wire ends are sharp.
# 500 V d.c.: IEC 60974-4 (M).
stage-insulation = Insulation resistance
    .do =
        Set the tester to 500 V d.c.
        Test each winding to the others for one minute.
        Test each winding to the core for one minute.
        Short the winding to the core after each test.
    .wrong = A damp winding; a tester with a weak battery; a multimeter in place of a tester.
    .caution =
        Hands off during the test: the test voltage can shock you.
        Short the winding to the core before you touch it: the winding keeps a charge.
stage-ratio-polarity = Ratio and polarity
    .do =
        Take an isolated source of 24 V a.c. at most.
        Feed the winding with the most turns.
        Read the voltage of every other winding.
        Note whether its marked end is in step.
    .wrong = Feeding the winding of few turns; mixing up start and end.
    .caution =
        Never feed the winding of few turns: the other one then gives mains voltage.
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
    .wrong = One winding is turned round; a joint is open; the readings belong to other windings.
    .caution =
        Keep the last joint open until this reading is inside its band: in parallel a turned winding is a short circuit.
        Never feed a new winding of few turns: the primaries then give mains voltage.
        Never feed a core that still has its old high-voltage winding.
stage-impedance = Impedance at low voltage
    .do =
        Put the spacer in and clamp the core.
        Take an isolated source at mains frequency, 24 V a.c. at most.
        Raise the current to about a tenth of the rated one.
        Read volts over the coil and amperes at the same moment.
    .wrong = The gap is clamped unevenly; burrs bridge the spacer; the meter's frequency range is too low.
    .caution =
        Turn the source down to zero before you unclip: a coil throws a high voltage when its current is cut.
        Never feed a core that still has its old high-voltage winding.
stage-lamp-idle = No-load through a lamp
    .do =
        Enter the watts of your filament lamp.
        With the plug out, put the lamp in series.
        Put the enclosure on.
        Switch on and read the current.
        Look at the lamp: it stays faint or dark.
    .wrong = A bright lamp: a shorted turn, a swapped end or too few turns. An LED lamp shows nothing.
    .caution =
        Keep the enclosure on: behind the lamp all is live at mains voltage.
        Switch off if the core hums hard, if anything smells, or if the lamp is bright.
        Pull the plug before you move a lead.
        Never feed a core that still has its old high-voltage winding.
stage-mains-idle = No-load at full mains
    .do =
        Pull the plug and take the lamp out.
        Put the enclosure on.
        Switch on and read the no-load current.
    .wrong = The fuse blows at switch-on: pull the plug and repeat the lamp test. If the lamp stays dim, fit a time-delay fuse of the same rating. Never fit a bigger fuse.
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
        Switch off at a hot joint: a hot joint is a bad joint.
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
    .wrong = The clamp meter is out of range; work lies between the leads; the leads warm before the reading settles.
    .caution =
        Switch on for half a second, no longer: mains and heavy current.
        Keep faces and hands away from the leads.
        Clear away everything that burns: a bad joint throws sparks, and sparks start a fire.
        Do not touch winding or leads: they get hot.
        Never feed a core that still has its old high-voltage winding.
stage-rated-current = At rated current
    .do =
        Choke: pass its rated direct current, from its own supply.
        Ballast: connect it in series with its lamp.
        Set the meters: d.c. for a choke, a.c. for a ballast.
        Read volts over the coil and amperes at the same moment.
    .wrong = Volts read over coil and leads together; a meter set to the wrong kind of current.
    .caution =
        Switch on the mains side only: a coil throws an arc when its current is cut.
        Keep the enclosure on and stand clear: mains and heavy current.
        Switch off at a hot joint: a hot joint is a bad joint.
        Do not touch core or coil: they get hot.
        Never feed a core that still has its old high-voltage winding.
stage-temperature-rise = Temperature rise
    .do =
        Measure a winding cold.
        Run the part at its load and duty cycle.
        Go on until it gets no warmer. Note the current.
        Pull the plug.
        Measure the winding again at once, the same way.
    .wrong = The reading comes a minute late; the winding was warm at the start.
    .caution =
        Stay with the core: mains and heavy current, and what gets hot can start a fire.
        Measure resistance only with the plug out.
        Do not touch winding or core: they get hot.
        Never feed a core that still has its old high-voltage winding.

# What the load adds to the caution of each stage with mains or under load.
load-battery = A battery on charge
    .caution =
        Charge lead-acid only, never lithium: lithium burns.
        Air the place and keep sparks away: charging gives off hydrogen, which explodes.
        Keep goggles on: acid sprays.
load-lamp = A discharge lamp
    .caution =
        Check that the lamp's outer glass is whole: without it, its light burns eyes and skin.
        Stand behind a screen until the lamp is warm: it can burst, and hot glass starts a fire.
        Never feed an open arc from a ballast: the uses with an arc have the gate that it needs.
load-electrode = A welding arc
    .caution =
        Helmet down before the arc: the arc's light burns eyes and skin, also of those nearby.
        Lead the fumes away. Never weld on zinc, cadmium, paint or chlorinated cleaner.
        Clear away everything that burns: sparks start a fire.
load-furnace = A melt in the furnace
    .caution =
        Keep charge and tools dry: a drop of water bursts the molten metal.
        Stay outdoors: carbon monoxide kills without a smell.
        Wear a welding helmet and cover your skin: the arc's light burns both.
        Lead the fumes away, and clear away everything that burns: splashes start a fire.
load-plasma = A plasma torch
    .caution =
        Never touch torch and work at once: hundreds of volts at the torch kill.
        Wear a welding helmet and cover your skin: the arc's light burns both.
        Lead the fumes away, and clear away everything that burns: sparks start a fire.
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
    .fix = Let it rest at room temperature and read again.
cause-nicked-insulation = The core's edge nicked the insulation.
    .fix = Take the winding off, round the edge, insulate again.
cause-damp = Paper or varnish is damp.
    .fix = Dry it warm with the plug out, then test again.
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
    .fix = Take them out, or fix them as designed.
cause-shunts-missing = Shunts are out though the design counts on them.
    .fix = Put them back in.
cause-poor-steel = The steel is poorer than assumed.
    .fix = Enter the measured no-load current and calculate the design again.
cause-mains-voltage = The mains is not at the voltage assumed.
    .fix = Enter the mains voltage as a rated meter reads it at a socket.
cause-wrong-lamp = The lamp is not the one assumed.
    .fix = Enter the lamp's watts above, or use a lamp of those watts. Filament lamp, not LED.
cause-wrong-load = The load is not the one assumed.
    .fix = Measure the load, or use the right one.
cause-thin-leads = Leads are longer or thinner than assumed.
    .fix = Shorten the leads, or use thicker ones.
cause-fuse-open = A fuse or switch is open.
    .fix = Pull the plug, then look at fuse and switch.
cause-late-reading = The resistance was read late.
    .fix = Run it again and read within seconds of pulling the plug.
cause-not-cold = The winding was not cold at the start.
    .fix = Let it stand overnight and begin again.
cause-overloaded = The load was heavier or longer than designed.
    .fix = Run it at the design's load and duty cycle.
cause-no-air = Air cannot reach the windings.
    .fix = Open the vents, or design for less.

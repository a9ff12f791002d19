### What the screens of size up, teardown and bench say around the texts of the other files.

## Shared

ui-yes = Yes
ui-no = No
ui-not-looked = Not looked
ui-not-known = Not known
ui-hold = Press and hold
ui-remove = Remove
ui-again = Resume
ui-could-not = I could not do this
ui-wrong = What goes wrong
ui-hazards = What can hurt here
ui-needed = needed to go on
ui-record = Record
ui-expected = Expected:
ui-primary = Primary
ui-new-winding = New winding
ui-second-primary = Primary, second core
ui-second-winding = New winding, second core
ui-photo-refused = The file is no JPEG or PNG photo of at most 16 MiB. Take the photo again, smaller.
ui-photo-hide = Hide
ui-photo-show = { $count ->
    [one] Show the photo
   *[other] Show { $count } photos
 }
metal-copper = Copper
metal-aluminium = Aluminium

ui-shunt-advice = The shunts come out for the saw either way. Calculated for your uses, with this core or a usual core:

## Gates and stops

ui-gate-count = { $done } of { $all }
ui-contact-time = Contact: a slow count of ten at each point, each time.
ui-repeated = Is this still true?
ui-repeated-why = The tool, the place or the hour has changed. Look at each line, on you and on the bench. Then hold once.
ui-repeated-at = Confirmed at { $time }.
ui-repeated-hold = All of this is still true
ui-repeated-doubt = Check line by line
ui-renew-first = You were away. Confirm this step's gates again before you work on.
ui-renew-now = Confirm the gates
ui-measures = Measures of the core
ui-measures-job = The numbers belong to a job. Start a job with this core to enter the numbers here.
ui-gate-back = Go back without passing
ui-stopped = Stopped
ui-stopped-help = Resume, then confirm every gate again.
ui-passed = Passed at { $time }: { $gate }

## Home

ui-welcome = From oven to transformer
ui-welcome-danger = The work can kill: mains, about two thousand volts in the oven, and a capacitor that stays charged. Local codes and licensed practice come first.
ui-first-have = What do you have?
ui-add = Another oven or core
ui-more-jobs = Show more
ui-find-none = No oven or core on this device matches.
ui-door-found-help = Is the oven worth taking?
ui-door-bench = Oven on the bench
ui-door-bench-help = Take the oven apart, step by step.
ui-door-core = Bare core in hand
ui-door-core-help = Find a winding that fits.
ui-ask-core-why = The outlet decides how much the core may draw. You can change name and outlet later.
ui-card-oven = Oven
ui-card-stage = Stage { $at } of 6: { $stage }
ui-card-proved = All stages done
ui-card-pending = Calculating …
ui-card-trouble = Its numbers give no answer. Open it to see why.
ui-remove-in-hand = Remove from this device
ui-remove-sure = The job and its oven go from this device. Undo brings them back.
ui-remove-yes = Remove the job
ui-remove-not = Keep the job
ui-demo = Demo
ui-keys = Keys
ui-key-undo = Undo
ui-key-redo = Redo
ui-key-print = Print the page
ui-key-stage = Open the numbered stage
ui-key-turn = Count a turn
ui-key-tab = Next field or button
ui-key-keys = This list
ui-key-close = Close what is open
ui-words-title = Words of the trade
ui-start-a-job = Start a job
ui-new-job = New job
ui-job-name = Name of the job
ui-job-name-such-as = such as: tab welder
ui-same-core-again = Same core again
ui-same-core-none = No, measure this core
ui-same-core-as = The same as { $name }
ui-job-outlet = Outlet of the job
ui-open-demo = Open the demo job
ui-remove-demo = Remove the demo
undo-number = Change { $field }
undo-new-job = Start a job
undo-job-file = Import a job file
undo-remove-job = Remove a job
undo-rename-job = Rename the job
undo-note = Change the note
undo-use = Change the use
undo-outlet = Change the outlet
undo-lengths = Use the photo's lengths
undo-delete-test = Delete a test
undo-choose-winding = Choose a winding
undo-best-winding = Use the best winding
undo-keep-winding = Keep a winding
undo-remove-winding = Remove a winding
undo-add-wire = Add a wire
undo-add-note = Add a note
undo-remove-wire = Remove a wire
undo-demo = Open the demo job
undo-remove-demo = Remove the demo
ui-settings = Units and theme
ui-set-lengths = Lengths
ui-set-mm = mm
ui-set-inch = inch
ui-set-wire = Wire
ui-set-mm2 = mm²
ui-set-awg = AWG
ui-set-light = Theme
ui-set-auto = As the device
ui-set-day = Light
ui-set-night = Dark

use-spot-welder = Spot welder
use-stick-welder = Stick welder
use-arc-furnace = Arc furnace
use-plasma-cutter = Plasma cutter
use-battery-charger = Battery charger
use-plain-supply = Plain supply
use-choke = Choke
use-ballast = Ballast

ui-new-find = I found an oven
ui-stands-damaged = History cannot be read

## Where ovens are found

ui-where = Where ovens are free
ui-where-places =
    Curb days: people put ovens out the evening before collection.
    Recycling yards and dumps: ask the person in charge.
    Repair shops and kitchen dealers: ask for ovens past repair.
    Notices: look for "free" and "defective", or put up your own.
ui-where-leave = Taking waste may need permission by local rules, even from the curb. Ask first. Do not enter closed yards.
ui-where-pay-title = What never to pay
ui-where-pay =
    More than the scrap metal is worth: a broken oven is scrap.
    Anything for an inverter oven: it has no iron core.
    Anything unseen: look through the vents first.

## Size up

ui-size-up-title = Verdict on the oven
ui-size-up-help = Say what you see. Leave out what you do not know. Leave the cover on.
ui-another-find = Add another oven
ui-leave-find = Remove this oven
ui-take-apart = Take the oven apart
ui-chance = Chance of iron core: { $percent }
ui-ask = Look next:
ui-seen = What you see
ui-kind = Kind of oven
ui-rust = Rust
ui-damage = Damage
ui-openable = Can you open the oven here?
ui-label = Name, label and weight
ui-donor-name = Name of the oven
ui-mains-frequency = Mains frequency on label
ui-label-photo = Photo of the label
ui-inside = Probably inside
ui-inside-help = From common practice and your own ovens. The true value is inside the range about 95 times in 100.
ui-likely-mass = Mass of the transformer
ui-likely-oven = Short-time output, fan on
ui-likely-continuous = Continuous output
ui-likely-area = Net tongue area
ui-likely-volts = Volts per turn
ui-aluminium = Chance of aluminium primary
ui-learned = { $count ->
    [0] None of your own ovens has narrowed the range yet. Finish an oven and measure its core.
    [one] One of your own ovens has narrowed the range.
   *[other] { $count } of your own ovens have narrowed the range.
 }
ui-parts = Other parts worth pulling
ui-fits = Suitable uses
ui-fit-with = suits together with "{ $name }"
ui-wants = Uses you want
ui-pays = Price and savings
ui-pays-help = Set your own prices: then the price asked is compared with a new transformer. Never pay for an oven that does not pay back.
ui-saves = Saves { $likely } (from { $low } to { $high }) in your own money.
ui-prices = Your prices
ui-price-new = New transformer, per 100 VA
ui-price-copper = Copper wire, per kilogram

## Teardown

ui-no-donor = Choose an oven on the shelf first.
ui-to-home = Go to Home
ui-restart = Restart the teardown
ui-step-of = Step { $at } of { $all }
ui-all-steps = All steps
ui-what-needed = What you need
ui-whole-path = The whole path: { $count } steps
ui-stops-first = Gates before this step
ui-tests-needed =
    The part, wound and closed, and its page.
    A meter rated for mains, a clamp meter, an insulation tester.
    A filament lamp to put in series, and the fuse that the page names.
    Somebody near who can pull the plug.
ui-wind-needed =
    The core, its old high-voltage winding out.
    Wire, sheet, film, board and sleeving, as on the page.
    Calipers, and the page on paper or on a second device.
ui-next-step = Next: { $step }
ui-step-back = Back
ui-finish = Finish: core stored
ui-plugged-in = The oven was plugged in again
ui-tools = Tools, { $from } to { $to } minutes
ui-to-measure = Enter the measures
ui-start-job = Start a job
ui-to-parts = See the other parts
ui-still-charged = Hands out: the meter showed { $volts } V. Discharge it again from the first item.
ui-proof-first = First terminal to oven chassis
ui-proof-second = Second terminal to oven chassis
ui-proof-between = Between the terminals
ui-proof-limit = All three must be below { $volts } V d.c. (IEC 60335-1, 8.1.4, from secondary sources; check your local code).
ui-proof-missing = { $field }: no reading. Measure it and enter the volts.
ui-proof-no-number = { $field }: "{ $text }" is not a number. Enter the volts on the meter, such as 0.4.
ui-proof-record = These are my readings
ui-cap-title = What the capacitor holds
ui-cap-help = The numbers inform. No number passes a gate.
ui-cap-value = Printed capacitance
ui-cap-volts = Highest starting voltage
ui-cap-failed = Bleeder missing or doubtful
ui-cap-bleeder = Bleeder
ui-cap-tool = Resistor tool
ui-cap-rated = Tool's rated voltage
ui-cap-energy = Stored energy
ui-cap-times = Charge over touch limit
ui-cap-by-bleeder = Time, bleeder alone
ui-cap-tool-time = Time through the tool
ui-cap-tool-current = Tool's first current
ui-cap-tool-power = Tool's first power
ui-cap-tool-rated = Tool's rating is enough
ui-cap-never = Waiting proves nothing: a bleeder fails without a sign. Only the meter counts.
ui-warm-title = Warming time
ui-warm-air = Source of heat
ui-warm-setting = Air
ui-warm-target = Core
ui-warm-time = About { $likely } minutes ({ $shortest } to { $longest })

## Bench

ui-tests-title = Tests in stages
ui-tests-help = Each stage shows the expected value and its band. A reading outside its band stops the tests. Find or fix the cause to go on.
ui-tests-caution = Do not begin until the old high-voltage winding is out of the core. Mains comes only in the last stages. Follow your local code. Keep someone near.
ui-no-design = There is no design to test yet.
ui-to-rewind = Design the winding
ui-to-page = Open the page
ui-begin-tests = Begin the tests
ui-begin-again = Test the new design
ui-outdated = The design has changed since these tests began. The tests prove another winding.
ui-stage-of = Stage { $at } of { $all }
ui-all-stages = All stages
ui-commission = All stages are passed
ui-commissioned = Every stage passed
ui-commissioned-help = The record is below. The record ends when somebody opens core or wiring.
ui-reopened = I opened or changed the core
ui-record-title = Commissioning record
ui-record-reading = Record this reading
ui-in-band = in its band
ui-outside-help = Stop: find the cause, likeliest first.
ui-explains = Accept this cause
ui-fixed = Fixed: restart the tests
ui-polarity = Marked ends
ui-in-step = In step
ui-out-of-step = Out of step
ui-read-ohms = Resistance, leads subtracted
ui-read-test-amps = Direct current through winding
ui-read-drop = Voltage at the winding
ui-read-free-ends = Voltage between free ends
ui-read-first-winding = First winding voltage
ui-read-second-winding = Second winding voltage
ui-read-over-coil = Voltage over the coil
ui-read-through-coil = Current through the coil
ui-read-run-amps = Load current, whole run
ui-read-winding-at = Winding temperature
ui-read-megohms = Insulation resistance
ui-read-fed = Voltage on the primary
ui-read-other = New winding voltage
ui-read-amps = Current
ui-read-volts = Voltage
ui-read-cold-ohms = Resistance before the run
ui-read-cold-at = Winding temperature before
ui-read-hot-ohms = Resistance at switch-off
ui-read-air = Room temperature, end

## How a rebuilt core behaves

ui-behaviour = Expected behaviour
ui-inputs = Inputs of these numbers
ui-none = The numbers of this job give no answer here. Measure the core first.
ui-none-shunts = The new winding lies over the primary: no shunt fits between them.
ui-none-direct = This use runs on alternating current. Choose diodes below to see what flows behind them.
ui-core = Core
ui-steel = Steel of the laminations
ui-steel-unknown = Not known

ui-panel-idle = No-load current and knee
ui-idle-below = At { $tesla } the core stays below its knee. Without load the core is quiet.
ui-idle-knee = At { $tesla } the core runs at its knee, as most such cores do. The no-load current has a sharp peak.
ui-idle-above = At { $tesla } the core runs far above its knee. The core hums and heats with nothing connected. Stop. Use more primary turns or a lower voltage.
ui-plot-steel = The steel's curve with its band, and the point where the core runs
ui-plot-wave = Current through one cycle
ui-axis-field = field strength, A/m
ui-axis-density = flux density, T
ui-axis-cycle = part of a cycle
ui-axis-amperes = amperes
ui-idle-test = Enter a no-load test
ui-idle-test-caution = Take these readings at the bench stage "No-load at full mains", behind its gates. Take lower voltages there from an isolated variable supply. Enter them here afterwards.
ui-idle-test-bench = Go to the bench
ui-fit-none = With readings at two or more voltages, the gap and the steel of this core can be calculated.
ui-fit-failed = The no-load test cannot be read. { $why }
ui-fit-misfit = No gap and no steel explain these readings. Look for a shorted turn, a wrong count of turns, or a core that is not closed.
ui-fit-carried = The design uses your no-load test: for the no-load current, its heat and the numbers here.
ui-fit-gap-determined = The test gives the gap better than the assumption did.
ui-fit-gap-open = The test does not give the gap: test at a lower voltage too.
ui-fit-steel-determined = The test gives the steel better than the assumption did.
ui-fit-steel-open = The test does not give the steel: test nearer to full voltage.

ui-panel-inrush = Switching on
ui-inrush-holds = { $device } of { $rating }: holds even at the high end of the range.
ui-inrush-none = No breaker or fuse of { $rating } is sure to hold. A soft start with a resistor keeps the first peak down. Build and fuse it to your local code.
ui-breaker-holds = { $device }: holds.
ui-breaker-may = { $device }: may trip now and then.
ui-breaker-trips = { $device }: trips at a bad instant.
ui-inrush-source = Limits of { $standard }, from secondary sources. Check your local code and the maker's own sheet.
ui-inrush-no-instant = { $standard }: no limit for an instant trip is given. Ten times the rating is common practice, no source.
ui-wire-own-solid = Own solid wire (mm)
ui-wire-own-solid-hint = Bare diameter, then diameter over the enamel.
ui-wire-own-cable = Own stranded cable (mm², mm)
ui-wire-own-cable-hint = Section, then overall diameter. The section is printed on the cable. Do not enter a cable as solid wire: it has less copper than its diameter suggests.
fuse-label = { $device }, { $rating }
device-iec-breaker = Breaker of type { $letter } ({ $standard })
device-ul-breaker = Breaker ({ $standard })
device-japanese-breaker = Breaker ({ $standard })
device-plug-fuse = Plug fuse ({ $standard })
device-unknown-breaker = Unknown breaker or fuse ({ $standard })
device-time-lag-fuse = Time-lag fuse T ({ $standard })
device-general-fuse = Fuse-link gG ({ $standard })
device-time-delay-fuse = Time-delay fuse ({ $standard })
ui-plot-inrush = First peak against the instant of closing
ui-plot-inrush-mains = First peak against the resistance of the mains
ui-axis-mains-loop = mains loop resistance, Ω
ui-axis-angle = degrees after voltage zero
ui-axis-first-peak = first peak, amperes

ui-panel-shunts = Shunts: keep or pull
ui-with-shunts = with shunts
ui-without-shunts = without
ui-shunts-stay = Magnetic shunts stay in
ui-shunts-hardly-felt = Keep the shunts if you like. The voltage drop at working current is { $with } with them and { $without } without.
ui-shunts-hold = Keep the shunts. A short circuit draws { $with } with them and { $without } without, as an arc needs.
ui-shunts-sag = Pull the shunts. At the working current { $with } are left with them and { $without } without.
ui-shunts-too-little = Pull the shunts: with them the load does not get what it needs. A short circuit draws { $with } with shunts and { $without } without. Fuse and leads must carry that.
ui-shunts-unsure = Too close to call: within its ±, the first row allows either. Measure again what widens the ± most, or try both ways.
ui-shunts-assumed = No shunt was measured: a usual one is taken. Measure one with calipers.
ui-plot-shunts = Terminal voltage against load current, with and without shunts
ui-axis-load = load current, amperes
ui-axis-volts = volts

ui-panel-heat = Heat and duty
ui-insulation = Insulation class
ui-insulation-help = Of the weakest part: wire, tape, paper or cable. If not known, class A is taken. Source: IEC 60085, from secondary sources.
ui-heat-fine = Your duty cycle keeps the part below { $limit }, allowing for the ±.
ui-heat-never = Even without a pause the part stays below { $limit }.
ui-heat-doubt = Your duty cycle may bring the part above { $limit }. Shorten the load, add a fan, or use a larger core.
ui-heat-idle = No-load running alone brings the part above { $limit }. Switch the part off between loads. Or lower the flux density.
ui-heat-burns = Left on, the part heats until it burns out. Fit a thermal cut-out first.
ui-heat-time-open = Left on, the part may reach its limit, depending on airflow: { $minutes } at the earliest.
ui-heat-duty-open = The allowed duty cycle depends on airflow: no less than { $percent }, allowing for the ±.
ui-heat-watch = Calculated, not measured: the temperature test on the bench decides. Fit a thermal cut-out on the winding, in the mains side.
ui-plot-heat = Temperatures through an hour of your cycle, from cold
ui-axis-minutes = minutes
ui-axis-celsius = °C

ui-panel-direct = Behind diodes
ui-diodes = Diodes
ui-no-diodes = None
ui-bridge = Bridge of four
ui-centre-tap = Centre tap, two
ui-battery-caution = Lead-acid only, never lithium. A plain charger does not stop by itself: stay with it. Wear eye protection. Ventilate: charging gives off hydrogen. Fuse at the battery. Follow the battery's datasheet.
ui-dc-caution = Fit a bleeder and a fuse. Meter the capacitor before you touch it. Diodes get hot.
ui-dc-reactor-held = The winding needs a reactor of { $reactance } in series. The reactor holds the current to { $current } into a battery half full. The numbers here include the reactor. Without it far more current flows.
ui-dc-reactor = The winding needs a reactor of { $reactance } in series. The reactor holds the arc to { $current }. The numbers here include the reactor. Without it far more current flows.
ui-dc-needs-choke = The arc's current stops in each half cycle. A choke of { $inductance } behind the diodes keeps it flowing.
ui-dc-needs-reservoir = The supply needs a reservoir behind the diodes. The numbers here include { $capacitance }: 2000 µF for each ampere.
ui-charge-too-much = { $a } flow into the flat battery; { $b } is the most by common practice. The battery's label decides.
ui-charge-gassing = Gassing starts at { $a } charge: switch off.
ui-charge-never-full = The current ends at { $a } of the charge. More open-circuit voltage would fill the battery.
ui-charge-no-end = { $a } still flow into the full battery. Switch off, or the battery boils dry.
ui-plot-charge = Charging current, from flat to full
ui-plot-diodes = Currents through one cycle
ui-axis-hours = hours

ui-panel-inductor = Choke or ballast
ui-inductor-wind = { $parallel ->
    [one] { $turns } turns of { $wire }.
   *[other] { $turns } turns of { $wire }, { $parallel } in parallel.
 }
ui-inductor-shim = Spacer of { $shim } mm in each of the three faces, under the whole I: { $stack }.
ui-inductor-fine = Under continuous load the coil's hottest spot stays below { $limit }, allowing for the ±.
ui-inductor-doubtful = Under continuous load the coil's hottest spot may pass { $limit }. Measure the temperature, and give the coil a fan.
ui-inductor-hot = Under continuous load the coil's hottest spot passes { $limit }. Give the coil a fan, pauses, or thicker wire on a larger core.
ui-inductor-burns = Under this load the coil heats until it burns out. Ask for less, or use a larger core.
ui-inductor-no-answer = This core gives no answer. Measure the core first.
ui-inductor-no-wire = No wire here carries { $a } at { $b }, not even { $c } in parallel. Ask for less current.
ui-inductor-not-above-zero = A target or a measure of the core is zero or less. Check the numbers above.
ui-inductor-turns = { $a } turns are needed and { $b } fit the window. The most with this wire and core is { $c } at this current. Ask for less, or take a larger core.
ui-inductor-shim-wide = A spacer of { $a } mm in each face is needed. { $b } mm is the widest that can be calculated. The nearest is { $c } with that spacer. Use a smaller core, or ask for fewer turns.
ui-inductor-shim-thin = A gap of { $a } mm is needed. The least that sheets make here is { $b } mm. With that the turns that fit give at most { $c }. Ask for less, or use a larger core.
ui-inductor-arc = The arc takes { $a } of { $b } mains. A series ballast holds a steady current up to about { $c }. Use a lamp of less voltage, or a step-up transformer.
ui-inductor-caution = A coil throws an arc and a high voltage when its current is cut. Tighten every joint. Switch the supply only on its mains side. To change the gap, unplug, change the spacer, and measure again.
ui-plot-inductance = Inductance against current
ui-axis-amperes-across = amperes
ui-axis-millihenries = mH

ui-panel-pairs = Two cores together
ui-reach = What is needed
ui-reach-busy = Calculating what is needed …
ui-reach-nearest = Set the target to { $amps } A
ui-reach-series = Add { $name }, windings in series
ui-reach-parallel = Add { $name }, windings in parallel
ui-reach-outlet = Use an outlet { $outlet }
ui-reach-fan = Add a fan
ui-reach-pulses = Weld { $pulses } times a minute
ui-reach-duty = Set duty cycle to { $percent } %
ui-reach-gives-now = This core gives at most { $amps } A as it is.
ui-reach-gives = Gives up to { $amps } A: reaches the target.
ui-reach-gives-less = Gives up to { $amps } A: still below the target.
ui-two-cores = Two cores
ui-two-cores-why = One core is rarely enough for this use. Two cores share the heat and the iron, as one design.
ui-pair-add = Add { $name } as second core
ui-pair-another = { $name }, second core
ui-pair-with = Second core: { $name }.
ui-pair-list = The winding below goes on each core. Wind both in the same direction. Both primaries are in parallel on the mains.
ui-pair-list-turns = The second core takes { $turns } turns of the same conductor for the same voltage. Both primaries are in parallel on the mains.
ui-pair-windings = New windings
ui-pair-one = Use one core
ui-pair-on-first = First core
ui-pair-on-second = Second core: { $name }
ui-pair-alike = Add another such core
ui-pair-find = Find another like it: tongue { $tongue } mm, stack { $stack } mm, window { $width } × { $height } mm, primary for { $volts } V.
ui-join-only = Recommended: { $best }, { $gives } A at most. { $other }, no winding keeps every limit.
ui-join-more = Recommended: { $best }, { $gives } A at most. { $other }, the pair gives { $less } A.
ui-join-same = Recommended: { $best }, { $gives } A at most. { $other }, the pair gives about as much, { $less } A. In series the same current flows in both windings, even if the cores differ.
ui-series = In series
ui-parallel = In parallel
ui-pair-test = Find the dots before you close the last joint. Feed both primaries { $c } from an isolated, fused source. Between the free ends: about { $a } if the phasing is right, about { $b } if one winding is turned round. The bench asks for the reading.
ui-pair-fuse = Give each core a fuse of its own.
ui-pair-circulates = The windings' voltages differ: { $a } circulate without load. Use the same turns on equal cores, or join in series.
ui-pair-uneven = The cores do not share evenly: one carries { $a } of the current.
ui-pair-overfed = { $a } gets { $b } on a primary made for { $c }: that core saturates. Join the primaries in parallel.
ui-pair-reversed = One winding is turned round: { $a } flow without load. That makes a short circuit.
ui-pair-voltage-above = Together they give { $a }; { $b } is the limit for this use.
ui-plot-phasing = How the coils are joined; dots are the starts
ui-phasing-mains = mains, fused
ui-phasing-load = load

## Lengths from a photo

ui-photo-title = Measure from a photo
ui-photo-help = Lay an object of known size flat on the core's face. Take one photo from straight above, in even light. Keep object and core whole in view. Calipers are better for the last tenth of a millimetre.
ui-photo-take = Photo of the core
ui-live-why = The camera shows what to do next and takes the picture by itself. The browser asks first. No picture leaves this device.
ui-live-open = Use the camera
ui-live-asking = Allow the camera when the browser asks.
ui-live-refused = The camera was refused. Take or choose a photo below, or allow the camera in the browser's settings.
ui-live-absent = No camera was found. Take or choose a photo below.
ui-live-busy = The camera gives no picture. Close other apps that use the camera, or take or choose a photo below.
ui-live-off = The camera is off, because this page was left.
ui-live-shutter = Take the picture
ui-live-close = Close the camera
ui-live-begins = The camera is starting …
ui-live-taking = Taking the picture …
ui-live-nothing = Not found. Show the whole object.
ui-live-flat = Lay the object flat on the core.
ui-live-glare = Glare. Move the lamp, or turn the core.
ui-live-dark = Too dark. Switch on a lamp.
ui-live-closer = Move closer.
ui-live-tilt = Lay the object flat on the core. Hold the camera straight above.
ui-live-alone = Take away what looks like the object.
ui-live-still = Hold still.
ui-live-good = Good. Hold still: the picture takes itself.
ui-live-button = Press "Take the picture". The size of this object is not exact to 1 %.
ui-photo-open = Open photo { $number }
ui-photo-opening = Opening the photo …
ui-photo-looking = Looking for the object …
ui-photo-stage = The photo with the points marked on it
ui-photo-take-point = Tap a point to select it. Drag it, or tap its new place.
ui-photo-doubtful = Look closely: the outline may not be the right one. Move its points until they sit on the object, or take the photo again.
ui-photo-object-compared = Confirm: outline is right
ui-photo-look = Find the object again
ui-photo-by-hand = Mark by hand
ui-photo-face = The core's face
ui-photo-face-help = The app finds the face where the whole outline and both windows are in sight. Lay the object beside the core, packed up level with the face, or a coin on the tongue. By hand: put four points on the outer corners, clockwise from the upper left. Then press "Find tongue and windows".
ui-photo-find-core = Find the core
ui-photo-finding-core = Looking for the core …
ui-photo-find-stack = Find the stack
ui-photo-finding-stack = Looking for the stack …
ui-photo-core-doubtful = Compare every marked edge with the photo. Drag each point that is off.
ui-photo-core-compared = Confirm: all edges compared
ui-photo-no-core = No core was found in the photo. Mark its four corners by hand.
ui-photo-no-stack = No stack was found in the photo. Mark its two edges by hand.
ui-photo-mark-face = Mark the four corners
ui-photo-suggest = Find tongue and windows
ui-photo-no-parts = The tongue and the windows cannot be found inside these corners. Put the corners in order round the outline, or mark the edges below.
ui-photo-edges = Edges of the core
ui-photo-edges-help = Choose a dimension. Put its two points on the edges: each goes to the strongest edge near it. You may mark a dimension at several places. Between two long edges, mark two points along each.
ui-photo-stack-help = For the stack, take a photo of the core's side. Lay the object level with that side. The app finds the two edges, or you mark them.
ui-photo-from = From
ui-photo-to = To
ui-photo-along-edges = Measure along two edges
ui-photo-edge-point = { $mark }, point { $point } of edge { $edge }
ui-photo-askew = { $dimension }: its two edges are { $degrees }° out of parallel. The length depends on the place. Mark it at more places, or fix the core before you wind it.
ui-photo-angles = Angles of the core
ui-photo-angles-help = Mark two points along one edge and two along another. Their angle shows whether limb and yoke are square. A core that is not square leaves a wedge of air, and draws more no-load current.
ui-photo-angle-add = Mark an angle
ui-photo-angle = Angle { $degrees }°
ui-photo-angle-open = Angle: mark the object of known size first.
ui-photo-use = Use these lengths
ui-photo-together = All photos together
ui-photo-together-help = Take several photos of the core, each from a slightly different place. Keep the marks of each photo. The errors of one photo average out. The errors of the object's size, its height and the lens stay.
ui-photo-together-row = { $count } photos: ± { $own } mm from single photos, ± { $common } mm common to all
ui-photo-together-differ = { $dimension }: the photos differ by more than their ±. Compare the marks of each photo first.
ui-photo-together-doubtful = { $count ->
    [one] One photo is left out: compare its marked edges with the photo first.
   *[other] { $count } photos are left out: compare their marked edges with the photos first.
}
ui-photo-together-use = Use the combined lengths
ui-photo-keep = Keep the marks
ui-photo-straight = Lens distortion
ui-photo-straight-help = Use this only where a straight edge looks bent. Mark three or more points along a long edge near the photo's rim. The lengths are corrected for the lens.
ui-photo-straight-add = Mark a straight edge
ui-photo-straight-edge = Straight edge { $number }
ui-photo-straight-point = Point { $number }
ui-photo-straight-more = Add a point
ui-photo-lens = The lens bends straight lines by { $percent } ± { $half } % at the photo's corner. The lengths are corrected for it.
ui-photo-viewing-angle = The camera was { $degrees }° off straight above.
ui-object = Object of known size
ui-object-card = Bank card
ui-object-card-help = Any card of the size ID-1 of ISO/IEC 7810, 85.60 by 53.98 mm. Cover its number.
ui-object-coin = Coin
ui-object-paper = Sheet of paper
ui-object-target = Printed target
ui-object-target-help = Print the target with the command "curbcore target". Measure its two check lines on the paper.
ui-object-rule = Steel rule
ui-object-rectangle = Own rectangle
ui-object-disc = Own disc
ui-object-width = One side
ui-object-height = The other side
ui-object-across = Across the disc
ui-object-marks = From mark to mark
ui-object-check = Printed check lines, length
ui-object-refused = Enter up to 1000 mm, and a ± of 0 to 100 mm.
ui-target-title = Curbcore: photo target
ui-target-check = Print at actual size (100 %). Both lines must measure 100.0 mm. Enter what yours measure.
ui-target-how = Lay the core flat beside or on the squares. Leave many squares in view. Take the photo from straight above.
ui-level = Where the object lies
ui-level-on = On the core's face
ui-level-beside = Level with the face
ui-level-other = Lower or higher
ui-level-height = Face above the object (below: minus)
ui-nudge-up = Move up one pixel
ui-nudge-down = Move down one pixel
ui-nudge-left = Move left one pixel
ui-nudge-right = Move right one pixel
ui-dimension-tongue = Tongue
ui-dimension-window-width = Window width
ui-dimension-window-height = Window height
ui-dimension-outer-limb = Outer limb
ui-dimension-yoke = Yoke
ui-dimension-stack = Stack
ui-doubt-second = Something else in the photo fits nearly as well.
ui-doubt-unlikely = The object found is far from the photo's middle, or as dark as a core's window.
ui-doubt-small = The object is small in the photo: go nearer.
ui-doubt-border = The object touches the border of the photo: a part may be cut off.
ui-doubt-outline = Long parts of the object's outline cannot be seen.
ui-doubt-shape = The object's sides do not fit its known shape.
ui-doubt-corners = The object's corners are square. A bank card has round corners: this may be a sheet of paper.
ui-doubt-core-second = Another place in the photo fits the core nearly as well.
ui-doubt-core-edges = Long parts of an edge of the core cannot be seen.
ui-doubt-core-uneven = The two windows, limbs or yokes differ, or the edges are not square. Check which edges were taken.
ui-doubt-core-level = The object is beside the core or below it, not on its face. Choose how high the object lies, then find the core again.
ui-doubt-core-proportions = The proportions are unusual for an E-I core.
ui-doubt-core-side = Check that the marks lie on both edges of the stack.
ui-doubt-core-sheets = No lines of sheets are seen. This may not be the stack.
ui-doubt-glare = A shiny surface glares: turn the light aside.
ui-doubt-dark = The photo is dark: more light makes sharper edges.
ui-doubt-blurred = The photo is blurred: hold the camera still and let it focus.

## What can be taken back, and what is refused

undo-rename-donor = Rename the oven
undo-frequency = Change the frequency
undo-seen = Change what was seen
undo-kind = Change the oven's kind
undo-rust = Change the rust
undo-damage = Change the damage
undo-openable = Change the opening answer
undo-find = Add an oven
undo-remove-donor = Remove an oven
undo-teardown = Start the teardown again
undo-start-job = Start a job
ui-find-of = Oven, { $time }
ui-price-refused = Give a price of 0 or more, in your own money.
ui-not-measured = Not measured yet.
ui-plus-minus-of = { $field }, plus or minus
ui-origin-of = { $field }, how found
ui-undo = Undo: { $what }
ui-redo = Redo: { $what }
ui-undo-short = Undo
ui-redo-short = Redo
ui-reading-missing = { $field }: nothing is entered. Give a number in { $unit }.
ui-reading-unreadable = { $field }: “{ $typed }” is not a number. Type digits, such as 12.5, in { $unit }.
ui-reading-amps-zero = Current: give more than 0 A.
ui-reading-windings-zero = Voltage of each winding: give more than 0 V.
ui-reading-metal = The winding's metal is not known; complete the design first.
ui-reading-fed-zero = Voltage on the primary: give more than 0 V.
ui-reading-in-step = Say whether the marked ends are in step.
ui-reading-none = This stage takes no reading.
ui-amount-open = open
ui-did-you-mean = Did you mean { $meant }?
ui-meant = Yes, { $meant }
ui-typed = No, { $typed } as typed
ui-four-wire = Four-wire way: pass 1 to 10 A d.c., known within 1 %. Read the millivolts at the winding's own ends, not at the source's clips.
ui-permitted = At the same duty cycle, a rise of { $limit } °C permits { $amps } A.
ui-band = { $low } to { $high }
ui-band-least = { $low } or more

## Numbers of a donor: the field table's own words, for the screens


## To and from other devices

undo-arrival = Import a file
undo-settle = Choose between two values
ui-find-job = Find oven or core
ui-sync = Other devices
ui-sync-open = Import or export files
ui-sync-what = One file takes your shelf, or a part of it, to another phone or computer by cable, card or mail. Changes from both devices are merged. Nothing is sent automatically.
ui-sync-in = File to import
ui-sync-pick = File from another device
ui-sync-out = File to export
ui-sync-device = Name of this device
ui-sync-device-hint = such as: garage phone
ui-sync-which = Contents of the file
ui-sync-all = The whole shelf
ui-sync-job = Only "{ $name }"
ui-sync-new-for = What is new for { $name }
ui-sync-make = Make the file
ui-sync-made = The file is { $path }. The file holds { $records } records and { $photos } photos. Copy the file to the other device and import it there.
ui-sync-is-sealed = The file is sealed.
ui-sync-not-sealed = The file is not sealed: whoever has it can read it.
ui-sync-position = Keep the photos' positions
ui-sync-position-help = If this is off, the photos in the file have no position. The photos on this device stay as they are.
ui-sync-pass-on = Share the file
ui-sync-too-large = This file is larger than 512 MiB. Import it on a computer, and make smaller files with some jobs there.
ui-sync-unread = The file cannot be read.
ui-sync-taken = Imported. Undo reverses all of it.
ui-sync-cancelled = Cancelled. Nothing was changed.
ui-sync-cancelling = Stopping …
ui-sync-working = Working
ui-sync-key = Calculating the key
ui-cancel = Cancel
ui-sync-photos-done = { $done } of { $of } photos
ui-sync-size = Unpacked: { $size }
ui-sync-progress = { $done } of { $of } records
ui-sync-done = { $done } records
ui-sync-from = From { $name }, { $time }
ui-sync-nothing = The file holds nothing new.
ui-sync-new = { $count } new
ui-sync-changed = { $count } changed
ui-sync-removed = { $count } removed
ui-sync-photos = { $count ->
    [one] The file holds one photo.
   *[other] The file holds { $count } photos.
 }
ui-sync-removes = Removed there, and to be removed here:
ui-sync-conflicts = Changed differently on both devices. Both values are kept until you choose:
ui-sync-voids = The file changes a winding here. After the import:
ui-sync-gates = Teardown steps and tests come as a record only. No gate that was passed on another device counts here.
ui-sync-take = Import the file
ui-sync-leave = Reject the file
ui-kind-donor = Ovens
ui-kind-core = Cores
ui-kind-job = Jobs
ui-kind-design = Windings kept
ui-kind-stock = Wires
ui-kind-measurement = Readings
ui-kind-note = Notes
ui-kind-photo = Photos
ui-kind-teardown = Teardown records
ui-kind-job-run = Winding and test records
ui-conflicts = Two values
ui-conflicts-help = Two devices changed the same thing. Choose the right value. Your choice goes with your next file.
ui-conflicts-here = Two devices differ here. In use until you choose:
ui-conflicts-choose = Choose values
ui-conflict-settled = Chosen: { $what }. Undo takes it back.
ui-conflict-where = { $what }, in { $name }
ui-conflict-in-use = { $what }: { $value }
ui-conflict-use = Use
ui-conflict-confirmed = Hazard confirmed
ui-conflict-turns = Turns
ui-conflict-wire = Wire
ui-conflict-parallel = Conductors in parallel
ui-conflict-plug = Outlet
ui-conflict-metal = Metal of the primary
ui-conflict-shunts = Shunts kept
ui-conflict-donor = Oven of the core
ui-conflict-core = Core of the job
ui-conflicts-wait = { $count ->
    [one] One record has two values from two devices. Choose.
   *[other] { $count } records have two values from two devices. Choose.
 }
ui-conflict-here = This device
ui-conflict-unnamed = Unnamed device ({ $number })
ui-conflict-shown = In use until settled
ui-conflict-empty = Nothing
ui-conflict-name = Name
ui-conflict-note = Note
ui-conflict-goal = Use and targets
ui-conflict-choice = Chosen winding
ui-conflict-marks = Marks on the photo
ui-conflict-dimensions = Lengths marked
ui-conflict-earlier = Earlier uses
ui-conflict-conditions = Conditions of use
ui-conflict-look = What was seen
ui-copies = Copies of the data
ui-copies-help = The app keeps up to three copies of your data from days when the data were whole. Restoring a copy deletes nothing. The present file stays in the data folder, with today's date in its name.
ui-copy-of = Restore the copy of { $time }
ui-copy-sure = Changes made after { $time } will no longer show. The changes stay in the data folder, in the file whose name begins with before-going-back.
ui-copy-go = Restore the copy
ui-copy-stay = Keep the present data
ui-carried = On other devices
ui-carried-help = These records show what was done there. A gate counts only on the device and day of its confirmation. Confirm every gate again here.
ui-carried-by = { $name }: { $count ->
    [one] one line
   *[other] { $count } lines
 }
ui-save-drawings = Save the drawings
ui-save-tables = Save spreadsheet tables
ui-saved-in = Saved in { $path }.
ui-sync-seal = Sealed files
ui-sync-phrase = Passphrase
ui-sync-seal-help = With a passphrase here, the file that you make is sealed, and a sealed file that you choose is opened. If you lose the passphrase, nobody can open the file.
ui-sync-some = Some jobs
ui-not-kept = Not saved yet ({ $reason }). Free space; keep the app open.

## The way from the curb to the proved part

way-next = Next:
way-title = Progress
way-other-jobs = This core's other jobs
way-done = done
way-here = next
way-to-come = open
way-not-recorded = not recorded
way-stage = { $stage }: { $standing }
way-look = Look closer: say what you see of the oven.
    .go = Look closer
way-leave = Leave the oven, unless you see more.
    .go = See the verdict
way-take-apart = Take the oven apart, one step at a time.
    .go = Take the oven apart
way-go-on = Go on with the teardown: { $place }.
    .go = Go on: { $place }
way-stopped = The teardown was stopped. Its screen says what to do.
    .go = Resume the teardown
way-parts = This oven gave no core. See which other parts are worth pulling.
    .go = See the other parts
way-start-job = Start a job with the core. Measure the core.
    .go = Start a job
way-measure-core = Measure the core: tongue, stack and window.
    .go = Measure the core
way-find-turns = Find the primary's turns with a test turn.
    .go = Find the turns
way-change-target = No winding reaches the target. Change the target or the use.
    .go = Change the target
way-choose = Choose a winding.
    .go = Choose a winding
way-wind = Print the page and wind the core, one step at a time.
    .go = Wind the core
way-wind-on = Go on winding: { $place }.
    .go = Go on: { $place }
way-winding-stopped = The winding was stopped. Its screen says what to do.
    .go = Resume the winding
way-wind-second = Wind the second core.
way-begin-tests = The part is wound: begin the tests.
    .go = Begin the tests
way-change-winding = This winding breaks a limit. Take another, or change the target.
    .go = Change the winding
way-wind-with-reactor = Print the page. Get or make the reactor. Wind, then begin the tests.
    .go = Wind the core
way-wind-choke = Print the page and wind the coil, one step at a time.
    .go = Wind the coil
way-change-choke = Do not wind this coil. Change the use, its numbers or the core.
    .go = Change the coil
way-test = Go on with the tests: { $place }.
    .go = Go on: { $place }
way-tests-stopped = The tests were stopped. Their screen says what to do.
    .go = Resume the tests
way-test-again = The design has changed: begin the tests again.
    .go = Begin the tests again
way-proved = Nothing. The part is proved. The record is on its page.
    .go = Show the record

## Cores compared

ui-compare-cores = Cores for the use
ui-compare-cores-help = The most that a winding on each core delivers within all limits, on the outlet of its job.
ui-compare-use = Use
ui-compare-uses = Uses of this core
ui-compare-uses-help = The job's own target for its use, a usual target for the others. Tap one to open it.
ui-compare-none = There is no core on the shelf yet. Start a job, or size up an oven.
ui-compare-busy = Core { $done } of { $count } …
ui-compare-uses-busy = Trying every use …
ui-compare-no-answer = The numbers give no answer. Look at the measures of the cores.
ui-compare-take = Take { $core } for { $wanted } A.
ui-compare-alike = Others are about the same within their ranges.
ui-compare-nothing = No core on the shelf reaches the target.
ui-compare-pair = { $one } and { $other }, windings in parallel
ui-compare-pair-series = { $one } and { $other }, windings in series
ui-compare-surely = Reaches the target.
ui-compare-perhaps = May reach the target: the target is within the range.
ui-compare-not = Does not reach the target.
ui-compare-held = Limited because { $limit }.
ui-compare-assumed = Measures or turns are assumed: measure first.
ui-compare-no-winding = No winding on this core reaches the target.
ui-compare-bar = dashed line: target
ui-compare-range = Bar: the most current. Line with ends: its range. Dashed: the target.
ui-compare-target = Target { $amps } A.
ui-compare-choke = Can be made with a gap. Turns and gap are on its own screen.

## What a use asks to be confirmed, and the test of the turns

ui-new-use = New use
ui-use = Use
ui-trained-only = Only people trained in arc welding use it
ui-wet-or-cramped = Wet, cramped or hot
ui-open-circuit-limits = Open-circuit limit: 80 V r.m.s. for trained people, 48 V for anyone else or where shock is likelier. Your local code decides. Source: IEC 60974-1, from secondary sources; the number of IEC 60974-6 for laymen was not found.
ui-plasma-first = Confirm the plasma warning first: Rewind, New use. No test begins before that.
ui-battery-first = Confirm the kind of battery first: Rewind, New use. No test begins before that.
ui-confirm-first = No test of this winding begins before every item is held.
ui-confirm-again = Withdraw this confirmation
ui-primary-metal = Metal of the primary
ui-turns-of-primary = Turns of the primary
ui-turns-caution = No supply of any kind on a core that still has its old winding. 24 V on a 120 V primary puts about 400 V there. Never probe the old winding.
ui-old-winding = Old high-voltage winding
ui-old-winding-help = Count its turns as it comes off. Take its voltage from the label only. Never probe it.
ui-test-turn = Test turn
ui-test-turn-begin = Begin the test turn
ui-test-turn-help = Enter all three numbers, read at the same moment.
ui-test-turn-caution = 24 V a.c. at most, isolated, fused. Switch off before you touch an end.
ui-test-turn-clamp = Clamp E and I together, faces clean and touching.
ui-test-turn-wind = Wind a few turns of insulated wire through both windows.
ui-test-turn-feed = Clip the isolated source to the primary only.
ui-test-turn-read = Switch on. Read both voltages, the primary's and the test turn's.
ui-test-turn-off = Switch off. Then take the leads off.
ui-weld-begin = Weld the seam
ui-weld-caution =
    Helmet down before the arc.
    Stop if plating, paint or cleaner smokes.
ui-weld-do =
    Clamp the core.
    Tack each end of the seam.
    Weld short beads, no deeper than the old ones.
    Let the core cool between beads.
ui-no-fuse = No fuse rating is calculated here. For a choke, fit the fuse of the supply that feeds it. For a winding, do not connect it to this outlet.

## A job that cannot be evaluated

ui-trouble = "{ $job }" cannot be calculated
ui-trouble-value = A value in the job does not work. { $what }
ui-trouble-fault = The values of the job lead to a fault in the program ({ $what }). All other jobs work.
ui-trouble-unreadable = The stored job cannot be read. { $what } All other jobs work.
ui-trouble-interrupted = The app stopped last time while it opened this job. All other jobs work.
ui-trouble-save = Save a job file
ui-trouble-remove = Remove the job
ui-trouble-remove-sure = Yes, remove the job
ui-trouble-open = Open the job again
ui-trouble-leave = Decide later
ui-trouble-undo = Undo the last change
ui-repair = Repair the job
ui-repair-how = Repair sets values back until the job works, no more than needed. The order: winding, conditions, each ±, targets, measures. Undo brings the old values back.
ui-repaired = The job works again. Set back: { $part }.
ui-repaired-not = Setting values back does not help. Save the job as a file, then remove it.
ui-repaired-winding = the chosen winding
ui-repaired-conditions = the winding and the conditions
ui-repaired-spreads = the winding, the conditions and each ±
ui-repaired-targets = the winding, the conditions, each ± and the targets
ui-repaired-measures = all but the name and the note
undo-repair = Repair the job

## Questions before something is done

ui-ask-change = { $what }? This changes the winding.
ui-ask-tests = { $tests ->
    [0] The tests that have begun no longer count.
    [one] One test no longer counts.
   *[other] { $tests } tests no longer count.
}
ui-ask-winding = The winding that was begun is of the earlier design.
ui-ask-change-back = Undo the change, and they count again.
ui-ask-change-yes = Change the winding
ui-ask-no = Keep the winding
ui-ask-outlet = Outlet for the job
ui-ask-outlet-why = Volts, frequency and breaker of the job follow from the outlet.
ui-ask-outlet-no = Decide later

## Wire, windings, measures, warnings of a design

ui-wire = Wire on the shelf
ui-wire-help = The search prefers the wires that you list here, where they suit.
ui-remove-of = Remove { $name }
ui-wire-unknown = This version does not know this wire. The search leaves it out. Remove the wire, or add it again by its size.
ui-wire-add = Add a wire
ui-wire-conductor = Conductor
ui-wire-length = Length
ui-wire-range = 0 to 10000 m.
ui-wire-put = Add the wire
ui-recommended = Recommended
ui-why-own-best = Your own wire, and no wire from the shops gives more.
ui-why-own-near = Your own wire: the strongest from the shops gives little more.
ui-why-sold-strongest = The strongest part that this core gives with wire from a welding or electrical shop.
ui-why-sold-easiest = This winding reaches the target, and is the easiest of what shops sell.
ui-why-rest = No wire from the shops reaches the target. This winding is the strongest of the rest.
ui-group-own = From your shelf
ui-group-common = Sold in common shops
ui-group-rest = Harder to get
ui-winding-facts = { $amps } A at { $volts } V; { $open } V open
ui-winding-at-limit = At its temperature limit
ui-winding-margin = { $margin } °C below its limit
ui-winding-room = { $fill } % of the window filled, { $spare } mm to spare; { $mains } A from the mains
ui-own-metres = { $metres } m of your wire
ui-less-current = { $part } % less current
ui-more-current = { $part } % more current
ui-hotter = { $kelvins } °C closer to its limit
ui-cooler = { $kelvins } °C farther from its limit
ui-together = { $count } wound together
ui-needs-reactor = needs a reactor of { $mh } mH
ui-no-reactor = needs no reactor
ui-tight = almost no room left
ui-more-work = harder to wind
ui-off-voltage = farther from best voltage
ui-more-metal = { $part } % more metal
ui-to-buy = to be bought
ui-harder-to-get = harder to get
ui-side-open = Compare windings
ui-side-close = Close the comparison
ui-side-shown = Shown:
ui-side-at-tips = Current at the tips
ui-side-at-electrode = Current at the electrode
ui-side-at-arc = Current in the arc
ui-side-at-torch = Current at the torch
ui-side-at-battery = Current into the battery
ui-side-at-terminals = Current at the terminals
ui-side-heat = Heat margin
ui-side-window = Window fill
ui-side-ease = Ease of winding
ui-side-wire = Wire to cut
ui-side-mains = Mains current
ui-side-reactor = Reactor
ui-side-amps = { $amps } A
ui-side-mh = { $mh } mH
ui-side-none = None
ui-side-no-margin = Not calculated
ui-side-filled = { $fill } %, { $spare } mm to spare
ui-side-metres = { $metres } m to buy
ui-side-own-metres = { $metres } m of your own
ui-ease-easy = { $count ->
    [one] Easy
   *[other] Easy, { $count } wound together
}
ui-ease-some-work = { $count ->
    [one] Some work
   *[other] Some work, { $count } wound together
}
ui-ease-hard = { $count ->
    [one] Hard
   *[other] Hard, { $count } wound together
}
ui-about-the-same = about the same
ui-tried = { $tried } windings tried, { $within } within every limit.
ui-left-out = { $count }: { $limit }
ui-nearest = No winding reaches this target. The nearest gives { $amps } A, { $part } % of it: { $winding }. Lower the current or the duty, or use two cores.
ui-nearest-none = No winding reaches this target, not even for a part of the current. Change the target or the use.
ui-target = Target
ui-target-as-much = As much as possible
ui-target-number = Set the current
ui-gives = The recommended winding gives { $amps } A.
ui-gives-at-most = This core gives { $amps } A at most.
ui-held-load = The load and the leads limit the current.
ui-held-window-fit = The window limits the current: nothing thicker fits.
ui-held-branch-circuit = The outlet limits the current: its breaker or fuse opens.
ui-held-primary-heat = The primary limits the current: it gets too hot.
ui-held-winding-heat = The new winding limits the current: it gets too hot.
ui-held-other = More is not possible: { $limit }.
ui-raise-outlet = { $outlet } would give { $amps } A.
ui-raise-fan = A small fan would give { $amps } A.
ui-raise-duty = Half the time under load would give { $amps } A.
ui-aluminium-too = Offer aluminium too
ui-state-fits = The winding fits.
ui-state-fits-with = The winding fits with extra parts:
ui-state-fuse = Mains fuse: { $rating } { $kind }.
ui-part-reactor = a reactor of { $mh } for { $amps }, in series
ui-part-diodes = { $count } diodes of { $amps } and { $volts }
ui-part-battery-fuse = a battery fuse of { $amps }
ui-take-nearest-choke = Take the nearest: { $mh } mH
ui-make-reactor = Design the reactor: { $mh } mH
ui-reactor-job = Reactor { $mh } mH
ui-state-breaks = Do not wind this design: { $limit }.
ui-turns = Turns
ui-turns-of = { $turns ->
    [one] 1 turn
   *[other] { $turns } turns
}
ui-turn-less = Remove one turn
ui-turn-more = Add one turn
ui-turns-sensible = { $least } to { $most } turns of this conductor keep every limit.
ui-turns-only = { $turns ->
    [one] Only 1 turn
   *[other] Only { $turns } turns
} of this conductor keep every limit.
ui-turns-around = Turns and the current that they give; the marked ones keep every limit
ui-turns-no = No
ui-turns-break = { $turns ->
    [one] 1 turn
   *[other] { $turns } turns
}: { $limit }.
form-welding-cable = Wind welding cable by hand, on the insulated tongue. Bend it no tighter than its own diameter. Crimp lugs on its own ends.
form-stranded = Wind building wire of many strands by hand. Its insulation withstands less heat than enamel. Crimp lugs on its own ends.
form-solid = Solid building wire is stiff. Bend it no tighter than twice its diameter. Crimp lugs on its ends.
form-enamelled = Pull enamelled wire tight, turn beside turn, with film between layers. Sleeve both ends. Scrape the enamel off before you crimp or solder.
form-rectangular = Wind rectangular wire on its flat side. Bend it no tighter than twice its thickness. Sleeve the inner end where it crosses the layers.
form-strip = Wrap strip in two half-lapped layers of tape before you wind it on its flat side. Drill and bolt its ends. Insulate the inner end where it crosses the turns.
form-bar = Bend the bar to a U in a vice. Wrap it with insulation. Bolt a bridge across its ends. The bar makes one turn.
form-foil = Lay film between all turns of foil, 5 mm wider on both sides. Solder or bolt a strip across each end as its lead-out, and sleeve it.
form-many = So many conductors are hard to keep in order by hand. Bind them every 50 mm before you wind them.
ui-page-none = There is nothing to print yet.
ui-page-save = Save the page
ui-page-bench = Page for the bench
ui-design-chosen = Your choice.
ui-design-curve = Band: the terminal voltage with its ±. Dot: the working point.
ui-design-numbers = All numbers with ±
ui-design-back = Use the best winding
ui-winding-take = Take this winding
ui-design-keep = Keep this winding
ui-design-kept = Choose this winding
ui-place = Where the winding lies
ui-place-beside = Close beside the primary
ui-place-far = Tongue's far end
ui-place-over = Over the primary
ui-design-change = Change the winding
ui-hold-turns = Hold the turns
ui-hold-conductor = Hold the conductor
ui-hold-parallel = Hold the parallel number
ui-hold-help = The list then shows only windings with the values that you hold.
ui-measure-list = List of all lengths
ui-answer = The answer
ui-answer-volts = Voltage
ui-answer-amps = Current
ui-answer-duty = Allowed duty cycle
ui-answer-inductance = Inductance
ui-answer-shim = Spacer
ui-answer-window = Of the window
ui-answer-with = With { $name } as the second core.
ui-answer-none = No winding of this core reaches the target. See below what helps.
ui-answer-no-coil = This core does not reach the target.
ui-ranked-others = Other windings ({ $count })
ui-about-use = Details of the use
ui-circuit-parts = Circuit and its parts
ui-design = This winding
ui-measure-mass = Mass and stacking factor
ui-measure-tap = Tap a length to measure it. Dashed: not measured, usual value.
ui-measure-beside = Choose a length on the drawing. Its number pad opens here.
ui-measure-this-next = Measure this next
ui-measure-brings = Measure next: { $field }. The ± of { $number } falls from { $now } to { $then }.
ui-measure-enough = The lengths are measured well enough. The rest of the ± has other causes.
ui-usual = usual
ui-length-measured = plus or minus { $spread }, { $how }. Measured.
ui-length-usual = not measured.
ui-sheet-close = Close
ui-sheet-now = Now { $value } ± { $spread }, { $how }.
ui-sheet-unit = Unit
ui-sheet-how = Way of measuring
ui-sheet-spread = The true value is within { $spread }, about 95 times in 100.
ui-sheet-pad = Number pad
ui-sheet-point = Decimal point
ui-sheet-fraction = Fraction bar
ui-sheet-hyphen = Hyphen before the fraction
ui-sheet-back = Delete the last digit
ui-sheet-save = Save { $field }
ui-slip-ask = Did you mean { $value }?
ui-slip-use = Use { $value }
origin-calipers = calipers
origin-rule = rule
origin-tape = tape
origin-photo = photo
origin-meter = meter
origin-scale = scale
origin-counted = counted
origin-label = label
origin-typical = usual value
origin-computed = calculated
origin-chosen = chosen
ui-primary-more = More about the primary
ui-outlet-of = Outlet: { $outlet }
ui-measure-on = Choose the winding
ui-outlet-plug = Plug and outlet
ui-outlet-help = Your local code decides. Source of the ratings: the plugs' standards, from memory.
ui-test-delete = Delete this test
ui-test-record = Record this test
ui-cannot-open = Data cannot be opened
ui-cannot-open-help = Nothing was changed. Fix the problem above, then start the app again.
ui-unread = A part of your data cannot be read. { $why } Nothing was removed.
ui-close = Close
ui-places = Places of the app
warning-beyond-touch = The open-circuit voltage is above 30 V r.m.s., the limit for dry skin. Cover every terminal. Pull the plug before you work on a terminal.
warning-plasma-voltage = Hundreds of volts: touching torch and work at once can kill. A licensed person must oversee the build. Interlock the torch and ground (earth) the enclosure.
warning-plasma-unconfirmed = Do not go on until you have read the warning about its voltage and confirmed it.
warning-arc-limit-from-memory = Your local code decides the open-circuit voltage. Source: IEC 60974-1, from secondary sources. The limit of IEC 60974-6 for laymen was not found: 48 V is the cautious choice.
warning-heavy-current = Hundreds of amperes. Take off rings and watch. Clamp the leads down. Keep joints bright and tight. Keep anything that burns away. Keep people with a pacemaker or another implant away.
warning-arc-light = The arc burns eyes and skin, and its fumes are toxic. Wear a welding helmet with the shade for the current. Cover your skin. Shield bystanders. Vent outdoors. Clear away everything a spark can light. Never weld on zinc or cadmium plating, paint, or metal cleaned with a chlorinated solvent.
warning-battery-gas = Lead-acid only, never lithium. A charging battery gives off hydrogen, which explodes. Wear eye protection. Ventilate. Keep sparks away. Switch off before you clip on or unclip. Stay with the battery, and end the charge by a meter or a regulator.
warning-aluminium-primary = An aluminium primary, or one of unknown metal, carries less current. Crimp or bolt its joints with joint compound. Plain solder does not hold.
warning-flux-high = These mains drive the core harder than the oven's did. Expect hum, heat and more no-load current.
warning-flux-doubtful = Such steel carries this flux density only with a heavy no-load current. Measure tongue and stack again. Count the primary's turns in a second way. Test behind a lamp before mains.
warning-flux-saturates = Do not connect: this supply saturates the core and burns out the primary.
warning-flux-impossible = No steel carries this flux density. Measure tongue and stack again. Count the primary's turns in a second way.
warning-fit-uncertain = The room left is smaller than its ±. Measure window and wire again before you cut any wire.
warning-breaker-close = This outlet's breaker or fuse may open under the load. Its standard does not promise so much current for so long.
warning-no-electrode = No covered electrode burns at this current. The thinnest common electrode, 1.6 mm, needs about 25 A. Two cores together give more. A lower duty cycle gives more. Compare cores.
warning-needs-reactance = Alone, this winding delivers more current than you want. Add the series reactor shown, or leave the shunts in.
warning-limb-assumed = Outer limb or yoke was not measured. Half the tongue is assumed.
warning-idle-assumed = The no-load current was not measured. The calculation takes the flux density and typical steel.
# What a winding breaks, within a sentence
limit-conductor-too-wide = the conductor is wider than the room in the window
limit-window-fit = the winding does not fit the window
limit-open-circuit-too-high = the open-circuit voltage is above its limit
limit-open-circuit-too-low = the open-circuit voltage is too low
limit-off-target = the target is missed
limit-winding-heat = the new winding runs too hot
limit-primary-heat = the primary runs too hot
limit-branch-circuit = the branch circuit cannot feed it
limit-saturation = the core saturates on these mains
limit-bend-too-tight = the conductor cannot be bent round the tongue
limit-too-much-for-hands = hands cannot wind so many or so stiff conductors together
undo-primary-metal = Change the primary's metal
undo-target = Change the target
undo-aluminium = Change the metals offered
undo-steel = Change the steel
undo-welder = Change who welds
undo-shunts = Change the shunts
undo-diodes = Change the diodes
undo-second-core = Change the second core
undo-confirm-plasma = Confirm the plasma warning
undo-place = Change the place
undo-reach = Reach the target
undo-windings = Change the pair's connection
undo-insulation = Change the insulation
undo-confirm-battery = Confirm the battery's kind

# Wind.
ui-wind-title = Winding, step by step
ui-wind-help = The steps follow the design that you chose. Each press of a turn is saved.
ui-wind-caution = Nothing here is plugged in. Mains comes at the bench, stage by stage.
ui-wind-begin = Begin the winding
ui-wind-again = Wind the new design
ui-wind-outdated = The design has changed since this winding began. Here you see the earlier design.
ui-step-records = Photos and notes
ui-step-photo = Photo of this step
ui-step-note = Note on this step
ui-step-note-keep = Keep this note
ui-at-tap = { $turns } turns are wound: the first half. Lead both ends out here before the second half.
ui-tap-is-out = Confirm: both ends out
ui-from-shelf = This winding takes { $takes } m of { $wire }. Your shelf has { $has } m.
ui-from-shelf-take = Take { $takes } m off the shelf
ui-from-shelf-taken = { $takes } m were taken off your shelf.
ui-from-shelf-back = Put { $takes } m back
ui-sheets-a-leg = Under each limb: { $stack }.
ui-wind-none = There is no winding to follow here. Choose a use and a winding first.
ui-wind-all = All winding steps
ui-wind-finish = Finish: core wound
ui-wound = Wound
ui-wound-help = The part is wound, closed and enclosed. Now prove it at the bench, stage by stage.
ui-to-bench = Go to the bench
ui-turn-help = Press for each turn. On a keyboard press the space bar.
ui-turn-count = Turn { $turns } of { $all }
ui-layer-count = Layer { $layer } of { $layers }: { $turns } of { $most }
ui-layer-down = Wind downwards, as the arrow shows.
ui-layer-up = Wind upwards, as the arrow shows.
ui-layer-end = The layer is full. Lay the film over it. Lead the wire across.
ui-layer-end-strip = Lay the film over this turn, then go on.
ui-all-wound = All turns are wound.
ui-take-back = Take a press back
ui-end-layer = End this layer
ui-wire-used = Wire used
ui-wire-left = Wire left to wind
ui-room-left = Room outside last layer
ui-first-layer = First layer's whole width
ui-first-layer-help = Measure along the limb with calipers. The reading corrects the rest.
ui-will-not-fit = Stop winding: at this width the winding comes out { $over } too thick. Wind tighter, or choose a smaller winding.
ui-pair-joints = How the ends meet; dots are the start marks
ui-pair-free = free ends, bench test
ui-pair-is-joined = Joined as drawn, the last joint open
ui-pair-other-first = First wind, close and fix the second core, “{ $name }”. Wind both in the same direction.
ui-to-second-core = Wind the second core
ui-to-first-core = Resume the first core
ui-second-wound-help = The second core is wound, closed and fixed. Join it to the first core next.
ui-core-shown = Core shown
ui-core-not-begun = not begun
ui-core-wound = wound
ui-core-so-far = turn { $turns } of { $all }
ui-closing = Closing of the core
ui-fixing = Fixing of the winding

# The screens by name
ui-screen-home = Home
ui-screen-donor = In hand
ui-screen-more = More
ui-screen-size-up = Size up
ui-screen-teardown = Teardown
ui-screen-measure = Measure
ui-screen-rewind = Rewind
ui-screen-wind = Wind
ui-screen-bench = Bench
ui-screen-page = Page
ui-screen-compare = Compare
ui-screen-words = Words
ui-screen-sync = Other devices

# The winding shown in full, in one line
ui-headline-chosen = Your choice: { $title }. { $volts } V open, { $amps } A at work.
ui-headline-chosen-breaks = Your choice: { $title }. { $volts } V open, { $amps } A at work. The winding breaks a limit: see below.
ui-headline-best = Best found: { $title }. { $volts } V open, { $amps } A at work.
ui-headline-best-breaks = Best found: { $title }. { $volts } V open, { $amps } A at work. The winding breaks a limit: see below.

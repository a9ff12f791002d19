### What the screens of size up, teardown and bench say around the texts of the other files.

## Shared

ui-yes = Yes
ui-no = No
ui-not-looked = Not looked
ui-not-known = Not known
ui-hold = Press and hold
ui-remove = Remove
ui-again = Take it up again
ui-could-not = I could not do this
ui-wrong = What goes wrong
ui-hazards = What can hurt here
ui-needed = needed to go on
ui-record = Record
ui-expected = Expected:
ui-primary = Primary
ui-new-winding = New winding
ui-photo-refused = That is no JPEG or PNG picture of at most 16 MiB. Take it again, smaller.
ui-photo-hide = Hide
ui-photo-show = { $count ->
    [one] Show the photo
   *[other] Show { $count } photos
 }
metal-copper = Copper
metal-aluminium = Aluminium

## Gates and stops

ui-gate-count = { $done } of { $all }
ui-gate-back = Back, without passing
ui-stopped = Stopped
ui-stopped-help = Taking it up again starts every gate anew.
ui-passed = Passed at { $time }: { $gate }

## Shelf

ui-donors = Donors
ui-new-find = Size up a find
ui-stands-find = A find, not opened
ui-stands-step = Teardown: { $step }
ui-stands-damaged = Its history cannot be read

## Size up

ui-size-up-title = Take it or leave it?
ui-size-up-help = Say what you see; leave out what you do not know. The cover stays on.
ui-another-find = Another find
ui-leave-find = Leave it: off the shelf
ui-take-apart = Take it apart
ui-chance = Chance of an iron core: { $percent }
ui-ask = Look next:
ui-seen = What you see
ui-kind = Kind of oven
ui-rust = Rust
ui-damage = Damage
ui-openable = Can it be opened here?
ui-label = Name, label and weight
ui-donor-name = What you call it
ui-mains-frequency = Mains frequency on the label
ui-label-photo = Photo of the label
ui-inside = Probably inside
ui-inside-help = From common practice and your own donors; the true value lies inside the range about 95 times in 100.
ui-likely-mass = Transformer
ui-likely-oven = Carries for minutes, fan on
ui-likely-continuous = Carries without a pause
ui-likely-area = Net area of the tongue
ui-likely-volts = Volts per turn
ui-aluminium = Chance of an aluminium primary
ui-learned = { $count ->
    [0] None of your own donors has taught it yet: finish one and measure its core.
    [one] One of your own donors has narrowed it.
   *[other] { $count } of your own donors have narrowed it.
 }
ui-parts = What else is worth pulling
ui-fits = Is it big enough?
ui-fit-with = suits together with "{ $name }"
ui-wants = The uses you want a core for
ui-pays = Does it pay back?
ui-pays-help = With a price asked and your own prices set, it is compared with a new transformer. Never pay for one that does not pay back.
ui-saves = Saves { $likely } (from { $low } to { $high }) in your own money.
ui-prices = Your prices
ui-price-new = A new transformer, for each 100 VA
ui-price-copper = Copper wire, a kilogram

## Teardown

ui-no-donor = Choose a donor on the shelf first.
ui-to-shelf = To the shelf
ui-restart = Start this donor again from the first step
ui-step-of = Step { $at } of { $all }
ui-all-steps = All steps
ui-next-step = Next: { $step }
ui-step-back = Back
ui-finish = It is put away
ui-plugged-in = It was plugged in again
ui-tools = Tools, { $from } to { $to } minutes
ui-to-measure = Enter its measures
ui-start-job = Start a job with this core
ui-to-parts = See what its parts are good for
ui-still-charged = Stop: the meter showed { $volts } V. Discharge it again from the first item.
ui-proof-between = Between the terminals
ui-proof-first = First terminal to the case
ui-proof-second = Second terminal to the case
ui-proof-limit = All three must lie below { $volts } V d.c. (from memory of IEC 61010-1; check your local code).
ui-proof-record = These are my readings
ui-cap-title = What the capacitor holds
ui-cap-help = This informs. It passes no gate.
ui-cap-value = Capacitance printed on it
ui-cap-volts = Voltage it may start from
ui-cap-failed = The bleeder is broken, missing or unknown
ui-cap-bleeder = Bleeder
ui-cap-tool = Resistor tool
ui-cap-rated = Rated voltage of the tool
ui-cap-energy = Stored energy
ui-cap-times = Charge, times the limit for a part that can be touched
ui-cap-by-bleeder = Until its bleeder alone is below the touch limit
ui-cap-tool-time = With the tool on it
ui-cap-tool-current = First current through the tool
ui-cap-tool-power = First power in the tool
ui-cap-tool-rated = The tool's rated voltage is enough
ui-cap-never = Waiting proves nothing: a bleeder fails without a sign. Only the meter counts.
ui-warm-title = How long to warm it
ui-warm-air = What warms it
ui-warm-setting = Air
ui-warm-target = Core
ui-warm-time = About { $likely } minutes ({ $shortest } to { $longest })

## Bench

ui-tests-title = Prove it in stages
ui-tests-help = Each stage has the value that your design predicts and its band. A reading outside its band holds the next stage until it is explained or mended.
ui-tests-caution = Stop unless the old high-voltage winding is out of the core. Mains reaches it only in the last stages, by your local code and with someone near.
ui-no-design = There is no design to test yet.
ui-to-rewind = Design the winding
ui-to-page = The page to print
ui-begin-tests = Begin the tests
ui-begin-again = Test this design from the start
ui-outdated = The design has changed since these tests began. They prove another winding.
ui-stage-of = Stage { $at } of { $all }
ui-all-stages = All stages
ui-commission = All stages are passed
ui-commissioned = Every stage passed
ui-commissioned-help = The record is below. It holds until the core or its wiring is opened.
ui-reopened = I opened or changed the core
ui-record-title = Commissioning record
ui-record-reading = Record this reading
ui-in-band = in its band
ui-outside-help = Stop: find the cause, likeliest first.
ui-explains = This explains it
ui-mended = I mended this: test again from the start
ui-polarity = Marked ends
ui-in-step = In step
ui-out-of-step = Out of step
ui-read-ohms = Resistance, leads subtracted
ui-read-winding-at = Temperature of the winding
ui-read-megohms = Insulation resistance
ui-read-fed = Voltage on the primary
ui-read-other = Voltage of the new winding
ui-read-amps = Current
ui-read-volts = Voltage
ui-read-cold-ohms = Resistance before the run
ui-read-cold-at = Temperature of the winding then
ui-read-hot-ohms = Resistance at switch-off
ui-read-air = Air at the end

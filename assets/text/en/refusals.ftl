# Why something could not be done: what is wrong, what is accepted, and what to do. The errors of each room say
# which text is theirs (`Explain`).

# A number or a text that was entered
refused-entry = { $field }: { $reason }
refused-entry-range = { $field } { $shown } is out of range: { $range }
refused-entry-spread = ± of { $field } { $shown } is out of range: 0 to { $most }{ $unit }
refused-number-empty = nothing entered
refused-number = "{ $text }" is not a number. Write a number like 12.5 or 2 1/2
refused-unit = "{ $text }" is not a unit of length. Use mm, cm, m, in or ft
refused-unit-of = "{ $text }" is not a unit of this number. Use { $accepted }
refused-number-comma = "{ $text }" can mean { $decimal } or { $thousands }. Write one of these
refused-at = { $path }
refused-range = { $field } is { $value }. Enter { $least } to { $most }{ $unit }.
refused-not-finite = { $field } is not a number. Enter { $least } to { $most }{ $unit }.
refused-one-of = { $field } is { $value }. Choose one of { $accepted }{ $unit }.
refused-whole = { $field } is { $value }. Enter a whole number.
refused-spread = The ± of { $field } is { $value }. Enter 0 to { $most }{ $unit }.
refused-blank = { $field } is blank. Give it a few words.
refused-long = { $field } has { $characters } characters. At most { $most } are accepted.
refused-control = { $field } has a character that cannot be shown. Delete that character.
refused-pulses = { $pulses } pulses a minute of { $seconds } s each take more than a minute. The most is { $most }.
refused-no-field = There is no field "{ $path }".
refused-conductor = No conductor is called "{ $name }". Choose one from the list. Or name your own solid wire, bare up to 5 mm, like "own-1.80-1.95" (bare, over its enamel). Or name a stranded cable by its section, like "own-35mm2-12.5".
refused-sighting = { $value } is not a likely { $what }. The range is { $range }. Read the label again or leave it out.
refused-what-microwave-input = microwave input
refused-what-input-of-the-whole-appliance = input of the whole oven
refused-what-microwave-output = microwave output
refused-what-mains-voltage = mains voltage
refused-what-mains-frequency = mains frequency
refused-what-mass = mass
refused-what-price = price

# A job file
refused-job-large = This file has { $bytes } bytes. A job file has at most { $most }.
refused-job-syntax = Line { $line }, column { $column }: this is not valid JSON.
refused-job-other = The file is no job file: a job file starts with "curbcore_job".
refused-job-newer = This job file has format { $found }. This program reads format { $known }. Update the program to open the file.
refused-job-missing = { $path } is missing. Add it.
refused-job-key = { $path } is not a key known here.
refused-job-key-like = { $path } is not a key known here. Did you mean "{ $nearest }"?
refused-job-twice = { $path } is given twice. Leave one of them out.
refused-job-null = { $path } is null. Leave the key out where there is no value.
refused-job-word = { $path } is "{ $found }". Use one of: { $accepted }.
refused-job-type = { $path } has a value of the wrong kind. The schema says which is accepted.
refused-job-value = { $path } has a value that is not accepted. The schema says which is.

# The data on this device
refused-no-folder = No data folder is known on this machine. Name one in the environment variable CURBCORE_DATA.
refused-folder = { $path } cannot be used: { $system }. Check that the folder exists, is yours, and can be written.
refused-in-use = { $path } is open in another window of this program. Close that one first.
refused-browser = This browser gives Curbcore no place for your data ({ $detail }).
refused-nothing = { $path } does not exist: nothing has been saved in this folder yet.
refused-data-newer = The data file has version { $found }. This program knows version { $known }. Update the program. The file is left as it is.
refused-data-older = The data file has version { $found }. This program needs version { $known }. Start the program once to bring the file up to date.
refused-not-ours = { $path } belongs to another program. Curbcore leaves the file as it is. Name another folder in CURBCORE_DATA.
refused-data-damaged = The data file is damaged. Curbcore leaves the file as it is. Copy the folder to a safe place. Then restore a copy or import a file.
refused-put-back = The data file was altered outside this program. A value in it is not accepted ({ $what }). { $reason } The file is left as it is. Restore a copy from a day when the data were whole.
refused-disk-full = The disk is full: nothing was saved. Make room and do it again.
refused-read-only = The data can only be read: nothing was saved. Check that the folder and its files can be written.
refused-disk = The disk did not read or write the data file: nothing was saved. Check the disk, then do it again.
refused-data-busy = Another program is using the data file: nothing was saved. Close that program, then do it again.
refused-gone = This { $what } does not exist any more.
refused-stale = This { $what } was changed meanwhile. Look at it again, then repeat your change.
refused-history-full = This history is full: nothing was saved. Begin the work again from its first step.
refused-core-in-use =
    { $jobs ->
        [one] One job uses this core. Delete that job first.
       *[other] { $jobs } jobs use this core. Delete them first.
    }
refused-photo = The file is no JPEG or PNG picture of at most { $most } MiB. Nothing was saved. Take the photo again, smaller.
refused-incomplete = A value for { $field } is not enough alone. Fill in the values that belong with it.
refused-record = Record of a { $kind }, { $field }: { $reason }
refused-unreadable = { $what } cannot be used. { $reason }
refused-value-unreadable = The value cannot be read as what this field holds.
refused-value-text = A text of at most { $most } characters is needed.
refused-value-whole = A whole number from 0 to 9007199254740991 is needed.
refused-value-number = A finite number is needed.
refused-value-flag = The value must be true or false.
refused-value-id = The id of a record is needed: 32 hexadecimal digits with hyphens.
refused-value-parts = The value may have { $parts } parts, and no text above { $characters } characters.
refused-value-owner = An object with one key (donor, core, job or design) and its id is needed.
refused-value-lines = A list of at most { $most } texts is needed.
refused-value-field = Such a record has no such field.
refused-value-missing = The value is missing.
refused-value-counts = Counts go up to { $highest }, for at most { $sessions } sessions of devices.
refused-value-second = A measurement is written once, and has one value.
refused-value-origin = The origin of the number is unknown.
refused-value-negative = The value must be at least 0.
refused-value-picture-kind = The kind must be image/jpeg or image/png.
refused-value-plan = Neither a list of predictions nor the plan of a winding was found.
refused-value-procedure = The procedure must be wind, wind-second or bench.
refused-value-device = A device has 16 digits from 0 to 9 and a to f.
refused-value-no-picture = No record of the file has this picture.
refused-value-large-picture = A picture may have { $most } MiB.
refused-value-other-picture = Its record describes another picture.
refused-would-lose = This import cannot be undone: photos, teardown steps or tests were added to its records since. Remove what you do not want one by one.
refused-owner-gone = The { $what } that this value belongs to was removed. Choose the other value.
refused-does-not-fit = This change does not fit the other records, and nothing was saved. Start the app again and repeat it. If that fails again, report the fault with the log.
refused-database = The data file did not do what the program asked, and nothing was saved. Start the app again. If that fails again, report the fault with the log.
refused-what-choice = choice
refused-what-photo = photo
refused-what-core = core
refused-what-design = winding
refused-what-donor = oven
refused-what-plan = test plan
refused-what-job = job
refused-what-stock = wire
refused-what-wire = wire
refused-what-measurement = measurement
refused-what-note = note
refused-what-core-photo = core photo
refused-what-teardown = teardown
refused-what-job-run = winding or test

# A file for another device
refused-file = { $path }: { $system }. Check that the place exists and can be written, and that there is room.
refused-disk-stopped = The disk stopped the work ({ $system }). Nothing was changed. Check the disk and its free space, then try again.
refused-exists = { $path } exists already. Nothing was written. Choose another name.
refused-not-a-file = { $path } is not a file. Nothing was written. Name a file.
refused-cancelled = Cancelled. Nothing was changed.
refused-no-shelf = The file is no shelf file. Choose a file that Curbcore made on the other device; its name ends with .curbshelf.
refused-not-whole = This shelf file is cut off or damaged. Nothing was imported. Copy the file again from the other device.
refused-too-much-work = This sealed file asks for more memory and time than a shelf file does (work factor { $found }, at most { $most }). Make the file again with Curbcore on the other device.
refused-unknown-device = No file from device { $device } was imported here. What is new for that device is not known. Import a file from it first, or make a file with the whole shelf.
refused-shelf-newer = This shelf file has version { $found }. This program knows version { $known }. Update the program, then import the file.
refused-shelf-large = A part of this file is larger than a shelf file may have ({ $most }). Nothing was imported.
refused-shelf-much = The shelf is too large for one file (at most { $most }). Export chosen jobs instead.
refused-shelf-tight = The records cannot be packed into a shelf file. Export chosen jobs instead.
refused-stranger = The shelf file has a part named "{ $part }", which no shelf file has. Nothing was imported.
refused-shelf-twice = The shelf file has two parts with one name. Nothing was imported.
refused-manifest = The list of contents in this shelf file cannot be read. Nothing was imported. Copy the file again from the other device.
refused-altered = The records do not match the list of contents. The file was changed or damaged on its way. Copy the file again from the other device.
refused-line = Record { $line } in this shelf file cannot be read. Nothing was imported. Copy the file again from the other device.
refused-sealed = This shelf file is sealed. Type its passphrase. Choose the file again.
refused-passphrase = The passphrase does not open this shelf file. Type the passphrase again.
refused-gap = This file holds only the changes on "{ $name }" since an earlier file. That earlier file was not imported here. Make a file with the whole shelf there.

# Guided work
refused-pair-without-winding = The other core of this pair has no winding yet. No test of the pair can be planned. Choose its winding first, or use this core alone.
refused-coil-on-whole-core = This core was kept whole, and a choke or a ballast needs a gap. Open the core at its seam first, or choose another use.
refused-wind-halves = A winding with a centre tap has two halves of the same turns. Choose an even number of turns on Rewind.
refused-wind-plan = Nobody can wind this design by hand. Choose another winding.
refused-winding-damaged = The stored winding is damaged. Begin the winding again.
refused-nothing-begun = Nothing has begun here yet.
refused-history = The stored history is damaged at entry { $at }. Begin again at the first step.
refused-history-line = The stored history has an entry that cannot be read. Begin again at the first step.
refused-tests-damaged = The stored tests are damaged. Start the tests again.

# What the measures say
summary-flux-fine = Such cores are made for this flux.
summary-flux-high = These mains drive the core harder than its own did: the core hums, runs hot and draws more no-load current.
summary-flux-doubtful = Such steel carries this flux only with a heavy no-load current. Measure tongue and stack again, find the primary turns by a second way, and test behind a lamp first.
summary-flux-saturates = Stop: on these mains the core saturates and the primary burns. Use mains with the volts per hertz that the oven was made for.
summary-flux-impossible = No steel carries this flux. Measure tongue and stack again, and find the primary turns by a second way.
summary-turns-by-test-turn = The test turn
summary-turns-by-counted = Counting
summary-turns-by-old-secondary = The old high-voltage winding
summary-turns-cause-test-turn-misses-flux = the test turn is round an outer limb, with half the flux, or through one window only.
summary-turns-cause-test-turn-miscounted = the test turns were counted one too many or too few. Each pass through the window is a turn.
summary-turns-cause-count-off = a layer, or some turns, were missed in counting.
summary-turns-cause-meter-or-mains = a meter out of its range, or a voltage that was assumed and not measured at the same moment.
summary-disagreement = { $first } gives { $first-turns } primary turns, { $second } gives { $second-turns }. Likely: { $cause }
assumed-limbs = Outer limb and yoke: half the tongue is assumed. Measure them with calipers.
assumed-primary-turns = Primary turns: assumed from a usual flux density. Make a test turn before you cut any wire.
assumed-primary-wire = Primary wire: assumed from its share of the window. Measure a lead end with a micrometer.
assumed-primary-build = Primary build: assumed to fill the window's width.
assumed-primary-metal = Primary metal: aluminium is assumed, which carries less current. Scratch a lead end: copper is red under the enamel.
assumed-idle-current = No-load current: calculated from flux and typical steel. The bench test measures it.
assumed-core-measures = Some of the core's measures are typical values, not this core's. Measure before you cut any wire.

# Why no tests can be planned
plan-no-idle-current = The no-load current cannot be calculated. Measure the core first.
plan-no-coil = The coil cannot be calculated. Measure the core first.
plan-saturates = On these mains the core saturates and the primary burns out. Use the mains that the oven was made for.
plan-winding-too-hot = This winding runs too hot for its insulation. Change the design before you wind and test.
plan-too-hot = This coil runs too hot for its insulation. Change the design before you wind and test.
plan-none = No tests can be planned. Complete the design, then look again.
plan-fault = The plan of the tests cannot be calculated ({ $what }).

# Saving
refused-download = The browser does not save { $name }. Allow downloads for this page, then try again.
page-saved-as = Saved as { $path }. Open it in a browser to print it.
refused-capacitance = A capacitor of { $microfarads } µF is not one of a microwave oven. Give 0.01 to 10 µF, as printed on it.
refused-capacitor-volts = { $volts } V is outside 1 to 20000 V. Give the voltage printed on the capacitor or more.
refused-discharge-ohms = { $ohms } Ω is outside 1 Ω to 1 GΩ. Read the resistor again.
refused-warm-mass = A core of { $kilograms } kg is outside 0.2 to 30 kg. Weigh it again.
refused-warm-setting = Set the air to 60 to 150 °C, not { $celsius } °C. Hotter air chars varnish and paper and makes more fumes.
refused-warm-target = The core must start at −20 to 60 °C and end above that, at least 5 °C below the air.

# Photos
refused-picture = This file is neither a JPEG nor a PNG picture. Choose a photo in one of these forms.
refused-picture-heif = The file is a HEIF photo, which Curbcore cannot read. Set the camera to JPEG (“most compatible”) and take the photo again, or export it as JPEG.
refused-picture-bytes = The file has { $megabytes } MB. Photos up to { $most } MB can be read. Take the photo at a lower resolution.
refused-picture-large = The photo has { $width } × { $height } pixels. Up to 100 megapixels can be read. Take the photo at a lower resolution.
refused-picture-memory = Opening this photo takes { $megabytes } MB of memory, and at most { $most } MB are allowed. Save the photo as a plain (baseline) JPEG, or take it at a lower resolution.
refused-picture-small = The photo has { $width } × { $height } pixels. At least 64 each way are needed. Use the photo as the camera took it.
refused-picture-cut = The photo's file is cut short. Copy it from the camera again.
refused-picture-damaged = The photo's file is damaged or of an unusual kind. Copy it from the camera again, or save it as a plain JPEG.
refused-picture-shown = The picture cannot be shown. Take another photo.
refused-points-few = Mark at least 4 points, no three of the four on one line.
refused-points-line = The points lie on one line or on top of each other. Move them to the corners of the object.
refused-points-folded = The corners are not in order along the outline, or one of them is far off. Put each on its own corner.
refused-points-nowhere = A point has no place in the picture. Mark it again.
refused-lens-few = Mark at least three points along one straight edge. A long edge near the picture's rim is best.
refused-lens = No lens bends edges so much. Mark edges that are straight. Take a photo without a wide-angle lens.
refused-scale-kind = The marks do not match the object of known size. Card, sheet, rectangle: mark four corners. Coin, disc: mark the outline. Rule: mark two of its marks. Printed target: mark the squares' corners.
refused-scale-extent = The object of known size has no size in the picture. Mark it again, its marks at least { $least } pixels apart.
refused-scale-option = A setting of this photo cannot be used. Give a height within 500 mm either way.
refused-scale-above = The face cannot lie that much nearer to the camera than the object of known size. Check the height.
refused-reference-size = The { $field } is { $mm } mm. Accepted are { $least } to { $most } mm. Measure it again, or take another object.
refused-reference-spread = The ± of the { $field } is { $mm } mm. Give a ± from 0 to a tenth of the { $field }. Measure it with calipers or a steel rule.
refused-what-width = width
refused-what-height = height
refused-what-diameter = diameter
refused-what-length = length
refused-what-check-line = check line
refused-mark-off-face = A marked point lies beyond the face's horizon in this photo. Mark points on the face.
refused-mark-few = Mark two or more different points along each edge.
refused-mark-object = Mark the object of known size first.
refused-mark-points = The { $dimension } needs two points, or two on each edge.
refused-no-dimension = There is no dimension “{ $word }”.
refused-no-reference = There is no “{ $word }” to choose. Choose one of the list.
refused-find = The object of known size was not found in the photo. Mark its corners or its outline by hand. Or take the photo again: all of the object in view, camera straight above. Lay it on a plain ground, darker or brighter than the object.
refused-find-rule = The app does not look for the two marks of a steel rule. Set them by hand, as far apart as the photo shows.
photo-too-flat = The face is seen { $degrees }° from straight above. Hold the camera more nearly above it, within { $most }°.
photo-small-reference = The object of known size is only { $pixels } pixels wide in the picture. Move closer, or lay a larger one beside the part.
photo-does-not-fit = The outline does not look like the object named. Check which object it is, which side is its first, its corners, and that the photo is not cropped.
photo-uneven = The printed squares are off by { $pixels } pixels. Lay the sheet flat, and check that every corner was counted right.
photo-lean-unknown = A disc does not show which way the face leans: the ± grows with the distance from it. Lay the disc close to what is measured, or use a card.
photo-tilt-unknown = Two marks do not show how the camera is held: the ± allows for 15° each way. Use a card or a sheet for better figures.

# A no-load test
refused-fit-few = Take the no-load current at two or more voltages, about 20 % apart.
refused-fit-reading = Reading { $at } cannot be used. Voltage, current, watts and their ± must all be above zero.
refused-fit-none = The core's measures give no no-load current. Check that every length, the turns and the voltage are above zero.

# What a number is, its formula, and where the formula comes from: as the function that computes it
# has it. `number-` for a design's, `behaves-` for what the part will do, `measures-` for what the
# measures say.

number-formula = Formula
number-source = Source
number-inputs = Inputs with their ±, and each one’s share of the answer’s ± (by squares)
number-widened = ± from: { $inputs }
number-exact = Exact: counted, chosen, or set by the use.
number-no-inputs = No breakdown for this number.

number-volts-per-turn = Volts per turn
    .what = Volts r.m.s. that each turn on this core gives, on these mains.
    .formula = e = V / N, with V the mains voltage and N the primary turns
    .source = Follows from what it is: each turn of the primary takes the same share.
number-flux-density = Peak flux density
    .what = The highest flux density in the tongue in each cycle. The steel sets how far it may go.
    .formula = B = e / (√2 π f A), with e the volts per turn, f the mains frequency, A = tongue × stack × stacking factor
    .source = The EMF equation, 4.44 f N B A = E, of any machines textbook.
number-open-circuit = Open-circuit voltage
    .what = Voltage of the new winding with nothing connected.
    .formula = E = e × n, with e the volts per turn and n the new turns
    .source = Follows from what a turn gives. The drop in the primary without load is left out.
number-working-current = Working current
    .what = The current that flows where what the winding gives meets what the load needs. With a series reactance it is not above what you want.
    .formula = (U₀ + (r + R) I)² + (X I)² = E², solved for I: U₀ + r I is the load's voltage, R and X are seen from the new winding
    .source = The usual equivalent circuit: an e.m.f. behind a resistance and a leakage reactance. For manual arc welding the load is 20 V + 0.04 Ω × I (IEC 60974-1, from welding makers' manuals).
number-working-voltage = Working voltage
    .what = Voltage at the load at the working current.
    .formula = V = U₀ + r I
    .source = The load of the use. For manual arc welding 20 V + 0.04 Ω × I (IEC 60974-1, from welding makers' manuals).
number-regulation = Voltage lost under load
    .what = Voltage lost from no load to the working point, as a part of the open-circuit voltage. A series reactance that you add counts as lost too.
    .formula = 1 − V / E, V at the working point, E the open-circuit voltage
    .source = Follows from what it is.
number-short-circuit = Short-circuit current
    .what = What flows with the ends of the new winding joined.
    .formula = E / √(R² + X²)
    .source = The usual equivalent circuit, seen from the new winding.
number-cold-resistance = Winding resistance, d.c., 20 °C
    .what = Resistance of the new winding at 20 °C, as a meter with direct current finds it.
    .formula = R = r × length / conductors in parallel × wire factor, with r the conductor's resistance for each metre
    .source = The wire table of the conductor's standard. How far a wire is off its table, 1 ± 0.03: common practice, no source.
number-winding-resistance = Winding resistance, a.c., hot
    .what = Resistance of the new winding to alternating current at its working temperature.
    .formula = R = direct-current resistance at that temperature × F, the factor of the skin effect
    .source = F: P. L. Dowell, “Effects of eddy currents in transformer windings”, Proc. IEE 113 (1966) 1387–1394. Wire factor 1 ± 0.03: common practice, no source.
number-total-resistance = Resistance seen from it
    .what = All resistance seen from the new winding: its own, the primary's and the mains' loop.
    .formula = R = R of the winding + (R of the primary + R of the mains) × (n / N)²
    .source = The usual equivalent circuit, carried over by the square of the turns ratio. Mains' loop 0.4 ± 0.3 Ω where you did not measure it: common practice, no source.
number-leakage-reactance = Leakage reactance
    .what = How much the transformer itself resists the current like a choke, seen from the new winding.
    .formula = X = 2π f μ₀ n² (mean turn / line) (gap + (first + second) / 3) × k, with both coils' thickness across the leakage field
    .source = The Rogowski form with a factor of 1, any text on transformer design. k = 1 ± 0.3, as found against finite elements.
number-series-reactance = Series reactance needed
    .what = Reactance of the choke to put in series, so that the current is what you want. Zero where the winding gives less by itself.
    .formula = Xs = √(E² − (V + R I)²) / I − X, at the current that you want
    .source = The usual equivalent circuit, seen from the new winding.
number-ac-factor = Skin effect: a.c. over d.c. resistance
    .what = How much more the new winding resists the mains' frequency than direct current.
    .formula = F = Δ [(sinh 2Δ + sin 2Δ)/(cosh 2Δ − cos 2Δ) + ⅔ (m² − 1) (sinh Δ − sin Δ)/(cosh Δ + cos Δ)], Δ the thickness of a layer in skin depths, m the layers
    .source = P. L. Dowell, “Effects of eddy currents in transformer windings”, Proc. IEE 113 (1966) 1387–1394. Layers are taken as closed, which overstates the loss a little.
number-winding-loss = Heat in the new winding
    .what = Heat in the new winding while the current flows.
    .formula = I² R, with R hot and for alternating current
    .source = Joule's heat, I²R.
number-primary-loss = Heat in the primary
    .what = Heat in the primary while the current flows.
    .formula = I² R, with the mains current and the primary's resistance hot
    .source = Joule's heat, I²R.
number-mean-loss = Heat of both, averaged over the duty cycle
    .what = Heat of both windings, averaged over the duty cycle.
    .formula = (heat in the winding + heat in the primary) × duty
    .source = Follows from what it is. The no-load current in the pause is left out.
number-winding-density = Current density, new winding
    .what = Amperes for each square millimetre of the new winding's metal, while the current flows.
    .formula = J = I / section of all conductors
    .source = Follows from what it is.
number-primary-density = Current density, primary
    .what = Amperes for each square millimetre of the primary's wire, while the current flows.
    .formula = J = mains current / section of the wire
    .source = Follows from what it is.
number-winding-steady-density = Equivalent steady density, new winding
    .what = The steady current density that would heat the new winding as much as the duty cycle does.
    .formula = J √D, with D the duty
    .source = Heat only: IEC 60974-1 for arc welding, ISO 669 for resistance welding, from secondary sources. Its limit (copper 6 A/mm² in still air): common practice, no source.
number-primary-steady-density = Equivalent steady density, primary
    .what = The steady current density that would heat the primary as much as the duty cycle does.
    .formula = J √D, with D the duty
    .source = Heat only: IEC 60974-1 for arc welding, ISO 669 for resistance welding, from secondary sources. Its limit (copper 6 A/mm² in still air): common practice, no source.
number-primary-current = Primary current added by the load
    .what = Current that the load adds in the primary.
    .formula = I × n / N
    .source = The usual equivalent circuit, seen from the new winding.
number-mains-current = Mains current
    .what = Current from the mains at the working point, no-load current included.
    .formula = √((i cos φ)² + (i sin φ + i₀)²), with i the load's current in the primary and i₀ the no-load current
    .source = The no-load current is taken as a quarter of a cycle behind; its part of loss is small and left out.
number-mains-steady-current = Equivalent steady mains current
    .what = The equivalent continuous mains current: the outlet and its cord must carry it.
    .formula = i √D, with D the duty
    .source = Heat only: IEC 60974-1 for arc welding, ISO 669 for resistance welding, from secondary sources.
number-mains-power = Mains apparent power
    .what = Volts times amperes from the mains at the working point.
    .formula = S = V × i
    .source = Follows from what it is.
number-load-power = Power into the load
    .what = Power that goes into the load at the working point. The load is taken as in phase.
    .formula = P = V × I
    .source = Follows from what it is.
number-build = Build of the winding
    .what = How far the new winding reaches from its inside.
    .formula = rows × conductor × 1.05 + interlayer insulation × (layers − 1)
    .source = Geometry. That rows come out 5 % thicker than their wire: common practice, no source.
number-spare = Room left above it
    .what = Room left in the window above the new winding. Below zero it does not fit.
    .formula = room − build, the room being what window, primary, kept shunts and insulation leave
    .source = Geometry. Insulation to iron 1 mm, to the primary 2 mm, between layers 0.1 mm unless you set it: common practice, no source; your local code comes first.
number-mean-turn = Mean turn
    .what = Length of the average turn of the new winding.
    .formula = 2 (tongue + stack) + 2π a, with a from the tongue's face to the middle of the build
    .source = Geometry: the tongue's perimeter with a quarter circle round each corner.
number-wire-length = Length of one conductor
    .what = Length of one conductor, both lead-outs included.
    .formula = mean turn × n + leads
    .source = Geometry. Leads 600 ± 100 mm, both ends together, are assumed.
number-wire-mass = Metal in the winding
    .what = Mass of metal in the new winding, insulation not counted.
    .formula = section × length × density × conductors in parallel
    .source = Geometry and the metal's density.
number-fill-factor = Fill factor of the room left
    .what = How much of the room for the new winding is metal.
    .formula = n × section / (breadth × height of the room)
    .source = Follows from what it is.

measures-primary-turns = Primary turns
    .what = Turns of the primary from every test you made, together.
    .formula = mean of the tests, each weighted by 1/σ²; test turn and old secondary by N = n × Vp / V
    .source = The ± is widened where tests scatter more than they may: R. T. Birge, Phys. Rev. 40 (1932) 207. Without a test: from a peak flux density of 1.55 ± 0.25 T at rated mains, common practice, no source.
measures-volts-per-turn = Volts per turn
    .what = Volts r.m.s. that each turn on this core gives, on these mains.
    .formula = e = V / N, with V the mains voltage and N the primary turns
    .source = Follows from what it is: each turn of the primary takes the same share.
measures-flux-density = Peak flux density
    .what = The highest flux density in the tongue in each cycle. The steel sets how far it may go.
    .formula = B = e / (√2 π f A), with A the net steel area
    .source = The EMF equation, 4.44 f N B A = E, of any machines textbook.
measures-net-area = Net steel area
    .what = Steel of the tongue that the flux goes through, varnish and air between the sheets taken off.
    .formula = tongue × stack × stacking factor
    .source = Geometry. Stacking factor 0.95 ± 0.03 where you did not measure it: common practice, no source.
measures-window-area = Window area
    .what = Area of one window.
    .formula = window width × window height
    .source = Geometry.
measures-path = Magnetic path
    .what = Mean length of the flux's way round one window.
    .formula = 2 (window height + yoke) + 2 (window width + tongue / 4 + outer limb / 2)
    .source = Geometry, with square corners. With the usual proportions it is six tongues, as lamination tables print (McLyman, Transformer and Inductor Design Handbook).
measures-mean-turn = Mean turn, full window
    .what = Length of the average turn of a coil that fills the window's width.
    .formula = 2 (tongue + stack) + 2π × window width / 2
    .source = Geometry: the tongue's perimeter with a quarter circle round each corner.
measures-mass = Mass of steel, computed
    .what = Mass of steel that your measures imply. A scale that disagrees finds a wrong measure.
    .formula = (outer area − both windows) × stack × stacking factor × 7650 kg/m³
    .source = Density: the middle of 7600 to 7700 kg/m³ that makers' data give (EN 10106 data sheets, from memory).

behaves-idle-current = No-load current
    .what = Current r.m.s. that the primary draws with nothing on the new winding.
    .formula = i(t) = (Σ H l + gap's reluctance × Φ) / N at each instant, Φ the linked flux less what crosses the windows, with the loss as a current P / V in phase
    .source = Chapman, Electric Machinery Fundamentals, the transformer's excitation current. Steel's curves: tables of the Modelica Standard Library (M19: pyleecan 1.4.2), or a band over the grades where it is unknown. Faces that you did not measure, 0.06 ± 0.06 mm: common practice, no source. Flux across the windows: slot leakage of any machines textbook, 1 ± 0.4 of it by finite elements.
behaves-idle-peak = Its peak
    .what = The highest instant of the no-load current. It grows faster than the current near saturation.
    .formula = the largest of i(t) over one cycle, i(t) as for the no-load current
    .source = Chapman, Electric Machinery Fundamentals, the transformer's excitation current.
behaves-idle-power = What a wattmeter reads
    .what = Watts drawn without load: the core's loss and what the primary makes of its no-load current.
    .formula = core loss + I² R
    .source = Follows from its parts; the core loss has a source of its own.
behaves-power-factor = Power factor
    .what = Watts over volt-amperes without load. It is low, because most of the current only magnetises.
    .formula = P / (V I)
    .source = Follows from what it is.
behaves-peak-density = Peak flux density
    .what = Highest flux density in the tongue: without load on the mains, or of a choke at the crest of its current.
    .formula = no load: B = V / (√2 π f N A); choke: B where the steel's and the gap's ampere-turns are N times the crest
    .source = The EMF equation of any machines textbook; the choke by the magnetic circuit of steel and gap.
behaves-core-loss = Heat in the core
    .what = Heat in the steel from the changing flux.
    .formula = sum over tongue, limbs and yokes of mass × P(B, f), each at its own B, with P(f) = P₅₀ ((1 − e) f/50 + e (f/50)²), e the share of eddy currents
    .source = Loss separation: Bertotti, Hysteresis in Magnetism, without his excess term; P₅₀ from the tables of pyleecan 1.4.2, for M800-50A raised to its class limit. With direct current in a choke the true loss is some 10 to 50 % more: common practice, no source.
behaves-fit-gap = Gap at each face, from the test
    .what = Gap at each of the three faces that explains your no-load readings best.
    .formula = least squares of the no-load current and watts, by Gauss and Newton, gap and steel free
    .source = Ranges from the inverse normal matrix: JCGM 100:2008, annex H.3.
behaves-fit-steel = Steel from the test: -1 good, +1 poor
    .what = Where your core's steel lies in the band from the best (−1) to the worst (+1) that oven transformers have.
    .formula = least squares of the no-load current and watts, by Gauss and Newton, gap and steel free
    .source = Ranges from the inverse normal matrix: JCGM 100:2008, annex H.3. The band: M400-50A, M530-50A, M800-50A.
behaves-inrush-peak = First peak at the worst instant
    .what = The first peak of current if the switch closes at the worst instant, with the core magnetised the wrong way.
    .formula = dλ/dt = √2 V sin(ωt + α) − R i, with λ = N Φ + L i, followed in small steps to the crest of the flux
    .source = Fourth-order Runge–Kutta method. Remanence by the load line of the gaps (any textbook of magnetic circuits): 0.75 ± 0.2 of the running peak without gaps, coercivity 70 ± 35 A/m, common practice, no source. It errs to the high side.
behaves-inrush-density = Flux density then
    .what = Flux density in the tongue at that first peak.
    .formula = flux at the first peak / net steel area
    .source = As for the first peak.
behaves-open-voltage = Open-circuit voltage
    .what = Voltage without load: of the new winding, or of both cores as they are joined.
    .formula = one core: from the magnetic circuit of both coils and the shunts; a pair: from the circuit of both cores, Kirchhoff's laws
    .source = One core: describing function, Gelb and Vander Velde, 1968. A pair: the usual L circuit of each core, solved directly.
behaves-leakage-reactance = Leakage reactance
    .what = Leakage reactance seen from the new winding, nothing saturated, with or without shunts.
    .formula = X = 2π f n² P, with P the permeance between the coils: (gap + (b₁ + b₂) / 3) / line for the part in the windows, and the shunts' own
    .source = Rogowski, 1909; Maxwell's method outside the stack; true over model 1 ± 0.1 against finite elements. Flanks of the shunts: Roters, Electromagnetic Devices, 1941, from memory.
behaves-short-circuit = Short-circuit current
    .what = Current into joined ends, with or without shunts.
    .formula = the magnetic circuit of both coils and the shunts, solved for no voltage at the terminals
    .source = Describing function, Gelb and Vander Velde, 1968. With thick shunts the true r.m.s. current is up to 12 % higher, for its harmonics.
behaves-working-voltage = Voltage at the working current
    .what = Voltage at the terminals at the working current; zero where the winding does not reach it.
    .formula = the magnetic circuit of both coils and the shunts, solved at that current into a resistance
    .source = Describing function, Gelb and Vander Velde, 1968.
behaves-tongue-density = Flux density in the tongue
    .what = Peak flux density in the tongue inside the primary, at the working current.
    .formula = flux inside the primary / net area of the tongue
    .source = The magnetic circuit of both coils and the shunts: describing function, Gelb and Vander Velde, 1968.
behaves-limb-density = Flux density in the outer limbs
    .what = Peak flux density in the outer limbs beside the primary, at the working current.
    .formula = half the flux inside the primary / net area of an outer limb
    .source = The magnetic circuit of both coils and the shunts: describing function, Gelb and Vander Velde, 1968.
behaves-shunt-density = Flux density in the shunts
    .what = Peak flux density in the shunts' steel, at the working current. Full shunts no longer limit.
    .formula = U = w H + k B with B = μ₀ H + J H / (a + H), U the ampere-turns across a window
    .source = Law of steel: Fröhlich, 1881, laid through two points of M800-50A (Modelica Standard Library). Shunts that you did not measure (8 ± 3 mm thick, 0.4 ± 0.2 mm of air): common practice, no source.
behaves-shunt-fall = Voltage drop at working current, shunts in (limit 10 %)
    .what = How far the voltage falls to the working current with the shunts in. It decides whether they stay.
    .formula = 1 − V / E, both with the shunts in
    .source = Follows from what it is; the voltages from the circuit with shunts. That a stiff supply may fall by a tenth: common practice, no source.
behaves-shunt-spare = Volts to spare at the working current, with shunts (they may stay from 0 up)
    .what = Volts left over at the working current with the shunts in. It decides whether they stay.
    .formula = V with the shunts in − volts that the load needs
    .source = Follows from what it is; the voltages from the circuit with shunts.
behaves-time-to-limit = From cold to the limit, load on
    .what = How long the load may stay on from cold until a hot spot reaches the limit of its insulation.
    .formula = C dT/dt = P(T) − Σ G (T − Tj) − h(T) A (T − Ta), for primary, winding and core
    .source = Film coefficients: Churchill and Chu, 1975, ± 25 %. Contact of coil and core 60 ± 30 W/(m²·K): common practice, no source. Hot spot 10 ± 5 K above the mean (IEC 60076-11, dry-type transformers, from memory).
behaves-permitted-duty = Allowed duty cycle, 10-minute period
    .what = How much of every ten minutes the load may be on, without end.
    .formula = the duty at which the hottest spot just reaches its limit at the end of each load
    .source = Ten minutes: IEC 60974-1, from welding makers' manuals. The same three lumps of heat as the other temperatures; contact of coil and core by common practice, no source.
behaves-winding-steady = New winding, continuous load
    .what = Mean temperature of the new winding under continuous load.
    .formula = P(T) = Σ G (T − Tj) + h(T) A (T − Ta), heat made is heat given away
    .source = Film coefficients: Churchill and Chu, 1975, ± 25 %. Contact of coil and core: common practice, no source.
behaves-primary-steady = Primary, continuous load
    .what = Mean temperature of the primary under continuous load.
    .formula = P(T) = Σ G (T − Tj) + h(T) A (T − Ta), heat made is heat given away
    .source = Film coefficients: Churchill and Chu, 1975, ± 25 %. Contact of coil and core: common practice, no source.
behaves-core-steady = Core, continuous load
    .what = Mean temperature of the core under continuous load.
    .formula = P(T) = Σ G (T − Tj) + h(T) A (T − Ta), heat made is heat given away
    .source = Film coefficients: Churchill and Chu, 1975, ± 25 %. Contact of coil and core: common practice, no source.
behaves-cooling-time = Cooling afterwards, switched off
    .what = How long it takes, switched off, from the limit until no part is more than 10 K above the room.
    .formula = C dT/dt = − Σ G (T − Tj) − h(T) A (T − Ta)
    .source = Film coefficients: Churchill and Chu, 1975, ± 25 %. Contact of coil and core: common practice, no source.
behaves-wanted-duty = Duty you want
    .what = The duty that you set for this use.
    .formula = time on / time on and off
    .source = Your own target.
behaves-equivalent-current = Equivalent continuous current
    .what = The steady current that would heat the windings as much as the duty cycle does.
    .formula = I √D, with D the duty
    .source = Heat only: IEC 60974-1 for arc welding, ISO 669 for resistance welding, from secondary sources.
behaves-welds-a-minute = Most pulses per minute
    .what = How many pulses of this length per minute the windings can take without end.
    .formula = the number at which the hottest spot, and half the swing of one pulse, just reach the limit
    .source = The same three lumps of heat; within a pulse no heat is lost (the integral of Joule's law).
behaves-after-pulse = New winding after one pulse from cold
    .what = Temperature of the new winding after one pulse from cold, no heat lost meanwhile.
    .formula = 1 + α (T₂ − 20) = (1 + α (T₁ − 20)) exp(J² t ρ₂₀ α / (c d))
    .source = The integral of Joule's law.
behaves-mean-voltage = Mean voltage
    .what = Mean voltage behind the diodes, at the load.
    .formula = mean of v(t) over the repeating cycle
    .source = The circuit of winding, leakage, diodes and load, exact for diodes as straight lines (threshold and slope).
behaves-mean-current = Mean current
    .what = Mean current out of the diodes.
    .formula = mean of i(t) over the repeating cycle
    .source = The circuit of winding, leakage, diodes and load, exact for diodes as straight lines (threshold and slope).
behaves-ripple = Ripple, peak to peak
    .what = Ripple of the voltage at the load, from its lowest to its highest point.
    .formula = highest v(t) − lowest v(t)
    .source = The circuit of winding, leakage, diodes and load, exact for diodes as straight lines. A capacitor's own resistance is left out.
behaves-diode-peak = Peak current
    .what = The highest current in each cycle: the diodes must be rated for it, repeated.
    .formula = the largest of i(t) over the repeating cycle
    .source = The circuit of winding, leakage, diodes and load, exact for diodes as straight lines.
behaves-diode-current = Mean current of each diode
    .what = Mean current of each diode.
    .formula = half of the mean of i(t) over the repeating cycle: each conducts in every other half
    .source = The circuit of winding, leakage, diodes and load, exact for diodes as straight lines.
behaves-reverse-voltage = Reverse voltage on a diode
    .what = Highest voltage backwards across a diode. Ringing is not counted: leave a good margin.
    .formula = the largest reverse voltage over the repeating cycle
    .source = The circuit of winding, leakage, diodes and load, exact for diodes as straight lines.
behaves-diode-loss = Heat in all diodes
    .what = Heat in all the diodes together. They need a heat sink for it.
    .formula = threshold × mean current + slope × r.m.s. current², for the diodes in the current's path
    .source = Each diode as a straight line, threshold and slope.
behaves-dc-winding-current = Current in the winding, r.m.s.
    .what = Current r.m.s. in the winding (in each half with a centre tap): what heats it.
    .formula = √(mean of i²) over the repeating cycle
    .source = The circuit of winding, leakage, diodes and load, exact for diodes as straight lines.
behaves-flat-current = Into the flat battery
    .what = Mean current into the battery when it is flat: the most of the whole charge.
    .formula = mean of i(t) with the battery's voltage at no charge
    .source = Battery's voltage: the table that battery handbooks print, from memory, ± 0.06 V (full) to 0.3 V (flat) for 12 V, as far as such tables differ; 0.10 ± 0.08 V a cell above it while charging, common practice, no source.
behaves-full-current = Into the full battery
    .what = Mean current that still goes into the full battery. A plain charger does not stop by itself.
    .formula = mean of i(t) with the battery's voltage at full charge
    .source = Battery's voltage: the table that battery handbooks print, from memory, ± 0.06 V (full) to 0.3 V (flat) for 12 V, as far as such tables differ; 0.10 ± 0.08 V a cell above it while charging, common practice, no source.
behaves-full-voltage = Voltage of the full battery
    .what = Mean voltage at the terminals of the full battery, still charging. Above 2.40 V a cell it gasses.
    .formula = voltage at full charge + resistance of battery and leads × mean current
    .source = Battery's voltage: the table that battery handbooks print, from memory, ± 0.06 V (full) to 0.3 V (flat) for 12 V, as far as such tables differ. 2.40 V a cell: common practice, no source.
behaves-charge-winding-current = Winding, battery flat, r.m.s.
    .what = Current r.m.s. in the winding with the battery flat: what heats the transformer most.
    .formula = √(mean of i²) over the repeating cycle, battery flat
    .source = The circuit of winding, leakage, diodes and battery, exact for diodes as straight lines.
behaves-charge-duration = From flat to full
    .what = Time from flat to full, or to nine tenths where the current stops before.
    .formula = ∫ capacity / (efficiency × current) over the state of charge, in steps of a twentieth
    .source = Trapezoidal rule. 0.88 ± 0.07 of the charge put in is stored: common practice, no source.
behaves-inductance = Inductance
    .what = Inductance over the swing of your current.
    .formula = L = Δλ / Δi from trough to crest, λ with the flux of core, gap and windows
    .source = Magnetic circuit of steel and gap; fringing by McLyman, Transformer and Inductor Design Handbook, form from memory; leakage of the windows as in any machines textbook.
behaves-coil-resistance = Resistance, warm
    .what = Resistance of the coil at its working temperature.
    .formula = ρ(T) × N × mean turn / section
    .source = Geometry and the metal's resistivity; skin effect left out.
behaves-copper-loss = Heat in the winding
    .what = Heat in the coil.
    .formula = I² R, with I² = I₀² + Δ² / 2: I₀ the steady part, Δ half of the swing about it
    .source = Joule's heat, I²R; skin effect left out.
behaves-fringing = Fringing factor
    .what = How much the flux spreads round the tongue's gap: the gap acts as if its area were this many times as large.
    .formula = F = 1 + (g / √A) ln(2 G / g), with g the gap, A its face, G the window's height
    .source = McLyman, Transformer and Inductor Design Handbook, gapped inductor, form from memory.
behaves-window-share = Of the window that the wire takes
    .what = How much of the window the wires take, each as a square with its insulation.
    .formula = N × wires in parallel × diameter² / (window width × height)
    .source = Geometry. That three quarters may be taken: common practice, no source.
behaves-coil-temperature = Coil, mean temperature
    .what = Mean temperature of the coil under continuous load.
    .formula = P(T) = Σ G (T − Tj) + h(T) A (T − Ta), heat made is heat given away
    .source = Film coefficients: Churchill and Chu, 1975, ± 25 %. Contact of coil and core: common practice, no source.
behaves-coil-rise = Coil, temperature rise
    .what = How far the coil's mean is above room temperature.
    .formula = mean temperature of the coil − air of the room
    .source = Follows from what it is.
behaves-coil-hottest = Hottest spot of the coil
    .what = Temperature of the hottest place in the coil. Insulation ages by it.
    .formula = mean temperature of the coil + allowance for the hot spot
    .source = 10 ± 5 K above the mean (IEC 60076-11, dry-type transformers: 5 to 15 K; from memory).
behaves-core-temperature = Core, mean temperature
    .what = Mean temperature of the core under continuous load.
    .formula = P(T) = Σ G (T − Tj) + h(T) A (T − Ta), heat made is heat given away
    .source = Film coefficients: Churchill and Chu, 1975, ± 25 %. Contact of coil and core: common practice, no source.
behaves-shim = Spacer in each face
    .what = Thickness of the sheet to lay in each of the three faces between E and I.
    .formula = the thickness at which the coil has the inductance that you want, searched
    .source = Magnetic circuit of steel and gap; fringing by McLyman, Transformer and Inductor Design Handbook, form from memory.
behaves-crest = Highest current
    .what = The highest instant of the current that you asked for.
    .formula = direct current + half the ripple; √2 × r.m.s. for a ballast
    .source = Follows from what it is.
behaves-pair-current = Load current
    .what = Current of the load on both cores together.
    .formula = Kirchhoff's laws over both cores: four linear equations
    .source = Each core as the usual L circuit (magnetising impedance across the primary, series impedance at the winding), solved directly.
behaves-pair-voltage = Voltage at the load
    .what = Voltage at the load on both cores together.
    .formula = Kirchhoff's laws over both cores: four linear equations
    .source = Each core as the usual L circuit, solved directly.
behaves-first-current = First new winding
    .what = Current in the first core's new winding under load. Unequal cores share unequally.
    .formula = Kirchhoff's laws over both cores: four linear equations
    .source = Each core as the usual L circuit, solved directly.
behaves-second-current = Second new winding
    .what = Current in the second core's new winding under load. Unequal cores share unequally.
    .formula = Kirchhoff's laws over both cores: four linear equations
    .source = Each core as the usual L circuit, solved directly.
behaves-circulating = Circulating current, no load
    .what = Current that circulates between the two windings without load, because their voltages differ.
    .formula = Kirchhoff's laws over both cores: four linear equations, no load
    .source = Each core as the usual L circuit, solved directly.
behaves-first-primary = On the first primary
    .what = Voltage on the first primary without load. In series unequal cores do not halve the mains.
    .formula = Kirchhoff's laws over both cores: four linear equations, no load
    .source = Each core as the usual L circuit, solved directly.
behaves-second-primary = On the second primary
    .what = Voltage on the second primary without load. In series unequal cores do not halve the mains.
    .formula = Kirchhoff's laws over both cores: four linear equations, no load
    .source = Each core as the usual L circuit, solved directly.

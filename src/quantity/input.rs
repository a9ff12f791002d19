//! The inputs of computations by name.

use crate::words::words;

words! {
    /// An uncertain input of a computation, or another cause of an answer's ±. Its text is under `input-` and
    /// its word.
    pub enum Input, "input" {
        /// Turns.
        Turns = "turns",
        /// Mains voltage.
        MainsVoltage = "mains-voltage",
        /// Winding resistance.
        WindingResistance = "winding-resistance",
        /// Window leakage.
        WindowLeakage = "window-leakage",
        /// Remanence.
        Remanence = "remanence",
        /// Coercivity.
        Coercivity = "coercivity",
        /// Loop resistance.
        LoopResistance = "loop-resistance",
        /// Open-circuit voltage.
        OpenCircuitVoltage = "open-circuit-voltage",
        /// Frequency.
        Frequency = "frequency",
        /// Source resistance.
        SourceResistance = "source-resistance",
        /// Leakage inductance.
        LeakageInductance = "leakage-inductance",
        /// Diode threshold.
        DiodeThreshold = "diode-threshold",
        /// Diode slope.
        DiodeSlope = "diode-slope",
        /// Back voltage.
        BackVoltage = "back-voltage",
        /// Load resistance.
        LoadResistance = "load-resistance",
        /// Series reactor.
        SeriesReactance = "series-reactance",
        /// Choke.
        Choke = "choke",
        /// Capacitor.
        Capacitor = "capacitor",
        /// Capacity.
        Capacity = "capacity",
        /// Battery resistance.
        BatteryResistance = "battery-resistance",
        /// Polarisation.
        Polarisation = "polarisation",
        /// Rest voltage.
        RestVoltage = "rest-voltage",
        /// Charge efficiency.
        ChargeEfficiency = "charge-efficiency",
        /// First donor's resistance.
        FirstDonorResistance = "first-donor-resistance",
        /// First donor's reactance.
        FirstDonorReactance = "first-donor-reactance",
        /// First donor's magnetising reactance.
        FirstDonorMagnetisingReactance = "first-donor-magnetising-reactance",
        /// Second donor's resistance.
        SecondDonorResistance = "second-donor-resistance",
        /// Second donor's reactance.
        SecondDonorReactance = "second-donor-reactance",
        /// Second donor's magnetising reactance.
        SecondDonorMagnetisingReactance = "second-donor-magnetising-reactance",
        /// Primary resistance.
        PrimaryResistance = "primary-resistance",
        /// Shunt thickness.
        ShuntThickness = "shunt-thickness",
        /// Shunt stack.
        ShuntStack = "shunt-stack",
        /// Shunt width.
        ShuntWidth = "shunt-width",
        /// Shunt air gap.
        ShuntAirGap = "shunt-air-gap",
        /// Shunt stacking factor.
        ShuntStackingFactor = "shunt-stacking-factor",
        /// First coil's thickness.
        FirstCoilThickness = "first-coil-thickness",
        /// Gap between the coils.
        GapBetweenTheCoils = "gap-between-the-coils",
        /// Second coil's thickness.
        SecondCoilThickness = "second-coil-thickness",
        /// Coil breadth.
        CoilBreadth = "coil-breadth",
        /// Window.
        Window = "window",
        /// Clearance.
        Clearance = "clearance",
        /// Turn inside.
        TurnInside = "turn-inside",
        /// Turn outside.
        TurnOutside = "turn-outside",
        /// Leakage model.
        LeakageModel = "leakage-model",
        /// Supply resistance.
        SupplyResistance = "supply-resistance",
        /// Idle current.
        IdleCurrent = "idle-current",
        /// Winding temperature.
        WindingTemperature = "winding-temperature",
        /// Lead length.
        LeadLength = "lead-length",
        /// Resistance of the work.
        WorkResistance = "work-resistance",
        /// Wire resistance.
        WireResistance = "wire-resistance",
        /// Primary turns.
        PrimaryTurns = "primary-turns",
        /// Primary wire.
        PrimaryWire = "primary-wire",
        /// Primary height.
        PrimaryHeight = "primary-height",
        /// Primary build.
        PrimaryBuild = "primary-build",
        /// Coil resistance.
        CoilResistance = "coil-resistance",
        /// Contact with the core.
        ContactWithTheCore = "contact-with-the-core",
        /// Cooling by the air.
        CoolingByTheAir = "cooling-by-the-air",
        /// Air of the room.
        AirOfTheRoom = "air-of-the-room",
        /// Air speed.
        AirSpeed = "air-speed",
        /// Hot spot.
        HotSpot = "hot-spot",
        /// Core loss.
        CoreLoss = "core-loss",
        /// Primary mass.
        PrimaryMass = "primary-mass",
        /// Primary length.
        PrimaryLength = "primary-length",
        /// Winding mass.
        WindingMass = "winding-mass",
        /// Winding length.
        WindingLength = "winding-length",
        /// Winding build.
        WindingBuild = "winding-build",
        /// Surface coefficient.
        SurfaceCoefficient = "surface-coefficient",
        /// Emissivity.
        Emissivity = "emissivity",
        /// Tongue.
        Tongue = "tongue",
        /// Stack.
        Stack = "stack",
        /// Window width.
        WindowWidth = "window-width",
        /// Window height.
        WindowHeight = "window-height",
        /// Outer limb.
        OuterLimb = "outer-limb",
        /// Yoke.
        Yoke = "yoke",
        /// Stacking factor.
        StackingFactor = "stacking-factor",
        /// Core mass.
        CoreMass = "core-mass",
        /// Gap at the faces.
        GapAtTheFaces = "gap-at-the-faces",
        /// Shim.
        Shim = "shim",
        /// Gap ground in the tongue.
        GapGroundInTheTongue = "gap-ground-in-the-tongue",
        /// Steel grade.
        SteelGrade = "steel-grade",
        /// Steel magnetisation.
        SteelMagnetisation = "steel-magnetisation",
        /// Steel loss.
        SteelLoss = "steel-loss",
        /// Load current.
        LoadCurrent = "load-current",
        /// Amperes of the first idle reading.
        AmperesOfTheFirstIdleReading = "amperes-of-the-first-idle-reading",
        /// Amperes of the second idle reading.
        AmperesOfTheSecondIdleReading = "amperes-of-the-second-idle-reading",
        /// Amperes of the third idle reading.
        AmperesOfTheThirdIdleReading = "amperes-of-the-third-idle-reading",
        /// Watts of the first idle reading.
        WattsOfTheFirstIdleReading = "watts-of-the-first-idle-reading",
        /// Watts of the second idle reading.
        WattsOfTheSecondIdleReading = "watts-of-the-second-idle-reading",
        /// Watts of the third idle reading.
        WattsOfTheThirdIdleReading = "watts-of-the-third-idle-reading",
        /// Voltmeter.
        Voltmeter = "voltmeter",
        /// Amperes of a later idle reading.
        AmperesOfALaterIdleReading = "amperes-of-a-later-idle-reading",
        /// Watts of a later idle reading.
        WattsOfALaterIdleReading = "watts-of-a-later-idle-reading",
        /// Marked points.
        MarkedPoints = "marked-points",
        /// Places differ.
        PlacesDiffer = "places-differ",
        /// Reference in the picture.
        ReferenceInThePicture = "reference-in-the-picture",
        /// Rim of the disc.
        RimOfTheDisc = "rim-of-the-disc",
        /// Corners of the face.
        CornersOfTheFace = "corners-of-the-face",
        /// Which way the disc leans.
        WhichWayTheDiscLeans = "which-way-the-disc-leans",
        /// Viewing angle.
        ViewingAngle = "viewing-angle",
        /// Size of the reference.
        ReferenceSize = "reference-size",
        /// Height of the face above the reference.
        HeightOfTheFace = "height-of-the-face",
        /// Focal length of the camera.
        FocalLength = "focal-length",
        /// Distortion of the lens.
        Lens = "lens",
    }
}

//! The single things a person confirms at a gate, each with its own press and hold.

use crate::words::words;

words! {
    /// One thing to confirm.
    pub enum Item, "item" {
        /// The plug is out of the wall.
        PlugOut = "plug-out",
        /// The plug lies where the person sees it, and nobody else can put it back.
        PlugInSight = "plug-in-sight",

        /// Trained to discharge high-voltage capacitors, or with someone who is.
        Trained = "trained",
        /// An insulated resistor tool rated for the voltage is in the hand.
        ResistorTool = "resistor-tool",
        /// A meter and probe rated for the voltage are in reach and were just tried on a known source.
        RatedMeter = "rated-meter",
        /// Someone near knows what is being done and how to call for help.
        SomeoneNear = "someone-near",

        /// The tool was held across the two terminals.
        TerminalToTerminal = "terminal-to-terminal",
        /// The tool was held from the first terminal to the case.
        FirstToCase = "first-to-case",
        /// The tool was held from the second terminal to the case.
        SecondToCase = "second-to-case",
        /// The meter reads below the touch limit between the terminals and from each to the case.
        ProvedByMeter = "proved-by-meter",
        /// A clip lead shorts the terminals and stays on.
        ClipLeftOn = "clip-left-on",

        /// Cut-resistant gloves, whole and dry, rings and watch off.
        GlovesOn = "gloves-on",
        /// Glasses with side shields.
        GlassesOn = "glasses-on",

        /// A face shield or goggles made for grinding and chiselling.
        EyesForCutting = "eyes-for-cutting",
        /// Ear muffs or plugs.
        EarsCovered = "ears-covered",
        /// A fitted particle mask.
        MaskOn = "mask-on",
        /// Gloves that suit the tool; nothing loose near anything that turns.
        GlovesSuitTool = "gloves-suit-tool",
        /// The tool's guard is on and the disc is whole and rated for the tool.
        GuardOn = "guard-on",

        /// Nothing near can catch fire.
        NothingBurns = "nothing-burns",
        /// An extinguisher or sand is in reach.
        ExtinguisherNear = "extinguisher-near",
        /// Someone watches the place for half an hour afterwards.
        FireWatch = "fire-watch",

        /// The place is open to outside air.
        FreshAir = "fresh-air",
        /// This oven or hot-air tool will never again be used for food or near it.
        NeverForFood = "never-for-food",
        /// Somebody stays with it from start to end.
        StayWithIt = "stay-with-it",
        /// Heat-proof gloves and a place to set the hot part down.
        HotPartPlace = "hot-part-place",

        /// The part is clamped or held so that it can't fall or turn.
        PartHeld = "part-held",
        /// Firm shoes on, feet and fingers clear.
        FeetClear = "feet-clear",

        /// The magnetron has been found and will be set aside whole.
        MagnetronFound = "magnetron-found",
        /// Nobody will cut, crush, file or open it, and its magnets stay on it.
        MagnetronStaysWhole = "magnetron-stays-whole",
        /// Nobody here has a pacemaker or other implant.
        NoImplant = "no-implant",

        /// The old high-voltage winding is out of the core and on the floor.
        HighVoltageOut = "high-voltage-out",
        /// The old filament winding is out.
        FilamentOut = "filament-out",

        /// The core is closed with its joints clean and tight.
        CoreClosed = "core-closed",
        /// The gap is what the design says, with the spacer in.
        GapSet = "gap-set",
        /// The seam is welded again or banded tight.
        SeamHeld = "seam-held",
        /// Insulation lies between core and windings and between windings.
        InsulationIn = "insulation-in",
        /// The core is joined to the earth wire by a bolted lug.
        CoreEarthed = "core-earthed",
        /// A fuse of the design's rating is in the live wire.
        FuseIn = "fuse-in",
        /// The cord is held by a strain relief.
        StrainRelief = "strain-relief",
        /// No live part can be touched: the enclosure is on.
        Enclosed = "enclosed",

        /// Nothing else is joined to the windings and the core.
        NothingJoined = "nothing-joined",
        /// Hands stay off while the tester works, and the winding is shorted after.
        ShortAfterTest = "short-after-test",

        /// The source is isolated from the mains and gives no more than 24 V.
        IsolatedSource = "isolated-source",
        /// It feeds the winding with the most turns, so that no winding shows more than it gives.
        FeedMostTurns = "feed-most-turns",

        /// The bench is fed through a residual-current device that was tried today.
        ResidualDevice = "residual-device",
        /// Meter leads were clipped on with the plug out, and will come off the same way.
        LeadsWithPlugOut = "leads-with-plug-out",
        /// A switch that cuts the mains is in reach, away from the core.
        SwitchInReach = "switch-in-reach",
        /// Someone near knows how to cut the mains.
        HelperKnowsSwitch = "helper-knows-switch",

        /// Rings, watch and chain are off.
        RingsOff = "rings-off",
        /// The heavy leads are bolted or clamped and can't touch each other by chance.
        LeadsClamped = "leads-clamped",
        /// Eyes and arms are covered against drops of metal.
        CoveredFromDrops = "covered-from-drops",
    }
}

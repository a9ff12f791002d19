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

        /// The tool's chassis clip grips bare metal of the oven chassis.
        ChassisClipOn = "chassis-clip-on",
        /// The tool was held on the first terminal, chassis clip on.
        FirstTerminal = "first-terminal",
        /// The tool was held on the second terminal, chassis clip on.
        SecondTerminal = "second-terminal",
        /// The tool was held across the two terminals.
        AcrossTerminals = "across-terminals",
        /// The meter reads below the touch limit between the terminals and from each to the oven chassis.
        ProvedByMeter = "proved-by-meter",
        /// The meter was tried on the known source again straight after.
        MeterProvedAgain = "meter-proved-again",
        /// A clip lead shorts the terminals and stays on.
        ClipLeftOn = "clip-left-on",

        /// Cut-resistant gloves, whole and dry, rings and watch off.
        GlovesOn = "gloves-on",
        /// Glasses with side shields, and firm shoes.
        GlassesOn = "glasses-on",

        /// A face shield or goggles made for the work, and hearing protection.
        EyesAndEars = "eyes-and-ears",
        /// A dust mask of class FFP2, N95 or better.
        DustMaskOn = "dust-mask-on",
        /// Gloves that suit the tool; nothing loose near anything that turns.
        GlovesSuitTool = "gloves-suit-tool",

        /// The grinder's guard and side handle are on, and both hands hold it.
        GuardOn = "guard-on",
        /// The disc is whole and rated at least for the grinder's speed.
        DiscRated = "disc-rated",
        /// The grinder is unplugged before its disc is touched.
        GrinderUnplugged = "grinder-unplugged",

        /// No old insulation is grey or white, woven or felted.
        NoGreyFelt = "no-grey-felt",

        /// Nothing near can catch fire.
        NothingBurns = "nothing-burns",
        /// An extinguisher or sand is in reach.
        ExtinguisherNear = "extinguisher-near",
        /// Someone watches the place for one hour afterwards.
        FireWatch = "fire-watch",

        /// The place is open to outside air.
        FreshAir = "fresh-air",
        /// This oven or hot-air tool will never again be used for food or near it.
        NeverForFood = "never-for-food",
        /// Somebody stays with it from start to an hour after, an extinguisher in reach.
        StayWithIt = "stay-with-it",
        /// Heat-proof gloves, and a place to set the hot part down where nothing burns.
        HotPartPlace = "hot-part-place",

        /// The part is clamped or held so that it can't fall or turn; feet and fingers are clear.
        PartHeld = "part-held",

        /// The magnetron is known; nobody will cut, crush, file or open it, and its magnets stay on it.
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
        /// Nobody with a pacemaker or other implant is near the heavy current.
        NoImplantAtCurrent = "no-implant-at-current",
        /// The heavy leads are bolted or clamped and can't touch each other by chance.
        LeadsClamped = "leads-clamped",
        /// Eyes and arms are covered against drops of metal.
        CoveredFromDrops = "covered-from-drops",

        /// Nobody with a pacemaker or other implant is near the arc.
        NoImplantAtArc = "no-implant-at-arc",
        /// The steel at the weld is bare: no plating, paint or varnish.
        BareSteel = "bare-steel",
        /// No chlorinated cleaner was used on the core or stands near.
        NoChlorinatedCleaner = "no-chlorinated-cleaner",
        /// The fumes are drawn off or blow away from the welder's face.
        WeldFumesDrawnOff = "weld-fumes-drawn-off",
        /// A welding helmet of the right shade.
        HelmetOn = "helmet-on",
        /// Skin covered against the arc's light.
        SkinCovered = "skin-covered",
        /// Everyone else is screened from the arc.
        BystandersScreened = "bystanders-screened",

        /// The battery is lead-acid, never lithium.
        LeadAcidOnly = "lead-acid-only",
        /// Hydrogen can leave, and nothing near it sparks.
        BatteryAired = "battery-aired",
        /// A fuse sits at the battery's terminal.
        BatteryFused = "battery-fused",
        /// Glasses against acid; water to rinse.
        EyesForAcid = "eyes-for-acid",
        /// Someone stays and switches off.
        StayWithBattery = "stay-with-battery",

        /// The charge and the tools that touch the melt are dry and warm.
        ChargeDry = "charge-dry",
        /// Dry sand lies under the crucible; no water or bare concrete is near.
        DryFloor = "dry-floor",
        /// Face, arms, legs and feet are covered against molten metal.
        CoveredFromMelt = "covered-from-melt",
        /// The furnace stands outdoors or with a carbon monoxide alarm in fresh air.
        FurnaceOutdoors = "furnace-outdoors",

        /// Someone licensed oversees the plasma cutter's build.
        BuildOverseen = "build-overseen",
        /// The torch has an interlock.
        TorchInterlocked = "torch-interlocked",
        /// Work and enclosure are grounded.
        PlasmaGrounded = "plasma-grounded",
    }
}

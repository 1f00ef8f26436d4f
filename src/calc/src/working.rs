//! The working behind a figure, as data.
//!
//! A result carries its own working: an ordered list of [`Step`]s, each naming a sentence and the
//! figures that go into it. The app holds the sentence in each language and writes the figures in
//! the reader's units; nothing is computed a second time.

use crate::quantity::{Figure, Mass, ThermodynamicTemperature, Time};
use crate::ratio::Ingredient;

/// Where a step's figures come from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Source {
    /// The product's data sheet.
    DataSheet,
    /// What the crew entered.
    Entered,
    /// Arithmetic on the steps before.
    Arithmetic,
    /// A published equation, named in the sentence.
    Published,
    /// Common practice, no source.
    Practice,
    /// A typical value, from memory.
    Typical,
}

macro_rules! sentences {
    ($($(#[$doc:meta])* $name:ident = $key:literal [$($figure:literal),* $(,)?];)*) => {
        /// The sentences of the working.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
        pub enum Sentence { $($(#[$doc])* $name,)* }

        impl Sentence {
            /// Every sentence a working can use, in the order listed here.
            pub const ALL: &[Self] = &[$(Self::$name),*];

            /// Its key in the language files.
            pub fn key(self) -> &'static str {
                match self { $(Self::$name => $key,)* }
            }

            /// The names of the figures that go into it, in the order of [`Step::figures`].
            pub fn figures(self) -> &'static [&'static str] {
                match self { $(Self::$name => &[$($figure),*],)* }
            }
        }
    };
}

sentences! {
    /// What the data sheet says of pot life.
    SheetPotLife = "work-sheet-pot-life" ["time", "temperature", "mass"];
    /// What it says of a whole kit.
    SheetKit = "work-sheet-kit" ["time", "temperature", "mass"];
    /// What it says of an insulated cup.
    SheetInsulated = "work-sheet-insulated" ["time", "temperature", "mass"];
    /// What it says of a cup on the bench.
    SheetCup = "work-sheet-cup" ["time", "temperature", "mass"];
    /// What it says of the gel time of such a cup.
    SheetGel = "work-sheet-gel" ["time", "temperature", "mass"];
    /// The cup is taken to have lost as much heat as cups do.
    CupUsual = "work-cup-usual" [];
    /// A larger sample says how much the cup lost.
    CupFitted = "work-cup-fitted" [];
    /// No loss explains both samples.
    CupContradicted = "work-cup-contradicted" [];
    /// Between the sheet's temperatures its own times hold.
    OwnBetween = "work-own-between" ["coldest", "warmest"];
    /// Colder than the sheet: what ten kelvin make of the time.
    ColderThan = "work-colder-than" ["coldest", "times"];
    /// Warmer than the sheet, likewise.
    WarmerThan = "work-warmer-than" ["warmest", "times"];
    /// What the drill makes of the material.
    DrillHeat = "work-drill-heat" ["material", "mixed"];
    /// That the material was read after mixing.
    ReadMixed = "work-read-mixed" ["mixed"];
    /// What the sheet may mean at the longest, where it gives only a cup.
    AtLongest = "work-at-longest" ["time"];
    /// How the lot in hand runs against its sheet.
    LotRuns = "work-lot-runs" ["times", "count"];
    /// Damp air that closes the film sooner.
    DampAir = "work-damp-air" ["air", "humidity", "times"];
    /// Heat of reaction assumed.
    HeatTypical = "work-heat-typical" ["heat"];
    /// Heat of reaction from the product's record.
    HeatGiven = "work-heat-given" ["heat"];
    /// The batch bound, as an area.
    Area = "work-area" ["area"];
    /// From area to volume.
    Volume = "work-volume" ["area", "film", "take_up", "loss", "volume"];
    /// The least that the measure holds on ratio.
    LeastMeasured = "work-least-measured" ["least"];
    /// Rounded to what can be measured.
    Measured = "work-measured" ["volume", "mass", "off_by"];
    /// Pot life of this mass at these temperatures.
    PotLife = "work-pot-life" ["mass", "material", "air", "time"];
    /// The part of it that may be used.
    PourOut = "work-pour-out" ["part", "pot_life", "time"];
    /// When the pail is empty.
    Emptied = "work-emptied" ["time"];
    /// When the last patch is rolled.
    Rolled = "work-rolled" ["area", "pace", "time"];
    /// When the last patch is flaked.
    Flaked = "work-flaked" ["area", "pace", "time"];
    /// How far along the floor the batch reaches.
    Reach = "work-reach" ["area", "width", "reach"];
    /// What setting up the next batch takes: a clean pail, and so many readings.
    SettingUp = "work-setting-up" ["pail", "readings", "each", "time"];
    /// That, where everything stands measured out.
    SettingUpAhead = "work-setting-up-ahead" ["time"];
    /// When whoever mixes is back with that done.
    MixerBack = "work-mixer-back" ["time"];
    /// When the next batch is started.
    NextMix = "work-next-mix" ["free", "ready", "time"];
    /// What the last patch had left when it left the pail.
    OpenLeft = "work-open-left" ["slab", "time", "part", "usable"];
    /// When its film closes.
    FilmCloses = "work-film-closes" ["slab", "time"];
    /// Until when all of it can be poured.
    LastPour = "work-last-pour" ["volume", "takes", "by"];
    /// The limit each bound alone would set.
    BoundPail = "work-bound-pail" ["area"];
    /// The area that open time alone would allow.
    BoundOpen = "work-bound-open" ["area"];
    /// The area that the wet edge for the next batch alone would allow.
    BoundLap = "work-bound-lap" ["area"];
    /// The area that meets the edge of the batch before in time.
    BoundBefore = "work-bound-before" ["area"];
    /// The area that the pail would cover when three quarters full.
    BoundVessel = "work-bound-vessel" ["area"];
    /// The area that the owner's limit for one pail would cover.
    BoundMass = "work-bound-mass" ["area"];
    /// The area of floor that is left to coat.
    BoundFloor = "work-bound-floor" ["area"];
    /// What a part is of the whole, by volume and by weight. About a part or an additive.
    ShareOf = "work-share-of" ["volume_share", "density", "mass_share"];
    /// Density of the mix.
    MixDensity = "work-mix-density" ["density"];
    /// How much of it is poured. About a part or an additive.
    Poured = "work-poured" ["volume", "mass"];
    /// How far off the ratio can be when readings are off.
    OffAtMost = "work-off-at-most" ["off_by", "tolerance"];
    /// What it is in kits.
    InKits = "work-in-kits" ["kits", "each", "volume"];
    /// Hardener for a hundred of resin by the equivalent weights.
    InBalance = "work-in-balance" ["a", "b", "phr"];
    /// Groups of B for each of A at the ratio the sheet prescribes.
    NominalBalance = "work-nominal-balance" ["balance"];
    /// What was really poured. About a part or an additive.
    AsPoured = "work-as-poured" ["volume", "mass"];
    /// How far off ratio that is.
    OffRatio = "work-off-ratio" ["off_by", "tolerance"];
    /// Groups of B for each of A in what was poured.
    Balance = "work-balance" ["balance"];
    /// What stays unreacted. About the side that is over.
    Unreacted = "work-unreacted" ["balance", "share"];
    /// The share of A that has reacted when an off-ratio pail gels.
    GelsAt = "work-gels-at" ["share"];
    /// That it never gels.
    NeverGels = "work-never-gels" [];
    /// What the part that is furthest over makes the whole.
    WholeBecomes = "work-whole-becomes" ["volume"];
    /// What brings one part up to that. About a part or an additive.
    BringUp = "work-bring-up" ["share", "whole", "needed", "add"];
    /// Pot life of the pail brought back.
    RescuedPotLife = "work-rescued-pot-life" ["mass", "pot_life", "time"];
    /// The dew point of the air.
    DewPoint = "work-dew-point" ["air", "humidity", "dew"];
    /// How far the slab is above it.
    DewPointSpread = "work-spread" ["slab", "dew", "spread"];
    /// How far it must be, by the sheet.
    SpreadAsked = "work-spread-asked" ["spread"];
    /// How far it must be, where the sheet does not say.
    SpreadUsual = "work-spread-usual" ["spread"];
    /// When the film has set.
    FilmSet = "work-film-set" ["laying", "time"];
    /// What the slab may cool to until then.
    SlabCools = "work-slab-cools" ["slab", "least"];
    /// What the air may cool to until then, and its humidity.
    AirCools = "work-air-cools" ["air", "least", "humidity"];
    /// A time of the data sheet after a coat is down.
    SheetAfter = "work-sheet-after" ["time", "temperature"];
    /// The slab's temperatures that a time was run through.
    SlabBetween = "work-slab-between" ["least", "most"];
    /// A time run through them, never sooner than the sheet's own.
    AfterReady = "work-after-ready" ["time"];
    /// A time run through them, never later than the sheet's own.
    AfterOver = "work-after-over" ["time"];
    /// Counted from the last patch of a coat.
    FromLast = "work-from-last" ["down", "time", "total"];
    /// Counted from the beginning of a coat.
    FromFirst = "work-from-first" ["time"];
    /// What is still to be laid takes.
    OrderNeeds = "work-order-needs" ["needed"];
    /// That with what is to be spare.
    OrderSpare = "work-order-spare" ["spare", "wanted"];
    /// What is here of it.
    OrderHere = "work-order-here" ["here", "missing"];
    /// What of that is kit and not stirred in.
    OrderParts = "work-order-parts" ["missing", "share", "parts"];
    /// The kits that hold it.
    OrderKits = "work-order-kits" ["parts", "bought"];
    /// What that mixes to, with what is stirred in.
    OrderMixed = "work-order-mixed" ["bought", "mixed"];
    /// What is left when all is laid.
    OrderLeft = "work-order-left" ["bought", "needed", "left"];
    /// The same, where some was here.
    OrderLeftHere = "work-order-left-here" ["here", "bought", "needed", "left"];
    /// The flake an area takes.
    FlakeNeeds = "work-flake-needs" ["area", "cover", "mass"];
    /// The boxes that hold it.
    FlakeBoxes = "work-flake-boxes" ["mass", "each", "boxes"];
    /// A part's share of a whole. About the part.
    PartOf = "work-part-of" ["whole", "share", "part"];
    /// What goes to so much of the other part. About the part.
    OtherOf = "work-other-of" ["poured", "its_share", "share", "part"];
    /// What a scale shows that is not set back.
    ScaleTotal = "work-scale-total" ["first", "second", "total"];
    /// Where a volume stands in the pail.
    MarkAt = "work-mark-at" ["volume", "bottom", "top", "rim", "mark"];
    /// What a film that has lain so long has left.
    OpenStill = "work-open-still" ["usable", "lain", "left"];
    /// How far what was mixed went, over how far it was meant to.
    LearntSpread = "work-learnt-spread" ["mixed", "meant", "laid", "spread"];
    /// How fast it was rolled, over how fast it was meant to be.
    LearntPace = "work-learnt-pace" ["area", "time", "entered", "pace"];
    /// What the rest is planned with.
    PlannedWith = "work-planned-with" ["spread", "pace"];
    /// What the batches of a plan come to.
    PlanSum = "work-plan-sum" ["count", "volume"];
    /// What no batch is planned for takes, and all together.
    PlanLeft = "work-plan-left" ["volume", "needed"];
    /// How much is here, and how much of what is needed is not.
    PlanShort = "work-plan-short" ["here", "used", "needed", "short"];
    /// What a change adds to the next batch.
    Adds = "work-adds" ["with", "now", "adds"];
    /// How far a mix would heat itself if it lost nothing, and to where.
    Core = "work-core" ["material", "rise", "reacts", "core"];
    /// How hot a pail gets that is left standing, and when.
    Peak = "work-peak" ["air", "peak", "after"];
    /// When a pail left standing gels, and what share has reacted by then.
    GelsAfter = "work-gels-after" ["share", "time"];
    /// The sheet's time on a slab that stays as warm, for what must wait.
    SteadyReady = "work-steady-ready" ["temperature", "time"];
    /// The sheet's time on a slab that stays as warm, for what ends.
    SteadyOver = "work-steady-over" ["temperature", "time"];
    /// What the batches of the log come to.
    LogMixed = "work-log-mixed" ["count", "volume"];
    /// How far that went.
    LogSpread = "work-log-spread" ["laid", "volume", "spread"];
    /// A question: how much of a part is in so much mix.
    AskSplit = "round-split" ["whole"];
    /// How much of a part goes to so much of the other.
    AskOther = "round-other" ["poured"];
    /// What the scale reads after the second part.
    AskScale = "round-scale" ["poured"];
    /// Where the mark for a part is.
    AskMark = "round-mark" ["whole", "bottom", "top", "rim"];
    /// Whether this is on ratio.
    AskOnRatio = "round-on-ratio" ["a", "b"];
    /// What brings this back.
    AskBringBack = "round-bring-back" ["a", "b"];
    /// Pot life at another temperature.
    AskPotLife = "round-pot-life" ["mass", "time", "temperature", "elsewhere"];
    /// Which of two pails goes off first.
    AskFirst = "round-first" ["one", "one_at", "two", "two_at"];
    /// Whether a strip can still be flaked.
    AskFlaked = "round-flaked" ["slab", "lain", "part"];
    /// When to start the next mix.
    AskNextMix = "round-next-mix" ["free", "ready"];
    /// Whether the slab may be coated.
    AskDewPoint = "round-dew-point" ["slab", "air", "humidity", "spread"];
    /// When the recoat window opens.
    AskRecoat = "round-recoat" ["time", "temperature", "elsewhere"];
}

/// One step: a sentence with its figures.
#[derive(Clone, Debug, PartialEq)]
pub struct Step {
    /// Which sentence puts this step into words.
    pub sentence: Sentence,
    /// The part or additive it is about, named where the sentence says `what`.
    pub about: Option<Ingredient>,
    /// Its figures, in the order of [`Sentence::figures`].
    pub figures: Vec<Figure>,
    /// Where they come from.
    pub source: Source,
}

impl Step {
    /// Returns a step that is about no particular part or additive.
    pub fn new(sentence: Sentence, source: Source, figures: Vec<Figure>) -> Self {
        debug_assert_eq!(sentence.figures().len(), figures.len());
        Self { sentence, about: None, figures, source }
    }

    /// How long so much in a pail lasts, its material and the air being so warm.
    ///
    /// ```
    /// use pailwise_calc::quantity::{Mass, celsius, minutes, unit};
    /// use pailwise_calc::working::{Sentence, Step};
    /// let step = Step::pot_life(Mass::new::<unit::kilogram>(2.0), celsius(24.0), celsius(20.0), minutes(30.0));
    /// assert_eq!((step.sentence, step.figures.len()), (Sentence::PotLife, 4));
    /// ```
    pub fn pot_life(
        mass: Mass,
        material: ThermodynamicTemperature,
        air: ThermodynamicTemperature,
        lasts: Time,
    ) -> Self {
        let figures = vec![mass.into(), material.into(), air.into(), lasts.into()];
        Self::new(Sentence::PotLife, Source::Published, figures)
    }

    /// The same step about a part or an additive.
    #[must_use]
    pub fn about(self, what: Ingredient) -> Self {
        Self { about: Some(what), ..self }
    }

    /// Its figures by name.
    ///
    /// ```
    /// use pailwise_calc::working::{Sentence, Source, Step};
    /// use pailwise_calc::quantity::minutes;
    /// let step = Step::new(Sentence::Emptied, Source::Arithmetic, vec![minutes(6.0).into()]);
    /// let (name, figure) = step.named().next().unwrap();
    /// assert_eq!((name, figure.to_string()), ("time", "6 min".to_owned()));
    /// ```
    pub fn named(&self) -> impl Iterator<Item = (&'static str, Figure)> + '_ {
        self.sentence.figures().iter().copied().zip(self.figures.iter().copied())
    }
}

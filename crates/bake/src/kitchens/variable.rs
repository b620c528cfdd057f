//! What differs from kitchen to kitchen: each thing with its unit, its words and the place of its draws.

/// In what a variable is written and reckoned.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Unit {
    /// Yes or no.
    YesNo,
    /// One of a few words.
    Words,
    /// °C, as a thermometer reads.
    Celsius,
    /// °C of difference.
    Kelvin,
    /// Grams.
    Gram,
    /// Metres.
    Metre,
    /// Minutes.
    Minute,
    /// A share of what is written; 100 % is just so.
    Share,
}

impl Unit {
    /// As it is written in a file.
    pub const fn example(self) -> &'static str {
        match self {
            Self::YesNo => "is = { yes = \"35 %\" }",
            Self::Words => "is = { one-of = [{ share = \"100 %\", word = \"...\" }] }",
            Self::Celsius => "is = { from = \"18 °C\", to = \"24 °C\" }",
            Self::Kelvin => "is = { from = \"-5 °C\", to = \"5 °C\" }",
            Self::Gram => "is = { from = \"110 g\", to = \"150 g\" }",
            Self::Metre => "is = { from = \"0 m\", to = \"300 m\" }",
            Self::Minute => "is = { mean = \"6 min\" }",
            Self::Share => "is = { from = \"95 %\", to = \"105 %\" }",
        }
    }
}

/// What belongs together, and is drawn together when one asks what decides a bake.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Group {
    /// Scales, cups, spoons.
    Measuring,
    /// Eggs, butter, milk as they are bought.
    Bought,
    /// Which flour.
    Flour,
    /// The yeast's power.
    Yeast,
    /// Room, warm place, refrigerator, and what stood there.
    Places,
    /// Mixer or hands.
    Mixing,
    /// The oven.
    Oven,
    /// The tin.
    Tin,
    /// Height above the sea, and the dryness that goes with it.
    Height,
    /// A thermometer.
    Probe,
    /// Clock or sign.
    Sign,
    /// Slips.
    Slips,
    /// How pieces are divided.
    Pieces,
}

impl Group {
    /// Every group.
    pub const ALL: [Self; 13] = [
        Self::Measuring,
        Self::Bought,
        Self::Flour,
        Self::Yeast,
        Self::Places,
        Self::Mixing,
        Self::Oven,
        Self::Tin,
        Self::Height,
        Self::Probe,
        Self::Sign,
        Self::Slips,
        Self::Pieces,
    ];

    /// In a cook's words.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Measuring => "scales, cups and spoons",
            Self::Bought => "eggs, butter and milk as bought",
            Self::Flour => "which flour",
            Self::Yeast => "the yeast’s power",
            Self::Places => "room, warm place, refrigerator",
            Self::Mixing => "mixer or hands",
            Self::Oven => "the oven",
            Self::Tin => "the tin",
            Self::Height => "height above the sea",
            Self::Probe => "a thermometer",
            Self::Sign => "clock or sign",
            Self::Slips => "slips in reading",
            Self::Pieces => "how pieces are divided",
        }
    }
}

/// Declares the variables. The number of each is the first coordinate of its draws: a new one takes the next
/// free number, and no number is ever given again, so that old draws stay what they were.
macro_rules! variables {
    ($($(#[$doc:meta])* $name:ident = $at:literal, $key:literal, $unit:ident, $group:ident, $words:literal, $choices:expr;)*) => {
        /// One thing that differs from kitchen to kitchen.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum Variable {
            $($(#[$doc])* $name,)*
        }

        impl Variable {
            /// All of them, in the order of their draws.
            pub const ALL: &'static [Self] = &[$(Self::$name),*];

            /// The first coordinate of its draws.
            pub const fn dimension(self) -> u32 {
                match self { $(Self::$name => $at,)* }
            }

            /// Its name in a file.
            pub const fn key(self) -> &'static str {
                match self { $(Self::$name => $key,)* }
            }

            /// In what it is written.
            pub const fn unit(self) -> Unit {
                match self { $(Self::$name => Unit::$unit,)* }
            }

            /// What it belongs to.
            pub const fn group(self) -> Group {
                match self { $(Self::$name => Group::$group,)* }
            }

            /// What it is, in a cook's words.
            pub const fn words(self) -> &'static str {
                match self { $(Self::$name => $words,)* }
            }

            /// The words that it may be.
            pub const fn choices(self) -> &'static [&'static str] {
                match self { $(Self::$name => $choices,)* }
            }
        }
    };
}

variables! {
    /// Weighs, rather than filling cups and spoons.
    Weighs = 0, "weighs", YesNo, Measuring, "scales or cups", &[];
    /// Flour in a US cup.
    FlourCup = 1, "flour-cup", Gram, Measuring, "how full a cup of flour is", &[];
    /// What a cup holds against what it should.
    CupHolds = 2, "cup-holds", Share, Measuring, "what a cup holds", &[];
    /// The same of a spoon.
    SpoonHolds = 3, "spoon-holds", Share, Measuring, "what a spoon holds", &[];
    /// How far the scale is off.
    ScaleOff = 4, "scale-off", Gram, Measuring, "how true the scale is", &[];
    /// The scale reads tenths of a gram.
    FineScale = 5, "fine-scale", YesNo, Measuring, "a scale for tenths of a gram", &[];
    /// A few grams of salt on a coarse scale.
    FewGramsOfSalt = 6, "few-grams-of-salt", Share, Measuring, "a few grams of salt on a kitchen scale", &[];
    /// A few grams of yeast on a coarse scale.
    FewGramsOfYeast = 7, "few-grams-of-yeast", Share, Measuring, "a few grams of yeast on a kitchen scale", &[];
    /// Salt by the spoon.
    SaltKind = 8, "salt-kind", Words, Measuring, "which salt the spoon holds", &["fine", "coarse", "flake"];
    /// One egg without its shell.
    Egg = 9, "egg", Gram, Bought, "the size of the eggs", &[];
    /// Butter taken, by the marks of its wrapper.
    Butter = 10, "butter", Share, Bought, "how much butter", &[];
    /// Fat in the butter.
    ButterFat = 11, "butter-fat", Share, Bought, "how fat the butter is", &[];
    /// Salted butter in the place of unsalted.
    ButterSalted = 12, "butter-salted", YesNo, Bought, "salted butter", &[];
    /// Butter when it goes in.
    ButterAt = 13, "butter-at", Celsius, Places, "how warm the butter is", &[];
    /// Milk and water taken.
    Liquid = 14, "liquid", Share, Bought, "how much liquid", &[];
    /// Skimmed milk in the place of whole.
    MilkSkimmed = 15, "milk-skimmed", YesNo, Bought, "skimmed milk", &[];
    /// Bread flour for plain, or plain for bread flour.
    OtherFlour = 16, "other-flour", YesNo, Flour, "bread flour or plain", &[];
    /// Protein of plain flour.
    PlainProtein = 17, "plain-protein", Share, Flour, "the protein of the flour", &[];
    /// Protein of bread flour.
    BreadProtein = 18, "bread-protein", Share, Flour, "the protein of the flour", &[];
    /// Moisture of flour.
    FlourMoisture = 19, "flour-moisture", Share, Height, "how dry the flour is", &[];
    /// Power left in the yeast.
    YeastPower = 20, "yeast-power", Share, Yeast, "how fresh the yeast is", &[];
    /// The other dry yeast, gram for gram.
    OtherYeast = 21, "other-yeast", YesNo, Yeast, "which dry yeast", &[];
    /// The liquid so hot that it kills.
    LiquidTooHot = 22, "liquid-too-hot", YesNo, Yeast, "liquid that kills the yeast", &[];
    /// Air of the kitchen.
    Room = 23, "room", Celsius, Places, "how warm the kitchen is", &[];
    /// A mixer, where the recipe wants one.
    HasMixer = 24, "has-mixer", YesNo, Mixing, "mixer or hands", &[];
    /// How much a mixer warms the dough.
    MixerWarms = 25, "mixer-warms", Kelvin, Mixing, "how much the mixer warms the dough", &[];
    /// How much hands warm the dough.
    HandsWarm = 26, "hands-warm", Kelvin, Mixing, "how much hands warm the dough", &[];
    /// The warm place; "room" where there is none.
    WarmPlace = 27, "warm-place", Celsius, Places, "what serves as a warm place", &["room"];
    /// Inside the refrigerator.
    Refrigerator = 28, "refrigerator", Celsius, Places, "how cold the refrigerator is", &[];
    /// How much hotter the oven is than its dial.
    OvenOff = 29, "oven-off", Kelvin, Oven, "how true the oven’s dial is", &[];
    /// The oven is not hot yet.
    NotPreheated = 30, "not-preheated", YesNo, Oven, "an oven that is not hot yet", &[];
    /// The fan runs, and the dial is as written.
    FanUnasked = 31, "fan-unasked", YesNo, Oven, "a fan that runs unasked", &[];
    /// Of what the tin is.
    Pan = 32, "pan", Words, Tin, "of what the tin is made", &["light metal", "dark metal", "glass"];
    /// What the tin holds against the written one.
    TinHolds = 33, "tin-holds", Share, Tin, "how large the tin is", &[];
    /// The same by the slope of its walls.
    TinSlope = 34, "tin-slope", Share, Tin, "how the tin’s walls slope", &[];
    /// Height above the sea.
    Altitude = 35, "altitude", Metre, Height, "height above the sea", &[];
    /// A thermometer for the middle of bread.
    HasProbe = 36, "has-probe", YesNo, Probe, "a thermometer in the bread", &[];
    /// Minutes as written, whatever the dough looks like.
    FollowsClock = 37, "follows-clock", YesNo, Sign, "clock or sign", &[];
    /// How far the eye is off when it judges how much a dough has grown.
    SignSeen = 38, "sign-seen", Share, Sign, "how well the sign is seen", &[];
    /// Tablespoons for teaspoons.
    SpoonMixedUp = 39, "spoon-mixed-up", YesNo, Slips, "tablespoons for teaspoons", &[];
    /// An ingredient is left out.
    LeavesOut = 40, "leaves-out", YesNo, Slips, "an ingredient left out", &[];
    /// Which of them.
    LeftOut = 41, "left-out", Share, Slips, "which ingredient is left out", &[];
    /// °C on a dial of °F.
    DialMixedUp = 42, "dial-mixed-up", YesNo, Slips, "°C on a dial of °F", &[];
    /// Pieces are weighed.
    PiecesWeighed = 43, "pieces-weighed", YesNo, Pieces, "pieces by scale or by eye", &[];
    /// A piece by eye.
    PieceByEye = 44, "piece-by-eye", Share, Pieces, "how even the pieces are", &[];
    /// A piece by scale.
    PieceByScale = 45, "piece-by-scale", Share, Pieces, "how even the pieces are", &[];
    /// What keeps the cook from a rise that is over; six rises have draws of their own.
    Interruption = 46, "interruption", Minute, Sign, "what keeps the cook away", &[];
    /// How far the thermometer is off.
    ProbeOff = 52, "probe-off", Kelvin, Probe, "how true the thermometer is", &[];
    /// How much slower a full oven, another rack make a bake.
    OvenLoad = 53, "oven-load", Share, Oven, "how full the oven is", &[];
    /// What is warmed by feel.
    ByFeel = 54, "by-feel", Kelvin, Places, "what is warmed by feel", &[];
    /// Two trays in the oven at once, of what lies on trays.
    TwoTrays = 55, "two-trays", YesNo, Oven, "two trays at once", &[];
    /// Looks into the oven when the recipe says so, though the clock is not there yet.
    LooksWhenTold = 56, "looks-when-told", YesNo, Sign, "looking into the oven", &[];
}

/// Rises that have a draw of their own for what keeps the cook away; later ones share the last.
pub const INTERRUPTIONS: u32 = 6;

/// Coordinates in use.
pub const DIMENSIONS: u32 = 57;

impl Variable {
    /// The variable of a name.
    pub fn named(key: &str) -> Option<Self> {
        Self::ALL.iter().copied().find(|one| one.key() == key)
    }

    /// Its place in lists of all variables.
    pub const fn place(self) -> usize {
        self as usize
    }

    /// How many draws it has.
    pub const fn draws(self) -> u32 {
        match self {
            Self::Interruption => INTERRUPTIONS,
            _ => 1,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::{DIMENSIONS, Variable};

    #[test]
    fn no_two_draws_share_a_coordinate() {
        let mut taken = Vec::new();
        for variable in Variable::ALL {
            for draw in 0..variable.draws() {
                taken.push(variable.dimension() + draw);
            }
        }
        let wanted: Vec<u32> = (0..DIMENSIONS).collect();
        assert_eq!(taken, wanted);
    }

    #[test]
    fn names_lead_back_and_places_are_in_order() {
        for (at, variable) in Variable::ALL.iter().enumerate() {
            assert_eq!(Variable::named(variable.key()), Some(*variable));
            assert_eq!(variable.place(), at);
        }
    }
}

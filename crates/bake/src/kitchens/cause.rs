//! What a flaw most likely comes from: of all that differs in a kitchen, what differs most in its direction.

use super::departure::Facts;
use super::judge::Flaw;
use super::setup::Setup;
use recipe::document::model::{Action, Standing};
use recipe::larder::Role;

/// Declares causes with their words.
macro_rules! causes {
    ($($(#[$doc:meta])* $name:ident = $words:literal;)*) => {
        /// What a flaw comes from.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum Cause {
            $($(#[$doc])* $name,)*
        }

        impl Cause {
            /// All of them.
            pub const ALL: &'static [Self] = &[$(Self::$name),*];

            /// In a cook's words.
            pub const fn words(self) -> &'static str {
                match self { $(Self::$name => $words,)* }
            }
        }
    };
}

causes! {
    /// Flour packed into the cup.
    MuchFlour = "too much flour in the cup";
    /// Flour too loose in the cup.
    LittleFlour = "too little flour in the cup";
    /// Flour of another protein.
    OtherFlour = "another flour";
    /// Flour drier or moister.
    Moisture = "dry or moist flour";
    /// Liquid.
    Liquid = "liquid measured badly";
    /// Old yeast.
    OldYeast = "old yeast";
    /// Killed yeast.
    KilledYeast = "yeast in liquid that was too hot";
    /// Another dry yeast.
    OtherYeast = "the other dry yeast, gram for gram";
    /// Spoons of yeast.
    MuchYeast = "too much yeast in the spoon";
    /// A cold kitchen.
    ColdRoom = "a cold kitchen";
    /// A warm kitchen.
    WarmRoom = "a warm kitchen";
    /// A place too cold.
    NoWarmPlace = "no warm place";
    /// A place too hot.
    HotPlace = "a warm place that is too warm";
    /// A refrigerator too warm.
    WarmRefrigerator = "a warm refrigerator";
    /// A refrigerator too cold.
    ColdRefrigerator = "a cold refrigerator";
    /// The eye.
    Sign = "the sign misjudged, or seen too late";
    /// Thin air.
    Altitude = "thin air";
    /// Soft butter.
    SoftButter = "butter too soft";
    /// A mix that warms.
    WarmMix = "a mix that warms the dough";
    /// Liquid by feel.
    ColdDough = "a dough that ends cold";
    /// Another salt.
    OtherSalt = "coarse or flake salt by the spoon";
    /// A spoon of salt.
    SaltSpoon = "salt measured badly";
    /// Salted butter.
    SaltedButter = "salted butter";
    /// Something left out.
    LeftOut = "an ingredient left out";
    /// Spoons mixed up.
    MixedUp = "tablespoons for teaspoons";
    /// A hot oven.
    HotOven = "an oven hotter than its dial";
    /// A cold oven.
    ColdOven = "an oven colder than its dial";
    /// Not preheated.
    NotPreheated = "an oven that was not hot yet";
    /// A full oven.
    FullOven = "a full oven";
    /// A fan.
    Fan = "a fan with the dial as written";
    /// The dial.
    Dial = "°C on a dial of °F";
    /// A dark tin.
    DarkTin = "a dark tin";
    /// Glass.
    Glass = "a glass dish";
    /// A large tin.
    LargeTin = "too large a tin";
    /// A small tin.
    SmallTin = "too small a tin";
    /// Large pieces.
    LargePiece = "pieces too large";
    /// Small pieces.
    SmallPiece = "pieces too small";
    /// A thermometer.
    Probe = "a thermometer that is off";
    /// None alone.
    Several = "several small things together";
}

/// Of so much it is said to be the cause; smaller things are only together one.
const ENOUGH: f64 = 0.5;

/// Where the dough of a recipe stands while it rises.
#[derive(Clone, Copy, Debug, Default)]
struct Stands {
    room: bool,
    warm: Option<f64>,
    cold: bool,
}

fn stands(setup: &Setup<'_>) -> Stands {
    let mut found = Stands::default();
    let stages = setup.recipe.stages.iter().flat_map(|stage| &stage.steps);
    let products = setup
        .recipe
        .products
        .iter()
        .flat_map(|product| &product.steps);
    for step in stages.chain(products) {
        if let Action::Rest { place, at, .. } = &step.action {
            match place.value {
                Standing::Room => found.room = true,
                Standing::WarmPlace => found.warm = Some(at.value.celsius()),
                Standing::Refrigerator => found.cold = true,
                Standing::CoolPlace => {}
            }
        }
    }
    found
}

fn yes(is: bool, weight: f64) -> f64 {
    if is { weight } else { 0.0 }
}

/// The cause of a flaw in the bread of a place. Each candidate is measured in the step that spoils a bread on
/// its own about half the time (a judgement, from memory of the trade).
pub fn cause(setup: &Setup<'_>, facts: &Facts, place: usize, flaw: Flaw) -> Cause {
    use Cause as C;
    let at = stands(setup);
    let tin = facts.tin.get(place).copied().flatten().unwrap_or(1.0);
    let piece = facts.piece.get(place).copied().unwrap_or(1.0);
    let left = |role: fn(Role) -> bool| yes(facts.left_out.is_some_and(role), 9.0);
    let any_left = yes(facts.left_out.is_some(), 3.0);
    let yeast_left = left(|role| matches!(role, Role::Yeast(_)));
    let salt_left = left(|role| role == Role::Salt);
    let mixed = |role: fn(Role) -> bool| yes(facts.mixed_up.is_some_and(role), 6.0);
    let warm_colder = at
        .warm
        .map_or(0.0, |written| (written - facts.warm_celsius) / 4.0);
    let cold_room = yes(
        at.room || at.warm.is_none(),
        (21.0 - facts.room_celsius) / 3.0,
    );
    let cooler = (4.5 - facts.refrigerator_celsius) / 2.0;
    let slow_oven = facts.slower / 0.06 + yes(facts.two_trays, 1.0);
    let dry = |side: f64| {
        vec![
            (C::MuchFlour, side * (facts.flour - 1.0) / 0.12),
            (C::OtherFlour, side * facts.protein_more / 0.02),
            (C::Moisture, -side * facts.moisture_more / 0.02),
            (C::Liquid, side * (1.0 - facts.liquid) / 0.08),
            (C::LeftOut, yes(side > 0.0, any_left)),
        ]
    };
    let found: Vec<(C, f64)> = match flaw {
        Flaw::TooLittleRise | Flaw::Small => vec![
            (C::KilledYeast, yes(facts.killed, 5.0)),
            (C::LeftOut, yeast_left),
            (C::OldYeast, (1.0 - facts.yeast_power) / 0.2),
            (C::OtherYeast, yes(facts.other_yeast, 0.9)),
            (C::ColdRoom, cold_room),
            (C::NoWarmPlace, warm_colder),
            (C::ColdRefrigerator, yes(at.cold, cooler)),
            (C::Sign, yes(!facts.by_clock, (1.0 - facts.sign) / 0.2)),
            (C::MuchFlour, (facts.flour - 1.0) / 0.2),
            (C::MixedUp, mixed(|role| role == Role::Salt)),
            (C::SmallPiece, yes(flaw == Flaw::Small, (1.0 - piece) / 0.3)),
        ],
        Flaw::TooMuchRise => vec![
            (C::MixedUp, mixed(|role| matches!(role, Role::Yeast(_)))),
            (C::LeftOut, salt_left),
            (
                C::MuchYeast,
                (facts.yeast / facts.yeast_power.max(0.05) - 1.0) / 0.25,
            ),
            (C::WarmRoom, -cold_room),
            (C::HotPlace, -warm_colder),
            (C::WarmRefrigerator, yes(at.cold, -cooler)),
            (C::Altitude, facts.altitude_m / 1200.0),
            (C::Sign, (facts.sign - 1.0) / 0.2),
            (
                C::SoftButter,
                facts.butter_warmer.map_or(0.0, |by| by / 9.0),
            ),
        ],
        Flaw::Greasy => vec![
            (
                C::SoftButter,
                facts.butter_warmer.map_or(0.0, |by| by / 5.0),
            ),
            (C::WarmRoom, (facts.room_celsius - 21.0) / 3.0),
            (
                C::HotPlace,
                at.warm.map_or(0.0, |_| (facts.warm_celsius - 27.0) / 3.0),
            ),
            (
                C::WarmMix,
                yes(!facts.by_hand, (facts.mixing_kelvin - 4.0) / 2.0),
            ),
        ],
        Flaw::Stiff => dry(1.0),
        Flaw::Slack => {
            let mut all = dry(-1.0);
            all[0].0 = C::LittleFlour;
            all
        }
        Flaw::Bland => vec![
            (C::LeftOut, salt_left),
            (C::OtherSalt, yes(facts.other_salt, 3.0)),
            (C::MuchFlour, (facts.flour - 1.0) / 0.2),
            (C::SaltSpoon, 0.6),
        ],
        Flaw::Salty => vec![
            (C::MixedUp, mixed(|role| role == Role::Salt)),
            (C::SaltedButter, yes(facts.salted_butter, 1.5)),
            (C::SaltSpoon, 0.6),
        ],
        Flaw::RawInside | Flaw::Pale => vec![
            (C::Dial, yes(facts.dial_mixed_up, 9.0)),
            (C::ColdOven, -facts.oven_kelvin / 9.0),
            (C::NotPreheated, yes(facts.not_preheated, 0.8)),
            (C::FullOven, slow_oven),
            (C::Glass, yes(facts.pan == Some(2), 0.8)),
            (
                C::LargePiece,
                yes(flaw == Flaw::RawInside, (piece - 1.0) / 0.2),
            ),
            (C::SmallTin, yes(flaw == Flaw::RawInside, (1.0 - tin) / 0.3)),
            (C::Probe, yes(facts.probe, facts.probe_off / 2.0)),
        ],
        Flaw::Dark => vec![
            (C::HotOven, facts.oven_kelvin / 9.0),
            (C::Fan, yes(facts.fan, 1.2)),
            (C::DarkTin, yes(facts.pan == Some(1), 0.7)),
            (C::SmallPiece, (1.0 - piece) / 0.25),
            (C::Probe, yes(facts.probe, -facts.probe_off / 2.0)),
        ],
        Flaw::LowInTin => vec![
            (C::LargeTin, (tin * piece - 1.0) / 0.2),
            (C::SmallPiece, (1.0 - piece) / 0.2),
        ],
        Flaw::OverTin => vec![
            (C::SmallTin, (1.0 - tin * piece) / 0.2),
            (C::LargePiece, (piece - 1.0) / 0.2),
            (C::WarmRoom, -cold_room),
            (C::HotPlace, -warm_colder),
            (C::Altitude, facts.altitude_m / 1200.0),
            (C::Sign, (facts.sign - 1.0) / 0.2),
        ],
    };
    let most = found.into_iter().fold((C::Several, ENOUGH), |best, next| {
        if next.1 > best.1 { next } else { best }
    });
    most.0
}

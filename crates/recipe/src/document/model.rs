//! The written recipe as plain values: stages with items and steps, products, and what surrounds them.

use crate::source::{Located, Span};
use jiff::civil::Date;
use numerics::quantity::{
    Duration, Fraction, Length, Mass, Range, Temperature, TemperatureDifference, Volume,
};

/// The format version that this program writes.
pub const FORMAT: i64 = 1;

/// A recipe as written.
#[derive(Clone, Debug, PartialEq)]
pub struct Recipe {
    /// Version of the file format.
    pub format: i64,
    /// Its name.
    pub title: Located<String>,
    /// The kind of bread, which chooses the bands it is judged by.
    pub kind: Located<Kind>,
    /// The author's version of this recipe.
    pub version: Option<Located<String>>,
    /// Who wrote it.
    pub author: Option<Located<String>>,
    /// First published on.
    pub published: Option<Located<Date>>,
    /// Last changed on.
    pub changed: Option<Located<Date>>,
    /// A few sentences before the recipe.
    pub headnote: Option<Located<String>>,
    /// Notes after it.
    pub notes: Vec<Located<String>>,
    /// What can be done the day before.
    pub make_ahead: Option<Located<String>>,
    /// How it keeps.
    pub storage: Option<Located<String>>,
    /// For how many people.
    pub serves: Option<Located<String>>,
    /// What title or film promise.
    pub promise: Option<Promise>,
    /// The film of it.
    pub film: Option<Film>,
    /// Photographs.
    pub photos: Vec<Photo>,
    /// Who paid or gave.
    pub sponsor: Option<Sponsor>,
    /// The cook's own ingredients, and what a pack says.
    pub pantry: Vec<PantryEntry>,
    /// Stages in the order of work.
    pub stages: Vec<Stage>,
    /// What is made of them.
    pub products: Vec<Product>,
    /// Items for bench, tin and top, outside the dough's sum.
    pub besides: Vec<Item>,
    /// Bakes that were done.
    pub tested: Vec<Test>,
}

/// The kinds of bread that have bands of their own.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Kind {
    /// Flour, water, salt, yeast, little else.
    Lean,
    /// A soft tin loaf or roll with a little sugar and fat.
    Soft,
    /// Milk, eggs, sugar and butter in moderation.
    Enriched,
    /// Butter-rich: a third of the flour or more.
    Rich,
}

impl Kind {
    /// Every kind.
    pub const ALL: [Self; 4] = [Self::Lean, Self::Soft, Self::Enriched, Self::Rich];

    /// The word in a document.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Lean => "lean",
            Self::Soft => "soft",
            Self::Enriched => "enriched",
            Self::Rich => "rich",
        }
    }
}

/// What the title or the film promises.
#[derive(Clone, Debug, PartialEq)]
pub struct Promise {
    /// From the first step of the day to the first slice.
    pub within: Option<Located<Duration>>,
    /// Tools that are not needed: "mixer", "thermometer".
    pub without: Vec<Located<String>>,
    /// Where it stands.
    pub span: Span,
}

/// The film that goes with the page.
#[derive(Clone, Debug, PartialEq)]
pub struct Film {
    /// Its title.
    pub title: Option<Located<String>>,
    /// Its address on the web.
    pub address: Located<String>,
    /// When it went out.
    pub date: Option<Located<Date>>,
    /// File name of its still.
    pub thumbnail: Option<Located<String>>,
}

/// A photograph.
#[derive(Clone, Debug, PartialEq)]
pub struct Photo {
    /// File name beside the page.
    pub file: Located<String>,
    /// What it shows, for whoever cannot see it.
    pub alt: Option<Located<String>>,
    /// Who took it.
    pub credit: Option<Located<String>>,
}

/// Who paid for the recipe or gave things for it.
#[derive(Clone, Debug, PartialEq)]
pub struct Sponsor {
    /// Their name.
    pub name: Located<String>,
    /// What they gave.
    pub gave: Option<Located<String>>,
}

/// An ingredient of the cook's own, or what its pack says of a known one.
#[derive(Clone, Debug, PartialEq)]
pub struct PantryEntry {
    /// The name by which items call it.
    pub name: Located<String>,
    /// Key of the larder row whose composition it shares, or a name of it.
    pub like: Option<Located<String>>,
    /// Protein as the pack declares it.
    pub protein: Option<Located<Fraction>>,
    /// Water, if known.
    pub water: Option<Located<Fraction>>,
    /// Fat as the pack declares it.
    pub fat: Option<Located<Fraction>>,
    /// Sugars as the pack declares them.
    pub sugars: Option<Located<Fraction>>,
    /// Salt as the pack declares it.
    pub salt: Option<Located<Fraction>>,
    /// Allergens as the pack declares them, lower case.
    pub allergens: Option<Vec<Located<String>>>,
    /// Grams in one US cup of 236.6 mL, measured by the cook.
    pub cup: Option<Located<Mass>>,
    /// Where it stands.
    pub span: Span,
}

/// A stage: things put together, and what is done with them.
#[derive(Clone, Debug, PartialEq)]
pub struct Stage {
    /// Its name, by which later stages and products call it.
    pub name: Located<String>,
    /// What goes in, in written order.
    pub items: Vec<Item>,
    /// What is done, in written order.
    pub steps: Vec<Step>,
    /// Water that leaves in cooking.
    pub evaporates: Option<Located<Mass>>,
    /// Where it stands.
    pub span: Span,
}

/// A thing that goes in.
#[derive(Clone, Debug, PartialEq)]
pub struct Item {
    /// What it is: an ingredient by name, or an earlier stage.
    pub of: Located<String>,
    /// How much; a stage may leave it out and then goes in whole.
    pub take: Option<Located<Amount>>,
    /// For each piece of a product: how much.
    pub each: Option<Located<Amount>>,
    /// The short name by which sentences call it.
    pub name: Option<Located<String>>,
    /// A kitchen measure that the author wants printed instead of the computed one.
    pub also: Option<Located<Amount>>,
    /// Its temperature when it goes in.
    pub at: Option<Located<Temperature>>,
    /// Where it has been standing, which gives its temperature in each kitchen.
    pub from: Option<Located<Store>>,
    /// Its state when it goes in: "soft", "melted", "beaten".
    pub state: Option<Located<String>>,
    /// For items outside the dough: what they are for.
    pub on: Option<Located<Place>>,
    /// A word for the reader.
    pub note: Option<Located<String>>,
    /// Where it stands.
    pub span: Span,
}

impl Item {
    /// The name by which sentences call it.
    pub fn called(&self) -> &str {
        self.name
            .as_ref()
            .map_or(&self.of.value, |name| &name.value)
    }
}

/// Where an ingredient has been standing.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Store {
    /// The room, long enough to have its temperature.
    Room,
    /// The refrigerator.
    Refrigerator,
    /// The cold tap.
    Tap,
}

impl Store {
    /// Every store.
    pub const ALL: [Self; 3] = [Self::Room, Self::Refrigerator, Self::Tap];

    /// The word in a document.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Room => "room",
            Self::Refrigerator => "refrigerator",
            Self::Tap => "tap",
        }
    }
}

/// What an item outside the dough is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Place {
    /// Dusting or oiling the bench.
    Bench,
    /// Greasing or lining the tin.
    Tin,
    /// Brushing and scattering on top.
    Top,
}

impl Place {
    /// Every place.
    pub const ALL: [Self; 3] = [Self::Bench, Self::Tin, Self::Top];

    /// The word in a document.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Bench => "bench",
            Self::Tin => "tin",
            Self::Top => "top",
        }
    }
}

/// An amount as written.
#[derive(Clone, Debug, PartialEq)]
pub enum Amount {
    /// A mass.
    Mass(Mass),
    /// One or more kitchen measures added together: 1 3/4 cups + 3 Tbsp.
    Measures(Vec<Spooned>),
    /// A number of things, with their size: 3 large.
    Count {
        /// How many.
        count: f64,
        /// What size or unit: "large", "packet"; none when only a number stands.
        size: Option<String>,
    },
}

/// So many of one measure.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spooned {
    /// How many.
    pub count: f64,
    /// Of what.
    pub measure: crate::measure::Measure,
}

/// A thing done: the author's sentence and what can be measured about it.
#[derive(Clone, Debug, PartialEq)]
pub struct Step {
    /// The author's sentence, with bracketed placeholders.
    pub text: Located<String>,
    /// What is done, measurably.
    pub action: Action,
    /// How one sees that it is done.
    pub until: Option<Until>,
    /// Where it stands.
    pub span: Span,
}

/// How one sees that a step is done: words, and a measurable end.
#[derive(Clone, Debug, PartialEq)]
pub struct Until {
    /// What to look for.
    pub see: Option<Located<String>>,
    /// Volume as a multiple of the start.
    pub volume: Option<Located<f64>>,
    /// Height against the rim: negative is below.
    pub height: Option<Located<Length>>,
    /// Temperature in the middle of bread.
    pub core: Option<Located<Temperature>>,
    /// Temperature of the dough.
    pub dough: Option<Located<Temperature>>,
    /// Where it stands.
    pub span: Span,
}

/// Minutes as written: a usual value and a range.
#[derive(Clone, Debug, PartialEq)]
pub struct Timing {
    /// The usual time.
    pub usual: Located<Duration>,
    /// From and to.
    pub range: Option<Located<Range<Duration>>>,
}

/// What a step does.
#[derive(Clone, Debug, PartialEq)]
pub enum Action {
    /// Take things out beforehand.
    Ready {
        /// Names of items.
        what: Vec<Located<String>>,
        /// How long before the stage begins.
        before: Located<Duration>,
        /// Hands-on minutes.
        timing: Timing,
    },
    /// Wake yeast in warm liquid.
    Wake {
        /// Name of the yeast item.
        yeast: Located<String>,
        /// Name of the liquid item.
        liquid: Located<String>,
        /// In what.
        vessel: Located<Material>,
        /// How long.
        timing: Timing,
    },
    /// Mix.
    Mix {
        /// With what.
        by: Located<Tool>,
        /// Speeds and minutes, in order.
        phases: Vec<Phase>,
        /// Dough temperature wanted at the end.
        dough: Option<Located<Range<Temperature>>>,
        /// Name of the liquid item whose temperature is to be solved for.
        adjust: Option<Located<String>>,
    },
    /// Heat in a pan.
    Heat {
        /// To what temperature.
        to: Located<Temperature>,
        /// How long.
        timing: Timing,
    },
    /// Let stand: rise, rest, chill, proof.
    Rest {
        /// How long.
        timing: Timing,
        /// At what temperature.
        at: Located<Temperature>,
        /// Where it stands.
        place: Located<Standing>,
        /// In what.
        vessel: Located<String>,
        /// How thick, when it is a slab.
        thick: Option<Located<Length>>,
        /// Covered with what; none when open.
        covered: Option<Located<String>>,
    },
    /// Fold.
    Fold {
        /// Hands-on minutes.
        timing: Timing,
        /// How many minutes into the rest before it; several folds have several.
        into_rest: Vec<Located<Duration>>,
    },
    /// Divide into products.
    Divide {
        /// Names of products.
        into: Vec<Located<String>>,
        /// Hands-on minutes.
        timing: Timing,
    },
    /// Shape.
    Shape {
        /// Hands-on minutes.
        timing: Timing,
    },
    /// Brush, fill, scatter, cut, stir a filling together.
    Finish {
        /// Hands-on minutes.
        timing: Timing,
    },
    /// Heat the oven.
    Preheat {
        /// To what the dial says.
        to: Located<Temperature>,
        /// How long before the bake.
        timing: Timing,
    },
    /// Bake.
    Bake {
        /// Oven settings and minutes, in order.
        phases: Vec<OvenPhase>,
        /// Whether the figures are for an oven with its fan on.
        fan: Located<bool>,
        /// Where in the oven.
        rack: Option<Located<String>>,
        /// Temperature in the middle when it is done.
        core: Option<Located<Temperature>>,
        /// Look for the first time after so long.
        check: Option<Located<Duration>>,
    },
    /// Let cool.
    Cool {
        /// How long.
        timing: Timing,
        /// In or on what.
        vessel: Located<String>,
        /// At what temperature.
        at: Located<Temperature>,
    },
}

impl Action {
    /// The key in a document.
    pub const fn word(&self) -> &'static str {
        match self {
            Self::Ready { .. } => "ready",
            Self::Wake { .. } => "wake",
            Self::Mix { .. } => "mix",
            Self::Heat { .. } => "heat",
            Self::Rest { .. } => "rest",
            Self::Fold { .. } => "fold",
            Self::Divide { .. } => "divide",
            Self::Shape { .. } => "shape",
            Self::Finish { .. } => "finish",
            Self::Preheat { .. } => "preheat",
            Self::Bake { .. } => "bake",
            Self::Cool { .. } => "cool",
        }
    }
}

/// With what a dough is mixed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Tool {
    /// A stand mixer with its hook.
    Mixer,
    /// Hands on a bench.
    Hand,
    /// A spoon in a bowl.
    Spoon,
}

impl Tool {
    /// Every tool.
    pub const ALL: [Self; 3] = [Self::Mixer, Self::Hand, Self::Spoon];

    /// The word in a document.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Mixer => "mixer",
            Self::Hand => "hand",
            Self::Spoon => "spoon",
        }
    }
}

/// A speed of mixing.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Speed {
    /// Slow.
    Low,
    /// Middling.
    Medium,
    /// Fast.
    High,
}

impl Speed {
    /// Every speed.
    pub const ALL: [Self; 3] = [Self::Low, Self::Medium, Self::High];

    /// The word in a document.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Low => "low",
            Self::Medium => "medium",
            Self::High => "high",
        }
    }
}

/// So many minutes at one speed.
#[derive(Clone, Debug, PartialEq)]
pub struct Phase {
    /// How fast.
    pub speed: Located<Speed>,
    /// How long.
    pub timing: Timing,
}

/// So many minutes at one oven setting.
#[derive(Clone, Debug, PartialEq)]
pub struct OvenPhase {
    /// What the dial says.
    pub at: Located<Temperature>,
    /// How long.
    pub timing: Timing,
    /// With steam.
    pub steam: Option<Located<bool>>,
    /// Under foil.
    pub foil: Option<Located<bool>>,
}

/// Where a dough stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Standing {
    /// In the room.
    Room,
    /// In a warm place.
    WarmPlace,
    /// In the refrigerator.
    Refrigerator,
    /// In a cool room or cellar.
    CoolPlace,
}

impl Standing {
    /// Every place.
    pub const ALL: [Self; 4] = [
        Self::Room,
        Self::WarmPlace,
        Self::Refrigerator,
        Self::CoolPlace,
    ];

    /// The word in a document.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Room => "room",
            Self::WarmPlace => "warm place",
            Self::Refrigerator => "refrigerator",
            Self::CoolPlace => "cool place",
        }
    }
}

/// What bowls and tins are made of.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Material {
    /// Stainless steel.
    Steel,
    /// Aluminium.
    Aluminium,
    /// Borosilicate or soda-lime glass.
    Glass,
    /// Stoneware or earthenware.
    Stoneware,
    /// Polypropylene and its like.
    Plastic,
    /// Wood.
    Wood,
    /// Light, shiny sheet metal.
    LightMetal,
    /// Dark or coated sheet metal.
    DarkMetal,
    /// Silicone.
    Silicone,
    /// Paper mould.
    Paper,
}

impl Material {
    /// Every material.
    pub const ALL: [Self; 10] = [
        Self::Steel,
        Self::Aluminium,
        Self::Glass,
        Self::Stoneware,
        Self::Plastic,
        Self::Wood,
        Self::LightMetal,
        Self::DarkMetal,
        Self::Silicone,
        Self::Paper,
    ];

    /// The word in a document.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Steel => "steel",
            Self::Aluminium => "aluminium",
            Self::Glass => "glass",
            Self::Stoneware => "stoneware",
            Self::Plastic => "plastic",
            Self::Wood => "wood",
            Self::LightMetal => "light metal",
            Self::DarkMetal => "dark metal",
            Self::Silicone => "silicone",
            Self::Paper => "paper",
        }
    }
}

/// A tin, tray or mould.
#[derive(Clone, Debug, PartialEq)]
pub struct Tin {
    /// What it is called.
    pub name: Located<String>,
    /// Its three dimensions; two for a tray, diameter and height for a round one.
    pub size: Located<TinSize>,
    /// Volume when filled with water to the brim; none for a tray.
    pub holds: Option<Located<Volume>>,
    /// Of what it is made.
    pub material: Located<Material>,
    /// Baked with its lid on.
    pub lidded: Option<Located<bool>>,
    /// Where it stands.
    pub span: Span,
}

/// The dimensions of a tin.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum TinSize {
    /// Length and width at the rim, and depth.
    Box {
        /// Length at the rim.
        length: Length,
        /// Width at the rim.
        width: Length,
        /// Depth.
        depth: Length,
    },
    /// A flat tray.
    Tray {
        /// Length.
        length: Length,
        /// Width.
        width: Length,
    },
    /// A round tin or mould.
    Round {
        /// Diameter at the rim.
        diameter: Length,
        /// Height.
        height: Length,
    },
}

/// Something that is made: so many pieces of so much, in a tin, baked.
#[derive(Clone, Debug, PartialEq)]
pub struct Product {
    /// Its name.
    pub name: Located<String>,
    /// The stage it is cut from.
    pub from: Located<String>,
    /// How many pieces.
    pub count: Located<u32>,
    /// Of what parts one piece is made, raw.
    pub piece: Located<Vec<Part>>,
    /// What goes into each piece besides: a filling, by stage.
    pub with: Vec<Item>,
    /// Where it is baked.
    pub tin: Option<Tin>,
    /// Mass of one piece after the bake, as weighed.
    pub after_bake: Option<Located<Mass>>,
    /// What is done with it.
    pub steps: Vec<Step>,
    /// Where it stands.
    pub span: Span,
}

/// So many parts of one mass: the 3 x 220 g of a braid, the 8 g strip of a bun.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Part {
    /// How many in one piece.
    pub count: u32,
    /// Mass of each.
    pub mass: Mass,
}

/// A bake that was done.
#[derive(Clone, Debug, PartialEq)]
pub struct Test {
    /// When.
    pub date: Located<Date>,
    /// By whom.
    pub by: Option<Located<String>>,
    /// In which kitchen.
    pub kitchen: Option<Located<String>>,
    /// Room temperature.
    pub room: Option<Located<Temperature>>,
    /// Which flour.
    pub flour: Option<Located<String>>,
    /// Dough temperature after mixing.
    pub dough: Option<Located<Temperature>>,
    /// Minutes of the bake.
    pub minutes: Option<Located<Duration>>,
    /// Temperature in the middle.
    pub core: Option<Located<Temperature>>,
    /// Share of the raw mass lost in the bake.
    pub loss: Option<Located<Fraction>>,
    /// What was seen.
    pub note: Option<Located<String>>,
    /// Where it stands.
    pub span: Span,
}

/// A kitchen as written in its own file.
#[derive(Clone, Debug, PartialEq)]
pub struct KitchenFile {
    /// Version of the file format.
    pub format: i64,
    /// Its name.
    pub name: Located<String>,
    /// Air temperature of the room.
    pub room: Located<Temperature>,
    /// Inside the refrigerator.
    pub refrigerator: Located<Temperature>,
    /// Water from the cold tap.
    pub tap: Located<Temperature>,
    /// The warm place for rising.
    pub warm_place: Option<Located<Temperature>>,
    /// Height above the sea.
    pub altitude: Located<Length>,
    /// The ingredients that stand elsewhere than the recipe says, each with its temperature.
    pub stores: Vec<(Located<String>, Located<Temperature>)>,
    /// The mixing bowl.
    pub bowl: BowlFile,
    /// The mixer, if there is one.
    pub mixer: Option<MixerFile>,
    /// How the cook measures: grams or cups.
    pub measures: Option<Located<String>>,
    /// The oven, as noted by the cook.
    pub oven: Option<OvenFile>,
}

/// The bowl that a dough is mixed in.
#[derive(Clone, Debug, PartialEq)]
pub struct BowlFile {
    /// Of what it is made.
    pub material: Located<Material>,
    /// Its mass, with the hook if that touches the dough.
    pub mass: Located<Mass>,
    /// Its volume.
    pub holds: Option<Located<Volume>>,
    /// The flour that its maker allows.
    pub flour_limit: Option<Located<Mass>>,
    /// Its temperature; the room's when not given.
    pub at: Option<Located<Temperature>>,
}

/// The mixer: how much it warms a dough.
#[derive(Clone, Debug, PartialEq)]
pub struct MixerFile {
    /// Work left in the dough, in watts per kilogram at medium speed.
    pub friction: Option<Located<numerics::quantity::SpecificPower>>,
    /// Or: how many degrees a whole mix warms it, as the cook measured.
    pub rise: Option<Located<TemperatureDifference>>,
}

/// The oven as the cook knows it.
#[derive(Clone, Debug, PartialEq)]
pub struct OvenFile {
    /// What the dial says.
    pub dial: Located<Temperature>,
    /// What a thermometer inside says then.
    pub inside: Located<Temperature>,
    /// Whether its fan runs.
    pub fan: Located<bool>,
}

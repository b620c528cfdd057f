//! The questions: their names, how they are asked, other words for them, and which one is meant.

use super::{Bench, Reply};
use super::{
    flour, hours, keeping, machines, measures, nights, oven, signs, size, swaps, symptom, yeast,
};

/// What a question is about; a page has a part for each.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum About {
    /// Another thing in the place of one.
    Instead,
    /// Cups, spoons, eggs, tins, batches.
    Amounts,
    /// Hands and machines.
    Mixing,
    /// Kitchens and clocks.
    Times,
    /// Signs and ovens.
    Oven,
    /// What went wrong.
    Faults,
    /// Keeping, serving, costing.
    Afterwards,
}

impl About {
    /// Every part, in the order of a page.
    pub const ALL: [Self; 7] = [
        Self::Instead,
        Self::Amounts,
        Self::Mixing,
        Self::Times,
        Self::Oven,
        Self::Faults,
        Self::Afterwards,
    ];

    /// The heading.
    pub const fn heading(self) -> &'static str {
        match self {
            Self::Instead => "One thing for another",
            Self::Amounts => "Amounts, tins and batches",
            Self::Mixing => "Mixing and kneading",
            Self::Times => "Kitchens and clocks",
            Self::Oven => "The oven",
            Self::Faults => "When something went wrong",
            Self::Afterwards => "Keeping and the rest",
        }
    }
}

/// A question that readers ask.
pub struct Question {
    /// Its name in kebab words.
    pub name: &'static str,
    /// The question.
    pub asks: &'static str,
    /// Other words for it, lower case.
    pub words: &'static [&'static str],
    /// What it is about.
    pub about: About,
    pub(super) answer: fn(&Bench<'_>, &mut Reply),
}

macro_rules! questions {
    ($($about:ident $name:literal $asks:literal [$($word:literal),*] $answer:path;)*) => {
        /// Every question, in the order of a page.
        pub const QUESTIONS: &[Question] = &[$(Question {
            name: $name,
            asks: $asks,
            words: &[$($word),*],
            about: About::$about,
            answer: $answer,
        }),*];
    };
}

questions! {
    Instead "other-dry-yeast" "I have the other kind of dry yeast." ["active dry yeast", "active dry", "instant yeast", "dry yeast", "rapid rise", "quick yeast", "fast action yeast", "other yeast", "active instead of instant", "mine is active", "instant instead of active"] yeast::other_dry;
    Instead "fresh-yeast" "Can I use fresh yeast?" ["cake yeast", "compressed yeast", "block of yeast", "cube of yeast", "fresh yeast from the baker"] yeast::fresh;
    Instead "one-packet" "A packet holds less yeast than the recipe wants." ["packet of yeast", "sachet", "packet", "less yeast", "not enough yeast", "too little yeast", "envelope of yeast", "one envelope"] yeast::one_packet;
    Instead "old-yeast" "My yeast is old. Will it do?" ["expired yeast", "weak yeast", "yeast out of date", "is my yeast dead", "is my yeast alive", "yeast still works", "test the yeast", "yeast does not foam", "yeast past its date", "best before of the yeast"] yeast::old;
    Instead "other-flour" "My flour is weaker or stronger than yours." ["all purpose flour", "plain flour", "bread flour", "strong flour", "protein", "weak flour", "cake flour"] flour::other;
    Instead "wholemeal" "Can part of the flour be wholemeal?" ["whole wheat", "wholegrain", "whole grain", "brown flour", "spelt", "rye flour"] flour::wholemeal;
    Instead "self-raising-flour" "I only have self-raising flour." ["self rising flour", "self raising flour", "baking powder", "self raising", "self rising"] flour::self_raising;
    Instead "gluten-free" "Can it be made without gluten?" ["gluten", "coeliac", "celiac", "without gluten", "rice flour"] flour::gluten_free;
    Instead "sourdough" "Can I use my sourdough starter?" ["starter", "levain", "wild yeast", "natural yeast"] flour::sourdough;
    Instead "no-dairy" "Can it be made without milk and butter?" ["dairy free", "dairy", "without milk", "no butter", "lactose", "vegan butter", "vegan", "oil for butter", "oat milk", "oat drink", "soy milk", "margarine", "milk allergy", "allergic to milk", "almond milk", "replace the milk", "plant milk", "replace the butter"] swaps::no_dairy;
    Instead "no-egg" "Can it be made without egg?" ["egg free", "without egg", "allergic to eggs", "egg allergy", "out of eggs", "egg substitute", "replace the egg", "vegan"] swaps::no_egg;
    Instead "less-sugar" "Can it be less sweet?" ["lower sugar", "half the sugar", "too sweet", "less sweet", "cut the sugar", "reduce the sugar", "without sugar", "sugar out", "diabetic"] swaps::less_sugar;
    Instead "honey" "Honey for the sugar?" ["honey for sugar", "syrup", "maple syrup", "agave"] swaps::honey;
    Instead "salted-butter" "I only have salted butter." ["salty butter", "salt in the butter", "salted butter"] swaps::salted_butter;
    Amounts "coarse-salt" "Table salt or coarse salt?" ["flaky salt", "sea salt", "salt flakes", "kosher salt", "table salt", "which salt", "teaspoon of salt"] measures::coarse_salt;
    Amounts "egg-size" "My eggs are another size." ["medium eggs", "large eggs", "small eggs", "extra large eggs", "big eggs", "weight of an egg"] measures::egg_size;
    Amounts "cups" "How many cups of flour is that?" ["measuring cups", "cups of flour", "no scale", "without scales", "how much is a cup", "volume of flour"] measures::cups;
    Amounts "other-tin" "My tin is another size." ["other pan", "bigger tin", "smaller tin", "larger tin", "bigger pan", "smaller pan", "pan size", "tin size", "loaf pan", "different pan", "different tin", "size tin for the loaf", "inch tin", "inch pan", "round tin", "tin holds", "litre tin", "my tin", "my pan"] size::other_tin;
    Amounts "half-batch" "Can I make half?" ["half the recipe", "half batch", "halve", "smaller batch", "smaller loaf", "only one loaf", "less dough"] size::half;
    Amounts "double-batch" "Can I make twice as much?" ["double the recipe", "twice as much", "twice", "two loaves", "triple", "bigger batch", "feed a crowd", "feed many people", "many guests"] size::double;
    Mixing "no-mixer" "I have no mixer." ["by hand", "knead by hand", "without a mixer", "mix by hand", "no machine"] machines::no_mixer;
    Mixing "food-processor" "Can a food processor knead it?" ["processor", "hand mixer", "handheld mixer", "hand held mixer", "blender"] machines::food_processor;
    Mixing "small-mixer" "My mixer is too small for it." ["mixer too small", "small bowl", "mixer limit", "mixer overloaded", "mixer overheats", "mixer struggles", "bowl too full", "mixer can take", "mixer manages", "how much flour for the mixer"] machines::small_mixer;
    Mixing "bread-machine" "Can the bread machine knead it?" ["bread maker", "breadmaker", "bread machine"] machines::bread_machine;
    Mixing "kneaded" "How do I know that it is kneaded?" ["window test", "windowpane", "kneaded enough", "stretched film", "how long to knead", "overkneaded", "knead too long", "mixed enough"] signs::kneaded;
    Mixing "salt-last" "Why not put the salt in last?" ["add salt last", "salt kills yeast", "when to add salt", "salt touches the yeast", "salt and yeast together"] signs::salt_last;
    Times "risen" "How do I know that it has risen enough?" ["doubled", "risen enough", "finger test", "poke test", "proofed enough", "how long to rise", "long to prove", "ready to bake", "doubled in size", "ready for the oven", "has it risen", "long does it rise"] signs::risen;
    Times "cold-kitchen" "My kitchen is cold." ["cold room", "winter", "cold house", "cold in here", "cold here", "freezing kitchen", "chilly", "no warm place", "cool kitchen", "cool room", "cold flat", "degrees in the kitchen", "degrees in here", "only 16 degrees", "17 degrees", "18 degrees"] hours::cold_kitchen;
    Times "hot-kitchen" "My kitchen is hot." ["hot room", "hot here", "hot house", "summer", "heat wave", "hot weather", "hot day", "warm kitchen", "no air conditioning", "humid", "tropical", "degrees in the kitchen", "degrees in here", "28 degrees", "30 degrees", "32 degrees"] hours::hot_kitchen;
    Times "altitude" "I live high up." ["high altitude", "mountains", "mountain", "height above sea", "sea level", "elevation", "live high", "metres above the sea", "metres", "feet above the sea"] hours::altitude;
    Times "faster" "Can it go faster?" ["speed up", "quicker", "quickly", "in a hurry", "short of time", "no time", "less time", "rush", "sooner", "shorten the rise", "shorter rise", "faster rise", "rise faster"] hours::faster;
    Times "overnight" "Can it stand in the refrigerator overnight?" ["fridge overnight", "cold rise", "cold proof", "retard", "slow rise", "bake tomorrow", "evening before", "night before", "prepare ahead", "make ahead", "in the fridge", "rise in the refrigerator", "until tomorrow", "rise overnight", "overnight rise"] nights::overnight;
    Times "for-breakfast" "How do I have it fresh for breakfast?" ["breakfast", "for the morning", "day before", "fresh rolls", "brunch"] nights::for_breakfast;
    Times "left-out" "Can I leave the dough out for hours?" ["leave it out", "leave the dough out", "out all night", "forgot the dough", "forgot it", "on the counter", "safe to leave out", "room temperature overnight", "stood for hours", "on the table", "stood too long", "hours at room temperature"] nights::left_out;
    Oven "done" "How do I know that it is done without a thermometer?" ["is it done", "cooked through", "baked through", "without thermometer", "no thermometer", "tap the bottom", "hollow", "tell it is baked", "finished baking"] oven::done;
    Oven "fan" "My oven has a fan." ["convection", "fan oven", "fan assisted", "hot air oven"] oven::fan;
    Oven "other-material" "My tin is glass, dark or silicone." ["glass pan", "glass dish", "glass tin", "dark pan", "dark tin", "silicone", "ceramic", "black tin", "nonstick"] oven::other_material;
    Oven "no-oven" "I have no oven." ["without an oven", "steamed", "steam it", "in a frying pan", "on the stove", "air fryer", "slow cooker", "microwave", "on the grill", "barbecue", "pan on the hob", "on the hob", "dutch oven over a fire"] oven::no_oven;
    Faults "dense" "It came out dense." ["underproofed", "underproved", "heavy", "heavy bread", "brick", "did not rise", "dough did not rise", "not rising", "will not rise", "compact", "tight crumb", "stodgy", "doorstop"] symptom::dense;
    Faults "collapsed" "It collapsed." ["overproofed", "overproved", "sank", "fell", "sour", "caved in", "deflated", "sunken", "wrinkled"] symptom::collapsed;
    Faults "holes" "It has big holes under the crust." ["flying crust", "big holes", "large holes", "tunnels", "burst side", "split side", "side split", "gap under the crust", "crack on the side", "air pockets"] symptom::holes;
    Faults "flat" "It stayed low in its tin." ["low", "short loaf", "did not fill the tin", "spread", "spread out", "flat loaf", "pancake", "no oven spring"] symptom::flat;
    Faults "over-the-rim" "It ran over the rim." ["overflow", "overflowed", "too high", "spilled over", "over the edge", "over the top", "mushroomed", "too big for the tin"] symptom::over_the_rim;
    Faults "sticky" "The dough is too sticky." ["wet dough", "too wet", "slack", "sticks to my hands", "sticks to the bench", "sticks to the bowl", "runny", "add more flour", "dough sticks", "sticks to everything"] symptom::sticky;
    Faults "stiff" "The dough is too stiff." ["dry dough", "too dry", "climbs the hook", "climbing hook", "tough", "tough dough", "hard dough", "crumbly dough", "shaggy", "add more water", "like rock", "hard as rock", "hard to knead"] symptom::stiff;
    Faults "greasy" "The butter leaks out." ["butter leaking", "oily", "butter melted", "butter ran out", "oil puddle", "shiny dough", "swimming in butter", "butter in the bowl", "grease", "butter everywhere"] symptom::greasy;
    Faults "pale" "It stayed pale." ["not brown", "white crust", "light crust", "does not brown", "no colour", "more colour", "blond"] symptom::pale;
    Faults "burnt-outside" "The top is dark and the inside raw." ["burnt top raw inside", "burnt", "raw inside", "raw in the middle", "doughy middle", "doughy", "too dark", "browns too fast", "gummy", "underbaked", "undercooked", "wet inside", "bottom burnt"] symptom::burnt_outside;
    Afterwards "freeze" "Can I freeze it?" ["freezer", "freezing", "frozen", "how does it keep", "how long does it keep", "store", "storing", "stale", "stay fresh", "best before", "thaw"] keeping::freeze;
    Afterwards "calories" "How many calories has it?" ["nutrition", "energy", "kcal", "carbs", "how fattening", "fat in a slice"] keeping::calories;
    Afterwards "cost" "What does it cost?" ["price", "how much money", "cheap", "expensive", "cheaper"] keeping::cost;
}

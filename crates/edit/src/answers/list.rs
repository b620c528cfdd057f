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
    Instead "other-dry-yeast" "I have the other kind of dry yeast." ["active dry yeast", "instant yeast", "dry yeast"] yeast::other_dry;
    Instead "fresh-yeast" "Can I use fresh yeast?" ["cake yeast", "compressed yeast", "block yeast"] yeast::fresh;
    Instead "one-packet" "A packet holds less yeast than the recipe wants." ["packet of yeast", "sachet", "less yeast", "not enough yeast"] yeast::one_packet;
    Instead "old-yeast" "My yeast is old. Will it do?" ["expired yeast", "weak yeast", "yeast out of date"] yeast::old;
    Instead "other-flour" "My flour is weaker or stronger than yours." ["all purpose flour", "plain flour", "bread flour", "protein"] flour::other;
    Instead "wholemeal" "Can part of the flour be wholemeal?" ["whole wheat", "wholegrain", "brown flour"] flour::wholemeal;
    Instead "self-raising-flour" "I only have self-raising flour." ["self rising flour"] flour::self_raising;
    Instead "gluten-free" "Can it be made without gluten?" ["coeliac", "celiac", "without gluten"] flour::gluten_free;
    Instead "sourdough" "Can I use my sourdough starter?" ["starter", "levain", "wild yeast"] flour::sourdough;
    Instead "no-dairy" "Can it be made without milk and butter?" ["dairy free", "without milk", "lactose", "vegan butter", "oil for butter"] swaps::no_dairy;
    Instead "no-egg" "Can it be made without egg?" ["egg free", "without egg", "vegan"] swaps::no_egg;
    Instead "less-sugar" "Can it be less sweet?" ["lower sugar", "half the sugar", "too sweet"] swaps::less_sugar;
    Instead "honey" "Honey for the sugar?" ["honey for sugar", "syrup"] swaps::honey;
    Instead "salted-butter" "I only have salted butter." ["salty butter"] swaps::salted_butter;
    Amounts "coarse-salt" "Table salt or coarse salt?" ["flaky salt", "sea salt", "salt flakes", "kosher salt", "table salt"] measures::coarse_salt;
    Amounts "egg-size" "My eggs are another size." ["medium eggs", "large eggs", "small eggs"] measures::egg_size;
    Amounts "cups" "How many cups of flour is that?" ["measuring cups", "no scale", "without a scale"] measures::cups;
    Amounts "other-tin" "My tin is another size." ["other pan", "bigger tin", "smaller tin", "pan size", "loaf pan"] size::other_tin;
    Amounts "half-batch" "Can I make half?" ["half the recipe", "halve"] size::half;
    Amounts "double-batch" "Can I make twice as much?" ["double the recipe", "twice"] size::double;
    Mixing "no-mixer" "I have no mixer." ["by hand", "knead by hand", "without a mixer"] machines::no_mixer;
    Mixing "food-processor" "Can a food processor knead it?" ["processor", "hand mixer", "handheld mixer"] machines::food_processor;
    Mixing "small-mixer" "My mixer is too small for it." ["mixer too small", "small bowl", "mixer limit"] machines::small_mixer;
    Mixing "bread-machine" "Can the bread machine knead it?" ["bread maker", "breadmaker"] machines::bread_machine;
    Mixing "kneaded" "How do I know that it is kneaded?" ["window test", "kneaded enough", "stretched film", "how long to knead"] signs::kneaded;
    Mixing "salt-last" "Why not put the salt in last?" ["add salt last", "salt kills yeast", "when to add salt"] signs::salt_last;
    Times "risen" "How do I know that it has risen enough?" ["doubled", "risen enough", "finger test", "proofed enough"] signs::risen;
    Times "cold-kitchen" "My kitchen is cold." ["cold room", "winter", "cold house"] hours::cold_kitchen;
    Times "hot-kitchen" "My kitchen is hot." ["hot room", "summer", "heat wave"] hours::hot_kitchen;
    Times "altitude" "I live high up." ["high altitude", "mountains", "height above sea"] hours::altitude;
    Times "faster" "Can it go faster?" ["speed up", "quicker", "in a hurry"] hours::faster;
    Times "overnight" "Can it stand in the refrigerator overnight?" ["fridge overnight", "cold rise", "retard"] nights::overnight;
    Times "for-breakfast" "How do I have it fresh for breakfast?" ["breakfast", "for the morning", "day before"] nights::for_breakfast;
    Times "left-out" "Can I leave the dough out for hours?" ["leave it out", "forgot the dough", "on the counter"] nights::left_out;
    Oven "done" "How do I know that it is done without a thermometer?" ["is it done", "without thermometer", "tap the bottom"] oven::done;
    Oven "fan" "My oven has a fan." ["convection", "fan oven"] oven::fan;
    Oven "other-material" "My tin is glass, dark or silicone." ["glass pan", "dark pan", "silicone"] oven::other_material;
    Oven "no-oven" "I have no oven." ["without an oven", "steamed", "in a pan"] oven::no_oven;
    Faults "dense" "It came out dense." ["underproofed", "heavy", "brick", "did not rise", "not rising", "compact"] symptom::dense;
    Faults "collapsed" "It collapsed." ["overproofed", "sank", "fell", "sour", "caved in"] symptom::collapsed;
    Faults "holes" "It has big holes under the crust." ["flying crust", "big holes", "tunnels", "burst side"] symptom::holes;
    Faults "flat" "It stayed low in its tin." ["low", "short loaf", "did not fill the tin", "spread"] symptom::flat;
    Faults "over-the-rim" "It ran over the rim." ["overflow", "too high", "spilled over"] symptom::over_the_rim;
    Faults "sticky" "The dough is too sticky." ["wet dough", "too wet", "slack"] symptom::sticky;
    Faults "stiff" "The dough is too stiff." ["dry dough", "too dry", "climbs the hook", "climbing hook", "tough"] symptom::stiff;
    Faults "greasy" "The butter leaks out." ["butter leaking", "oily", "butter melted"] symptom::greasy;
    Faults "pale" "It stayed pale." ["not brown", "white crust", "light crust"] symptom::pale;
    Faults "burnt-outside" "The top is dark and the inside raw." ["burnt top raw inside", "burnt", "raw inside", "too dark", "gummy", "underbaked"] symptom::burnt_outside;
    Afterwards "freeze" "Can I freeze it?" ["freezer", "freezing", "how does it keep"] keeping::freeze;
    Afterwards "calories" "How many calories has it?" ["nutrition", "energy", "kcal"] keeping::calories;
    Afterwards "cost" "What does it cost?" ["price", "how much money"] keeping::cost;
}

/// What some words lead to.
pub enum Found {
    /// One question.
    One(&'static Question),
    /// None; these names are near.
    Near(Vec<&'static str>),
}

/// How alike two words must be to be the same with a slip of the hand.
const ALIKE: f64 = 0.82;
/// How alike they must be to be worth naming.
const NEAR: f64 = 0.6;

/// The question that some words mean: its name, other words for it, or nearly either.
pub fn find(words: &str) -> Found {
    let wanted = plain(words);
    let known = |question: &Question| -> Vec<String> {
        let name = question.name.replace('-', " ");
        let more = question.words.iter().map(|word| (*word).to_owned());
        std::iter::once(name).chain(more).collect()
    };
    let exact = |question: &&Question| known(question).contains(&wanted);
    if let Some(question) = QUESTIONS.iter().find(exact) {
        return Found::One(question);
    }
    // Words within a sentence: the longest that is there.
    let within = QUESTIONS.iter().filter_map(|question| {
        let own = known(question).into_iter();
        let inside = own.filter(|word| format!(" {wanted} ").contains(&format!(" {word} ")));
        inside
            .map(|word| word.len())
            .max()
            .map(|length| (length, question))
    });
    if let Some((_, question)) = within.max_by_key(|(length, _)| *length) {
        return Found::One(question);
    }
    let mut alike: Vec<(f64, &Question)> = QUESTIONS
        .iter()
        .map(|question| {
            let own = known(question).into_iter();
            let best = own
                .map(|word| strsim::normalized_damerau_levenshtein(&wanted, &word))
                .fold(0.0, f64::max);
            (best, question)
        })
        .collect();
    alike.sort_by(|one, other| other.0.total_cmp(&one.0));
    match alike.first() {
        Some((best, question)) if *best >= ALIKE => Found::One(question),
        _ => Found::Near(
            alike
                .into_iter()
                .filter(|(best, _)| *best >= NEAR)
                .take(3)
                .map(|(_, question)| question.name)
                .collect(),
        ),
    }
}

fn plain(words: &str) -> String {
    let kept = words
        .to_lowercase()
        .replace(|letter: char| !letter.is_alphanumeric(), " ");
    kept.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[cfg(test)]
mod tests {
    use super::{Found, QUESTIONS, find};

    fn name(words: &str) -> String {
        match find(words) {
            Found::One(question) => question.name.to_owned(),
            Found::Near(names) => format!("near {names:?}"),
        }
    }

    #[test]
    fn a_question_is_found_by_its_name_by_other_words_and_with_a_slip() {
        assert_eq!(name("cold-kitchen"), "cold-kitchen");
        assert_eq!(name("Burnt top, raw inside"), "burnt-outside");
        assert_eq!(name("why did my loaf collapse? it sank"), "collapsed");
        assert_eq!(name("collapsd"), "collapsed");
        assert_eq!(name("fresh yaest"), "fresh-yeast");
        assert_eq!(name("my butter is leaking, butter leaking"), "greasy");
        assert_eq!(name("zzzz"), "near []");
    }

    #[test]
    fn names_and_words_lead_to_one_question_each() {
        let mut all: Vec<String> = Vec::new();
        for question in QUESTIONS {
            for word in std::iter::once(question.name.replace('-', " "))
                .chain(question.words.iter().map(|word| (*word).to_owned()))
            {
                assert!(!all.contains(&word), "{word} stands twice");
                assert_eq!(word, super::plain(&word), "{word} would never be found");
                all.push(word);
            }
        }
        assert_eq!(QUESTIONS.len(), 51);
    }
}

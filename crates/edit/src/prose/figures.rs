//! The figures of the author's own words, each held against the model.
//!
//! A figure that the model holds too is named with its place there. One that contradicts its own
//! step is told so. What the model has no place for, such as the length of a rope, stays the
//! author's own.

use super::known::{self, Kind, Known};
use super::passages::{Of, Passage, Spot, passages, words};
use super::spoken::with_spoken;
use crate::{Heard, Inputs};
use numerics::quantity::{Duration, Fraction, Length, Mass, Temperature};
use recipe::document::model::Action;
use recipe::measure::Quantity;
use recipe::measure::read::sentence::{holds, quantities};
use std::ops::Range;

/// How a figure in words stands to the model.
#[derive(Clone, Debug, PartialEq)]
pub enum Standing {
    /// The model holds the same, at this place.
    Held(String),
    /// Its own step says another figure: the place and the value in SI.
    Differs(String, f64),
    /// The model should hold it and does not.
    Nowhere,
    /// The model has no place for it: the author's own.
    Own,
}

/// A figure in the author's words.
#[derive(Clone, Debug, PartialEq)]
pub struct WordFigure {
    /// Which passage, by its number among all.
    pub passage: usize,
    /// Its name in the ledger: the passage and its number in it.
    pub name: String,
    /// Its bytes in the passage.
    pub part: Range<usize>,
    /// As it is written.
    pub shown: String,
    /// What it is.
    pub quantity: Quantity,
    /// How it stands to the model.
    pub standing: Standing,
}

impl WordFigure {
    /// Its value in SI and the unit; of a range the low end.
    pub fn si(&self) -> (f64, &'static str) {
        match &self.quantity {
            Quantity::Mass(mass) => (mass.low.si(), Mass::SI),
            Quantity::Measures(all) => (holds(all).si(), "m3"),
            Quantity::Temperature(at) => (at.low.si(), Temperature::SI),
            Quantity::Time(time) => (time.low.si(), Duration::SI),
            Quantity::Length(length) => (length.low.si(), Length::SI),
            Quantity::Share(share) => (share.low.si(), "1"),
            Quantity::Multiple(times) => (*times, "1"),
            Quantity::Count { count, .. } => (*count, "1"),
        }
    }
}

/// The figures of every passage of a recipe; without the file's text places are whole passages.
pub fn figures(inputs: &Inputs, heard: &Heard) -> Vec<WordFigure> {
    let all = passages(inputs.recipe, inputs.written);
    in_passages(inputs, heard, &all)
}

/// The figures of passages that are at hand.
pub fn in_passages(inputs: &Inputs, heard: &Heard, passages: &[Passage]) -> Vec<WordFigure> {
    let recipe = known::of_the_recipe(inputs, heard);
    let of_steps: Vec<Known> = passages
        .iter()
        .filter(|passage| passage.is_step())
        .filter_map(|passage| passage.of.as_ref())
        .flat_map(known::of_a_step)
        .collect();
    let mut found = Vec::new();
    for (place, passage) in passages.iter().enumerate() {
        let oven = passage.of.as_ref().is_some_and(|of| {
            matches!(of.step.action, Action::Bake { .. } | Action::Preheat { .. })
        });
        let read = with_spoken(&passage.words, oven, quantities(&passage.words));
        for (number, said) in read.into_iter().enumerate() {
            let part = said.span.start..said.span.end;
            let model = Model {
                inputs,
                recipe: &recipe,
                steps: &of_steps,
            };
            found.push(WordFigure {
                passage: place,
                name: format!("{}.words-{}", passage.spot.name(), number + 1),
                shown: passage.written[part.clone()].to_owned(),
                standing: model.stands(passage, &part, &said.value),
                quantity: said.value,
                part,
            });
        }
    }
    found
}

/// What words are held against.
struct Model<'a> {
    inputs: &'a Inputs<'a>,
    recipe: &'a [Known],
    steps: &'a [Known],
}

/// Words before a figure that make of it a limit or a part, not what the step takes.
const LIMITS: [&str; 22] = [
    "after",
    "every",
    "within",
    "first",
    "last",
    "another",
    "further",
    "than",
    "below",
    "above",
    "most",
    "least",
    "over",
    "under",
    "beyond",
    "exceed",
    "before",
    "extra",
    "additional",
    "up",
    "remaining",
    "final",
];

/// So near that a figure counts as the same: the other scale of a pair, a rounded mass.
fn same(kind: Kind, one: f64, other: f64) -> bool {
    let apart = (one - other).abs();
    match kind {
        // An oven's dial goes by 5 °C or 25 °F, a probe by one.
        Kind::Temperature if one > 373.0 => apart <= 4.0,
        Kind::Temperature => apart <= 0.6,
        Kind::Mass => apart <= (0.01 * one).max(0.000_5),
        Kind::Share => apart <= 0.006,
        Kind::Count => apart < 1e-6,
        Kind::Time | Kind::Length | Kind::Multiple => apart <= 0.01 * one,
    }
}

/// The kind of a quantity with its ends in SI; none for measures, which no figure is held against.
fn ends(quantity: &Quantity) -> Option<(Kind, f64, f64)> {
    Some(match quantity {
        Quantity::Mass(mass) => (Kind::Mass, mass.low.si(), mass.high.si()),
        Quantity::Temperature(at) => (Kind::Temperature, at.low.si(), at.high.si()),
        Quantity::Time(time) => (Kind::Time, time.low.si(), time.high.si()),
        Quantity::Length(length) => (Kind::Length, length.low.si(), length.high.si()),
        Quantity::Share(share) => (Kind::Share, share.low.si(), share.high.si()),
        Quantity::Multiple(times) => (Kind::Multiple, *times, *times),
        Quantity::Count { count, .. } => (Kind::Count, *count, *count),
        Quantity::Measures(_) => return None,
    })
}

impl Model<'_> {
    fn stands(&self, passage: &Passage, part: &Range<usize>, quantity: &Quantity) -> Standing {
        let Some((kind, low, high)) = ends(quantity) else {
            return Standing::Own;
        };
        let own = passage.of.as_ref().map(|of| of.number);
        let is_known =
            |known: &&Known, value: f64| known.kind == kind && same(kind, known.value, value);
        let in_step = |value: f64| {
            let mut of_step = self.steps.iter().filter(|known| known.step == own);
            of_step.find(|known| own.is_some() && is_known(known, value))
        };
        // A figure of its own product or stage is more likely meant than the same elsewhere.
        let near = passage.of.as_ref().map(|of| match (of.stage, of.product) {
            (Some(stage), _) => format!("stage.{}.", stage.name.value),
            (_, Some(product)) => format!("product.{}.", product.name.value),
            _ => String::new(),
        });
        let anywhere = |value: f64| {
            let all = || self.recipe.iter().chain(self.steps);
            let own = |known: &&Known| {
                near.as_ref()
                    .is_some_and(|near| known.name.starts_with(near.as_str()))
            };
            all()
                .filter(own)
                .find(|known| is_known(known, value))
                .or_else(|| all().find(|known| is_known(known, value)))
        };
        if let (Some(one), Some(_)) = (in_step(low), in_step(high)) {
            return Standing::Held(one.name.clone());
        }
        if kind == Kind::Share {
            return self.share(passage, part, low);
        }
        if kind == Kind::Count {
            return self.count(passage, part, low);
        }
        let limit = limited(&passage.words, part);
        if let (Some(of), Spot::Step(_)) = (&passage.of, &passage.spot)
            && !limit
            && let Some(standing) =
                self.in_its_step(of, kind, (low, high), &passage.words[..part.start])
        {
            return standing;
        }
        // How long bread keeps, and what comes on top of a time, is no figure of the recipe's even
        // where it is as large as one.
        let timely = matches!(kind, Kind::Time | Kind::Temperature);
        let apart = passage.spot == Spot::Storage || limit;
        if !(timely && apart)
            && let (Some(one), Some(_)) = (anywhere(low), anywhere(high))
        {
            return Standing::Held(one.name.clone());
        }
        let masses = matches!(passage.spot, Spot::Step(_) | Spot::Headnote | Spot::Title);
        if kind == Kind::Mass && masses && !limit {
            return Standing::Nowhere;
        }
        if kind == Kind::Temperature && passage.is_step() && !limit {
            return Standing::Nowhere;
        }
        if kind == Kind::Time && !limit && tells_the_whole(passage, part) {
            let total = self.recipe.iter().find(|known| known.name == "times.total");
            if let Some(total) = total
                && total.value > 0.0
                && !self.near_a_total(low, high)
            {
                return Standing::Differs(total.name.clone(), total.value);
            }
        }
        Standing::Own
    }

    /// A heat or a time that contradicts the step whose sentence it stands in.
    fn in_its_step(&self, of: &Of, kind: Kind, ends: (f64, f64), before: &str) -> Option<Standing> {
        match kind {
            Kind::Temperature => {
                let hot = ends.0 > 373.0;
                let own: Vec<&Known> = self
                    .steps
                    .iter()
                    .filter(|known| known.step == Some(of.number) && known.kind == kind)
                    .filter(|known| (known.value > 373.0) == hot)
                    .collect();
                let baked = matches!(of.step.action, Action::Bake { .. } | Action::Preheat { .. });
                let [first, ..] = own[..] else { return None };
                (hot && baked || !baked && own.len() == 1)
                    .then(|| Standing::Differs(first.name.clone(), first.value))
            }
            Kind::Time => {
                let (usual, from, to) = known::time_of(of.step)?;
                if ends.0 >= from.si() * 0.99 && ends.1 <= to.si() * 1.01 {
                    return Some(Standing::Held(format!("step.{}.time-range", of.number)));
                }
                let part = ends.1 < 0.5 * from.si() && known::may_be_part(of.step, before);
                (!part).then(|| Standing::Differs(format!("step.{}.time", of.number), usual.si()))
            }
            _ => None,
        }
    }

    /// Whether a stretch is about one of the recipe's own sums, as a headnote rounds: by a tenth.
    fn near_a_total(&self, low: f64, high: f64) -> bool {
        let totals = [
            "times.total",
            "times.on-the-day",
            "times.hands-on",
            "times.promise",
        ];
        self.recipe
            .iter()
            .filter(|known| totals.contains(&known.name.as_str()) && known.value > 0.0)
            .any(|known| low <= known.value * 1.1 && known.value * 0.9 <= high)
    }

    /// A share beside the word for what it is of: "70 % hydration".
    fn share(&self, passage: &Passage, part: &Range<usize>, value: f64) -> Standing {
        let near = near(&passage.words, part);
        let of_flour = passage.words[part.end..]
            .trim_start()
            .starts_with("of the flour");
        for word in ["hydration", "salt", "water", "fat", "sugar"] {
            // "12 % fat" may be the cream's; "of the flour" says whose it is.
            if !of_flour && !["hydration", "salt"].contains(&word) {
                continue;
            }
            let named = near.iter().any(|one| one == word);
            let share = known::share_called(self.inputs, word).filter(|_| named);
            let Some((name, share)) = share else { continue };
            let place = format!("dough.{name}");
            return if same(Kind::Share, share.si(), value) {
                Standing::Held(place)
            } else {
                Standing::Differs(place, Fraction::si(share))
            };
        }
        let known = self
            .recipe
            .iter()
            .find(|known| known.kind == Kind::Share && same(Kind::Share, known.value, value));
        known.map_or(Standing::Own, |known| Standing::Held(known.name.clone()))
    }

    /// A number before the name of a product: "ten buns".
    fn count(&self, passage: &Passage, part: &Range<usize>, value: f64) -> Standing {
        let after = passage.words[part.end..].to_lowercase();
        let stop = after.find(['.', ';', ':', ',', '(']).unwrap_or(after.len());
        let next: Vec<&str> = words(&after[..stop])
            .into_iter()
            .take(3)
            .map(|(_, word)| word)
            .collect();
        for product in &self.inputs.recipe.products {
            let name = product.name.value.to_lowercase();
            let last = name.rsplit(' ').next().unwrap_or(&name).to_owned();
            let place = next.iter().position(|word| one_of(word) == one_of(&last));
            let joined = next
                .iter()
                .take(place.unwrap_or(0))
                .any(|word| ["of", "and", "or", "for", "in", "the"].contains(word));
            if place.is_none() || joined {
                continue;
            }
            let own = f64::from(product.count.value);
            let place = format!("product.{}.count", product.name.value);
            // "the last 2 buns", "2 of the buns" are some of them.
            let whole = !matches!(passage.spot, Spot::Step(_) | Spot::See(_));
            return if same(Kind::Count, own, value) {
                Standing::Held(place)
            } else if whole && !limited(&passage.words, part) && !shared_name(self.inputs, &last) {
                Standing::Differs(place, own)
            } else {
                Standing::Own
            };
        }
        let before = words(&passage.words[..part.start]);
        let all_of_them = before
            .last()
            .is_some_and(|(_, word)| word.eq_ignore_ascii_case("all"));
        if let (true, Some(product)) = (all_of_them, passage.of.as_ref().and_then(|of| of.product))
        {
            let count = product.count.value;
            let mut fits = product.piece.value.iter().map(|part| part.count * count);
            let held = fits.any(|parts| same(Kind::Count, f64::from(parts), value));
            let place = format!("product.{}.count", product.name.value);
            return if held || same(Kind::Count, f64::from(count), value) {
                Standing::Held(place)
            } else {
                Standing::Differs(place, f64::from(count))
            };
        }
        let known = self.steps.iter().filter(|known| {
            known.step == passage.of.as_ref().map(|of| of.number) && known.step.is_some()
        });
        let mut known = known
            .chain(self.recipe)
            .filter(|known| known.kind == Kind::Count && same(Kind::Count, known.value, value));
        let pieces = next
            .first()
            .is_some_and(|word| one_of(word) == "piece" || one_of(word) == "ball");
        let product = passage.of.as_ref().and_then(|of| of.product);
        if let (true, Some(product)) = (pieces, product) {
            let parts = product.piece.value.iter().map(|part| part.count);
            let all: u32 = parts.clone().sum();
            let fits = |count: u32| same(Kind::Count, f64::from(count), value);
            let mut every = parts.chain([all, product.count.value, all * product.count.value]);
            if every.any(fits) {
                return Standing::Held(format!("product.{}.pieces", product.name.value));
            }
        }
        known
            .next()
            .filter(|_| pieces)
            .map_or(Standing::Own, |known| Standing::Held(known.name.clone()))
    }
}

/// Whether a time in the words around the recipe is said to be all of it.
fn tells_the_whole(passage: &Passage, part: &Range<usize>) -> bool {
    if !matches!(passage.spot, Spot::Headnote | Spot::Title | Spot::FilmTitle) {
        return false;
    }
    let after = passage.words[part.end..].trim_start().to_lowercase();
    let before = passage.words[..part.start].trim_end().to_lowercase();
    let told = [
        "from start to finish",
        "start to finish",
        "in all",
        "all told",
        "altogether",
        "in total",
    ];
    told.iter().any(|words| after.starts_with(words))
        || [", in", "ready in", "done in", "made in", "takes"]
            .iter()
            .any(|words| before.ends_with(words))
}

/// Whether several products share the last word of their names: "plain buns", "iced buns".
fn shared_name(inputs: &Inputs, last: &str) -> bool {
    let ends =
        |name: &str| one_of(name.to_lowercase().rsplit(' ').next().unwrap_or("")) == one_of(last);
    let products = &inputs.recipe.products;
    products
        .iter()
        .filter(|product| ends(&product.name.value))
        .count()
        > 1
}

/// A word in the singular, near enough to compare.
pub fn one_of(word: &str) -> String {
    let lower = word.to_lowercase();
    match lower.strip_suffix("ves") {
        Some(stem) => format!("{stem}f"),
        None => lower.strip_suffix('s').unwrap_or(&lower).to_owned(),
    }
}

/// Whether a figure is a limit or a part by the words before it, or by "more" behind it.
fn limited(text: &str, part: &Range<usize>) -> bool {
    let before: Vec<String> = words(&text[..part.start])
        .into_iter()
        .rev()
        .take(3)
        .map(|(_, word)| word.to_lowercase())
        .collect();
    let after = text[part.end..].trim_start();
    let first = words(after).first().map_or("", |(_, word)| *word);
    before.iter().any(|word| LIMITS.contains(&word.as_str()))
        || [
            "more", "before", "apart", "later", "longer", "earlier", "or", "each", "per",
        ]
        .contains(&first)
}

/// The three words on either side of a figure, lower case.
fn near(text: &str, part: &Range<usize>) -> Vec<String> {
    let before = words(&text[..part.start]).into_iter().rev().take(3);
    let after = words(&text[part.end..]).into_iter().take(3);
    before
        .chain(after)
        .map(|(_, word)| word.to_lowercase())
        .collect()
}

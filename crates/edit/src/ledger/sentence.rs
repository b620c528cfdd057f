//! The author's sentence with its placeholders turned into amounts, names and temperatures.

use super::items::{self, grams};
use super::model::{Figure, Run};
use super::{figure, products, readers, say};
use crate::Inputs;
use numerics::quantity::{Mass, Range, Temperature};
use recipe::document::model::{Action, Amount, Item, Place, Product, Recipe, Stage, Step};
use recipe::document::placeholder::{Part, Piece, parse_sentence};
use recipe::formula::{Resolved, ResolvedItem};
use recipe::measure::{Market, weigh};
use recipe::provenance::{Had, Origin};

/// What the names in a sentence may mean.
pub struct Scope<'a> {
    recipe: &'a Recipe,
    market: Option<Market>,
    items: Vec<(&'a Item, &'a ResolvedItem)>,
    besides: Vec<(&'a Item, &'a ResolvedItem)>,
    steps: &'a [Step],
}

impl<'a> Scope<'a> {
    /// The scope of a stage's sentences.
    pub fn stage(inputs: &Inputs<'a>, stage: &'a Stage) -> Self {
        let sum = inputs
            .formula
            .stages
            .iter()
            .find(|sum| sum.name == stage.name.value);
        let resolved = sum.map_or(&[][..], |sum| &sum.items);
        Self {
            recipe: inputs.recipe,
            market: inputs.market,
            items: stage.items.iter().zip(resolved).collect(),
            besides: inputs
                .recipe
                .besides
                .iter()
                .zip(&inputs.formula.besides)
                .collect(),
            steps: &stage.steps,
        }
    }

    /// The scope of a product's sentences.
    pub fn product(inputs: &Inputs<'a>, product: &'a Product) -> Self {
        Self {
            recipe: inputs.recipe,
            market: inputs.market,
            items: Vec::new(),
            besides: inputs
                .recipe
                .besides
                .iter()
                .zip(&inputs.formula.besides)
                .collect(),
            steps: &product.steps,
        }
    }

    fn item(&self, name: &str) -> Option<(&'a Item, &'a ResolvedItem)> {
        let called = |pairs: &[(&'a Item, &'a ResolvedItem)]| {
            pairs
                .iter()
                .find(|(item, _)| item.called() == name)
                .copied()
        };
        called(&self.items).or_else(|| called(&self.besides))
    }

    fn beside(&self, name: &str, place: Place) -> Option<(&'a Item, &'a ResolvedItem)> {
        self.besides
            .iter()
            .find(|(item, _)| {
                item.called() == name && item.on.as_ref().is_some_and(|on| on.value == place)
            })
            .copied()
    }
}

/// The sentence of a step in runs of words and figures.
pub fn runs(scope: &Scope, place: &str, step: &Step) -> Vec<Run> {
    let (pieces, _) = parse_sentence(&step.text.value, 0);
    let mut out = Runs {
        place,
        runs: Vec::new(),
    };
    for piece in pieces {
        match piece.value {
            Piece::Words(words) => out.words(&say::units_kept(&words)),
            Piece::Use { item, part } => used(scope, &mut out, &item, &part),
            Piece::Mention(name) => out.words(&mention(scope, &name)),
            Piece::Besides { item, place: on } => match scope.beside(&item, on) {
                Some((item, resolved)) => amount(scope, &mut out, item, resolved),
                None => out.words(&item),
            },
            Piece::Temperature(name) => match temperature(scope, &name) {
                Some(at) => out.reading(&name, at, say::temperature(at)),
                None => out.words(&format!("{name} temperature")),
            },
            Piece::DoughTemperature => match wanted(scope) {
                Some(range) => out.reading("dough", range.low, say::temperature_range(range)),
                None => out.words("its temperature"),
            },
            Piece::Oven => match dial(scope) {
                Some(at) => out.reading("oven", at, readers::dial(at, scope.market)),
                None => out.words("its temperature"),
            },
            Piece::Core => match core(scope) {
                Some(at) => out.reading("core", at, say::temperature(at)),
                None => out.words("done"),
            },
            Piece::Pieces(name) => {
                let product = scope.recipe.products.iter().find(|p| p.name.value == name);
                match product {
                    Some(product) => pieces_of(&mut out, product),
                    None => out.words(&name),
                }
            }
        }
    }
    out.runs
}

/// The runs of one sentence while they are collected.
struct Runs<'a> {
    place: &'a str,
    runs: Vec<Run>,
}

impl Runs<'_> {
    fn words(&mut self, words: &str) {
        if let Some(Run::Words(last)) = self.runs.last_mut() {
            last.push_str(words);
        } else if !words.is_empty() {
            self.runs.push(Run::Words(words.to_owned()));
        }
    }

    fn figure(&mut self, figure: Figure) {
        self.runs.push(Run::Figure(figure));
    }

    fn reading(&mut self, what: &str, at: Temperature, shown: String) {
        let name = format!("{}.{what}.temperature", self.place);
        let origin = Origin::new("the recipe", Had::Written);
        self.figure(figure(name, at.si(), Temperature::SI, shown, origin));
    }

    fn mass(&mut self, what: &str, mass: Mass, origin: &Origin) {
        self.figure(grams(format!("{}.{what}.used", self.place), mass, origin));
    }
}

/// A whole item: "210 g whole milk", "3 large eggs (150 g)", "zest of 1 orange (8 g)", "all of the
/// sponge".
fn amount(scope: &Scope, out: &mut Runs, item: &Item, resolved: &ResolvedItem) {
    if let Some(Amount::Count { .. }) = item.take.as_ref().map(|take| &take.value) {
        let shown = item
            .take
            .as_ref()
            .map_or_else(String::new, |take| counted(scope, &take.value, resolved));
        let value = resolved.mass.map_or(0.0, Mass::si);
        let name = format!("{}.{}.count", out.place, item.called());
        let origin = Origin::new("the recipe", Had::Written);
        // "1 orange" of "orange zest" is "zest of 1 orange".
        let part_of_fruit = match item.take.as_ref().map(|take| &take.value) {
            Some(Amount::Count {
                size: Some(size), ..
            }) => item.called().strip_prefix(&format!("{size} ")),
            _ => None,
        };
        if let Some(part) = part_of_fruit {
            out.words(&format!("{part} of "));
        }
        out.figure(figure(name, value, Mass::SI, shown, origin));
        if part_of_fruit.is_none() {
            let several = matches!(
                item.take.as_ref().map(|take| &take.value),
                Some(Amount::Count { count, .. }) if *count > 1.0
            );
            // "3 large eggs", however the list calls one of them.
            let plural = several
                && ["egg", "yolk", "white"]
                    .iter()
                    .any(|word| item.called().ends_with(word));
            out.words(&format!(
                "\u{a0}{}{}",
                item.called(),
                if plural { "s" } else { "" }
            ));
        }
        if let Some(mass) = resolved.mass {
            out.words(" (");
            out.mass(item.called(), mass, &resolved.origin);
            out.words(")");
        }
        return;
    }
    match resolved.mass {
        Some(mass) => {
            out.mass(item.called(), mass, &resolved.origin);
            out.words(&format!(" {}", items::name(item, resolved, scope.market)));
        }
        None => out.words(&items::name(item, resolved, scope.market)),
    }
}

/// A counted item in the words of the readers' country; the count as written where they have none.
fn counted(scope: &Scope, amount: &Amount, resolved: &ResolvedItem) -> String {
    let there = match &resolved.what {
        Resolved::Ingredient(ingredient) => {
            readers::measure(amount, ingredient, resolved.mass, scope.market)
        }
        _ => None,
    };
    there.map_or_else(|| say::amount(amount), |(shown, _)| shown)
}

fn used(scope: &Scope, out: &mut Runs, name: &str, part: &Part) {
    let Some((item, resolved)) = scope.item(name) else {
        // A stage named by a product's sentence: its share of the filling.
        out.words(&format!("the {name}"));
        return;
    };
    let stage = scope
        .recipe
        .stages
        .iter()
        .any(|stage| stage.name.value == item.of.value);
    if stage && item.take.is_none() && *part == Part::Whole {
        out.words(&format!("all of the {}", item.of.value));
        return;
    }
    let short = items::name(item, resolved, scope.market);
    match part {
        Part::Whole => amount(scope, out, item, resolved),
        Part::Mass(mass) => {
            out.mass(&format!("{name}.part"), *mass, &resolved.origin);
            out.words(&format!(" of the {short}"));
        }
        Part::Amount(amount) => {
            let mass = part_mass(resolved, amount);
            let shown = match &resolved.what {
                Resolved::Ingredient(ingredient) => {
                    readers::measure(amount, ingredient, mass, scope.market)
                }
                _ => None,
            };
            let shown = shown.map_or_else(
                || mass.map_or_else(|| say::amount(amount), say::mass),
                |(shown, _)| shown,
            );
            let of = format!("{}.{name}.part.measure", out.place);
            let origin = Origin::new("the recipe", Had::Written);
            out.figure(figure(
                of,
                mass.map_or(0.0, Mass::si),
                Mass::SI,
                shown,
                origin,
            ));
            out.words(&format!(" of the {short}"));
            part_in_brackets(out, name, mass, resolved);
        }
        Part::Fraction(fraction) => {
            out.words(&format!("{} of the {short}", fraction_in_words(*fraction)));
            part_in_brackets(
                out,
                name,
                resolved.mass.map(|mass| mass * *fraction),
                resolved,
            );
        }
        Part::Rest => {
            out.words(&format!("the rest of the {short}"));
            let rest = resolved.mass.and_then(|mass| rest_of(scope, name, mass));
            part_in_brackets(out, name, rest, resolved);
        }
    }
}

fn part_in_brackets(out: &mut Runs, name: &str, mass: Option<Mass>, resolved: &ResolvedItem) {
    if let Some(mass) = mass {
        out.words(" (");
        out.mass(&format!("{name}.part"), mass, &resolved.origin);
        out.words(")");
    }
}

/// What a part by measure or count weighs, when that is known.
fn part_mass(resolved: &ResolvedItem, amount: &Amount) -> Option<Mass> {
    match &resolved.what {
        Resolved::Ingredient(ingredient) => weigh(ingredient, amount).ok().map(|(mass, _)| mass),
        _ => None,
    }
}

/// What is left of an item after the parts that the stage's sentences name.
fn rest_of(scope: &Scope, name: &str, whole: Mass) -> Option<Mass> {
    let mut left = whole;
    for step in scope.steps {
        for piece in parse_sentence(&step.text.value, 0).0 {
            if let Piece::Use { item, part } = piece.value
                && item == name
            {
                match part {
                    Part::Mass(mass) => left = left - mass,
                    Part::Fraction(fraction) => left = left - whole * fraction,
                    Part::Amount(amount) => {
                        let (_, resolved) = scope.item(name)?;
                        left = left - part_mass(resolved, &amount)?;
                    }
                    Part::Whole | Part::Rest => {}
                }
            }
        }
    }
    (left > Mass::ZERO).then_some(left)
}

fn fraction_in_words(value: f64) -> &'static str {
    match numerics::decimal::fixed(value * 12.0, 0).as_str() {
        "3" => "a quarter",
        "4" => "a third",
        "6" => "half",
        "8" => "two thirds",
        "9" => "three quarters",
        _ => "part",
    }
}

fn mention(scope: &Scope, name: &str) -> String {
    scope
        .item(name)
        .map_or_else(|| name.to_owned(), |(item, _)| item.called().to_owned())
}

fn temperature(scope: &Scope, name: &str) -> Option<Temperature> {
    scope.item(name)?.0.at.as_ref().map(|at| at.value)
}

fn wanted(scope: &Scope) -> Option<Range<Temperature>> {
    scope.steps.iter().find_map(|step| match &step.action {
        Action::Mix { dough, .. } => dough.as_ref().map(|dough| dough.value),
        _ => None,
    })
}

fn dial(scope: &Scope) -> Option<Temperature> {
    scope.steps.iter().find_map(|step| match &step.action {
        Action::Bake { phases, .. } => phases.first().map(|phase| phase.at.value),
        _ => None,
    })
}

fn core(scope: &Scope) -> Option<Temperature> {
    scope.steps.iter().find_map(|step| match &step.action {
        Action::Bake { core, .. } => core.as_ref().map(|core| core.value),
        _ => None,
    })
}

/// "3 × 220 g", "10 × (48 g + 8 g)".
fn pieces_of(out: &mut Runs, product: &Product) {
    let piece = products::piece_mass(product);
    let name = format!("{}.{}.pieces", out.place, product.name.value);
    let all = piece * f64::from(product.count.value);
    let origin = Origin::new("the recipe", Had::Written);
    out.figure(figure(
        name,
        all.si(),
        Mass::SI,
        products::cut(product),
        origin,
    ));
}

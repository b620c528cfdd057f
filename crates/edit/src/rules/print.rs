//! What a printed recipe owes its reader: who, when, how much, how it keeps, how often baked.

use super::limits::Limit;
use super::route::bakes;
use super::{Case, Rule};
use crate::code;
use crate::ledger::say;
use numerics::decimal::fixed;
use numerics::quantity::Mass;
use recipe::document::model::{Action, Photo, Recipe, Test};
use recipe::formula::bands::{Measured, band};
use recipe::source::{Code, Diagnostic, Located, Span};

pub const RULES: &[Rule] = &[
    lines,
    portion,
    tests,
    photographs,
    film,
    film_address,
    sponsor,
    baked_mass,
    cooling,
];

/// A line that belongs on a page: whether it is there, what is said when not, and the way out.
type Line = (Code, fn(&Recipe) -> bool, &'static str, &'static str);

const LINES: [Line; 7] = [
    (
        code::AUTHOR_MISSING,
        |r| says(r.author.as_ref()),
        "Nobody is named as the author, so a reader cannot tell whose bread this is.",
        "Add `author` with a name.",
    ),
    (
        code::DATE_MISSING,
        |r| r.published.is_some(),
        "The date of publication is missing.",
        "Add `published`, as year-month-day.",
    ),
    (
        code::VERSION_MISSING,
        |r| says(r.version.as_ref()),
        "There is no version, so two prints of this recipe cannot be told apart.",
        "Add `version`, and raise it with each change of an amount, a time or a temperature.",
    ),
    (
        code::HEADNOTE_MISSING,
        |r| says(r.headnote.as_ref()),
        "Nothing is said before the recipe: what bread it is, and what is special in making it.",
        "Add `headnote`, two or three sentences.",
    ),
    (
        code::STORAGE_MISSING,
        |r| says(r.storage.as_ref()),
        "It is not said how the bread keeps.",
        "Add `storage`: where, how many days, and freezing with its temperature.",
    ),
    (
        code::MAKE_AHEAD_MISSING,
        |r| says(r.make_ahead.as_ref()),
        "It is not said what can be done the day before.",
        "Add `make-ahead`: what may wait, for how long and at what temperature; or that nothing may.",
    ),
    (
        code::SERVES_MISSING,
        |r| says(r.serves.as_ref()),
        "It is not said for how many people it is.",
        "Add `serves`, such as \"8-10\".",
    ),
];

fn says(text: Option<&Located<String>>) -> bool {
    text.is_some_and(|text| !text.value.trim().is_empty())
}

fn lines(case: &Case) -> Vec<Diagnostic> {
    let recipe = case.inputs.recipe;
    LINES
        .iter()
        .filter(|(_, there, _, _)| !there(recipe))
        .map(|&(code, _, message, hint)| {
            Diagnostic::at(code, recipe.title.span, message).hint(hint)
        })
        .collect()
}

fn portion(case: &Case) -> Vec<Diagnostic> {
    let (recipe, formula) = (case.inputs.recipe, case.inputs.formula);
    let Some((serves, (few, many))) = recipe
        .serves
        .as_ref()
        .and_then(|serves| Some((serves, people(&serves.value)?)))
    else {
        return Vec::new();
    };
    let baked: Mass = recipe
        .products
        .iter()
        .zip(&formula.products)
        .map(|(product, sum)| {
            let raw = (sum.piece + sum.filling) * 0.88;
            product.after_bake.as_ref().map_or(raw, |mass| mass.value) * f64::from(sum.count)
        })
        .sum();
    let (least, most) = Limit::Portion.masses();
    let (least, most) = (least.grams(), most.grams());
    let (large, small) = (baked.grams() / few, baked.grams() / many);
    if baked <= Mass::ZERO || (large >= least && small <= most) {
        return Vec::new();
    }
    let suits = (baked.grams() / most, baked.grams() / least);
    vec![
        Diagnostic::at(
            code::SERVES_UNUSUAL,
            serves.span,
            format!(
                "{} of bread for {} comes to {} for each; usual are {}–{} g.",
                say::mass(baked),
                serves.value,
                if fixed(large, 0) == fixed(small, 0) {
                    format!("{} g", fixed(large, 0))
                } else {
                    format!("{}–{} g", fixed(small, 0), fixed(large, 0))
                },
                fixed(least, 0),
                fixed(most, 0)
            ),
        )
        .hint(format!(
            "It suits {} to {}.",
            fixed(suits.0.ceil(), 0),
            fixed(suits.1.floor(), 0)
        ))
        .because("After the bake as written; where that is not written, 12 % is taken off for it."),
    ]
}

/// The first two whole numbers of a phrase: fewest and most people.
fn people(serves: &str) -> Option<(f64, f64)> {
    let mut numbers = serves
        .split(|letter: char| !letter.is_ascii_digit())
        .filter_map(|digits| digits.parse::<f64>().ok())
        .filter(|number| *number > 0.0);
    let few = numbers.next()?;
    Some((few, numbers.next().unwrap_or(few)))
}

/// Test bakes that a printed recipe should have behind it; common practice of test kitchens.
const ENOUGH_TESTS: usize = 3;

fn tests(case: &Case) -> Vec<Diagnostic> {
    let recipe = case.inputs.recipe;
    let Some(first) = recipe.tested.first() else {
        return vec![
            Diagnostic::at(
                code::NEVER_TESTED,
                recipe.title.span,
                "No test bake is noted, so no figure here has been seen to work.",
            )
            .hint("Bake it, and note date, room, flour, dough temperature, minutes and loss in `[[tested]]`."),
        ];
    };
    let by = different(&recipe.tested, |test| test.by.as_ref());
    let kitchens = different(&recipe.tested, |test| test.kitchen.as_ref());
    let count = recipe.tested.len();
    if count >= ENOUGH_TESTS && (by >= 2 || kitchens >= 2) {
        return Vec::new();
    }
    let bakes = if count == 1 {
        "One test bake is".to_owned()
    } else {
        format!("{count} test bakes are")
    };
    let whose = if by >= 2 || kitchens >= 2 {
        "by more than one pair of hands"
    } else {
        "all by one person in one kitchen"
    };
    vec![
        Diagnostic::at(
            code::TESTED_LITTLE,
            first.span,
            format!(
                "{bakes} noted, {whose}. Three by two people, or in two kitchens, is a usual least."
            ),
        )
        .hint("Ask somebody else to bake it from the page alone, and note what they saw."),
    ]
}

fn different(tested: &[Test], what: fn(&Test) -> Option<&Located<String>>) -> usize {
    let mut names: Vec<_> = tested
        .iter()
        .filter_map(what)
        .map(|name| name.value.trim().to_lowercase())
        .collect();
    names.sort();
    names.dedup();
    names.len()
}

/// Words that say only that there is a picture.
const SAYS_NOTHING: [&str; 6] = ["photo", "photograph", "picture", "image", "bread", "loaf"];

fn photographs(case: &Case) -> Vec<Diagnostic> {
    let recipe = case.inputs.recipe;
    if recipe.photos.is_empty() {
        return vec![
            Diagnostic::at(
                code::PHOTO_NONE,
                recipe.title.span,
                "There is no photograph, so a reader cannot compare crust and crumb.",
            )
            .hint("Add `[[photo]]`: the cut bread, and one of the dough when it is ready for the oven."),
        ];
    }
    recipe.photos.iter().filter(|photo| !tells(photo)).map(|photo| {
        Diagnostic::at(
            code::PHOTO_WITHOUT_WORDS,
            photo.alt.as_ref().map_or(photo.file.span, |alt| alt.span),
            format!(
                "“{}” has no words that tell what it shows; whoever cannot see it learns nothing.",
                photo.file.value
            ),
        )
        .hint("Write in `alt` what is to be seen: \"a slice, the crumb even and open, the crust thin\".")
    }).collect()
}

fn tells(photo: &Photo) -> bool {
    let Some(alt) = &photo.alt else { return false };
    let words: Vec<_> = alt
        .value
        .split_whitespace()
        .map(|word| word.trim_matches(',').to_lowercase())
        .collect();
    let words: Vec<_> = words
        .into_iter()
        .filter(|word| !["a", "an", "of", "the", "my", "our"].contains(&word.as_str()))
        .collect();
    words.len() > 1
        && !words
            .iter()
            .all(|word| SAYS_NOTHING.contains(&word.as_str()))
}

fn film(case: &Case) -> Vec<Diagnostic> {
    let Some(film) = &case.inputs.recipe.film else {
        return Vec::new();
    };
    let mut missing = Vec::new();
    if film.date.is_none() {
        missing.push("`date`".to_owned());
    }
    if film.thumbnail.is_none() {
        missing.push("`thumbnail`".to_owned());
    }
    if missing.is_empty() {
        return Vec::new();
    }
    vec![
        Diagnostic::at(
            code::FILM_INCOMPLETE,
            film.address.span,
            format!(
                "The film lacks {}; machines that read the page leave it out without both.",
                say::list(&missing)
            ),
        )
        .hint("Add the day it went out and the file name of its still."),
    ]
}

fn film_address(case: &Case) -> Vec<Diagnostic> {
    let Some(film) = &case.inputs.recipe.film else {
        return Vec::new();
    };
    let address = film.address.value.as_str();
    if address.starts_with("https://") || address.starts_with("http://") {
        return Vec::new();
    }
    vec![
        Diagnostic::at(
            code::FILM_ADDRESS_NO_LINK,
            film.address.span,
            format!(
                "“{address}” is no address that a browser can open, so nobody gets to the film."
            ),
        )
        .hint("Write the whole address, from https:// on."),
    ]
}

fn sponsor(case: &Case) -> Vec<Diagnostic> {
    let Some(sponsor) = &case.inputs.recipe.sponsor else {
        return Vec::new();
    };
    let mut found = Vec::new();
    let disclosed = case.ledger.disclosure.as_deref().unwrap_or("");
    if !disclosed.contains(&sponsor.name.value) {
        found.push(
            Diagnostic::at(
                code::SPONSOR_UNDISCLOSED,
                sponsor.name.span,
                format!(
                    "The page does not say that {} had a part in it.",
                    sponsor.name.value
                ),
            )
            .hint("Print the disclosure near the top of the page."),
        );
    }
    if !says(sponsor.gave.as_ref()) {
        found.push(
            Diagnostic::at(
                code::SPONSOR_GIFT_UNSAID,
                sponsor.name.span,
                format!(
                    "It is not said what {} gave: money, flour, a mixer?",
                    sponsor.name.value
                ),
            )
            .hint("Add `gave` in plain words; a reader wants to know what might sway you."),
        );
    }
    found
}

fn baked_mass(case: &Case) -> Vec<Diagnostic> {
    let (recipe, formula) = (case.inputs.recipe, case.inputs.formula);
    let mut found = Vec::new();
    for (product, sum) in recipe.products.iter().zip(&formula.products) {
        if bakes(product).next().is_none() {
            continue;
        }
        let Some(after) = &product.after_bake else {
            found.push(
                Diagnostic::at(
                    code::BAKED_MASS_MISSING,
                    product.name.span,
                    format!(
                        "“{}”: what one weighs after the bake is not given.",
                        product.name.value
                    ),
                )
                .hint("Weigh one piece when it is cool and write it in `after-bake`."),
            );
            continue;
        };
        let (Some(loss), Some(usual)) =
            (sum.bake_loss, band(recipe.kind.value, Measured::BakeLoss))
        else {
            continue;
        };
        if usual.holds(loss.si()) {
            continue;
        }
        let whole = |share: f64| fixed(share * 100.0, 0);
        found.push(
            Diagnostic::at(
                code::BAKED_MASS_UNLIKELY,
                after.span,
                format!(
                    "{} raw and {} after the bake is a loss of {}; {} breads lose {}–{} %.",
                    say::mass(sum.piece + sum.filling),
                    say::mass(after.value),
                    say::percent(loss),
                    recipe.kind.value.word(),
                    whole(usual.low),
                    whole(usual.high)
                ),
            )
            .label(product.piece.span, "raw")
            .hint("Weigh raw piece and cooled piece again; topping and paper count in neither.")
            .because(format!(
                "{} ({})",
                usual.origin.source,
                usual.origin.had.words()
            )),
        );
    }
    found
}

fn cooling(case: &Case) -> Vec<Diagnostic> {
    let lacks = |span: Span, name: &str| {
        Diagnostic::at(
            code::COOLING_MISSING,
            span,
            format!("“{name}”: how long it cools before it is cut is not said."),
        )
        .hint("Add a last step with `cool`: on a rack, so many minutes, until the underside is cool to the hand.")
    };
    case.inputs
        .recipe
        .products
        .iter()
        .filter(|product| bakes(product).next().is_some())
        .filter(|p| {
            !p.steps
                .iter()
                .any(|step| matches!(step.action, Action::Cool { .. }))
        })
        .map(|product| lacks(product.name.span, &product.name.value))
        .collect()
}

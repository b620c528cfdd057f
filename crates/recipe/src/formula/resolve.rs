//! Names and amounts of a recipe, looked up in the larder before anything is added up.

use super::check_printed;
use super::model::{Formula, Resolved, ResolvedItem};
use super::sum::{Resolution, add_up};
use crate::document::model::{Amount, Item, Recipe};
use crate::larder::{Found, Ingredient, Larder};
use crate::measure::{NoWeight, counted};
use crate::provenance::{Had, Origin};
use crate::source::{Checked, Diagnostic, Located, Span, code};
use numerics::quantity::Mass;

/// The formula of a recipe: every item found and weighed, every sum done. The recipe's own pantry
/// must be on the larder's shelf already.
///
/// An item that is not found, or has no weight, is said and left out of the sums.
pub fn formula(recipe: &Recipe, larder: &Larder) -> Checked<Formula> {
    let mut look_up = LookUp {
        larder,
        diagnostics: Vec::new(),
    };
    let names: Vec<&str> = recipe
        .stages
        .iter()
        .map(|stage| stage.name.value.as_str())
        .collect();
    let stages = recipe
        .stages
        .iter()
        .enumerate()
        .map(|(place, stage)| look_up.items(&stage.items, &names, place))
        .collect();
    let with = recipe
        .products
        .iter()
        .map(|product| {
            let mut items = look_up.items(&product.with, &names, names.len());
            for (item, written) in items.iter_mut().zip(&product.with) {
                // What is taken for all pieces is shared among them.
                if written.each.is_none() && product.count.value > 0 {
                    item.mass = item.mass.map(|mass| mass / f64::from(product.count.value));
                }
            }
            items
        })
        .collect();
    let besides = look_up.items(&recipe.besides, &names, 0);
    let mut diagnostics = look_up.diagnostics;
    let Checked {
        output,
        diagnostics: more,
    } = add_up(
        recipe,
        Resolution {
            stages,
            with,
            besides,
        },
    );
    diagnostics.extend(more);
    diagnostics.sort_by_key(|d| d.span.map_or((1, Span::default()), |span| (0, span)));
    Checked {
        output,
        diagnostics,
    }
}

/// Looks items up and keeps what is to be said.
struct LookUp<'a> {
    larder: &'a Larder,
    diagnostics: Vec<Diagnostic>,
}

impl LookUp<'_> {
    /// Items of a list; the first `earlier` of the stages may be among them.
    fn items(&mut self, items: &[Item], stages: &[&str], earlier: usize) -> Vec<ResolvedItem> {
        items
            .iter()
            .map(|item| self.item(item, stages, earlier))
            .collect()
    }

    fn item(&mut self, item: &Item, stages: &[&str], earlier: usize) -> ResolvedItem {
        let amount = item.take.as_ref().or(item.each.as_ref());
        let of = item.of.value.trim();
        let (what, mass, origin) = match stages.iter().position(|stage| *stage == of) {
            Some(place) if place < earlier => {
                let mass = amount.and_then(|amount| self.part_of_stage(of, amount));
                (Resolved::Stage(place), mass, taken(amount.is_some()))
            }
            // A stage of that name that comes later: the reader of the document has said so.
            Some(_) if earlier > 0 && self.is_nothing_else(of) => {
                (Resolved::Unknown(of.to_owned()), None, taken(false))
            }
            _ => match self.ingredient(&item.of) {
                Some(ingredient) => {
                    let (mass, origin) = self.weight(&ingredient, item, amount);
                    self.measure_beside(&ingredient, item);
                    (Resolved::Ingredient(Box::new(ingredient)), mass, origin)
                }
                None => (Resolved::Unknown(of.to_owned()), None, taken(false)),
            },
        };
        ResolvedItem {
            called: item.called().to_owned(),
            what,
            mass,
            origin,
            of_flour: None,
        }
    }

    fn is_nothing_else(&self, name: &str) -> bool {
        matches!(self.larder.find(name), Found::Near(_) | Found::Nothing)
    }

    /// Part of a stage can be taken by mass alone.
    fn part_of_stage(&mut self, stage: &str, amount: &Located<Amount>) -> Option<Mass> {
        if let Amount::Mass(mass) = amount.value {
            return Some(mass);
        }
        let message = format!(
            "What a cup, spoon or piece of {stage} weighs is not known, so all of it is reckoned with."
        );
        let hint = "Take part of a stage in grams, or leave `take` out and take it whole.";
        self.diagnostics
            .push(Diagnostic::at(code::WEIGHT_UNKNOWN, amount.span, message).hint(hint));
        None
    }

    fn ingredient(&mut self, name: &Located<String>) -> Option<Ingredient> {
        let asked = &name.value;
        let (diagnostic, found) = match self.larder.find(asked) {
            Found::One(one) => return Some(one.clone()),
            Found::Several(several) => {
                let first = several.first().copied()?;
                let message = format!(
                    "“{asked}” could be {}; it is reckoned as {}.",
                    list(several.iter().map(|one| one.name.as_str())),
                    first.name
                );
                let mut said = Diagnostic::at(code::INGREDIENT_AMBIGUOUS, name.span, message);
                said.hints
                    .extend(several.iter().map(|one| format!("of = \"{}\"", one.name)));
                (said, Some(first.clone()))
            }
            Found::Near(names) => {
                let message =
                    format!("The larder has no “{asked}”, so it is left out of the sums.");
                let mut said = Diagnostic::at(code::INGREDIENT_UNKNOWN, name.span, message);
                said.hints
                    .extend(names.iter().map(|near| format!("of = \"{near}\"")));
                (said, None)
            }
            Found::Nothing => {
                let message =
                    format!("The larder has no “{asked}”, so it is left out of the sums.");
                (
                    Diagnostic::at(code::INGREDIENT_UNKNOWN, name.span, message),
                    None,
                )
            }
        };
        let pantry = "Or put it in [[pantry]], with what its pack declares.";
        let said = if found.is_none() {
            diagnostic.hint(pantry)
        } else {
            diagnostic
        };
        self.diagnostics.push(said);
        found
    }

    /// A measure that the author prints beside a mass must weigh about that.
    fn measure_beside(&mut self, ingredient: &Ingredient, item: &Item) {
        let (Some(take), Some(also)) = (&item.take, &item.also) else {
            return;
        };
        let (Amount::Mass(mass), Amount::Measures(measures)) = (&take.value, &also.value) else {
            return;
        };
        if let Some((density, origin)) = &ingredient.by_volume {
            let name = item.called();
            self.diagnostics.extend(check_printed::measure(
                name, measures, *mass, *density, origin, also.span,
            ));
        }
    }

    fn weight(
        &mut self,
        ingredient: &Ingredient,
        item: &Item,
        amount: Option<&Located<Amount>>,
    ) -> (Option<Mass>, Origin) {
        let Some(amount) = amount else {
            let message = format!("How much {} is taken is not said.", item.called());
            let said = Diagnostic::at(code::WEIGHT_UNKNOWN, item.span, message);
            self.diagnostics.push(said.hint("take = \"100 g\""));
            return (None, taken(false));
        };
        match self.larder.weigh(ingredient, &amount.value) {
            Ok((mass, origin)) => (Some(mass), origin),
            Err(without) => {
                let message = without.sentence(item.called());
                let so_many = match &amount.value {
                    Amount::Count { count, .. } => *count,
                    Amount::Mass(_) | Amount::Measures(_) => 1.0,
                };
                let (code, hint) = match &without {
                    NoWeight::SizeNotSaid { usual, .. } => (
                        code::SIZE_NOT_SAID,
                        format!(
                            "Write \"{}\" (or another size), or grams.",
                            counted(so_many, usual)
                        ),
                    ),
                    NoWeight::ByCount { size: None, known } => match known.first() {
                        Some(first) => (
                            code::WEIGHT_UNKNOWN,
                            format!(
                                "Write \"{}\" (or another size), or grams.",
                                counted(so_many, first)
                            ),
                        ),
                        None => (
                            code::NUMBER_WITHOUT_UNIT,
                            format!("Write \"{} g\".", numerics::decimal::trimmed(so_many, 2)),
                        ),
                    },
                    _ => (
                        code::WEIGHT_UNKNOWN,
                        "Weigh it once and write grams.".to_owned(),
                    ),
                };
                self.diagnostics
                    .push(Diagnostic::at(code, amount.span, message).hint(hint));
                match without {
                    NoWeight::SizeNotSaid { mass, origin, .. } => (Some(mass), origin),
                    _ => (None, taken(false)),
                }
            }
        }
    }
}

/// How a stage's mass was had: written as a part, else worked out as the whole.
fn taken(written: bool) -> Origin {
    let had = if written { Had::Written } else { Had::Derived };
    Origin::new("the recipe", had)
}

/// "a, b or c".
fn list<'a>(words: impl Iterator<Item = &'a str>) -> String {
    let words: Vec<&str> = words.collect();
    match words.split_last() {
        Some((last, rest)) if !rest.is_empty() => format!("{} or {last}", rest.join(", ")),
        _ => words.join(""),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::document::read_recipe;

    /// The formula of a dough with these items, and what is said of them.
    fn of(items: &str, more: &str) -> Checked<Formula> {
        let text = format!(
            "everyoven = 1\ntitle = \"x\"\nkind = \"lean\"\n\
             [[stage]]\nname = \"dough\"\nitems = [\n{items}\n]\n\
             [[product]]\nname = \"loaf\"\nfrom = \"dough\"\ncount = 1\npiece = \"100 g\"\n{more}"
        );
        let read = read_recipe(&text)
            .output
            .expect("a recipe that can be read");
        formula(&read, &Larder::open())
    }

    /// Name, message and first hint of all that is said but the trim.
    fn said(checked: &Checked<Formula>) -> Vec<(&str, &str, Option<&str>)> {
        let all = checked
            .diagnostics
            .iter()
            .filter(|said| said.code != code::TRIM_LARGE);
        all.map(|said| {
            (
                said.code.name,
                said.message.as_str(),
                said.hints.first().map(String::as_str),
            )
        })
        .collect()
    }

    #[test]
    fn a_slip_of_the_pen_is_led_to_its_name() {
        let checked = of("{ of = \"bred flour\", take = \"100 g\" }", "");
        assert_eq!(
            said(&checked),
            [(
                "ingredient-unknown",
                "The larder has no “bred flour”, so it is left out of the sums.",
                Some("of = \"bread flour\"")
            )]
        );
        assert_eq!(checked.output.stages[0].items[0].mass, None);
    }

    #[test]
    fn a_name_for_several_things_is_said_and_reckoned_with() {
        let checked = of("{ of = \"flour\", take = \"100 g\" }", "");
        let all = said(&checked);
        assert_eq!(all.len(), 1);
        assert_eq!(all[0].0, "ingredient-ambiguous");
        assert!(all[0].1.starts_with("“flour” could be "), "{}", all[0].1);
        assert!((checked.output.dough.flour.grams() - 100.0).abs() < 1e-9);
    }

    #[test]
    fn eggs_without_a_size_are_taken_as_large_and_it_is_said() {
        let checked = of(
            "{ of = \"bread flour\", take = \"100 g\" }, { of = \"egg\", take = \"2\" }",
            "",
        );
        assert_eq!(
            said(&checked),
            [(
                "size-not-said",
                "The size of the egg is not said. Taken as large: 100 g.",
                Some("Write \"2 large\" (or another size), or grams.")
            )]
        );
        assert!((checked.output.dough.mass.grams() - 200.0).abs() < 1e-9);
    }

    #[test]
    fn three_eggs_of_egg_are_three_without_a_size() {
        for take in ["3 eggs", "3 egg"] {
            let checked = of(
                &format!(
                    "{{ of = \"bread flour\", take = \"100 g\" }}, {{ of = \"egg\", take = \"{take}\" }}"
                ),
                "",
            );
            assert_eq!(
                said(&checked),
                [(
                    "size-not-said",
                    "The size of the egg is not said. Taken as large: 150 g.",
                    Some("Write \"3 large\" (or another size), or grams.")
                )]
            );
        }
    }

    #[test]
    fn a_bare_number_of_what_is_never_counted_lacks_its_unit() {
        let checked = of(
            "{ of = \"bread flour\", take = \"100 g\" }, { of = \"milk\", take = \"330\" }",
            "",
        );
        let all = said(&checked);
        let last = all.last().expect("something is said");
        assert_eq!(
            (last.0, last.2),
            ("number-without-unit", Some("Write \"330 g\"."))
        );
    }

    #[test]
    fn a_count_of_what_is_not_counted_is_left_out() {
        let checked = of(
            "{ of = \"bread flour\", take = \"100 g\" }, { of = \"honey\", take = \"3 large\" }",
            "",
        );
        let names: Vec<&str> = said(&checked).iter().map(|said| said.0).collect();
        assert_eq!(names, ["weight-unknown"]);
        assert!((checked.output.dough.mass.grams() - 100.0).abs() < 1e-9);
    }

    #[test]
    fn a_measure_beside_a_mass_must_weigh_about_that() {
        let salt = |also: &str| {
            let items = format!(
                "{{ of = \"bread flour\", take = \"100 g\" }}, \
                 {{ of = \"fine salt\", take = \"6 g\", also = \"{also}\" }}"
            );
            of(&items, "")
                .diagnostics
                .iter()
                .any(|d| d.code == code::MEASURE_CONTRADICTS_MASS)
        };
        assert!(!salt("1 tsp"));
        assert!(salt("1 Tbsp"));
    }

    #[test]
    fn besides_are_weighed_and_stay_outside() {
        let checked = of(
            "{ of = \"bread flour\", take = \"100 g\" }",
            "[[besides]]\nof = \"unsalted butter\"\ntake = \"8 g\"\non = \"tin\"\n",
        );
        assert_eq!(said(&checked), []);
        let grams = checked.output.besides[0].mass.map(Mass::grams);
        assert!(grams.is_some_and(|grams| (grams - 8.0).abs() < 1e-9));
        assert!((checked.output.dough.mass.grams() - 100.0).abs() < 1e-9);
    }
}

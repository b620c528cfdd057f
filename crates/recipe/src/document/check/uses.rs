//! Checks what sentences use: every placeholder names something, every item goes in, parts add up.

use super::Finding;
use super::tally::{Tally, Use};
use crate::document::model::{Action, Place, Recipe, Step};
use crate::document::placeholder::{Piece, parse_sentence};
use crate::document::read::Places;
use crate::document::scope::{Found, Scope};
use crate::source::{Diagnostic, Located, Span, code, near};

/// Checks every sentence.
pub fn check(text: &str, recipe: &Recipe, finding: &mut Finding) {
    let mut besides = vec![Tally::default(); recipe.besides.len()];
    for (number, stage) in recipe.stages.iter().enumerate() {
        let scope = Scope::of_stage(recipe, number);
        let mut own = vec![Tally::default(); stage.items.len()];
        let mut section = Section {
            text,
            recipe,
            scope,
            steps: &stage.steps,
            start: stage.span.start,
            in_product: false,
        };
        section.sentences(&mut own, &mut besides, finding);
        // While one item's name could not be read, nobody knows what the others are for.
        let readable = stage.items.iter().all(|item| !item.called().is_empty());
        for (item, tally) in stage.items.iter().zip(&own) {
            tally.judge(item, "no sentence of this stage", readable, finding);
        }
    }
    for (number, product) in recipe.products.iter().enumerate() {
        let scope = Scope::of_product(recipe, number);
        let start = product.span.start;
        let mut section = Section {
            text,
            recipe,
            scope,
            steps: &product.steps,
            start,
            in_product: true,
        };
        // Each piece takes its share of what is listed in `with`; a sentence may say how, or not.
        let mut own = vec![Tally::default(); product.with.len()];
        section.sentences(&mut own, &mut besides, finding);
    }
    let sentences = recipe
        .products
        .iter()
        .any(|product| !product.steps.is_empty());
    for (item, tally) in recipe.besides.iter().zip(&besides) {
        // For what it is could not be read: the sentence may name it.
        let known = item.on.is_some();
        tally.judge(item, "no sentence", sentences && known, finding);
    }
}

/// The sentences of one stage or product.
struct Section<'a> {
    text: &'a str,
    recipe: &'a Recipe,
    scope: Scope<'a>,
    steps: &'a [Step],
    /// Where its table begins.
    start: usize,
    in_product: bool,
}

impl Section<'_> {
    /// Goes through the sentences in order.
    fn sentences(&mut self, own: &mut [Tally], besides: &mut [Tally], finding: &mut Finding) {
        for step in self.steps {
            let places = Places::new(self.text, step.text.span, &step.text.value);
            let (pieces, said) = parse_sentence(&step.text.value, 0);
            finding.said.extend(said.into_iter().map(|mut said| {
                said.span = said.span.map(|span| places.of(span));
                said
            }));
            for piece in pieces {
                let span = places.of(piece.span);
                self.piece(step, Located::new(piece.value, span), own, besides, finding);
            }
        }
    }

    /// Where the next table of its kind begins.
    fn end(&self) -> usize {
        let stages = self.recipe.stages.iter().map(|stage| stage.span.start);
        let products = self
            .recipe
            .products
            .iter()
            .map(|product| product.span.start);
        let besides = self.recipe.besides.iter().map(|item| item.span.start);
        let after = stages
            .chain(products)
            .chain(besides)
            .filter(|at| *at > self.start);
        after.min().unwrap_or(self.text.len())
    }

    /// Says that there is nothing to print, unless it is only unread.
    fn nothing_to_print(&self, span: Span, message: String, hint: &str, finding: &mut Finding) {
        if !finding.unread_between(self.start, self.end()) {
            finding.said.push(nothing(span, message, hint));
        }
    }

    /// Checks one piece, and notes what it uses.
    fn piece(
        &self,
        step: &Step,
        piece: Located<Piece>,
        own: &mut [Tally],
        besides: &mut [Tally],
        finding: &mut Finding,
    ) {
        let span = piece.span;
        match piece.value {
            Piece::Words(_) | Piece::Mention(_) => {}
            Piece::Use { item, part } => match self.scope.item(&item) {
                Some(Found::Own(number, _)) => own[number].uses.push(Use { part, span }),
                Some(Found::Besides(number, _)) => besides[number].uses.push(Use { part, span }),
                None => self.unknown_item(&item, span, finding),
            },
            Piece::Besides { item, place } => match self.scope.for_place(&item, place) {
                Some(Found::Besides(number, _) | Found::Own(number, _)) => {
                    let part = crate::document::placeholder::Part::Whole;
                    besides[number].uses.push(Use { part, span });
                }
                None => self.unknown_besides(&item, place, span, finding),
            },
            Piece::Temperature(item) => match self.scope.item(&item) {
                Some(found) if found.item().at.is_none() && found.item().from.is_none() => {
                    self.nothing_to_print(
                        span,
                        format!("“{item}” has no temperature that could be printed."),
                        "Add at = \"20 °C\" or from = \"room\" to the item.",
                        finding,
                    );
                }
                Some(_) => {}
                None => self.unknown_item(&item, span, finding),
            },
            Piece::DoughTemperature => {
                let known = |step: &Step| matches!(step.action, Action::Mix { dough: Some(_), .. });
                if !self.steps.iter().any(known) {
                    self.nothing_to_print(
                        span,
                        "No mix of this stage says at what temperature the dough should end."
                            .to_owned(),
                        "Add dough = \"25-26 °C\" to the mix.",
                        finding,
                    );
                }
            }
            Piece::Oven => {
                if !self.baked(|action| matches!(action, Action::Bake { .. })) {
                    self.nothing_to_print(
                        span,
                        "Nothing is baked here that would say how hot the oven is.".to_owned(),
                        "Add a step with bake = { phases = [{ at = \"180 °C\", for = \"36 min\" }], fan = false }.", finding);
                }
            }
            Piece::Core => {
                let here = step
                    .until
                    .as_ref()
                    .is_some_and(|until| until.core.is_some());
                if !here
                    && !self.baked(|action| matches!(action, Action::Bake { core: Some(_), .. }))
                {
                    self.nothing_to_print(
                        span,
                        "No bake here says what the middle should read.".to_owned(),
                        "Add core = \"93 °C\" to the bake.",
                        finding,
                    );
                }
            }
            Piece::Pieces(product) => {
                let known: Vec<&str> = self
                    .recipe
                    .products
                    .iter()
                    .map(|p| p.name.value.as_str())
                    .collect();
                if !known.contains(&product.as_str()) && !known.contains(&"") {
                    let said =
                        nothing(span, format!("There is no product called “{product}”."), "");
                    finding.said.push(match near(&product, known) {
                        Some(meant) => said.hint(format!("Was “{meant}” meant?")),
                        None => said,
                    });
                }
            }
        }
    }

    /// Whether a bake that fits is near: in this product, or for a stage in any product.
    fn baked(&self, fits: impl Fn(&Action) -> bool) -> bool {
        if self.in_product {
            self.steps.iter().any(|step| fits(&step.action))
        } else {
            self.recipe
                .products
                .iter()
                .flat_map(|p| &p.steps)
                .any(|step| fits(&step.action))
        }
    }

    /// A bracket that names no item.
    fn unknown_item(&self, item: &str, span: Span, finding: &mut Finding) {
        let names = self.scope.names();
        if names.contains(&"") {
            return;
        }
        let whose = if self.in_product { "product" } else { "stage" };
        let said = nothing(
            span,
            format!("“{item}” names nothing that this {whose} has."),
            "",
        );
        let stage = self
            .recipe
            .stages
            .iter()
            .any(|stage| stage.name.value == item);
        finding.said.push(if let Some(short) = self.scope.short_name(item) {
            said.hint(format!("Sentences call it [{short}]."))
        } else if let Some(meant) = near(item, names.iter().copied()).or_else(|| shares_word(item, &names)) {
            said.hint(format!("Was [{meant}] meant?"))
        } else if stage && !self.in_product {
            said.hint(format!("Add {{ of = \"{item}\" }} to the items of this stage."))
        } else if stage {
            said.hint("Write its name without brackets: the product is made of it.")
        } else {
            said.hint(format!("Write the name without brackets, or add {{ of = \"{item}\", take = \"...\" }} to the items."))
        });
    }

    /// A bracket that names nothing for bench, tin or top.
    fn unknown_besides(&self, item: &str, place: Place, span: Span, finding: &mut Finding) {
        let word = place.word();
        let said = nothing(
            span,
            format!("No [[besides]] is “{item}” for the {word}."),
            "",
        );
        let elsewhere = Place::ALL
            .into_iter()
            .find(|other| self.scope.for_place(item, *other).is_some());
        let names: Vec<&str> = self
            .recipe
            .besides
            .iter()
            .filter(|i| i.on.as_ref().is_some_and(|on| on.value == place))
            .map(crate::document::model::Item::called)
            .collect();
        // One whose place could not be read may be the one.
        let unread = self
            .recipe
            .besides
            .iter()
            .any(|i| i.on.is_none() && i.called() == item);
        if unread {
            return;
        }
        finding.said.push(if let Some(other) = elsewhere {
            said.hint(format!("There is “{item}” for the {}.", other.word()))
        } else if let Some(meant) = near(item, names) {
            said.hint(format!("Was [{meant} for the {word}] meant?"))
        } else {
            said.hint(format!(
                "Add [[besides]] with of = \"{item}\", take and on = \"{word}\"."
            ))
        });
    }
}

/// The only name that ends in the same word: "yeast" for "instant yeast".
fn shares_word<'n>(item: &str, names: &[&'n str]) -> Option<&'n str> {
    let last = |name: &str| name.split_whitespace().next_back().map(str::to_lowercase);
    let mut alike = names.iter().filter(|name| last(name) == last(item));
    alike.next().filter(|_| alike.next().is_none()).copied()
}

/// A placeholder for which there is nothing to print.
fn nothing(span: Span, message: String, hint: &str) -> Diagnostic {
    let said = Diagnostic::at(code::PLACEHOLDER_UNKNOWN, span, message);
    if hint.is_empty() {
        said
    } else {
        said.hint(hint)
    }
}

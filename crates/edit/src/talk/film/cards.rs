//! Cards: amounts and oven as they are laid over the picture, and how long each must stand.
//!
//! Limits: `limits`. A card stands in the upper part of the picture; captions have the lower one.

use super::code;
use super::limits::{CARD_LINES, CARD_WORDS, card_stands};
use super::scenes::Scenes;
use crate::ledger::kebab;
use crate::ledger::model::{Figure, ItemLine, Ledger, MarginKind, Section, StepLine};
use crate::talk::track::clock;
use numerics::decimal::trimmed;
use recipe::source::Diagnostic;
use std::time::Duration;

/// A card.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Card {
    /// Its name for a file: "01-firm-preferment".
    pub name: String,
    /// The stage or product that it belongs to.
    pub of: String,
    /// What stands on it.
    pub lines: Vec<CardLine>,
    /// How long it must stand to be read.
    pub stands: Duration,
    /// The same as it is printed: "6.6 s".
    pub stands_shown: String,
    /// When it comes, if the talk has times.
    pub from: Option<Duration>,
    /// The same as it is printed: "0:16".
    pub at: Option<String>,
}

impl Card {
    /// Its words in one line, for whoever cannot see it.
    pub fn words(&self) -> String {
        let lines: Vec<String> = self.lines.iter().map(CardLine::words).collect();
        lines.join("; ")
    }
}

/// A line of a card.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CardLine {
    /// "245 g", "13 min"; empty for a whole stage.
    pub amount: String,
    /// "bread flour", "oven".
    pub name: String,
}

impl CardLine {
    fn new(amount: &str, name: &str) -> Self {
        Self {
            amount: amount.to_owned(),
            name: name.to_owned(),
        }
    }

    fn words(&self) -> String {
        format!("{} {}", self.amount, self.name).trim().to_owned()
    }

    /// Words and numbers to be read; a lone stroke between two scales is neither.
    fn counted(&self) -> (usize, usize) {
        let words = self.words();
        let read = words.split_whitespace().filter(|word| {
            word.chars()
                .any(|sign| sign.is_alphanumeric() || sign == '°')
        });
        let numbers = read
            .clone()
            .filter(|word| word.chars().any(char::is_numeric));
        (read.clone().count(), numbers.count())
    }
}

/// The cards of a film in the recipe's order.
pub(super) fn cards(
    ledger: &Ledger,
    scenes: &Scenes,
    diagnostics: &mut Vec<Diagnostic>,
) -> Vec<Card> {
    let mut all: Vec<Card> = Vec::new();
    for (at, section) in ledger.sections.iter().enumerate() {
        let mut groups: Vec<Vec<CardLine>> = Vec::new();
        if let Some(stage) = ledger
            .stages
            .iter()
            .find(|stage| stage.heading == section.heading)
        {
            groups.extend(stage.items.iter().map(|item| vec![of_item(item, ledger)]));
        }
        let items = dealt(groups);
        let bakes = section.steps.iter().flat_map(|step| dealt(of_bake(step)));
        let dealt: Vec<Vec<CardLine>> = items.into_iter().chain(bakes).collect();
        place(dealt, at, section, scenes, &mut all, diagnostics);
    }
    all
}

/// An ingredient: its grams, or how many there are.
fn of_item(item: &ItemLine, ledger: &Ledger) -> CardLine {
    let whole = ledger
        .stages
        .iter()
        .any(|stage| stage.heading.to_lowercase() == item.name.to_lowercase());
    if whole {
        return CardLine::new("all", &format!("of the {}", item.name));
    }
    let counted = item.measure.as_ref().filter(|measure| is_count(measure));
    let amount = counted.or(item.grams.as_ref()).or(item.measure.as_ref());
    CardLine::new(amount.map_or("", |figure| &figure.shown), &item.name)
}

/// "2 large", not "1¾ cups".
fn is_count(measure: &Figure) -> bool {
    const VESSELS: [&str; 12] = [
        "cup", "cups", "Tbsp", "tbsp", "tsp", "mL", "ml", "dL", "dl", "L", "oz", "pinch",
    ];
    !measure
        .shown
        .split(|sign: char| !sign.is_alphanumeric())
        .any(|word| VESSELS.contains(&word))
}

/// A bake: each dial with its minutes, then what the middle must read.
fn of_bake(step: &StepLine) -> Vec<Vec<CardLine>> {
    let mut groups: Vec<Vec<CardLine>> = Vec::new();
    for line in &step.margin {
        let Some(figure) = line.figures.first() else {
            continue;
        };
        let what = figure.name.rsplit('.').next().unwrap_or_default();
        if what.starts_with("dial-") {
            groups.push(vec![CardLine::new(&figure.shown, "oven")]);
        } else if what.starts_with("bake-") {
            if let Some(phase) = groups.last_mut() {
                phase.push(CardLine::new(&figure.shown, ""));
            }
        } else if line.kind == MarginKind::Heat && what == "core" && !groups.is_empty() {
            groups.push(vec![CardLine::new(&figure.shown, "inside")]);
        }
    }
    groups
}

/// Deals groups of lines out to cards; a group stays on one card.
fn dealt(groups: Vec<Vec<CardLine>>) -> Vec<Vec<CardLine>> {
    let words = |lines: &[CardLine]| lines.iter().map(|line| line.counted().0).sum::<usize>();
    let mut cards: Vec<Vec<CardLine>> = Vec::new();
    for group in groups {
        let fits = cards.last().is_some_and(|card| {
            card.len() + group.len() <= CARD_LINES && words(card) + words(&group) <= CARD_WORDS
        });
        match cards.last_mut().filter(|_| fits) {
            Some(card) => card.extend(group),
            None => cards.push(group),
        }
    }
    cards
}

/// Gives the cards of a section their seconds and their times, one after another.
fn place(
    dealt: Vec<Vec<CardLine>>,
    section_at: usize,
    section: &Section,
    scenes: &Scenes,
    all: &mut Vec<Card>,
    diagnostics: &mut Vec<Diagnostic>,
) {
    let stretch = scenes.of(section_at);
    let mut next = stretch.map(|stretch| stretch.from);
    let many = dealt.len();
    let mut together = Duration::ZERO;
    for lines in dealt {
        let counted: Vec<(usize, usize)> = lines.iter().map(CardLine::counted).collect();
        let stands = card_stands(
            counted.iter().map(|(words, _)| words).sum(),
            counted.iter().map(|(_, numbers)| numbers).sum(),
        );
        together += stands;
        all.push(Card {
            name: format!(
                "{:02}-{}",
                all.len() + 1,
                kebab(&section.heading.replace('.', " "))
            ),
            of: section.heading.clone(),
            lines,
            stands,
            stands_shown: seconds(stands),
            from: next,
            at: next.map(|at| {
                clock(Duration::from_millis(
                    at.as_millis().try_into().unwrap_or(u64::MAX),
                ))
            }),
        });
        next = next.map(|at| at + stands);
    }
    let Some(stretch) = stretch else { return };
    let lasts = stretch.to.saturating_sub(stretch.from);
    if together > lasts && many > 0 {
        let cards = if many == 1 { "The card" } else { "The cards" };
        diagnostics.push(
            Diagnostic::at(
                code::CARDS_WITHOUT_ROOM,
                stretch.span,
                format!(
                    "{cards} for \u{201c}{}\u{201d} must stand {} to be read, and the film speaks of it for {}.",
                    section.heading,
                    seconds(together),
                    seconds(lasts),
                ),
            )
            .hint("Show fewer of them, or let the picture of the scene run on."),
        );
    }
}

/// Seconds with a tenth: "6.6 s".
fn seconds(of: Duration) -> String {
    format!("{}\u{a0}s", trimmed(of.as_secs_f64(), 1))
}

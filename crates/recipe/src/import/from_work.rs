//! What the work says of the things of a list: how warm a liquid goes in, what goes on top, an egg wash that no line has.

use super::act::Act;
use super::arrange::Arranged;
use super::clause::Doing;
use super::draft::{Draft, Entry, Item, Part, Stage};
use super::look_up::told_with;
use super::work::{cooled_to, degrees, heated_to};
use crate::document::model::Place;
use crate::larder::{Larder, Role};

/// A liquid that is warmed no further than this goes in as warm as it is, °C.
const HAND_WARM_MOST: f64 = 50.0;

/// Puts what the work says of them into the things of a draft.
pub fn from_work(draft: &mut Draft, arranged: &Arranged, larder: &Larder) {
    for (stage, doings) in draft.stages.iter_mut().zip(&arranged.stages) {
        warmed(stage, doings, larder);
    }
    onto_the_top(draft, arranged);
    egg_wash(draft, arranged);
}

/// Gives each liquid that is warmed, or scalded and cooled, before it goes in the temperature at which it does.
fn warmed(stage: &mut Stage, doings: &[Doing], larder: &Larder) {
    let mixed = doings.iter().rposition(|doing| doing.act == Act::Mix);
    for (place, doing) in doings.iter().enumerate() {
        if doing.act != Act::Heat || mixed.is_none_or(|mixed| mixed < place) {
            continue;
        }
        let liquid = |role| role == Role::Liquid;
        let Some(name) = told_with(stage, larder, &doing.sentence, liquid) else {
            continue;
        };
        let cools = doings.get(place + 1).filter(|next| next.act == Act::Cool);
        let celsius = match cools {
            Some(next) => cooled_to(&next.sentence),
            None => Some(heated_to(&doing.sentence).0).filter(|to| *to <= HAND_WARM_MOST),
        };
        let mut items = stage.entries.iter_mut().filter_map(as_item);
        if let Some(item) = items.find(|item| item.name() == name && item.at.is_none()) {
            item.at = celsius.map(degrees);
        }
    }
}

fn as_item(entry: &mut Entry) -> Option<&mut Item> {
    match entry {
        Entry::Item(item) => Some(item),
        Entry::Comment(_) => None,
    }
}

/// A thing of the dough's list that is only ever scattered or brushed onto the pieces lies on top.
fn onto_the_top(draft: &mut Draft, arranged: &Arranged) {
    let words = |doing: &Doing| doing.sentence.to_lowercase();
    let in_dough: Vec<String> = arranged.stages.iter().flatten().map(words).collect();
    let on_pieces: Vec<String> = arranged
        .product
        .iter()
        .map(|(doing, _)| words(doing))
        .filter(|lower| {
            [
                "scatter", "sprinkle", "brush", "dust", "top with", "drizzle",
            ]
            .iter()
            .any(|verb| lower.contains(verb))
        })
        .collect();
    for stage in draft
        .stages
        .iter_mut()
        .filter(|stage| stage.part == Part::Dough)
    {
        let names: Vec<String> = stage
            .items()
            .map(|item| item.name().to_lowercase())
            .collect();
        let mut at = 0;
        while let Some(entry) = stage.entries.get(at) {
            let goes = matches!(entry, Entry::Item(item) if {
                let name = item.name().to_lowercase();
                let last = name.rsplit(' ').next().unwrap_or_default();
                // Of "sugar" and "pearl sugar" the word alone tells neither.
                let alone = names.iter().filter(|other| other.ends_with(last)).count() == 1;
                let last = if alone { last } else { name.as_str() };
                let named = |all: &[String], words: &str| all.iter().any(|lower| lower.contains(words));
                item.said.is_none() && !named(&in_dough, last) && named(&on_pieces, &name)
            });
            if goes && let Entry::Item(mut item) = stage.entries.remove(at) {
                item.place = Some(Place::Top);
                draft.besides.push(Entry::Item(item));
            } else {
                at += 1;
            }
        }
    }
}

/// An egg wash that the work has and no line: an egg, to be decided.
fn egg_wash(draft: &mut Draft, arranged: &Arranged) {
    let washes = |(doing, _): &(Doing, Option<usize>)| {
        let lower = doing.sentence.to_lowercase();
        [
            "egg wash",
            "eggwash",
            "egg-wash",
            "brush with beaten egg",
            "brush with egg",
        ]
        .iter()
        .any(|words| lower.contains(words))
    };
    let has_egg = draft.besides.iter().any(|entry| {
        let of = |item: &Item| item.of.to_lowercase();
        matches!(entry, Entry::Item(item) if of(item).contains("egg") || of(item).contains("yolk") || item.group.is_some())
    });
    if has_egg || !arranged.product.iter().any(washes) {
        return;
    }
    draft.besides.push(Entry::Item(Item {
        of: "egg".to_owned(),
        key: Some("egg".to_owned()),
        called: None,
        take: Some("1".to_owned()),
        also: None,
        at: None,
        state: None,
        note: None,
        place: Some(Place::Top),
        group: Some("egg wash".to_owned()),
        doubt: Some(
            "The text washes the pieces with egg, and no line of it has one; one is taken."
                .to_owned(),
        ),
        said: None,
        grams: None,
    }));
}

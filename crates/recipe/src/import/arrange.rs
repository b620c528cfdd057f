//! Which part of the recipe each piece of work belongs to: a stage, or what is made of the dough.

use super::act::Act;
use super::clause::Doing;
use super::draft::{Draft, Part, Stage, part_of};
use super::model::{Line, LineKind};
use super::split::bare;
use super::work::rises;

/// Doings by where they stand.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Arranged {
    /// For each stage of the draft, its doings.
    pub stages: Vec<Vec<Doing>>,
    /// What is done with the pieces; with the line it comes from when it was moved.
    pub product: Vec<(Doing, Option<usize>)>,
}

/// Shares the doings out.
pub fn arrange(doings: Vec<Doing>, draft: &Draft, lines: &[Line]) -> Arranged {
    let mut arranged = Arranged {
        stages: vec![Vec::new(); draft.stages.len()],
        product: Vec::new(),
    };
    let begins = product_begins(&doings);
    let dough = draft
        .stages
        .iter()
        .position(|stage| stage.part == Part::Dough)
        .unwrap_or(0);
    let mut current = 0;
    let mut early: Vec<Doing> = Vec::new();
    for (index, doing) in doings.into_iter().enumerate() {
        let beside = beside(&doing, draft, lines);
        if let Some(stage) = beside {
            arranged.stages[stage].push(doing);
        } else if index >= begins {
            arranged.product.push((doing, None));
        } else if doing.act == Act::Preheat {
            early.push(doing);
        } else {
            let rested = arranged.stages[current.min(dough)]
                .last()
                .is_some_and(|before| {
                    matches!(before.act, Act::Rest | Act::Cool) && before.place != doing.place
                });
            current = stage_of(&doing, draft, lines, (current.min(dough), rested), dough);
            arranged.stages[current].push(doing);
        }
    }
    let before_bake = arranged
        .product
        .iter()
        .position(|(doing, _)| doing.act == Act::Bake)
        .unwrap_or(0);
    for doing in early.into_iter().rev() {
        let line = doing.line;
        arranged.product.insert(before_bake, (doing, Some(line)));
    }
    arranged
}

/// The first doing that is about the pieces: what is shaped, or laid into the tin, after the dough
/// has risen; else whatever is done with the oven.
fn product_begins(doings: &[Doing]) -> usize {
    let bake = doings
        .iter()
        .position(|doing| doing.act == Act::Bake)
        .unwrap_or(doings.len());
    let kneads =
        |doing: &Doing| doing.act == Act::Mix && doing.sentence.to_lowercase().contains("knead");
    let last_knead = doings[..bake]
        .iter()
        .rposition(kneads)
        .map_or(0, |at| at + 1);
    let rest = doings[last_knead..bake]
        .iter()
        .position(|doing| doing.act == Act::Rest)
        .map_or(last_knead, |at| last_knead + at + 1);
    if let Some(divide) = doings[..bake]
        .iter()
        .position(|doing| doing.act == Act::Divide)
    {
        return divide + 1;
    }
    doings[rest..bake]
        .iter()
        .position(|doing| doing.act == Act::Shape)
        .map_or_else(
            || {
                doings
                    .iter()
                    .skip(rest)
                    .position(|doing| matches!(doing.act, Act::Preheat | Act::Bake | Act::Shape))
                    .map_or(bake.max(rest), |at| rest + at)
            },
            |at| rest + at,
        )
}

/// The filling's stage, when a doing is about it and not about the dough.
fn beside(doing: &Doing, draft: &Draft, lines: &[Line]) -> Option<usize> {
    let lower = doing.sentence.to_lowercase();
    let under = heading_before(doing.place, lines).map(|heading| part_of(&heading));
    draft.stages.iter().position(|stage| {
        stage.part == Part::Filling
            && matches!(doing.act, Act::Mix | Act::Heat | Act::Finish | Act::Cool)
            && (under == Some(Part::Filling)
                || lower.contains("filling")
                    && !lower.contains("spread")
                    && !lower.contains("dough")
                || only_of(stage, draft, &lower))
    })
}

/// Whether a sentence names several things of a stage and none of another.
fn only_of(stage: &Stage, draft: &Draft, lower: &str) -> bool {
    let named = |stage: &Stage| {
        stage
            .items()
            .filter(|item| names(item.name(), lower))
            .count()
    };
    let others: usize = draft
        .stages
        .iter()
        .filter(|other| other.name != stage.name)
        .map(named)
        .sum();
    named(stage) >= 2 && others == 0
}

/// Whether a sentence names an item: by its last word, as people do.
fn names(item: &str, lower: &str) -> bool {
    let last = item.to_lowercase();
    let last = last
        .split([' ', ','])
        .rfind(|word| word.len() > 2)
        .unwrap_or("")
        .to_owned();
    let stem = last.strip_suffix('s').unwrap_or(&last);
    !stem.is_empty()
        && lower
            .split(|c: char| !c.is_alphanumeric())
            .any(|word| word == last || word == stem || word.strip_suffix('s') == Some(stem))
}

/// The heading among the steps that stands before a line.
fn heading_before(place: usize, lines: &[Line]) -> Option<String> {
    let before = lines[..place]
        .iter()
        .rfind(|line| line.kind == LineKind::Heading);
    before.map(|line| bare(&line.text).text.to_lowercase())
}

/// Whether the heading that a step stands under, with nothing that goes in between, says dough.
fn under_dough(place: usize, lines: &[Line]) -> bool {
    let heading = lines[..place]
        .iter()
        .rposition(|line| line.kind == LineKind::Heading);
    heading.is_some_and(|at| {
        let words = lines[at].text.to_lowercase();
        words.contains("dough")
            && part_of(&words) == Part::Dough
            && !lines[at..place]
                .iter()
                .any(|line| line.kind == LineKind::Ingredient)
    })
}

/// The stage of a doing before there are pieces.
fn stage_of(
    doing: &Doing,
    draft: &Draft,
    lines: &[Line],
    (current, rested): (usize, bool),
    dough: usize,
) -> usize {
    if dough == 0 {
        return 0;
    }
    let lower = doing.sentence.to_lowercase();
    if let Some(heading) = heading_before(doing.place, lines)
        && let Some(stage) = draft.stages[..dough]
            .iter()
            .position(|stage| heading.contains(&stage.name))
    {
        return stage;
    }
    if under_dough(doing.place, lines) {
        return dough;
    }
    // What has stood is ready: mixing after it is work on what comes next.
    if rested && current < dough && matches!(doing.act, Act::Mix | Act::Heat | Act::Wake) {
        return current + 1;
    }
    let named = |stage: &Stage| {
        stage
            .items()
            .filter(|item| names(item.name(), &lower))
            .count()
    };
    let own = |stage: usize| named(&draft.stages[stage]);
    // What names the stage before as a thing that goes in is work on the dough.
    let goes_in = draft.stages[..dough].iter().any(|stage| {
        [
            "add the ",
            "with the ",
            "to the ",
            "the risen ",
            "into the ",
        ]
        .iter()
        .any(|start| lower.contains(&format!("{start}{}", stage.name)))
    });
    if current == dough
        || goes_in
        || own(dough) > own(current)
            && doing.act == Act::Mix
            && !lower.contains(&draft.stages[current].name)
    {
        return dough;
    }
    if lower.contains("dough") && !lower.contains(&draft.stages[current].name) && rises(&lower) {
        return dough;
    }
    (current..dough)
        .find(|stage| lower.contains(&draft.stages[*stage].name))
        .unwrap_or(current)
}

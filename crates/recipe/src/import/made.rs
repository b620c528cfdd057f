//! From lines to a file: what is in them, what class of bread it is, what it weighs.

use super::act::act;
use super::arrange::arrange;
use super::clause::{doings, oven_heats, sentences};
use super::compose::{Plan, write};
use super::draft::{Item, Part, Stage, draft};
use super::fold::{Folds, paragraphs, unfolded};
use super::from_work::from_work;
use super::kinds::{kinds, subject};
use super::left_out::left_out;
use super::model::{HeatSaid, Imported, Line, LineKind, Reading, TimeSaid};
use super::sheet::clean;
use super::split::{Raw, bare, lines};
use super::usual::usual;
use super::yields::{count, plain};
use super::{prose, tin, yields};
use crate::document::model::Kind;
use crate::document::read_recipe;
use crate::formula::{Formula, Measured, bands, formula};
use crate::larder::{Larder, Role};
use crate::measure::read::sentence::{What, times, tokens};
use std::collections::BTreeMap;

/// Reads a pasted text: every line with its mark, and the recipe file made of it.
pub fn import(text: &str, larder: &Larder) -> Imported {
    import_with(text, &BTreeMap::new(), larder)
}

/// The same, where somebody has said of some lines, by number, what they are.
pub fn import_with(text: &str, said: &BTreeMap<usize, LineKind>, larder: &Larder) -> Imported {
    let raws = lines(text);
    let paragraphs = paragraphs(&raws, |number| said.contains_key(&number));
    let whole: Vec<Raw<'_>> = paragraphs.iter().map(|one| one.as_raw(&raws)).collect();
    let mut lines = kinds(&whole, said, larder);
    told(&mut lines, larder);
    let mut imported = made_of(lines, &Folds::of(&paragraphs, &raws), larder);
    imported.lines = unfolded(imported.lines, &paragraphs, &raws);
    imported
}

/// Puts what sentences add by amount among the readings of their lines: of all of them where no
/// list stands, and beside a list that is a sentence itself what it has not.
fn told(lines: &mut [Line], larder: &Larder) {
    let listed = lines
        .iter()
        .filter(|line| line.kind == LineKind::Ingredient);
    if listed.clone().any(|line| !prose::is_sentence(&line.text)) {
        return;
    }
    let before: Vec<Reading> = listed.flat_map(|line| line.readings.clone()).collect();
    let mut shaped = false;
    for line in lines.iter_mut().filter(|line| line.kind == LineKind::Step) {
        line.readings = prose::in_text(bare(&line.text).text, larder, &mut shaped);
    }
    let all: Vec<Reading> = lines
        .iter()
        .flat_map(|line| &line.readings)
        .cloned()
        .collect();
    for line in lines.iter_mut().filter(|line| line.kind == LineKind::Step) {
        line.readings
            .retain(|one| !prose::is_part(one, &all) && !prose::is_listed(one, &before));
        for reading in &line.readings {
            if reading.mark > line.mark {
                line.mark = reading.mark;
                line.reason.clone_from(&reading.reason);
            }
        }
    }
}

/// Makes the file of lines whose kinds are known.
pub fn from_lines(lines: Vec<Line>, larder: &Larder) -> Imported {
    made_of(lines, &Folds::default(), larder)
}

/// The same, where paragraphs run across several lines.
fn made_of(lines: Vec<Line>, folds: &Folds, larder: &Larder) -> Imported {
    let of = |kind: LineKind| lines.iter().filter(move |line| line.kind == kind);
    let words = |line: &'_ Line| {
        clean(subject(bare(&line.text).text))
            .trim_start_matches('#')
            .trim()
            .to_owned()
    };
    let title = of(LineKind::Title)
        .map(words)
        .find(|title| !title.is_empty());
    let inside = title.is_none().then(|| title_inside(&lines)).flatten();
    let makes = of(LineKind::Makes)
        .next()
        .map(|line| plain(&line.text).to_owned());
    let about: Vec<String> = of(LineKind::About).map(words).collect();
    let notes: Vec<String> = of(LineKind::Note).map(words).collect();
    let steps: Vec<&Line> = of(LineKind::Step).collect();
    let heats: Vec<HeatSaid> = steps
        .iter()
        .flat_map(|line| {
            oven_heats(&line.text).into_iter().map(|said| HeatSaid {
                line: folds.number(line, said.span.start),
                heat: said.value,
            })
        })
        .collect();
    let times: Vec<TimeSaid> = steps
        .iter()
        .flat_map(|line| {
            let words = bare(&line.text).text;
            let before = line.text.find(words).unwrap_or(0);
            times(words).into_iter().map(move |said| TimeSaid {
                line: folds.number(line, before + said.span.start),
                time: said.value,
            })
        })
        .collect();
    let doings = doings(&lines, inside.as_deref());
    let title = title.or(inside);
    let mut draft = draft(&lines, larder);
    let told = about
        .iter()
        .map(String::as_str)
        .chain(steps.iter().map(|line| line.text.as_str()))
        .flat_map(sentences)
        .find_map(yields::told);
    let (made, made_said) = count(makes.as_deref(), title.as_deref(), told, &doings);
    let parts = yields::pieces_of_each(&made, &doings);
    let left_out = left_out(&lines, &doings, makes.is_some() || made_said, larder);
    let arranged = arrange(doings, &draft, &lines);
    from_work(&mut draft, &arranged, larder);
    let all_steps: Vec<&str> = steps.iter().map(|line| line.text.as_str()).collect();
    // "Makes one loaf in a 9 x 5 inch tin" stands above the steps.
    let of_tin: Vec<&str> = all_steps
        .iter()
        .copied()
        .chain(makes.as_deref())
        .chain(about.iter().flat_map(|line| sentences(line)))
        .collect();
    let mut plan = Plan {
        title: title.as_deref(),
        about: about.iter().map(String::as_str).collect(),
        makes: makes.as_deref(),
        notes: notes.iter().map(String::as_str).collect(),
        draft: &draft,
        arranged: &arranged,
        kind: Kind::Soft,
        why: String::new(),
        usual: usual(Kind::Soft),
        made,
        made_said,
        parts,
        piece_g: Some(100.0),
        piece_said: None,
        fillings: Vec::new(),
        tin: None,
        larder,
        some_unweighed: false,
        weighing: true,
    };
    let (first, _) = write(&plan).done();
    plan.weighing = false;
    let worked = worked_out(&first, larder);
    weigh(&mut plan, worked.as_ref());
    plan.piece_said = plan.piece_g.and_then(|grams| {
        let each = grams / f64::from(plan.parts);
        all_steps
            .iter()
            .find_map(|text| yields::piece_said(text, each))
    });
    plan.tin = Some(tin::tin(&of_tin, plan.piece_g, plan.made.count));
    let (document, assumed) = write(&plan).done();
    Imported {
        lines,
        document,
        assumed,
        title,
        makes,
        heats,
        times,
        left_out,
    }
}

/// The title when it stands at the beginning of the first step: "Cottage loaf. Put the flour ...".
fn title_inside(lines: &[Line]) -> Option<String> {
    let first = lines
        .iter()
        .find(|line| line.kind != LineKind::Blank)
        .filter(|line| line.kind == LineKind::Step)?;
    let sentences = sentences(bare(&first.text).text);
    let words = sentences.first().filter(|_| sentences.len() > 1)?;
    let all = tokens(words);
    let plain = all.len() <= 9
        && all
            .iter()
            .all(|token| !matches!(token.what, What::Number(_)));
    (plain && act(&all).is_none()).then(|| words.trim_end_matches('.').to_owned())
}

/// The formula of a file, when it can be read.
fn worked_out(document: &str, larder: &Larder) -> Option<Formula> {
    let recipe = read_recipe(document).output?;
    Some(formula(&recipe, larder).output)
}

/// Gives the plan its class of bread, the mass of its pieces and of their filling.
fn weigh(plan: &mut Plan<'_>, formula: Option<&Formula>) {
    let count = f64::from(plan.made.count);
    plan.piece_g = None;
    let Some(formula) = formula else {
        "soft, as the amounts do not let it be told.".clone_into(&mut plan.why);
        return;
    };
    let (kind, why) = class(formula);
    plan.kind = kind;
    plan.why = why;
    plan.usual = usual(kind);
    // The dough can be shared out when all that makes the most of it is weighed.
    let dough = || {
        plan.draft
            .stages
            .iter()
            .filter(|stage| matches!(stage.part, Part::Dough | Part::Before))
            .flat_map(Stage::items)
    };
    let much = |item: &&Item| {
        let role = item
            .key
            .as_ref()
            .and_then(|key| plan.larder.by_key(key))
            .map(|one| one.role);
        matches!(
            role,
            None | Some(Role::Flour | Role::Liquid | Role::Egg | Role::Fat | Role::Sugar)
        ) && item.key.is_some()
    };
    let unweighed = dough()
        .filter(|item| item.take.is_none())
        .any(|item| much(&item));
    plan.some_unweighed = dough().any(|item| item.take.is_none());
    let whole = !unweighed && formula.dough.flour.grams() > 0.0;
    let piece = formula.dough.mass.grams() / count;
    // Rounded down, so that the dough is enough.
    let piece = if piece < 100.0 {
        (piece * 10.0).floor() / 10.0
    } else {
        piece.floor()
    };
    plan.piece_g = (whole && piece >= 0.1).then_some(piece);
    for stage in plan
        .draft
        .stages
        .iter()
        .filter(|stage| stage.part == Part::Filling)
    {
        let mass = formula
            .stages
            .iter()
            .find(|one| one.name == stage.name)
            .map_or(0.0, |one| one.mass.grams());
        let each = (mass / count * 10.0).floor() / 10.0;
        if each >= 0.1 {
            plan.fillings.push((stage.name.clone(), each));
        }
    }
}

/// The class whose bands the dough's fat, sugar and egg come nearest to, the leaner where two do,
/// and a sentence that says so.
fn class(formula: &Formula) -> (Kind, String) {
    let dough = &formula.dough;
    let share = |mass| {
        dough
            .of_flour(mass)
            .map_or(0.0, numerics::quantity::Fraction::percent)
    };
    let egg: f64 = formula
        .stages
        .iter()
        .filter(|stage| stage.in_dough)
        .flat_map(|stage| &stage.items)
        .filter(|item| matches!(&item.what, crate::formula::Resolved::Ingredient(one) if one.role == Role::Egg))
        .filter_map(|item| item.mass)
        .map(numerics::quantity::Mass::grams)
        .sum();
    let egg = if dough.flour.grams() > 0.0 {
        // An empty sum is minus nought, which would print so.
        egg / dough.flour.grams() * 100.0 + 0.0
    } else {
        0.0
    };
    let has = [
        (Measured::Fat, share(dough.fat)),
        (Measured::Sugar, share(dough.sugar)),
        (Measured::Egg, egg),
    ];
    let mut best = (Kind::Soft, f64::INFINITY);
    for kind in Kind::ALL {
        let mut away = 0.0;
        for (measured, value) in has {
            if let Some(band) = bands(kind).iter().find(|band| band.measured == measured) {
                let (low, high) = (band.low * 100.0, band.high * 100.0);
                away += (value - high).max(low - value).max(0.0) / (high - low).max(1.0);
            }
        }
        if away < best.1 - 1e-9 {
            best = (kind, away);
        }
    }
    let why = if dough.flour.grams() > 0.0 {
        format!(
            "{}, by the formula: fat {:.0} %, sugar {:.0} %, egg {:.0} % of the flour.",
            best.0.word(),
            has[0].1,
            has[1].1,
            has[2].1
        )
    } else {
        "soft, as no flour could be weighed.".to_owned()
    };
    let kind = if dough.flour.grams() > 0.0 {
        best.0
    } else {
        Kind::Soft
    };
    (kind, why)
}

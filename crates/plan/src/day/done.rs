//! What is said to be done, found among the tasks of a plan: by number, by a word of the recipe file, in the plan's own words.

use super::lengths::steps;
use super::slip::{Done, Now};
use super::tasks::{About, Batch, Made};
use crate::timetable::Kind;
use recipe::document::model::Action;

/// What is said to be done may be so much ahead of its clock at least (ours).
const AHEAD_MIN: i32 = 30;

/// What was named, as it was found.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Named {
    /// Of every batch the tasks that are done just now.
    pub tasks: Vec<Vec<usize>>,
    /// What is no step of this day, or of no batch of it.
    pub unknown: Vec<Unknown>,
    /// What could have meant several things, and what it was taken as: ("mix", tasks).
    pub taken: Vec<(String, Vec<usize>)>,
}

/// Why something cannot be done.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Unknown {
    /// No recipe of the day has such a step.
    Step(String),
    /// The day has no batch of this number, from 0.
    Batch(usize),
    /// Nothing of the day is called so.
    Whose(String),
}

/// Finds what was named. `planned`: the starts of the plan so far.
pub fn named(made: &Made, batches: &[Batch<'_>], planned: &[i32], now: &Now) -> Named {
    let mut all = Named {
        tasks: vec![Vec::new(); batches.len()],
        ..Named::default()
    };
    for one in &now.done {
        if let Some(unknown) = nowhere(batches, one) {
            all.unknown.push(unknown);
            continue;
        }
        let own: Vec<Vec<usize>> = (0..batches.len())
            .map(|batch| {
                if of(batches, batch, one) {
                    candidates(made, &batches[batch], batch, one)
                } else {
                    Vec::new()
                }
            })
            .collect();
        let mut found: Vec<(usize, Vec<usize>)> = own
            .iter()
            .enumerate()
            .filter(|(_, tasks)| !tasks.is_empty())
            .map(|(batch, tasks)| (batch, by_now(made, batches, planned, now.minute, tasks)))
            .collect();
        // Of several doughs those whose clock has come; where none has, the one that is next.
        if found.iter().all(|(_, tasks)| tasks.is_empty()) {
            let first = own
                .iter()
                .enumerate()
                .flat_map(|(batch, tasks)| tasks.iter().map(move |task| (batch, *task)))
                .min_by_key(|(_, task)| planned[*task]);
            found = first
                .into_iter()
                .map(|(batch, task)| (batch, vec![task]))
                .collect();
        }
        if found.is_empty() {
            all.unknown.push(Unknown::Step(one.step.clone()));
        }
        let taken: Vec<usize> = found.iter().flat_map(|(_, tasks)| tasks).copied().collect();
        if own.iter().map(Vec::len).sum::<usize>() > taken.len() {
            all.taken.push((one.step.clone(), taken));
        }
        for (batch, tasks) in found {
            for task in tasks {
                if !all.tasks[batch].contains(&task) {
                    all.tasks[batch].push(task);
                }
            }
        }
    }
    all
}

/// A batch or a name that the day does not have.
fn nowhere(batches: &[Batch<'_>], one: &Done) -> Option<Unknown> {
    if let Some(batch) = one.batch.filter(|batch| *batch >= batches.len()) {
        return Some(Unknown::Batch(batch));
    }
    let nobody = !(0..batches.len()).any(|batch| of(batches, batch, one));
    let whose = one.whose.clone();
    whose.filter(|_| nobody).map(Unknown::Whose)
}

/// Whether something may be said of a batch: by its number, its name, its title or a bread of it.
fn of(batches: &[Batch<'_>], batch: usize, one: &Done) -> bool {
    let own = &batches[batch];
    let called = one.whose.as_ref().is_none_or(|whose| {
        let breads = own.recipe.products.iter();
        let mut names = breads
            .map(|product| &*product.name.value)
            .chain([&*own.label, &*own.recipe.title.value]);
        names.any(|name| plain(name) == plain(whose))
    });
    one.batch.is_none_or(|wanted| wanted == batch) && called
}

/// Everything of a batch that may be meant.
fn candidates(made: &Made, own: &Batch<'_>, batch: usize, one: &Done) -> Vec<usize> {
    let said = plain(&one.step);
    let number = said
        .strip_prefix("step ")
        .unwrap_or(&said)
        .parse::<usize>()
        .ok();
    let tasks = || (0..made.about.len()).filter(|task| made.about[*task].batch == batch);
    if let Some(number) = number {
        return tasks()
            .filter(|task| made.about[*task].step + 1 == number)
            .collect();
    }
    // The plan's own words before what else they may say.
    let own_words = tasks().filter(|task| plain(&made.about[*task].words) == said);
    let own_words: Vec<usize> = own_words.collect();
    if !own_words.is_empty() {
        return own_words;
    }
    let with_object: Vec<usize> = tasks()
        .filter(|task| with_object(own, &made.about[*task], &said))
        .collect();
    if !with_object.is_empty() {
        return with_object;
    }
    // A word alone: the dough's, with what goes into it; where the dough has no such step, that of its breads.
    let does: Vec<usize> = tasks()
        .filter(|task| verbs(own, &made.about[*task]).contains(&said.as_str()))
        .collect();
    let whose = one.whose.as_ref().map(|whose| plain(whose));
    let breads = |task: &&usize| {
        made.about[**task].product.is_some_and(|(product, _)| {
            let name = plain(&own.recipe.products[product].name.value);
            let named = own
                .recipe
                .products
                .iter()
                .any(|product| whose.as_ref() == Some(&plain(&product.name.value)));
            !named || whose == Some(name)
        })
    };
    let of_breads: Vec<usize> = does.iter().filter(breads).copied().collect();
    let of_dough: Vec<usize> = does
        .into_iter()
        .filter(|task| made.about[*task].product.is_none())
        .filter(|task| in_dough(own, made.about[*task].step))
        .collect();
    if of_dough.is_empty() {
        of_breads
    } else {
        of_dough
    }
}

/// "shape knots", "mix sponge": what a step does, and to what.
fn with_object(own: &Batch<'_>, about: &About, said: &str) -> bool {
    let object = match about.product {
        Some((product, _)) => Some(plain(&own.recipe.products[product].name.value)),
        None => stage_of(own, about.step).map(|stage| plain(&own.recipe.stages[stage].name.value)),
    };
    object.is_some_and(|object| {
        let does = said.strip_suffix(&object).map(str::trim_end);
        does.is_some_and(|does| verbs(own, about).contains(&does))
    })
}

/// Words for what a step does: that of the recipe file, and those of the plan.
fn verbs(own: &Batch<'_>, about: &About) -> Vec<&'static str> {
    let Some(step) = steps(own.recipe).nth(about.step) else {
        return Vec::new();
    };
    let mut all = vec![step.action.word()];
    let first = about.words.split_whitespace().next().unwrap_or_default();
    all.extend(match (&step.action, first) {
        (Action::Ready { .. }, _) => &["take out"][..],
        (Action::Wake { .. }, _) => &["wake yeast"],
        (Action::Heat { .. } | Action::Finish { .. }, _) => &["make"],
        (Action::Rest { .. }, "Chill") => &["chill"],
        (Action::Rest { .. }, "Rise") => &["rise"],
        (Action::Rest { .. }, "Last") => &["rise", "last rise"],
        _ => &[],
    });
    all
}

/// In small letters and without the words that a cook may leave out.
fn plain(words: &str) -> String {
    let small = words.to_lowercase();
    let told: Vec<&str> = small
        .split_whitespace()
        .filter(|word| !["the", "of", "a", "an"].contains(word))
        .collect();
    told.join(" ")
}

/// Of which stage a step is; none for one of a product.
fn stage_of(own: &Batch<'_>, step: usize) -> Option<usize> {
    let mut first = 0;
    own.recipe.stages.iter().position(|stage| {
        first += stage.steps.len();
        step < first
    })
}

/// Whether a step is of the dough that products are cut from or of something that goes into it, and not of a
/// filling beside it.
fn in_dough(own: &Batch<'_>, step: usize) -> bool {
    let stages = &own.recipe.stages;
    let place = |name: &str| {
        let mut names = stages.iter().map(|stage| &stage.name.value);
        names.position(|stage| stage.eq_ignore_ascii_case(name))
    };
    let products = own.recipe.products.iter();
    let mut into: Vec<usize> = products
        .filter_map(|product| place(&product.from.value))
        .collect();
    let mut next = 0;
    while let Some(stage) = into.get(next).copied() {
        next += 1;
        for fed in stages[stage]
            .items
            .iter()
            .filter_map(|item| place(&item.of.value))
        {
            if !into.contains(&fed) {
                into.push(fed);
            }
        }
    }
    stage_of(own, step).is_some_and(|stage| into.contains(&stage))
}

/// Of what may be meant what can be done by now, of each line (the dough, a load of a bread) one: what the plan has
/// begun last, or what is next where that is nearer and what comes before it may end so early.
fn by_now(
    made: &Made,
    batches: &[Batch<'_>],
    planned: &[i32],
    now: i32,
    tasks: &[usize],
) -> Vec<usize> {
    let mut lines: Vec<Option<(usize, usize)>> =
        tasks.iter().map(|task| made.about[*task].product).collect();
    lines.sort_unstable();
    lines.dedup();
    let off = |task: usize| (made.problem.ends(task, planned) - now).abs();
    let one = |line: &Option<(usize, usize)>| {
        let own = tasks
            .iter()
            .copied()
            .filter(|task| made.about[*task].product == *line);
        let come = own
            .clone()
            .filter(|task| planned[*task] <= now)
            .max_by_key(|task| planned[*task]);
        let next = own
            .filter(|task| planned[*task] > now)
            .min_by_key(|task| planned[*task])
            .filter(|task| planned[*task] - now <= play(made, batches, *task));
        [come, next]
            .into_iter()
            .flatten()
            .min_by_key(|task| off(*task))
    };
    lines.iter().filter_map(one).collect()
}

/// By how much what comes before a task may end early, minutes.
fn play(made: &Made, batches: &[Batch<'_>], task: usize) -> i32 {
    let before = made.problem.gaps.iter().filter(|gap| gap.to == task);
    let early = before.filter_map(|gap| {
        let about = &made.about[gap.from];
        (about.kind == Kind::Stands).then(|| {
            let length = batches[about.batch].lengths[about.step];
            length.lasts - length.early
        })
    });
    early.max().unwrap_or(0).max(AHEAD_MIN)
}

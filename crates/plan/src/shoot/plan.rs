//! The plan of a filming day from recipe and scenes.

use super::batch::{Need, stays};
use super::choose::{Chosen, choose};
use super::code;
use super::early::{changed, early};
use super::entries::table;
use super::evening::evenings;
use super::hands::{Fixed, stagger, wanted_at};
use super::held::held;
use super::model::{Bake, Batch, FilmDay, ScenePlan};
use super::oven::{Ovens, Placed, Wish, place};
use super::process::{Doing, Process, Times, processes, whole_minutes};
use super::scenes::{Midnight, clocked, hold, made_meanwhile, midnight, needs, wrapped};
use super::small::{extras, feeds, side, together};
use super::trade::trade;
use super::watch::watch;
use crate::rise::Asked;
use recipe::document::model::{Recipe, SceneFile};
use recipe::source::{Checked, Diagnostic, Located, Severity};

/// Minutes of an oven for a change of 25 °C where nobody says (common practice).
const CHANGE_MIN: i64 = 8;

/// What stands in the kitchen.
#[derive(Clone, Copy, Debug)]
pub struct Stock {
    /// Mixers.
    pub mixers: usize,
    /// Ovens.
    pub ovens: Ovens,
    /// Shelves; none when nobody counted them.
    pub shelves: Option<usize>,
    /// Pairs of hands beside the camera.
    pub hands: usize,
    /// No work of the day begins before.
    pub work_from: Option<i64>,
}

fn counted(written: Option<&Located<i64>>) -> Option<usize> {
    written.and_then(|count| usize::try_from(count.value).ok())
}

fn stock(file: &SceneFile, midnight: &Midnight) -> Stock {
    Stock {
        mixers: counted(file.mixers.as_ref()).unwrap_or(1),
        ovens: Ovens {
            count: counted(file.ovens.as_ref()).unwrap_or(1).max(1),
            racks: counted(file.racks.as_ref()).unwrap_or(1).max(1),
            change_min: file
                .change
                .as_ref()
                .map_or(CHANGE_MIN, |change| whole_minutes(change.value)),
        },
        shelves: counted(file.shelves.as_ref()),
        hands: counted(file.hands.as_ref()).unwrap_or(1),
        work_from: file
            .work_from
            .as_ref()
            .map(|from| midnight.minute(from.value)),
    }
}

/// Plans a filming day. There is none when scenes or states do not fit together.
pub fn film(recipe: &Recipe, file: &SceneFile, times: Times<'_>) -> Checked<Option<FilmDay>> {
    film_in(recipe, file, times, None)
}

/// The same, where a kitchen is asked what a hold does to the rise after it.
pub fn film_in(
    recipe: &Recipe,
    file: &SceneFile,
    times: Times<'_>,
    asked: Option<&Asked<'_>>,
) -> Checked<Option<FilmDay>> {
    let mut said = Vec::new();
    let midnight = midnight(file, &mut said);
    let load = file
        .load
        .as_ref()
        .map_or(0, |load| whole_minutes(load.value));
    let mut processes = processes(recipe, times, load);
    hold(&mut processes, file, &mut said);
    let meal = file.meal.as_ref().map(|meal| {
        let from = midnight.minute(meal.from.value);
        (from, from + whole_minutes(meal.lasts.value))
    });
    let mut scenes = clocked(file, &midnight, meal, &mut said);
    let needs = needs(recipe, file, &processes, &mut scenes, &mut said);
    made_meanwhile(file, &processes, &needs, &mut said);
    let stock = stock(file, &midnight);
    if let Some(from) = stock.work_from {
        let begun_before = evenings(&processes, from);
        processes.extend(begun_before);
    }
    for need in &needs {
        early(
            need, &processes, &scenes, &stock, &midnight, file, &mut said,
        );
    }
    let stops = |said: &[Diagnostic]| said.iter().any(|d| d.code.severity == Severity::Mend);
    if stops(&said) || scenes.is_empty() {
        return Checked {
            output: None,
            diagnostics: said,
        };
    }
    let Some(found) = choose(&processes, &needs, stock.mixers, stock.work_from) else {
        // The first scene with which it does not go any more.
        let fails = |count: &usize| {
            choose(&processes, &needs[..*count], stock.mixers, stock.work_from).is_none()
        };
        let first = (1..=needs.len())
            .find(fails)
            .and_then(|count| needs.get(count - 1));
        let from = first.map_or_else(String::new, |need| {
            format!(
                " It goes no further than to scene {}, at {}.",
                scenes[need.scene].name,
                midnight.clock(need.at_min)
            )
        });
        said.push(
            Diagnostic::whole(
                code::MIXER_NOT_FREE,
                format!(
                    "The doughs that these scenes need cannot be mixed in time with {} of the mixers, not even one for each scene.{from}",
                    stock.mixers
                ),
            )
            .hint("Write mixers = 2, or put scenes further apart that need freshly mixed dough."),
        );
        return Checked {
            output: None,
            diagnostics: said,
        };
    };
    if !found.proven {
        said.push(
            Diagnostic::whole(
                code::FEWEST_NOT_PROVEN,
                "The search for the fewest batches ended before it was sure that fewer cannot do.",
            )
            .hint("The plan holds; to be sure, plan the scenes of each dough by themselves."),
        );
    }
    let inputs = Inputs {
        recipe,
        file,
        processes: &processes,
        needs: &needs,
        scenes: &scenes,
        stock: &stock,
    };
    let Some(made) = found
        .plans
        .iter()
        .filter_map(|plan| made(&inputs, plan, meal))
        .min_by_key(|made| (made.late_min(true), made.late_min(false), made.waits_min))
    else {
        // A parting whose windows were found has stays: this is what the search rules out.
        return Checked {
            output: None,
            diagnostics: said,
        };
    };
    let trade = trade(&inputs, made.batches.len(), meal);
    let wrap_min = wrapped(
        file,
        scenes.iter().map(|scene| scene.ends_min).max().unwrap_or(0),
    );
    let call_min = file
        .call
        .as_ref()
        .map_or(scenes[0].set_up_min, |call| midnight.minute(call.value));
    let mut day = FilmDay {
        scenes: scenes.clone(),
        needs: needs.clone(),
        batches: made.batches,
        extras: made.extras,
        proven: found.proven,
        looked_at: found.looked_at,
        bakes: made.bakes,
        trade,
        table: crate::timetable::Timetable {
            title: file.shoot.value.clone(),
            starts: midnight.starts,
            zone: midnight.zone.clone(),
            has: Vec::new(),
            entries: Vec::new(),
        },
        call_min,
        meal,
        wrap_min,
        fridge_peak: None,
        people: file.people.as_ref().map(|people| people.value),
        spare: file.spare.as_ref().map_or(0.1, |spare| spare.value.si()),
        processes: processes.clone(),
    };
    if let Some(asked) = asked {
        said.extend(held(recipe, asked, &mut day).iter().map(changed));
    }
    table(&inputs, &mut day);
    watch(&inputs, &mut day, &midnight, &mut said);
    said.sort_by_key(|d| d.span.map_or(usize::MAX, |span| span.start));
    Checked {
        output: Some(day),
        diagnostics: said,
    }
}

/// What everything is planned from.
pub struct Inputs<'a> {
    /// The recipe.
    pub recipe: &'a Recipe,
    /// The scenes as written.
    pub file: &'a SceneFile,
    /// What doughs go through.
    pub processes: &'a [Process],
    /// What scenes need.
    pub needs: &'a [Need],
    /// Scenes on the clock.
    pub scenes: &'a [ScenePlan],
    /// What stands in the kitchen.
    pub stock: &'a Stock,
}

/// A plan made whole.
struct Made {
    batches: Vec<Batch>,
    extras: Vec<super::model::Extra>,
    bakes: Vec<Bake>,
    waits_min: i64,
}

impl Made {
    /// Minutes by which bread is late, for scenes or for nobody.
    fn late_min(&self, for_scenes: bool) -> i64 {
        let of = |bake: &&Bake| bake.for_scene.is_some() == for_scenes;
        self.bakes.iter().filter(of).map(|bake| bake.late_min).sum()
    }
}

fn made(inputs: &Inputs<'_>, plan: &Chosen, meal: Option<(i64, i64)>) -> Option<Made> {
    let mut batches = Vec::new();
    for (nth, (process, members)) in plan.groups.iter().enumerate() {
        let whole = &inputs.processes[*process];
        let serves: Vec<&Need> = members.iter().map(|need| &inputs.needs[*need]).collect();
        let start_min = plan.starts[nth];
        batches.push(Batch {
            process: *process,
            serves: members.clone(),
            start_min,
            window: plan.windows[nth],
            stays: stays(whole, &serves, start_min, &[])?,
            followed: followed(whole, &serves),
            on_camera: serves
                .iter()
                .any(|need| need.works && need.point == whole.start),
            feeds: Vec::new(),
            sides: Vec::new(),
        });
    }
    let fixed = stagger(inputs, &mut batches, meal)?;
    let bakes = bakes(inputs, &mut batches, fixed)?;
    let mut open: Vec<usize> = (0..inputs.needs.len())
        .filter(|at| !plan.groups.iter().any(|(_, members)| members.contains(at)))
        .collect();
    // Those that begin last ask first: what is shown of what goes into a dough is that dough's own.
    for batch in batches.iter_mut().rev() {
        feeds(
            &inputs.processes[batch.process],
            inputs.needs,
            batch,
            &mut open,
        );
    }
    together(&mut batches, inputs.needs);
    for batch in &mut batches {
        for process in inputs.processes.iter().filter(|process| !process.dough) {
            let dough = &inputs.processes[batch.process];
            let at = wanted_at(inputs.recipe, dough, batch, process);
            batch.sides.extend(at.and_then(|at| side(process, at)));
        }
    }
    Some(Made {
        extras: extras(inputs.processes, inputs.needs, &open),
        batches,
        bakes,
        waits_min: plan.waits_min,
    })
}

/// How far a batch is followed: to every point on the way to a scene, and on to the end of each product that
/// a scene has begun and not used up.
fn followed(process: &Process, serves: &[&Need]) -> Vec<bool> {
    let mut followed = vec![false; process.points.len()];
    let used: Vec<usize> = serves
        .iter()
        .flat_map(|need| need.uses_up.clone())
        .collect();
    for need in serves {
        let product = process.points[need.point].product;
        let on = product.is_some_and(|product| !used.contains(&product));
        for (at, point) in process.points.iter().enumerate() {
            if on && point.product == product {
                followed[at] = true;
            }
        }
        followed[need.point] = true;
        // Work that a scene shows is done to its end.
        if need.works {
            for run in process.runs.iter().filter(|run| run.from == need.point) {
                let own = process.points[run.to].product;
                let mine = own == product
                    || serves
                        .iter()
                        .any(|other| process.points[other.point].product == own);
                followed[run.to] |= mine;
            }
        }
    }
    // Whatever leads to a point that is followed is followed too; runs stand in the order of work.
    for run in process.runs.iter().rev() {
        if followed[run.to] {
            followed[run.from] = true;
        }
    }
    followed[process.start] = true;
    followed
}

/// Every bread that goes into an oven; stays of batches are moved to where an oven is free.
fn bakes(inputs: &Inputs<'_>, batches: &mut [Batch], mut fixed: Fixed) -> Option<Vec<Bake>> {
    let mut wishes: Vec<(usize, usize, Option<usize>)> = Vec::new();
    for (at, batch) in batches.iter().enumerate() {
        let process = &inputs.processes[batch.process];
        for (nth, run) in process.runs.iter().enumerate() {
            if matches!(run.what, Doing::Bakes { .. }) && batch.followed[run.to] {
                wishes.push((at, nth, waited_for(inputs, batch, nth)));
            }
        }
    }
    let mut placed: Vec<Placed> = Vec::new();
    let mut bakes: Vec<Bake> = Vec::new();
    while !wishes.is_empty() {
        // Scenes first, then by the latest minute; windows move as breads are placed.
        let windows: Vec<(i64, i64)> = wishes
            .iter()
            .map(|(at, nth, _)| leaving(inputs, &batches[*at], &fixed[*at], *nth))
            .collect::<Option<_>>()?;
        let next = (0..wishes.len())
            .min_by_key(|nth| (wishes[*nth].2.is_none(), windows[*nth].1, windows[*nth].0))?;
        let (at, nth, for_scene) = wishes.remove(next);
        let process = &inputs.processes[batches[at].process];
        let run = &process.runs[nth];
        let Doing::Bakes { first, last } = run.what else {
            continue;
        };
        let wish = Wish {
            window: windows[next],
            best: batches[at].stays[run.from].leaves_min,
            takes_min: run.takes_min,
            first,
            last,
        };
        let (there, late_min) = place(&inputs.stock.ovens, &placed, &wish);
        placed.push(there);
        // What is too late for its scene keeps its dough's plan, and is told.
        fixed[at].push((run.from, there.from_min - late_min));
        let serves: Vec<&Need> = batches[at]
            .serves
            .iter()
            .map(|n| &inputs.needs[*n])
            .collect();
        batches[at].stays = stays(process, &serves, batches[at].start_min, &fixed[at])?;
        bakes.push(Bake {
            batch: at,
            product: process.points[run.to].product.unwrap_or(0),
            run: nth,
            oven: there.oven,
            from_min: there.from_min,
            to_min: there.to_min,
            first,
            last,
            for_scene,
            late_min,
        });
    }
    bakes.sort_by_key(|bake| (bake.from_min, bake.batch, bake.product));
    Some(bakes)
}

fn leaving(
    inputs: &Inputs<'_>,
    batch: &Batch,
    fixed: &[(usize, i64)],
    run: usize,
) -> Option<(i64, i64)> {
    let process = &inputs.processes[batch.process];
    let serves: Vec<&Need> = batch.serves.iter().map(|n| &inputs.needs[*n]).collect();
    super::batch::leaving(
        process,
        &serves,
        batch.start_min,
        fixed,
        process.runs[run].from,
    )
}

/// The first scene that waits for a bread.
fn waited_for(inputs: &Inputs<'_>, batch: &Batch, run: usize) -> Option<usize> {
    let process = &inputs.processes[batch.process];
    let (from, product) = (
        process.runs[run].from,
        process.points[process.runs[run].to].product,
    );
    // Work before the camera that ends in front of the oven goes on into it.
    let leads = |need: &Need| {
        need.works
            && process
                .runs
                .iter()
                .any(|one| one.from == need.point && one.to == from)
    };
    batch
        .serves
        .iter()
        .map(|at| &inputs.needs[*at])
        .filter(|need| process.points[need.point].product == product)
        .filter(|need| need.point > from || (need.point == from && need.works) || leads(need))
        .map(|need| need.scene)
        .min()
}

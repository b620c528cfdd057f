//! The walk along a recipe's steps that builds a process: points, runs, and the parting into products.

use super::holds::{Place, usual};
use super::process::{Doing, Point, Process, Run, Times, first_numbers};
use super::steps::{Minutes, folds, least, next_is_mix};
use numerics::quantity::Temperature;
use recipe::document::model::{Action, Recipe, Standing, Step, Tool};

/// A process under construction.
struct Building<'a> {
    recipe: &'a Recipe,
    minutes: Minutes<'a>,
    load_min: i64,
    points: Vec<Point>,
    runs: Vec<Run>,
    mixer_min: Option<i64>,
    dough: bool,
    feeds_dough: bool,
}

/// Where a walk along steps has come to.
#[derive(Clone)]
struct At<'a> {
    point: usize,
    of: &'a str,
    product: Option<usize>,
    divided: bool,
}

/// The process of a stage, with what goes into it.
pub fn build(
    recipe: &Recipe,
    times: Times<'_>,
    load_min: i64,
    place: usize,
    dough: bool,
    inside: &mut Vec<usize>,
) -> Process {
    inside.push(place);
    let stage = &recipe.stages[place];
    let before = &recipe.stages[..place];
    let fed: Vec<usize> = stage
        .items
        .iter()
        .filter_map(|item| before.iter().position(|s| s.name.value == item.of.value))
        .collect();
    let feeds = fed
        .into_iter()
        .filter(|feed| !inside.contains(feed))
        .collect::<Vec<_>>()
        .into_iter()
        .map(|feed| build(recipe, times, load_min, feed, false, inside))
        .collect();
    let (stage_numbers, product_numbers) = first_numbers(recipe);
    let feeds_dough = recipe.stages[place + 1..]
        .iter()
        .flat_map(|later| &later.items)
        .any(|item| item.of.value == stage.name.value);
    let mut building = Building {
        recipe,
        minutes: Minutes(times),
        load_min,
        points: Vec::new(),
        runs: Vec::new(),
        mixer_min: None,
        dough,
        feeds_dough,
    };
    let of = &stage.name.value;
    let start = building.point(of, "", Place::Bench, 0, None, 0);
    let at = At {
        point: start,
        of,
        product: None,
        divided: false,
    };
    let products: Vec<usize> = (0..recipe.products.len())
        .filter(|product| dough && recipe.products[*product].from.value == *of)
        .collect();
    let ends = building.walk_stage(at, &stage.steps, stage_numbers[place], &products);
    for (product, at) in ends {
        let one = &recipe.products[product];
        let own = At {
            of: &one.name.value,
            ..at
        };
        building.walk(own, &one.steps, product_numbers[product]);
    }
    building.stand_still();
    Process {
        of: of.clone(),
        dough,
        points: building.points,
        runs: building.runs,
        start,
        mixer_min: building.mixer_min,
        feeds,
        night: None,
    }
}

impl<'a> Building<'a> {
    fn point(
        &mut self,
        of: &str,
        state: &str,
        place: Place,
        keeps_min: i64,
        product: Option<usize>,
        age_min: i64,
    ) -> usize {
        // A state that comes again is numbered: "loaf risen 2".
        let again = self
            .points
            .iter()
            .filter(|p| p.of == of && is(&p.state, state))
            .count();
        let state = if again > 0 && !state.is_empty() {
            format!("{state} {}", again + 1)
        } else {
            state.to_owned()
        };
        self.points.push(Point {
            of: of.to_owned(),
            state,
            begins: Vec::new(),
            keeps_min,
            place,
            stands_still: false,
            product,
            age_min,
            step: None,
            next_step: None,
        });
        self.points.len() - 1
    }

    /// Walks the steps of a stage; where it is divided the walk parts into its products.
    fn walk_stage(
        &mut self,
        at: At<'a>,
        steps: &'a [Step],
        first: usize,
        products: &[usize],
    ) -> Vec<(usize, At<'a>)> {
        let parts = steps
            .iter()
            .position(|step| matches!(step.action, Action::Divide { .. }));
        let Some(parts) = parts.filter(|_| !products.is_empty()) else {
            let end = self.walk(at, steps, first);
            let part = |product: usize| {
                let name = &self.recipe.products[product].name.value;
                At {
                    of: name,
                    product: Some(product),
                    divided: true,
                    ..end.clone()
                }
            };
            return products
                .iter()
                .map(|product| (*product, part(*product)))
                .collect();
        };
        let whole = self.walk(at, &steps[..parts], first);
        let mut ends = Vec::new();
        // The whole goes on as well, for a scene that shows the pieces together.
        self.walk(whole.clone(), &steps[parts..], first + parts);
        for product in products {
            let own = At {
                of: &self.recipe.products[*product].name.value,
                product: Some(*product),
                ..whole.clone()
            };
            ends.push((*product, self.walk(own, &steps[parts..], first + parts)));
        }
        ends
    }

    /// Walks steps one after another.
    fn walk(&mut self, mut at: At<'a>, steps: &'a [Step], first: usize) -> At<'a> {
        for (nth, step) in steps.iter().enumerate() {
            let number = first + nth;
            let minutes = self.minutes.of(number, step);
            let later_rests = steps[nth + 1..]
                .iter()
                .any(|other| matches!(other.action, Action::Rest { .. }));
            let folds = folds(&steps[nth + 1..], number + 1);
            match &step.action {
                Action::Ready { .. } | Action::Fold { .. } | Action::Preheat { .. } => {}
                Action::Mix { by, .. } => {
                    let by_machine = by.value == Tool::Mixer;
                    let first_mix = self.mixer_min.is_none() && by_machine;
                    let minutes = if first_mix {
                        minutes + self.load_min
                    } else {
                        minutes
                    };
                    if by_machine {
                        self.mixer_min = Some(self.mixer_min.unwrap_or(0) + minutes);
                    }
                    let doing = if by_machine {
                        Doing::Mixes
                    } else {
                        Doing::Hands("mix")
                    };
                    // Mixes that follow one another are one state, which the last one ends.
                    let more = next_is_mix(&steps[nth + 1..]);
                    let state = if more { "" } else { "mixed" };
                    self.run(&mut at, state, "mixing", minutes, doing, number, step);
                }
                Action::Wake { .. } => {
                    let doing = Doing::Stands {
                        cold: false,
                        warm: true,
                    };
                    self.run(&mut at, "awake", "waking", minutes, doing, number, step);
                }
                Action::Heat { .. } => {
                    self.run(
                        &mut at,
                        "cooked",
                        "cooking",
                        minutes,
                        Doing::Hands("cook"),
                        number,
                        step,
                    );
                }
                Action::Divide { .. } => {
                    at.divided = true;
                    self.run(
                        &mut at,
                        "divided",
                        "dividing",
                        minutes,
                        Doing::Hands("divide"),
                        number,
                        step,
                    );
                }
                Action::Shape { .. } => {
                    self.run(
                        &mut at,
                        "shaped",
                        "shaping",
                        minutes,
                        Doing::Hands("shape"),
                        number,
                        step,
                    );
                }
                Action::Finish { .. } => {
                    self.run(
                        &mut at,
                        "finished",
                        "finishing",
                        minutes,
                        Doing::Hands("finish"),
                        number,
                        step,
                    );
                }
                Action::Bake { phases, .. } => {
                    let dial = |phase: Option<&recipe::document::model::OvenPhase>| {
                        phase.map_or(Temperature::from_celsius(0.0), |phase| phase.at.value)
                    };
                    let doing = Doing::Bakes {
                        first: dial(phases.first()),
                        last: dial(phases.last()),
                    };
                    self.run(&mut at, "baked", "baking", minutes, doing, number, step);
                }
                Action::Cool { .. } => {
                    self.run(&mut at, "cooled", "", minutes, Doing::Cools, number, step);
                }
                Action::Rest { place, .. } => {
                    let cold = place.value == Standing::Refrigerator;
                    let warm = place.value == Standing::WarmPlace;
                    let state = self.rested(&at, cold, later_rests);
                    self.stand(
                        &mut at,
                        state,
                        minutes,
                        Doing::Stands { cold, warm },
                        number,
                        step,
                        &folds,
                    );
                }
            }
        }
        at
    }

    /// What a dough is called that has stood.
    fn rested(&self, at: &At<'_>, cold: bool, later_rests: bool) -> &'static str {
        match (at.product, at.divided) {
            _ if cold => "chilled",
            (Some(_) | None, true) => {
                let shaped = self.points[at.point].state == "shaped"
                    || self
                        .points
                        .iter()
                        .any(|p| p.of == at.of && p.state == "shaped");
                if shaped && !later_rests {
                    "proofed"
                } else {
                    "rested"
                }
            }
            _ if !self.dough && self.feeds_dough => "ripe",
            _ => "risen",
        }
    }

    /// A rest, cut where the dough is folded.
    #[expect(
        clippy::too_many_arguments,
        reason = "one step with all that is known of it"
    )]
    fn stand(
        &mut self,
        at: &mut At<'a>,
        state: &str,
        minutes: i64,
        doing: Doing,
        number: usize,
        step: &Step,
        folds: &[(i64, usize)],
    ) {
        let mut gone = 0;
        for (after, fold) in folds {
            let after = (*after).min(minutes);
            if after <= gone {
                continue;
            }
            self.run(at, "half risen", "", after - gone, doing, number, step);
            self.name_work(at.point, "folding");
            self.points[at.point].next_step = Some(*fold);
            gone = after;
        }
        self.run(at, state, "", minutes - gone, doing, number, step);
    }

    #[expect(
        clippy::too_many_arguments,
        reason = "one step with all that is known of it"
    )]
    fn run(
        &mut self,
        at: &mut At<'a>,
        state: &str,
        begins: &str,
        takes_min: i64,
        what: Doing,
        number: usize,
        step: &Step,
    ) {
        if !begins.is_empty() {
            self.begin(at, begins, number);
        }
        let product = at.product.is_some();
        let (keeps_min, place) = usual(state, product, self.feeds_dough && !self.dough);
        let age_min = self.points[at.point].age_min + takes_min;
        let to = self.point(at.of, state, place, keeps_min, at.product, age_min);
        self.points[to].step = Some(number);
        self.points[at.point].next_step.get_or_insert(number);
        self.runs.push(Run {
            from: at.point,
            to,
            takes_min,
            what,
            step: number,
            least_min: least(step, takes_min),
        });
        at.point = to;
    }

    /// What hands or heat have left rises, rests or cools by itself; all else waits where it is looked at.
    fn stand_still(&mut self) {
        let waits = |run: &&Run| matches!(run.what, Doing::Stands { .. } | Doing::Cools);
        for at in 0..self.points.len() {
            let has_waited = self.runs.iter().filter(waits).any(|run| run.to == at);
            let goes_on = self.runs.iter().filter(waits).any(|run| run.from == at);
            self.points[at].stands_still = has_waited || !goes_on;
        }
    }

    /// Notes that work begins at a point. Pieces that belong to several products begin apart, so that
    /// those of one may wait while another is in hand.
    fn begin(&mut self, at: &mut At<'a>, begins: &str, number: usize) {
        let here = &self.points[at.point];
        if at.product.is_some() && here.product.is_none() && begins != "dividing" {
            let (keeps, place) = usual("divided", true, false);
            let age_min = here.age_min;
            let own = self.point(at.of, "", place, keeps, at.product, age_min);
            self.runs.push(Run {
                from: at.point,
                to: own,
                takes_min: 0,
                what: Doing::Hands(""),
                step: number,
                least_min: 0,
            });
            at.point = own;
        }
        let of = if begins == "dividing" { "" } else { at.of };
        let here = &self.points[at.point];
        // Every product comes by the point at which the dough is divided; it is named once.
        if !here.begins.iter().any(|name| is(name, begins))
            && (of.is_empty() || here.of == of || here.product.is_none())
        {
            self.name_work(at.point, begins);
        }
        self.points[at.point].next_step = Some(number);
    }

    /// Names the work that begins at a point; what begins again is numbered: "dough mixing 2".
    fn name_work(&mut self, point: usize, begins: &str) {
        let of = &self.points[point].of;
        let again = self
            .points
            .iter()
            .filter(|p| p.of == *of && p.begins.iter().any(|name| is(name, begins)))
            .count();
        let name = if again > 0 {
            format!("{begins} {}", again + 1)
        } else {
            begins.to_owned()
        };
        self.points[point].begins.push(name);
    }
}

/// Whether a name is this one, with or without a number: "risen 2" is "risen".
fn is(name: &str, plain: &str) -> bool {
    let rest = name.strip_prefix(plain);
    rest.is_some_and(|rest| rest.is_empty() || rest.starts_with(' '))
}

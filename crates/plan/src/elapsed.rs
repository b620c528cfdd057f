//! The written process laid end to end, with one pair of hands and one oven.
//!
//! Stages run as soon as what they hold is ready; products are shaped one after another in written
//! order and baked as the oven allows: two at one dial temperature may share it on two racks, all
//! others wait until it is empty. Durations are the written ones; nothing is predicted here.

use numerics::quantity::{Duration, Range, Temperature};
use recipe::document::model::{Action, Product, Recipe, Stage, Step, Timing};

/// A rest of this length or more is slept through, and what comes before it is "the day before".
pub const OVERNIGHT: Duration = Duration::from_hours(6.0);

/// The times of a recipe, summed from its written steps.
#[derive(Clone, Debug, PartialEq)]
pub struct Elapsed {
    /// From the first step to the last product cool.
    pub total: Duration,
    /// The same by the low and high ends of the written ranges.
    pub total_range: Range<Duration>,
    /// The part of it up to the end of the last overnight rest; zero when there is none.
    pub day_before: Duration,
    /// From the first thing to do on the day of the bake to the last product cool.
    pub on_the_day: Duration,
    /// Minutes in which hands are at work, all steps added.
    pub hands_on: Duration,
    /// Minutes in which something is in the oven.
    pub baking: Duration,
    /// What must be done before its stage begins, with its lead: ("eggs, butter", 60 min).
    pub leads: Vec<(String, Duration)>,
    /// Clock of each product from the start of its stage's first step, in written order.
    pub products: Vec<ProductTimes>,
}

/// When a product goes in and comes out, counted from the very first step.
#[derive(Clone, Debug, PartialEq)]
pub struct ProductTimes {
    /// Its name.
    pub name: String,
    /// Into the oven.
    pub oven_in: Duration,
    /// Out of the oven.
    pub oven_out: Duration,
    /// Cool enough to cut.
    pub ready: Duration,
    /// Minutes it waits proofed because the oven or the hands are taken.
    pub waits: Duration,
}

/// Which end of the written ranges is laid out.
#[derive(Clone, Copy)]
enum End {
    Usual,
    Low,
    High,
}

fn minutes(timing: &Timing, end: End) -> Duration {
    let usual = timing.usual.value;
    match (&timing.range, end) {
        (Some(range), End::Low) => range.value.low,
        (Some(range), End::High) => range.value.high,
        _ => usual,
    }
}

/// Time that a step takes on the way from one to the next.
fn on_the_way(step: &Step, end: End) -> Duration {
    match &step.action {
        // Things taken out beforehand, folds and heating the oven happen inside other waits.
        Action::Ready { .. } | Action::Fold { .. } | Action::Preheat { .. } => Duration::ZERO,
        Action::Mix { phases, .. } => phases.iter().map(|phase| minutes(&phase.timing, end)).sum(),
        Action::Bake { phases, .. } => phases.iter().map(|phase| minutes(&phase.timing, end)).sum(),
        Action::Wake { timing, .. }
        | Action::Heat { timing, .. }
        | Action::Rest { timing, .. }
        | Action::Divide { timing, .. }
        | Action::Shape { timing }
        | Action::Finish { timing }
        | Action::Cool { timing, .. } => minutes(timing, end),
    }
}

/// Time in which a step keeps hands at work.
fn at_work(step: &Step) -> Duration {
    match &step.action {
        Action::Wake { .. }
        | Action::Rest { .. }
        | Action::Cool { .. }
        | Action::Bake { .. }
        | Action::Preheat { .. } => Duration::ZERO,
        Action::Fold { timing, into_rest } => timing.usual.value * (into_rest.len().max(1) as f64),
        Action::Ready { timing, .. } => timing.usual.value,
        _ => on_the_way(step, End::Usual),
    }
}

/// When a stage ends, counted from the first step of all, and what of it is slept through.
#[derive(Clone, Copy)]
struct Done {
    end: Duration,
    slept: Duration,
}

fn length(stage: &Stage, end: End) -> Duration {
    stage.steps.iter().map(|step| on_the_way(step, end)).sum()
}

fn later(a: Duration, b: Duration) -> Duration {
    if b > a { b } else { a }
}

/// Stages that go into a stage, by their places; only earlier ones can.
fn feeds(recipe: &Recipe, place: usize) -> Vec<usize> {
    recipe.stages[place]
        .items
        .iter()
        .filter_map(|item| {
            let before = &recipe.stages[..place];
            before
                .iter()
                .position(|other| other.name.value == item.of.value)
        })
        .collect()
}

/// When every stage is done, each worked out once, in written order.
fn stages_done(recipe: &Recipe, end: End) -> Vec<Done> {
    let mut all: Vec<Done> = Vec::with_capacity(recipe.stages.len());
    for (place, stage) in recipe.stages.iter().enumerate() {
        let mut clock = Duration::ZERO;
        let mut slept = Duration::ZERO;
        for feed in feeds(recipe, place) {
            clock = later(clock, all[feed].end);
            slept = later(slept, all[feed].slept);
        }
        for step in &stage.steps {
            clock += on_the_way(step, end);
            let rest = matches!(step.action, Action::Rest { .. });
            if rest && on_the_way(step, End::Usual) >= OVERNIGHT {
                slept = clock;
            }
        }
        all.push(Done { end: clock, slept });
    }
    all
}

/// A bake in the oven: when, at what dial, on which rack.
struct Baked<'a> {
    from: Duration,
    to: Duration,
    first: Temperature,
    last: Temperature,
    rack: Option<&'a str>,
}

/// Dial at the beginning and the end of a product's bake, and its rack.
fn oven_wish(product: &Product) -> Option<(Temperature, Temperature, Option<&str>)> {
    product.steps.iter().find_map(|step| match &step.action {
        Action::Bake { phases, rack, .. } => Some((
            phases.first()?.at.value,
            phases.last()?.at.value,
            rack.as_ref().map(|rack| rack.value.as_str()),
        )),
        _ => None,
    })
}

/// Whether two bakes can be in one oven at once: one dial temperature all through, two racks.
fn share(a: &Baked, b: &Baked) -> bool {
    let near = |x: Temperature, y: Temperature| (x - y).abs().si() <= 0.5;
    let racks = a.rack.is_some() && b.rack.is_some() && a.rack != b.rack;
    racks && near(a.first, a.last) && near(a.first, b.first) && near(b.first, b.last)
}

/// The first moment from `ready` on at which the oven can take a bake.
fn oven_free(taken: &[Baked], wish: &Baked, ready: Duration, change: Duration) -> Duration {
    let length = wish.to - wish.from;
    let mut from = ready;
    loop {
        let moved = taken
            .iter()
            .filter(|other| !share(other, wish))
            .map(|other| {
                let other_dial = (other.last - wish.first).abs().si() > 0.5;
                let out = if other_dial {
                    other.to + change
                } else {
                    other.to
                };
                (other.from, out)
            })
            .filter(|(other_from, out)| *other_from < from + length && from < *out)
            .map(|(_, out)| out)
            .fold(from, later);
        if moved <= from {
            return from;
        }
        from = moved;
    }
}

fn preheats(product: &Product) -> Duration {
    product
        .steps
        .iter()
        .filter(|step| matches!(step.action, Action::Preheat { .. }))
        .map(|step| match &step.action {
            Action::Preheat { timing, .. } => timing.usual.value,
            _ => Duration::ZERO,
        })
        .sum()
}

fn lay_out(recipe: &Recipe, end: End) -> (Vec<ProductTimes>, Duration) {
    let mut hands_free = Duration::ZERO;
    let mut oven: Vec<Baked> = Vec::new();
    let stages = stages_done(recipe, end);
    let mut slept = Duration::ZERO;
    let mut all = Vec::new();
    for product in &recipe.products {
        let from = &product.from.value;
        let place = recipe
            .stages
            .iter()
            .position(|stage| stage.name.value == *from);
        let Some(done) = place.map(|place| stages[place]) else {
            continue;
        };
        slept = later(slept, done.slept);
        let mut clock = done.end;
        let mut times = ProductTimes {
            name: product.name.value.clone(),
            oven_in: clock,
            oven_out: clock,
            ready: clock,
            waits: Duration::ZERO,
        };
        for step in &product.steps {
            let takes = on_the_way(step, end);
            match &step.action {
                Action::Shape { .. } => {
                    clock = later(clock, hands_free) + takes;
                    hands_free = clock;
                }
                Action::Rest { .. } if takes >= OVERNIGHT => {
                    clock += takes;
                    slept = later(slept, clock);
                }
                Action::Bake { .. } => {
                    let ready = clock;
                    let wish = oven_wish(product).map(|(first, last, rack)| Baked {
                        from: ready,
                        to: ready + takes,
                        first,
                        last,
                        rack,
                    });
                    if let Some(wish) = wish {
                        clock = oven_free(&oven, &wish, ready, preheats(product));
                        oven.push(Baked {
                            from: clock,
                            to: clock + takes,
                            ..wish
                        });
                    }
                    times.waits = clock - ready;
                    times.oven_in = clock;
                    clock += takes;
                    times.oven_out = clock;
                }
                _ => clock += takes,
            }
        }
        times.ready = clock;
        all.push(times);
    }
    (all, slept)
}

/// Minutes in which at least one product is in the oven.
fn oven_minutes(products: &[ProductTimes]) -> Duration {
    let mut spans: Vec<_> = products.iter().map(|p| (p.oven_in, p.oven_out)).collect();
    spans.sort_by(|a, b| a.0.order(b.0));
    let mut until = Duration::ZERO;
    let mut sum = Duration::ZERO;
    for (from, to) in spans {
        let from = later(from, until);
        if to > from {
            sum += to - from;
            until = to;
        }
    }
    sum
}

/// How long before its own stage the earliest thing of the day must be done: other stages that
/// feed the same one after the night, and things taken out beforehand.
fn lead_on_the_day(recipe: &Recipe) -> Duration {
    let mut lead = Duration::ZERO;
    let done = stages_done(recipe, End::Usual);
    let slept = |place: &usize| done[*place].slept > Duration::ZERO;
    for (place, stage) in recipe.stages.iter().enumerate() {
        let fed = feeds(recipe, place);
        if !fed.iter().any(slept) {
            continue;
        }
        for other in fed.iter().filter(|place| !slept(place)) {
            lead = later(lead, length(&recipe.stages[*other], End::Usual));
        }
        for step in &stage.steps {
            if let Action::Ready { before, .. } = &step.action {
                lead = later(lead, before.value);
            }
        }
    }
    lead
}

/// Sums the written times of a recipe. A recipe without products has no end and gives zeros.
pub fn elapsed(recipe: &Recipe) -> Elapsed {
    let (products, slept) = lay_out(recipe, End::Usual);
    let total_at = |end: End| {
        lay_out(recipe, end)
            .0
            .iter()
            .map(|p| p.ready)
            .fold(Duration::ZERO, later)
    };
    let total = products.iter().map(|p| p.ready).fold(Duration::ZERO, later);
    let steps = recipe
        .stages
        .iter()
        .flat_map(|stage| &stage.steps)
        .chain(recipe.products.iter().flat_map(|product| &product.steps));
    let mut hands_on = Duration::ZERO;
    let mut leads = Vec::new();
    for step in steps {
        hands_on += at_work(step);
        if let Action::Ready { what, before, .. } = &step.action {
            let names: Vec<_> = what.iter().map(|name| name.value.as_str()).collect();
            leads.push((names.join(", "), before.value));
        }
    }
    Elapsed {
        total,
        total_range: Range {
            low: total_at(End::Low),
            high: total_at(End::High),
        },
        day_before: slept,
        on_the_day: if slept > Duration::ZERO {
            total - slept + lead_on_the_day(recipe)
        } else {
            total
        },
        hands_on,
        baking: oven_minutes(&products),
        leads,
        products,
    }
}

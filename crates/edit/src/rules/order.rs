//! The order of work: what must be done before, at the same time, or not yet.

use super::sentences::phrase;
use super::{Case, Rule};
use crate::code;
use crate::ledger::say;
use crate::prose::Spot;
use numerics::quantity::Duration;
use recipe::document::model::{Action, Item, Material, Place, Product, Step};
use recipe::source::{Diagnostic, Span};

pub const RULES: &[Rule] = &[before_its_time, leads, nights, tins, waits];

fn is_bake(step: &Step) -> bool {
    matches!(step.action, Action::Bake { .. })
}

fn early(step: &Step, what: &str, other: Span, hint: &str) -> Diagnostic {
    Diagnostic::at(code::STEP_BEFORE_ITS_TIME, step.text.span, what.to_owned())
        .label(other, "this comes first")
        .hint(hint)
}

fn before_its_time(case: &Case) -> Vec<Diagnostic> {
    let recipe = case.inputs.recipe;
    let mut found = Vec::new();
    for product in &recipe.products {
        let Some(bake) = product.steps.iter().position(is_bake) else {
            continue;
        };
        let last = product.steps.iter().rposition(is_bake).unwrap_or(bake);
        for (place, step) in product.steps.iter().enumerate() {
            let baked = product.steps[bake].span;
            match &step.action {
                Action::Cool { .. } if place < bake => found.push(early(
                    step,
                    "The bread cools before it is baked.",
                    baked,
                    "Move the step behind the bake.",
                )),
                Action::Preheat { .. } if place > last => found.push(early(
                    step,
                    "The oven is heated after the last bake.",
                    baked,
                    "Move the step before the bake, so early that the oven is hot in time.",
                )),
                Action::Shape { .. } if place > last => found.push(early(
                    step,
                    "The dough is shaped after it is baked.",
                    baked,
                    "Move the step before the bake; for cutting or filling baked bread use `finish`.",
                )),
                _ => {}
            }
        }
    }
    for stage in &recipe.stages {
        let mix = stage
            .steps
            .iter()
            .rposition(|step| matches!(step.action, Action::Mix { .. }));
        for (place, step) in stage.steps.iter().enumerate() {
            let Some(mix) = mix else { continue };
            match &step.action {
                Action::Divide { .. } if place < mix => found.push(early(
                    step,
                    "The dough is divided before it is mixed.",
                    stage.steps[mix].span,
                    "Move the step behind the mixing and its rise.",
                )),
                Action::Fold { .. } if place < mix => found.push(early(
                    step,
                    "The dough is folded before it is mixed.",
                    stage.steps[mix].span,
                    "Move the step behind the rise that it belongs to.",
                )),
                _ => {}
            }
        }
    }
    found
}

/// States that take time, and words by which a recipe says when it is begun.
const TAKES_TIME: [(&str, &[&str]); 6] = [
    (
        "softened",
        &["soften", "out of the refrigerator", "room temperature"],
    ),
    (
        "soft",
        &["soften", "out of the refrigerator", "room temperature"],
    ),
    ("room temperature", &["room temperature", "refrigerator"]),
    ("soaked", &["soak"]),
    ("thawed", &["thaw"]),
    ("overnight", &["night", "evening", "day before"]),
];

fn leads(case: &Case) -> Vec<Diagnostic> {
    let recipe = case.inputs.recipe;
    let named: Vec<&str> = super::route::steps(recipe)
        .filter_map(|step| match &step.action {
            Action::Ready { what, .. } => Some(what),
            _ => None,
        })
        .flatten()
        .map(|name| name.value.as_str())
        .collect();
    let in_stages = || recipe.stages.iter().flat_map(|stage| &stage.items);
    let made_ready = |item: &Item| {
        in_stages().any(|other| other.of.value == item.of.value && named.contains(&other.called()))
    };
    let mut found = Vec::new();
    for item in in_stages().chain(&recipe.besides) {
        let Some(state) = &item.state else { continue };
        let Some((word, told)) = TAKES_TIME
            .iter()
            .find(|(word, _)| phrase(&state.value, word).is_some())
        else {
            continue;
        };
        let said = case.passages.iter().any(|passage| {
            let own = matches!(&passage.spot, Spot::State(_));
            let lower = passage.words.to_lowercase();
            let thing = item.called().to_lowercase();
            !own && told.iter().any(|word| lower.contains(word))
                && (lower.contains(&thing) || passage.of.is_none())
        });
        if made_ready(item) || said {
            continue;
        }
        found.push(
            Diagnostic::at(
                code::LEAD_NOT_SAID,
                state.span,
                format!(
                    "The list wants the {} {word}, and nothing before says when to begin with that; the reader finds out with the bowl in hand.",
                    item.called()
                ),
            )
            .hint(format!(
                "Add a first step: `ready = {{ what = [\"{}\"], before = \"60 min\", for = \"1 min\" }}`.",
                item.called()
            ))
            .hint("Or say so in the headnote."),
        );
    }
    found
}

/// Words by which a reader is told that the work begins before the day of the bake.
const NIGHT: [&str; 6] = [
    "night",
    "evening",
    "day before",
    "the day ahead",
    "two days",
    "day ahead",
];

fn nights(case: &Case) -> Vec<Diagnostic> {
    let recipe = case.inputs.recipe;
    let promised = recipe
        .promise
        .as_ref()
        .is_some_and(|promise| promise.within.is_some());
    if case.heard.elapsed.day_before <= Duration::ZERO || promised {
        return Vec::new();
    }
    let first_step = case.passages.iter().find(|passage| passage.is_step());
    let told = case.passages.iter().any(|passage| {
        let early = matches!(
            passage.spot,
            Spot::Title | Spot::FilmTitle | Spot::Headnote | Spot::MakeAhead
        ) || first_step.is_some_and(|first| first.spot == passage.spot);
        let lower = passage.words.to_lowercase();
        early && NIGHT.iter().any(|word| lower.contains(word))
    });
    if told {
        return Vec::new();
    }
    let rest = super::route::steps(recipe).find(|step| {
        matches!(&step.action, Action::Rest { timing, .. } if timing.usual.value >= plan::elapsed::OVERNIGHT)
    });
    vec![
        Diagnostic::at(
            code::NIGHT_NOT_SAID,
            rest.map_or(recipe.title.span, |step| step.text.span),
            format!(
                "From the first step it takes {}, a night among it, and neither title, headnote nor first step says so.",
                say::duration(case.heard.elapsed.total)
            ),
        )
        .hint("Say in the headnote that it is begun the evening before."),
    ]
}

/// Every product's way with the steps of the stage it is cut from.
pub fn way<'a>(case: &'a Case, product: &'a Product) -> Vec<&'a Step> {
    let from = super::route::stage(case.inputs.recipe, &product.from.value);
    let before = from.into_iter().flat_map(|stage| &stage.steps);
    before.chain(&product.steps).collect()
}

/// Words by which a tin is told to be ready.
const READY: [&str; 16] = [
    "grease",
    "greased",
    "oil",
    "oiled",
    "buttered",
    "butter the",
    "line",
    "lined",
    "lining",
    "paper",
    "parchment",
    "dust",
    "dusted",
    "non-stick",
    "nonstick",
    "liner",
];

fn tins(case: &Case) -> Vec<Diagnostic> {
    let recipe = case.inputs.recipe;
    let for_tins = recipe
        .besides
        .iter()
        .any(|item| item.on.as_ref().is_some_and(|on| on.value == Place::Tin));
    let mut found = Vec::new();
    for product in &recipe.products {
        let Some(tin) = &product.tin else { continue };
        let bare = ![Material::Paper, Material::Silicone].contains(&tin.material.value);
        let ready = |text: &str| READY.iter().any(|word| phrase(text, word).is_some());
        let way = way(case, product);
        let told = way
            .iter()
            .any(|step| ready(&step.text.value) || step.text.value.contains("for the tin]"));
        if bare && let Some(late) = too_late(product, &ready) {
            found.push(late);
            continue;
        }
        if !bare || for_tins || told || ready(&tin.name.value) || !product.steps.iter().any(is_bake)
        {
            continue;
        }
        found.push(
            Diagnostic::at(
                code::TIN_NOT_READY,
                tin.name.span,
                format!(
                    "Nothing says that the {} is greased or lined before the dough lies in it; the bread may not come out.",
                    tin.name.value
                ),
            )
            .hint("Say it in the step before the dough is shaped: \"greased with [butter for the tin]\", or on baking paper."),
        );
    }
    found
}

/// A tin that is greased in a step behind the shaping.
fn too_late(product: &Product, ready: &dyn Fn(&str) -> bool) -> Option<Diagnostic> {
    let shaped = product
        .steps
        .iter()
        .position(|step| matches!(step.action, Action::Shape { .. }))?;
    let greases = |step: &Step| {
        let text = &step.text.value;
        ["grease", "butter the tin", "oil the tin", "line the tin"]
            .iter()
            .any(|words| phrase(text, words).is_some())
            || text.contains("for the tin]")
    };
    let first = product.steps.iter().position(greases)?;
    let before = product.steps[..=shaped]
        .iter()
        .any(|step| ready(&step.text.value));
    (first > shaped && !before).then(|| {
        Diagnostic::at(
            code::TIN_NOT_READY,
            product.steps[first].text.span,
            "The tin is greased after the dough has been shaped; it lies in the tin by then, or waits and rises.",
        )
        .label(product.steps[shaped].text.span, "shaped here")
        .hint("Grease it in the step before the dough is shaped.")
    })
}

/// A few minutes more or less are nobody's fault.
const A_MOMENT: Duration = Duration::from_minutes(1.0);

fn waits(case: &Case) -> Vec<Diagnostic> {
    let recipe = case.inputs.recipe;
    let mut found = Vec::new();
    for (product, times) in recipe.products.iter().zip(&case.heard.elapsed.products) {
        let before = product.steps.iter().take_while(|step| !is_bake(step));
        let rest = before
            .filter_map(|step| match &step.action {
                Action::Rest { timing, .. } => Some(timing),
                _ => None,
            })
            .last();
        let Some(range) =
            rest.and_then(|timing| timing.range.as_ref().map(|range| (timing, range)))
        else {
            continue;
        };
        let (timing, range) = range;
        let window = range.value.high - timing.usual.value;
        if times.waits <= window + A_MOMENT {
            continue;
        }
        found.push(
            Diagnostic::at(
                code::PIECE_WAITS_TOO_LONG,
                range.span,
                format!(
                    "With one oven and one pair of hands the {} waits {} when it is ready, and its rise allows {} more.",
                    product.name.value,
                    say::duration(times.waits),
                    say::duration(window)
                ),
            )
            .hint("Bake it earlier in the order, shape it later, or let it wait in the refrigerator.")
            .because("The written usual times laid end to end."),
        );
    }
    found
}

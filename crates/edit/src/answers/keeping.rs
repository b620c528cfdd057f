//! Answers about freezing, calories and cost.

use super::Bench;
use super::reply::{Reply, habit, here, quoted, written};
use numerics::quantity::{Mass, Temperature};
use recipe::larder::Role;

fn at(celsius: f64) -> Temperature {
    Temperature::from_celsius(celsius)
}

/// 39: freezing.
pub fn freeze(bench: &Bench<'_>, reply: &mut Reply) {
    let flour = bench.flour();
    let recipe = bench.inputs.recipe;
    let of_freezing = |text: &&recipe::source::Located<String>| {
        let lower = text.value.to_lowercase();
        lower.contains("freez") || lower.contains("frozen")
    };
    let notes = recipe.notes.iter().chain(&recipe.make_ahead);
    let mut own = recipe
        .storage
        .iter()
        .chain(notes)
        .filter(of_freezing)
        .peekable();
    let says_so = own.peek().is_some();
    for said in own {
        reply.say(format!("The author says: {}", said.value));
    }
    let (cool, cold) = (
        reply.temperature("wrap-below", at(32.0), habit()),
        reply.temperature("freezer", at(-18.0), habit()),
    );
    if says_so {
        // The author's own months and minutes stand; two figures for one thing would be one too many.
        reply.say(format!(
            "Frozen baked, at {cold}, cooled below {cool} in the middle and wrapped tightly it dries least (common practice)."
        ));
    } else {
        let (dial, minutes) = (
            reply.dial("refresh-at", at(150.0), habit()),
            reply.times_between("refresh", 8.0, 10.0, habit()),
        );
        reply.say(format!(
            "Freeze it baked, at {cold} for 2–3 months: cooled below {cool} in the middle and wrapped tightly it dries least (common practice)."
        ));
        reply.say(format!(
            "Refresh it {minutes} at {dial}; a warm middle decides."
        ));
    }
    let yeast = bench.mass_of(|one| matches!(one.role, Role::Yeast(_)));
    if yeast > Mass::ZERO {
        let source = || {
            quoted(
                "a university food scientist’s column on freezing yeast dough: ¼ to ½ tsp more yeast for 3 cups of flour",
            )
        };
        // 3.1 g in a teaspoon of dry yeast, 3 cups of flour of 126 g.
        let each = |teaspoons: f64| flour * (teaspoons * 3.1 / (3.0 * 126.0));
        let (low, high) = (
            reply.mass("more-yeast-least", each(0.25), source()),
            reply.mass("more-yeast-most", each(0.5), source()),
        );
        reply.more(format!(
            "As dough: put {low} to {high} more dry yeast in, freeze it shaped, use it within 4 weeks, and thaw it in the refrigerator 8–12 h before its last rise; no frozen dough is followed here, so there are no minutes for it."
        ));
    }
    let (from, to) = (at(0.0).celsius(), at(8.0).celsius());
    let band = reply.band(
        "stales-fastest",
        from,
        to,
        quoted("notes on bread in the refrigerator"),
    );
    reply.more(format!(
        "Do not keep bread at {band}: there it goes stale fastest."
    ));
}

/// Calories.
pub fn calories(bench: &Bench<'_>, reply: &mut Reply) {
    let mut told = Vec::new();
    for product in &bench.ledger.label.products {
        let row = product.eu.rows.iter().find(|row| row.what == "energy-kcal");
        let cell = row.and_then(|row| row.cells[0].as_ref());
        if let Some(cell) = cell {
            let shown = reply.put(
                &format!("in-100-g {}", product.name),
                cell.value,
                cell.unit,
                cell.shown.clone(),
                cell.origin.clone(),
            );
            told.push(format!("{} {shown}", product.name.to_lowercase()));
        }
    }
    if told.is_empty() {
        return reply.refuse("The energy of this bread cannot be told: figures of one of its ingredients are not known. `everyoven label` names which.");
    }
    let main = bench
        .main()
        .map(|product| product.name.value.to_lowercase());
    let own = told.iter().find(|words| {
        let begins = |main: &String| words.starts_with(main.as_str());
        main.as_ref().is_some_and(begins)
    });
    let own = own.unwrap_or(&told[0]);
    reply.say(format!(
        "In 100 g after the bake: {own}, reckoned from public tables."
    ));
    reply.say("Your flour and butter decide, so it is for information only.");
    reply.more(format!(
        "Rounded as European labels are: {}.",
        told.join(", ")
    ));
    reply.rests("the panel at the end of the recipe’s page (`everyoven label`)");
}

/// Cost: refused without prices.
pub fn cost(bench: &Bench<'_>, reply: &mut Reply) {
    reply.refuse("Your receipts decide that, and a made-up price would be worth nothing.");
    reply.more("Write your own prices down with their dates and ask `everyoven label --prices`.");
    let flour = reply.mass("flour", bench.flour(), here());
    let fat = bench.mass_of(|one| one.role == Role::Fat);
    if fat > Mass::ZERO {
        let fat = reply.mass("fat", fat, written());
        reply.say(format!(
            "What it will hang on: {flour} of flour and {fat} of butter or oil."
        ));
    } else {
        reply.say(format!(
            "What it will hang on: {flour} of flour and the oven’s hour."
        ));
    }
}

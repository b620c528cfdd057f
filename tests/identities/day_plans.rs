//! Days made up by chance, planned, and looked over entry by entry without asking whoever planned them.

use crate::bake_days::{Kitchen, Known, batches, known, place, puzzle};
use crate::chance::Chance;
use jiff::civil::time;
use plan::day::entries::timetable;
use plan::day::means::Means;
use plan::day::solve::{AtOnce, Outcome, Solved, solve, solve_with};
use plan::day::tasks::{Batch, Made, Serve};
use plan::timetable::{Entry, Kind, Resource, Timetable};
use recipe::document::model::Hours;
use std::cell::Cell;

fn of<'a>(table: &'a Timetable, what: &'a Resource) -> impl Iterator<Item = (&'a Entry, u32)> {
    table.entries.iter().filter_map(move |entry| {
        let used = entry.occupies.iter().find(|one| one.what == *what)?;
        Some((entry, used.count))
    })
}

/// At the beginning of every use, no more is used than there is.
fn enough(
    table: &Timetable,
    what: &Resource,
    kind: Option<Kind>,
    there: u32,
) -> Result<(), String> {
    let uses: Vec<(&Entry, u32)> = of(table, what)
        .filter(|(entry, _)| kind.is_none_or(|kind| entry.kind == kind))
        .collect();
    for (one, _) in &uses {
        let at = one.begins_min;
        let taken: u32 = uses
            .iter()
            .filter(|(other, _)| other.begins_min <= at && at < other.ends_min())
            .map(|(_, count)| count)
            .sum();
        if one.lasts_min > 0 && taken > there {
            return Err(format!("{taken} of {} at {at}: {}", what.word(), one.words));
        }
    }
    Ok(())
}

/// The dial at which a bake begins and the one at which it ends, °C, from what the table says of it.
fn dials(entry: &Entry) -> (f64, f64) {
    let read = |text: &str| -> f64 {
        let number: String = text
            .trim()
            .chars()
            .take_while(char::is_ascii_digit)
            .collect();
        number.parse().expect("a dial")
    };
    let first = read(&entry.note);
    let last = entry
        .note
        .split_once(", then ")
        .map_or(first, |(_, then)| read(then));
    (first, last)
}

/// One temperature at a time: two bakes at once have one dial, others lie 8 min for 25 °C apart.
fn one_temperature(table: &Timetable) -> Result<(), String> {
    let bakes: Vec<&Entry> = table
        .entries
        .iter()
        .filter(|entry| entry.kind == Kind::Bakes)
        .collect();
    for one in &bakes {
        for other in &bakes {
            if std::ptr::eq(*one, *other) || one.begins_min > other.begins_min {
                continue;
            }
            let (a, b) = (dials(one), dials(other));
            let alike = |one: f64, other: f64| (one - other).abs() < 1e-9;
            let same = alike(a.0, a.1) && alike(b.0, b.1) && alike(a.0, b.0);
            let change = ((a.1 - b.0).abs() * 8.0 / 25.0 - 1e-6).ceil();
            let apart = other.begins_min - one.ends_min();
            if !same && (apart as f64) < change {
                return Err(format!(
                    "{} and {} are {apart} min apart",
                    one.words, other.words
                ));
            }
        }
    }
    Ok(())
}

/// The entries of one product's load, in order: each begins when what comes before it lets it.
fn in_order(table: &Timetable, batch: &Batch<'_>) -> Result<(), String> {
    for product in &batch.recipe.products {
        let whose = format!("{}, {}", batch.label, product.name.value);
        let own = table.entries.iter().filter(|entry| {
            entry.batch == whose && !matches!(entry.kind, Kind::Waits | Kind::Ready)
        });
        // What is done at a bake that goes on lies within one.
        let (at_a_bake, own): (Vec<&Entry>, Vec<&Entry>) = own.partition(|entry| {
            let does = [
                "Cover the",
                "Take the foil",
                "Let the steam",
                "Turn the oven",
                "Give steam",
            ];
            does.iter().any(|does| entry.words.starts_with(does))
        });
        for turn in at_a_bake {
            let during = |bake: &&Entry| {
                let within = bake.begins_min < turn.begins_min && turn.begins_min < bake.ends_min();
                bake.kind == Kind::Bakes && within
            };
            if !own.iter().any(during) {
                return Err(format!("{} at no bake", turn.words));
            }
        }
        let loads: std::collections::BTreeSet<&str> = own
            .iter()
            .map(|entry| entry.words.split_once(" the ").map_or("", |(_, name)| name))
            .collect();
        if loads.is_empty() {
            return Err(format!("{whose} is not in the table"));
        }
        for load in loads {
            let mut chain = own
                .iter()
                .filter(|entry| entry.words.ends_with(load))
                .peekable();
            while let Some(one) = chain.next() {
                let Some(next) = chain.peek() else { break };
                let wait = next.begins_min - one.ends_min();
                let at_once = one.kind == Kind::Bakes
                    || (one.kind == Kind::Work && next.kind == Kind::Stands);
                if wait < 0 || (at_once && wait != 0) {
                    return Err(format!(
                        "{wait} min between {} and {}",
                        one.words, next.words
                    ));
                }
            }
            let kinds = |kind: Kind| {
                own.iter()
                    .filter(|entry| entry.words.ends_with(load) && entry.kind == kind)
                    .count()
            };
            if kinds(Kind::Bakes) != 1 {
                return Err(format!("{load} is baked {} times", kinds(Kind::Bakes)));
            }
        }
        let stage = table
            .entries
            .iter()
            .filter(|entry| entry.batch == batch.label && entry.kind == Kind::Stands);
        let dough_ready = stage.map(Entry::ends_min).max().unwrap_or(i64::MIN);
        let first = own.iter().map(|entry| entry.begins_min).min().unwrap_or(0);
        let late_stage = batch
            .recipe
            .stages
            .last()
            .is_some_and(|stage| stage.name.value.eq_ignore_ascii_case(&product.from.value));
        if late_stage && first < dough_ready {
            return Err(format!(
                "{whose} is shaped at {first}, its dough is ready at {dough_ready}"
            ));
        }
    }
    Ok(())
}

/// Nobody works in closed hours, and hands are there when bread goes in and comes out.
fn hands(table: &Timetable, means: &Means) -> Result<(), String> {
    let mut work: Vec<(i64, i64, String)> = of(table, &Resource::Hands)
        .map(|(entry, _)| (entry.begins_min, entry.ends_min(), entry.words.clone()))
        .collect();
    for entry in table
        .entries
        .iter()
        .filter(|entry| entry.kind == Kind::Bakes)
    {
        work.push((entry.begins_min, entry.begins_min + 1, entry.words.clone()));
        work.push((entry.ends_min(), entry.ends_min() + 1, entry.words.clone()));
    }
    for (from, to, words) in &work {
        for minute in *from..*to {
            for hours in means.quiet.iter().chain(&means.breaks) {
                let at = table.clock(minute).time();
                let inside = if hours.from < hours.to {
                    hours.from <= at && at < hours.to
                } else {
                    hours.from <= at || at < hours.to
                };
                if inside {
                    return Err(format!("{words} at {at}"));
                }
            }
            let busy = work
                .iter()
                .filter(|(from, to, _)| *from <= minute && minute < *to)
                .count();
            if busy > usize::try_from(means.hands).expect("positive") {
                return Err(format!("{busy} things for hands at {minute}: {words}"));
            }
        }
    }
    Ok(())
}

/// So often a search asks whether to go on before it has to end.
const QUESTIONS: f64 = 60.0;

fn kitchen_of(chance: &mut Chance) -> Means {
    let night = Hours {
        from: time(22, 0, 0, 0),
        to: time(6, 0, 0, 0),
    };
    let lunch = Hours {
        from: time(12, 30, 0, 0),
        to: time(13, 0, 0, 0),
    };
    Means {
        hands: 1 + chance.whole(2),
        racks: 1 + chance.whole(2),
        warm_places: (chance.below(3) == 0).then(|| 4 + chance.whole(4)),
        shelves: (chance.below(3) == 0).then(|| 2 + chance.whole(3)),
        quiet: if chance.below(2) == 0 {
            vec![night]
        } else {
            Vec::new()
        },
        breaks: if chance.below(3) == 0 {
            vec![lunch]
        } else {
            Vec::new()
        },
        ..Means::default()
    }
}

#[test]
fn five_hundred_days_keep_to_what_there_is() {
    let kitchen = Kitchen::new();
    let names = [
        "cardamom-dough",
        "same-day-loaf",
        "hearth-loaf",
        "feast-bread",
    ];
    let all: Vec<Known> = names.iter().map(|name| known(&kitchen, name)).collect();
    let (mut better, mut proven) = (0, 0);
    for seed in 0..500_u64 {
        let mut chance = Chance(seed.wrapping_mul(0x9E37_79B9_7F4A_7C15));
        chance.below(2);
        let means = kitchen_of(&mut chance);
        let count = 1 + chance.below(3);
        let chosen: Vec<&Known> = (0..count)
            .map(|_| &all[usize::try_from(chance.below(4)).expect("small")])
            .collect();
        let serve: Vec<Serve> = if chance.below(2) == 0 {
            vec![Serve {
                batch: Some(0),
                product: None,
                by: 1200 + chance.whole(800),
                out: chance.below(3) == 0,
            }]
        } else {
            Vec::new()
        };
        let made = puzzle(&kitchen, &means, &chosen, &serve);
        // So much work, counted: a first plan, and a search that makes it better.
        let mut asked = 0_u32;
        let mut budget = || {
            asked += 1;
            f64::from(asked) / QUESTIONS
        };
        let solved = match solve(&made.problem, &mut budget) {
            Outcome::Plan(solved) => solved,
            other => panic!("day {seed} is not planned: {other:?}"),
        };
        better += u32::from(solved.asked > 0);
        let own = batches(&chosen);
        let table = timetable(&place(&kitchen, &means), &own, &made, &solved.starts);
        let there = |number: i32| u32::try_from(number).expect("positive");
        let mut looked = vec![
            enough(&table, &Resource::Hands, None, there(means.hands)),
            enough(&table, &Resource::Mixer, None, 1),
            enough(
                &table,
                &Resource::Oven,
                Some(Kind::Bakes),
                there(means.racks),
            ),
            one_temperature(&table),
            hands(&table, &means),
        ];
        looked.extend(own.iter().map(|batch| in_order(&table, batch)));
        looked.push(wanted(&table, &own, &serve, solved.cost.late));
        looked.push(no_sooner(&made, &solved.starts));
        for result in looked {
            assert_eq!(result, Ok(()), "day {seed}");
        }
        // The bounds never pass what was found.
        assert!(solved.gaps().iter().all(|gap| *gap >= 0), "day {seed}");
        proven += u32::from(solved.proven());
    }
    assert_eq!(better, 500, "every day was searched");
    assert!(proven >= 35, "only {proven} days were proven best");
}

/// Six doughs by eight in the evening, searched twice: at once or one after the other the plan is the same, and better
/// than what the first search finds alone. What is better is known to be no more than that.
#[test]
fn two_searches_come_to_one_plan_whichever_is_quicker() {
    let kitchen = Kitchen::new();
    let all = ["cardamom-dough", "same-day-loaf", "hearth-loaf"].map(|name| known(&kitchen, name));
    let chosen: Vec<&Known> = all.iter().chain(&all).collect();
    let serve = [Serve {
        batch: None,
        product: None,
        by: 1560,
        out: false,
    }];
    let made = puzzle(&kitchen, &Means::default(), &chosen, &serve);
    let solved = |at_once: Option<&AtOnce<'_>>| -> Solved {
        let mut asked = 0_u32;
        let mut budget = || {
            asked += 1;
            f64::from(asked) / 4000.0
        };
        match solve_with(&made.problem, &mut budget, at_once) {
            Outcome::Plan(solved) => solved,
            other => panic!("it can be planned: {other:?}"),
        }
    };
    // The second search counts here, so that both ways it does the same.
    let so_many = |second: &mut (dyn FnMut(&dyn Fn() -> bool) + Send)| {
        let left = Cell::new(6000_u32);
        second(&|| {
            left.set(left.get().saturating_sub(1));
            left.get() > 0
        });
    };
    let one_by_one = solved(Some(&|first, second| {
        first();
        so_many(second);
    }));
    let at_once = solved(Some(&|first, second| {
        std::thread::scope(|scope| {
            scope.spawn(|| so_many(second));
            first();
        });
    }));
    assert_eq!(one_by_one, at_once);
    assert!(made.problem.holds(&at_once.starts));
    let alone = solved(None);
    assert!(
        at_once.cost < alone.cost,
        "{:?}",
        (at_once.cost, alone.cost)
    );
    assert!(at_once.gaps().iter().all(|gap| *gap >= 0));
}

/// What is ready before it is wanted could not come later alone: no dough with all its breads, and no bread with what
/// is its own, is better so many minutes later, whether the plan is proven or not.
fn no_sooner(made: &Made, starts: &[i32]) -> Result<(), String> {
    let problem = &made.problem;
    let cost = problem.cost(starts);
    let mut sets: Vec<Vec<usize>> = Vec::new();
    let mut keys: Vec<(usize, Option<(usize, usize)>)> = Vec::new();
    for about in &made.about {
        keys.push((about.batch, None));
        keys.push((about.batch, about.product));
    }
    keys.sort_unstable();
    keys.dedup();
    for (batch, product) in keys {
        let own = (0..made.about.len()).filter(|task| {
            let about = &made.about[*task];
            about.batch == batch && (product.is_none() || about.product == product)
        });
        sets.push(own.collect());
    }
    for set in sets {
        let early = problem.wishes.iter().filter_map(|wish| {
            let by = wish.by.filter(|_| set.contains(&wish.task))?;
            Some(by - problem.ends(wish.task, starts))
        });
        let Some(early) = early.max() else { continue };
        for by in [1, 2, 3, 5, 8, 13, 21, 34, 55, 89, 144, 233, 377, early] {
            let mut later = starts.to_vec();
            for task in &set {
                later[*task] += by;
            }
            if by > 0 && by <= early && problem.holds(&later) && problem.cost(&later) < cost {
                let first = &made.about[set[0]].words;
                return Err(format!(
                    "“{first}” and what follows could come {by} min later"
                ));
            }
        }
    }
    Ok(())
}

/// How much later breads are than wanted, added up from the table, is what the plan says.
fn wanted(
    table: &Timetable,
    batches: &[Batch<'_>],
    serve: &[Serve],
    late: i32,
) -> Result<(), String> {
    let mut sum = 0;
    for one in serve {
        let label = &batches[one.batch.expect("a batch")].label;
        let begins = format!("{label}, ");
        let kind = if one.out { Kind::Bakes } else { Kind::Cools };
        let mut ends: std::collections::BTreeMap<(&str, &str), i64> =
            std::collections::BTreeMap::new();
        for entry in table
            .entries
            .iter()
            .filter(|entry| entry.kind == kind && entry.batch.starts_with(&begins))
        {
            let load = entry.words.split_once(" the ").map_or("", |(_, name)| name);
            let last = ends.entry((&entry.batch, load)).or_insert(i64::MIN);
            *last = (*last).max(entry.ends_min());
        }
        sum += ends
            .values()
            .map(|end| (end - i64::from(one.by)).max(0))
            .sum::<i64>();
    }
    if sum == i64::from(late) {
        Ok(())
    } else {
        Err(format!("{sum} min late by the table, {late} by the plan"))
    }
}

//! A bake day as it is said: its table, when each bread goes in and is ready, and how good the plan is.

use super::model::Figure;
use super::timetable::{Days, Hours, TableLines, closed, table_lines};
use super::{figure, say};
use numerics::quantity::Duration;
use plan::day::means::Means;
use plan::day::slip::Moved;
use plan::day::{Bread, Day};
use plan::timetable::Timetable;
use recipe::provenance::{Had, Origin};

/// A bake day in words and strings.
#[derive(Clone, Debug, PartialEq)]
pub struct DayLines {
    /// Everything that is done, by the clock.
    pub table: TableLines,
    /// Every bread, in the order in which they are baked.
    pub breads: Vec<BreadLine>,
    /// What the day comes to: ("Hands at work", "6 h 25 min from first to last").
    pub sums: Vec<(&'static str, Figure)>,
    /// How good the plan is known to be.
    pub verdict: Vec<String>,
    /// What stands under the breads for whoever sees such a table first.
    pub legend: Vec<&'static str>,
}

/// One bread, or one load of it.
#[derive(Clone, Debug, PartialEq)]
pub struct BreadLine {
    /// "8 knots".
    pub name: String,
    /// Which batch.
    pub batch: String,
    /// Into the oven.
    pub into: Figure,
    /// Out of it.
    pub out: Figure,
    /// Ready to eat.
    pub ready: Figure,
    /// When it is wanted.
    pub wanted: Option<Figure>,
    /// "waits 4 min of 14"; none when it does not wait.
    pub waits: Option<Figure>,
}

impl DayLines {
    /// Every figure besides those of the table.
    pub fn figures(&self) -> impl Iterator<Item = &Figure> {
        let breads = self.breads.iter().flat_map(|bread| {
            [&bread.into, &bread.out, &bread.ready]
                .into_iter()
                .chain(&bread.wanted)
                .chain(&bread.waits)
        });
        breads.chain(self.sums.iter().map(|(_, figure)| figure))
    }
}

/// Says a day in a kitchen that has these means.
pub fn day_lines(day: &Day, means: &Means, hours: Hours) -> DayLines {
    let breads = day.breads.iter().enumerate();
    let mut table = table_lines(&day.timetable, hours);
    let first = table.rows.iter().map(|row| row.begins_min).min();
    if let Some(first) = first {
        table.closed = closed(&day.timetable, means, first, day.timetable.ends_min());
    }
    // A clock names its day as soon as two are in the table.
    let wanted = day.breads.iter().filter_map(|bread| bread.wanted);
    let minutes = wanted.map(i64::from).chain(first);
    let days = Days::of(
        minutes
            .chain([day.timetable.ends_min()])
            .map(|minute| day.timetable.clock(minute).date()),
    );
    DayLines {
        table,
        breads: breads
            .map(|(at, bread)| bread_line(&day.timetable, at, bread, days, hours))
            .collect(),
        sums: sums(day, days, hours),
        verdict: verdict(day),
        legend: if day.breads.iter().any(|bread| bread.waits > 0) {
            vec![
                "Waits risen: for so long it waits for the oven when it has risen, of how long it may.",
            ]
        } else {
            Vec::new()
        },
    }
}

fn minutes(minutes: i32) -> Duration {
    Duration::from_minutes(f64::from(minutes))
}

fn of_plan(name: String, value: Duration, shown: String) -> Figure {
    let origin = Origin::new("the plan of the day", Had::Derived);
    figure(name, value.si(), Duration::SI, shown, origin)
}

fn bread_line(table: &Timetable, at: usize, bread: &Bread, days: Days, hours: Hours) -> BreadLine {
    let number = at + 1;
    let when = |what: &str, minute: i32| {
        of_plan(
            format!("day.bread.{number}.{what}"),
            minutes(minute),
            days.clock(table.clock(minute.into()), hours),
        )
    };
    BreadLine {
        name: if bread.pieces == 1 {
            bread.name.clone()
        } else {
            format!("{} {}", bread.pieces, bread.name)
        },
        batch: bread.batch.clone(),
        into: when("in", bread.into),
        out: when("out", bread.out),
        ready: when("ready", bread.ready),
        wanted: bread.wanted.map(|wanted| when("wanted", wanted)),
        waits: (bread.waits > 0).then(|| {
            of_plan(
                format!("day.bread.{number}.waits"),
                minutes(bread.waits),
                format!(
                    "{} of {}",
                    say::duration(minutes(bread.waits)),
                    say::duration(minutes(bread.may_wait))
                ),
            )
        }),
    }
}

fn sums(day: &Day, days: Days, hours: Hours) -> Vec<(&'static str, Figure)> {
    let cost = &day.solved.cost;
    // What a dough has stood already is past its best whatever is planned.
    let behind = day.stood.iter().filter(|one| one.behind);
    let past = cost.past + behind.map(|one| one.past).sum::<i32>();
    let mut all = Vec::new();
    let mut add = |label: &'static str, name: &str, value: i32, shown: String| {
        all.push((label, of_plan(format!("day.{name}"), minutes(value), shown)));
    };
    let length = |value: i32| match value {
        0 => "none".to_owned(),
        value => say::duration(minutes(value)),
    };
    if day.breads.iter().any(|bread| bread.wanted.is_some()) {
        add(
            "Later than wanted, all added",
            "late",
            cost.late,
            length(cost.late),
        );
    }
    add(
        "Dough past its best",
        "past-its-best",
        past - day.old,
        length(past - day.old),
    );
    if day.old > 0 {
        add(
            "Bread ready too long before it is wanted",
            "old",
            day.old,
            length(day.old),
        );
    }
    if day.breads.iter().any(|bread| bread.wanted.is_none()) && cost.last > 0 {
        let at = days.clock(day.timetable.clock(cost.last.into()), hours);
        add("The last bread is ready", "last-ready", cost.last, at);
    }
    add(
        "From the first work of hands to the last",
        "hands-span",
        cost.span,
        length(cost.span),
    );
    if let Some(moved) = &day.moved {
        add(
            "Moved against the plan before",
            "moved",
            moved.total,
            moved_words(moved),
        );
    }
    if cost.early > 0 {
        add(
            "Work before the morning",
            "early",
            cost.early,
            length(cost.early),
        );
    }
    all
}

/// "6 steps, 2 h 30 min in all, none by more than 25 min; the last bread 25 min later".
fn moved_words(moved: &Moved) -> String {
    let last = match moved.last {
        0 => "the last bread at its time".to_owned(),
        later if later > 0 => format!("the last bread {} later", say::duration(minutes(later))),
        sooner => format!("the last bread {} sooner", say::duration(minutes(-sooner))),
    };
    match moved.steps {
        0 => format!("nothing; {last}"),
        1 => format!("1 step by {}; {last}", say::duration(minutes(moved.total))),
        steps => format!(
            "{steps} steps, {} in all, none by more than {}; {last}",
            say::duration(minutes(moved.total)),
            say::duration(minutes(moved.most))
        ),
    }
}

/// How good the plan is, and of a day that has begun which plan it moves from.
fn verdict(day: &Day) -> Vec<String> {
    let from = day.moved.map(|moved| {
        if moved.kept {
            "The plan before is the one that was written down."
        } else {
            "The plan before was worked out anew: none that was written down belongs to these wishes."
        }
    });
    let own = std::iter::once(how_good(day));
    own.chain(from.map(str::to_owned)).collect()
}

/// What a better plan could still gain at most, by what weighs most.
fn how_good(day: &Day) -> String {
    if day.solved.proven() {
        return "No better plan exists: that is proven.".to_owned();
    }
    let words = [
        "less late",
        "less dough or bread past its best",
        "fewer changes to the plan so far",
        "an earlier last bread",
        "a shorter time from the first work to the last",
        "less work before the morning",
        "shorter waits",
    ];
    let open: Vec<String> = day
        .solved
        .gaps()
        .iter()
        .zip(words)
        .filter(|(gap, _)| **gap > 0)
        .map(|(gap, words)| format!("{words} (at most {})", say::duration(minutes(*gap))))
        .collect();
    format!(
        "The best plan found, not proven best. What a better one could still bring: {}.",
        open.join("; ")
    )
}

//! A bake day as a terminal shows it: when each bread is ready, the table, and how good the plan is.

use super::{COLUMNS, left, right, timetable};
use crate::line::plain;
use crate::text::wrap::wrap;
use edit::ledger::day::{BreadLine, DayLines};
use edit::ledger::model::Figure;

/// Heads of the columns, without that of the names.
const HEADS: [&str; 5] = ["in", "out", "ready", "wanted", "waits risen"];
/// Blanks between two columns at the least, and as many as the eye likes where there is room.
const BETWEEN: usize = 2;
const EASY: usize = 4;
/// A name that is longer is broken before it has a line of its own, with an indent and a blank after it.
const NAME: usize = 16;

/// The day, 80 columns wide.
pub fn day(day: &DayLines) -> String {
    let columns = Columns::of(&day.breads);
    let mut out = columns.heads();
    let several = day
        .breads
        .iter()
        .any(|bread| bread.batch != day.breads[0].batch);
    let mut batch = "";
    let mut breads: Vec<&BreadLine> = day.breads.iter().collect();
    breads.sort_by(|one, other| one.batch.cmp(&other.batch));
    for bread in breads {
        if several && bread.batch != batch {
            batch = &bread.batch;
            out.extend(wrap(batch, COLUMNS));
        }
        let indent = if several { "  " } else { "" };
        out.extend(columns.lines(indent, &bread.name, &cells(bread)));
    }
    for words in &day.legend {
        out.extend(wrap(words, COLUMNS));
    }
    out.push(String::new());
    for (label, figure) in &day.sums {
        for line in super::two_ends(label, &figure.shown, COLUMNS).lines() {
            if line.chars().count() > COLUMNS {
                out.extend(wrap(line, COLUMNS));
            } else {
                out.push(line.trim_end().to_owned());
            }
        }
    }
    for sentence in &day.verdict {
        out.extend(wrap(sentence, COLUMNS));
    }
    let head = plain(&(out.join("\n") + "\n"));
    format!("{head}\n{}", timetable(&day.table))
}

fn cells(bread: &BreadLine) -> [String; 5] {
    let shown = |figure: &Option<Figure>| {
        figure
            .as_ref()
            .map_or(String::new(), |one| one.shown.clone())
    };
    [
        bread.into.shown.clone(),
        bread.out.shown.clone(),
        bread.ready.shown.clone(),
        shown(&bread.wanted),
        shown(&bread.waits),
    ]
}

/// Where the figures of a bread stand.
enum Columns {
    /// Beside its name, which has so many columns; each figure has a column so wide.
    Beside(usize, [usize; 5]),
    /// Under its name.
    Under([usize; 5]),
    /// Under its name as a sentence: no column is wide enough.
    Said,
}

impl Columns {
    /// As wide as what stands in them, so that two never run together.
    fn of(breads: &[BreadLine]) -> Self {
        let mut wide = HEADS.map(|head| head.chars().count());
        for bread in breads {
            for (wide, cell) in wide.iter_mut().zip(cells(bread)) {
                *wide = (*wide).max(cell.chars().count());
            }
        }
        let longest = breads.iter().map(|bread| bread.name.chars().count() + 3);
        let name = longest.max().unwrap_or(0).min(NAME);
        let all: usize = wide.iter().sum();
        let taken = |between: usize| all + HEADS.len() * between;
        let beside = [EASY, EASY - 1, BETWEEN]
            .into_iter()
            .find(|between| taken(*between) + name <= COLUMNS);
        match beside {
            Some(between) => {
                Self::Beside(COLUMNS - taken(between), wide.map(|wide| wide + between))
            }
            None if taken(BETWEEN) <= COLUMNS => Self::Under(wide.map(|wide| wide + BETWEEN)),
            None => Self::Said,
        }
    }

    /// The heads of the columns.
    fn heads(&self) -> Vec<String> {
        match self {
            Self::Said => Vec::new(),
            _ => self.lines("", "", &HEADS.map(str::to_owned)),
        }
    }

    /// A name with its figures.
    fn lines(&self, indent: &str, name: &str, cells: &[String; 5]) -> Vec<String> {
        let row = |wide: &[usize; 5]| -> String {
            let both = cells.iter().zip(wide);
            both.map(|(cell, wide)| right(cell, *wide)).collect()
        };
        let indented = |words: &str, deep: usize| -> Vec<String> {
            let own = wrap(words, COLUMNS - indent.len() - deep);
            own.iter()
                .map(|line| format!("{indent}{}{line}", " ".repeat(deep)))
                .collect()
        };
        let mut out = match self {
            Self::Beside(wide, columns) => {
                let mut names = wrap(name, wide - indent.len() - 1).into_iter();
                let first = format!("{indent}{}", names.next().unwrap_or_default());
                let mut out = vec![format!("{}{}", left(&first, *wide), row(columns))];
                out.extend(names.map(|more| format!("{indent}{more}")));
                out
            }
            Self::Under(columns) => {
                let mut out = indented(name, 0);
                out.push(right(&row(columns), COLUMNS));
                out
            }
            Self::Said => {
                let told = HEADS.iter().zip(cells).filter(|(_, cell)| !cell.is_empty());
                let told: Vec<String> = told.map(|(head, cell)| format!("{head} {cell}")).collect();
                let mut out = indented(name, 0);
                out.extend(indented(&told.join(", "), 2));
                out
            }
        };
        for line in &mut out {
            line.truncate(line.trim_end().len());
        }
        out.retain(|line| !line.is_empty());
        out
    }
}

#[cfg(test)]
mod tests {
    use super::{COLUMNS, Columns};
    use edit::ledger::day::BreadLine;
    use edit::ledger::model::Figure;
    use recipe::provenance::{Had, Origin};

    fn figure(shown: &str) -> Figure {
        Figure {
            name: String::new(),
            value: 0.0,
            unit: "s",
            shown: shown.to_owned(),
            origin: Origin::new("a made-up plan", Had::Written),
        }
    }

    fn bread(clock: &str, waits: &str) -> BreadLine {
        BreadLine {
            name: "6 rolls with a name that is longer than a column".to_owned(),
            batch: String::new(),
            into: figure(clock),
            out: figure(clock),
            ready: figure(clock),
            wanted: Some(figure(clock)),
            waits: Some(figure(waits)),
        }
    }

    /// Two columns run together when fewer than two blanks stand between what is in them.
    #[test]
    fn columns_keep_apart_whatever_stands_in_them() {
        for clock in [
            "16:00",
            "10:41\u{a0}pm",
            "Sat 10:41\u{a0}pm",
            "Sat 5 Dec 10:41\u{a0}pm",
        ] {
            for waits in [
                "4\u{a0}min of 9\u{a0}min",
                "11\u{a0}h 25\u{a0}min of 12\u{a0}h 32\u{a0}min",
            ] {
                let bread = bread(clock, waits);
                let columns = Columns::of(std::slice::from_ref(&bread));
                let mut all = columns.heads();
                all.extend(columns.lines("  ", &bread.name, &super::cells(&bread)));
                let whole = all.join("\n");
                assert!(
                    all.iter().all(|line| line.chars().count() <= COLUMNS),
                    "{whole}"
                );
                let words: Vec<&str> = whole
                    .split([' ', '\n'])
                    .filter(|word| !word.is_empty())
                    .collect();
                let words = words.join(" ");
                assert!(
                    words.contains("column") && words.contains("6 rolls"),
                    "{whole}"
                );
                assert_eq!(words.matches(clock).count(), 4, "{whole}");
                assert!(words.contains(waits), "{whole}");
                match columns {
                    Columns::Said => assert!(
                        words.contains(&format!("wanted {clock}, waits risen")),
                        "{whole}"
                    ),
                    Columns::Beside(..) | Columns::Under(_) => {
                        assert_eq!(whole.matches(&format!("  {clock}")).count(), 4, "{whole}");
                        assert!(whole.contains(&format!("  {waits}")), "{whole}");
                    }
                }
            }
        }
    }
}

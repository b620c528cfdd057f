//! A bake day planned and set as a page: when each bread is ready, the table, the drawing, the files.

use crate::cli::day::{bought, papers, said, told, wanted};
use crate::cli::day_words::Meant;
use crate::cli::work::Work;
use crate::web::drawing;
use crate::web::in_hand::Made;
use crate::web::recipe::findings::{coded, sentence, weighed};
use crate::world::beside::beside;
use bake::kitchen::Kitchen;
use bake::simulate::Follows;
use edit::ledger::day::{DayLines, day_lines};
use edit::ledger::timetable::{Hours, TableLines};
use maud::{Markup, html};
use plan::day::before::Before;
use plan::day::means::Means;
use plan::day::{Asked as DayAsked, day};
use recipe::source::Diagnostic;
use std::time::Instant;

/// A day as it is asked.
pub struct Day {
    /// Every recipe with its batches.
    pub works: Vec<(Work, u32)>,
    /// What the kitchen has for such a day.
    pub means: Means,
    /// Wishes, clock and what is done.
    pub meant: Meant,
    /// The plan so far, of a day that has begun, where it is kept.
    pub before: Option<Before>,
    /// What ends a step.
    pub follows: Follows,
    /// How hours are written.
    pub hours: Hours,
    /// How long to look for a better plan.
    pub seconds: f64,
}

impl Day {
    /// Plans it; a wish to stop ends the search with the best plan so far.
    pub fn planned(self, own: &crate::web::in_hand::Work) -> Result<Made, crate::failure::Failure> {
        own.far.begins("Asking how long each dough takes", 0);
        let kitchen = self
            .works
            .iter()
            .find_map(|(work, _)| work.made.as_ref())
            .map_or_else(Kitchen::standard, |made| made.kitchen.clone());
        let asked = DayAsked {
            kitchen: &kitchen,
            means: &self.means,
            batches: wanted(&self.works, &kitchen, self.follows),
            serve: self.meant.serve,
            starts: self.meant.starts,
            zone: self.meant.zone.as_ref(),
            follows: self.follows,
            now: self.meant.now,
            before: self.before,
        };
        let mut began: Option<Instant> = None;
        let mut budget = || {
            if own.stop.wanted() {
                return 1.0;
            }
            let began = began.get_or_insert_with(|| {
                own.far
                    .begins("Looking for a better plan, hundredths of the time", 100);
                Instant::now()
            });
            let share = began.elapsed().as_secs_f64() / self.seconds;
            #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)] // 0 to 100
            own.far.is((share.clamp(0.0, 1.0) * 100.0) as usize);
            share
        };
        let mut planned = day(&asked, &mut budget, Some(&beside));
        let works = self.works.iter();
        let of_the_mix = works.flat_map(|(work, _)| work.of_the_mix().cloned());
        planned.diagnostics.splice(..0, of_the_mix);
        let said = said(&asked, &planned);
        let Some(day) = &planned.output else {
            let main = html! { section { h2 { "No plan" } } (said_list(&said)) };
            return Ok(Made {
                main: main.into_string(),
                ..Made::default()
            });
        };
        let lines = day_lines(day, self.hours);
        let list = bought(&self.works, &kitchen);
        let mut files = papers(&lines, &list)?;
        let text = press::terminal::day(&lines);
        files.insert("day.txt".to_owned(), text.into_bytes());
        files.insert("day.json".to_owned(), told(&lines));
        let main = html! {
            (breads(&lines))
            (said_list(&said))
            (table(&lines.table))
            section {
                h2 { "The day as a drawing" }
                (drawing::set(&press::figure::gantt(&lines.table), 1))
            }
        };
        Ok(Made {
            main: main.into_string(),
            files,
            stopped: own.stop.wanted(),
        })
    }
}

/// On a page what the terminal has as an option is a field.
fn on_a_page(hint: &str) -> String {
    hint.replace(" with --from", "")
        .replace(" (--follows clock)", "")
}

fn said_list(all: &[Diagnostic]) -> Markup {
    html! {
        @if !all.is_empty() {
            section {
                h2 { "What to look at" }
                ul.plain { @for said in all {
                    li {
                        (weighed(said))
                        @for hint in &said.hints { p.hint { (coded(&sentence(&on_a_page(hint)))) } }
                    }
                } }
            }
        }
    }
}

fn breads(lines: &DayLines) -> Markup {
    // A column in which nothing would stand only takes the width of a telephone.
    let wanted = lines.breads.iter().any(|bread| bread.wanted.is_some());
    let waits = lines.breads.iter().any(|bread| bread.waits.is_some());
    let heads = [
        ("in", true),
        ("out", true),
        ("ready", true),
        ("wanted", wanted),
        ("waits risen", waits),
    ];
    html! {
        section {
            h2 { "When each bread is ready" }
            div.wide tabindex="0" role="group" aria-label="When each bread is ready" {
                table.figures.table {
                    thead { tr {
                        th scope="col" { "Bread" }
                        @for (head, stands) in heads { @if stands { th.amount scope="col" { (head) } } }
                    } }
                    tbody {
                        @for bread in &lines.breads {
                            tr {
                                th scope="row" { (bread.name) (whose(&lines.table.title, &bread.batch)) }
                                td { (bread.into.shown) }
                                td { (bread.out.shown) }
                                td { strong { (bread.ready.shown) } }
                                @if wanted { td { (bread.wanted.as_ref().map_or("", |at| &at.shown)) } }
                                @if waits { td { (bread.waits.as_ref().map_or("", |waits| &waits.shown)) } }
                            }
                        }
                    }
                }
            }
            dl.facts.sums {
                @for (label, figure) in &lines.sums { dt { (label) } dd { (figure.shown) } }
            }
            @for words in &lines.verdict { p { (words) } }
        }
    }
}

/// Whose something is; nothing where the whole day is that one dough's.
fn whose(title: &str, batch: &str) -> Markup {
    let own = batch
        .strip_prefix(title)
        .is_some_and(|rest| rest.is_empty() || rest.starts_with(", "));
    html! { @if !own && !batch.is_empty() { span.small { " " (batch) } } }
}

/// A planned day by the clock.
pub fn table(table: &TableLines) -> Markup {
    html! {
        section {
            h2 { (table.title) }
            p { (table.when) }
            @for note in &table.notes { p.hint { (note) } }
        }
        @for (at, date) in table.dates.iter().enumerate() {
            section {
                h2 { (date) }
                ul.entries {
                    @for row in table.rows.iter().filter(|row| row.date == at) {
                        li.row {
                            div {
                                p {
                                    strong.clock { (row.begins.shown) } " " (row.words)
                                    (whose(&table.title, &row.batch))
                                }
                                @if !row.note.is_empty() { p.hint { (row.note) } }
                            }
                            p.beside {
                                @if let Some(takes) = &row.takes { (takes.shown) ", to " (row.ends.shown) br; }
                                (row.kind.word())
                                @if !row.occupies.is_empty() { ": " (row.occupies.join(", ")) }
                                @if row.alarm { "; a bell rings" }
                            }
                        }
                    }
                }
            }
        }
    }
}

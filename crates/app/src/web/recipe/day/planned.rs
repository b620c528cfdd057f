//! A bake day planned and set as a page: when each bread is ready, the table, the drawing, the files.

use crate::cli::day::{bought, on_the_sheet, papers, said, told, wanted};
use crate::cli::day_said::{in_a_form, once};
use crate::cli::day_words::Meant;
use crate::cli::work::Work;
use crate::web::drawing;
use crate::web::in_hand::Made;
use crate::web::recipe::findings::{coded, sentence, weighed};
use crate::world::beside::beside;
use bake::kitchen::Kitchen;
use bake::simulate::Follows;
use edit::ledger::day::{DayLines, day_lines};
use edit::ledger::timetable::{Hours, TableLines, TableRow};
use maud::{Markup, html};
use plan::day::before::Before;
use plan::day::means::Means;
use plan::day::{Asked as DayAsked, day};
use recipe::source::Diagnostic;
use std::time::Instant;

/// The parts of a plan's page that are led to from its top, and their words.
const PARTS: [(&str, &str); 4] = [
    ("take-away", "To take away"),
    ("hands", "What your hands do"),
    ("by-the-clock", "By the clock"),
    ("drawing", "The drawing"),
];

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
        let all = said(&asked, &planned);
        let mut found = once(all, planned.output.as_ref(), &asked.batches);
        // On a page an earlier beginning is a field, not a flag.
        for hint in found.iter_mut().flat_map(|one| &mut one.hints) {
            *hint = in_a_form(hint);
        }
        let Some(day) = &planned.output else {
            let main = html! { section { h2 { "No plan" } } (said_list(&found)) };
            return Ok(Made {
                main: main.into_string(),
                ..Made::default()
            });
        };
        let lines = day_lines(day, &self.means, self.hours);
        let list = bought(&self.works, &kitchen);
        let said: Vec<String> = found.iter().map(on_the_sheet).collect();
        let mut files = papers(&lines, &said, &list)?;
        let text = press::terminal::day(&lines);
        files.insert("day.txt".to_owned(), text.into_bytes());
        files.insert("day.json".to_owned(), told(&lines));
        let first = html! {
            @if let Some(past) = &self.meant.past { p.done { (past) } }
            (breads(&lines))
            (said_list(&found))
        };
        let main = html! {
            (hands(&lines.table))
            (table(&lines.table))
            (drawing(&lines.table))
        };
        Ok(Made {
            first: first.into_string(),
            main: main.into_string(),
            files,
            stopped: own.stop.wanted(),
            ..Made::default()
        })
    }
}

/// The way to the parts of a long plan.
pub fn parts() -> Markup {
    html! {
        nav.jump aria-label="Parts of the plan" {
            ul {
                @for (part, words) in PARTS { li { a href=(format!("#{part}")) { (words) } } }
            }
        }
    }
}

/// What hands are wanted for, an entry a line: what a cook looks at between two bells.
pub fn hands(table: &TableLines) -> Markup {
    let rows = |at: usize| -> Vec<&TableRow> {
        let own = table.rows.iter().filter(|row| row.date == at);
        own.filter(|row| row.to_do()).collect()
    };
    html! {
        section {
            h2 #hands { "What your hands do" }
            @for (at, date) in table.dates.iter().enumerate() {
                @let own = rows(at);
                @if !own.is_empty() {
                    h3 { (date) }
                    ol.in-short {
                        @for row in own {
                            li { span.clock { (row.begins.shown) } " " span { (row.words) (whose(&table.title, &row.batch)) } }
                        }
                    }
                }
            }
        }
    }
}

/// The drawing in a box of its own, which scrolls where the page is narrower than it can be read.
pub fn drawing(table: &TableLines) -> Markup {
    html! {
        section {
            h2 #drawing { "The day as a drawing" }
            div.across tabindex="0" role="group" aria-label="The day as a drawing" {
                (drawing::set(&press::figure::gantt(table), 1))
            }
        }
    }
}

fn said_list(all: &[Diagnostic]) -> Markup {
    html! {
        @if !all.is_empty() {
            section {
                h2 { "What to look at" }
                ul.plain { @for said in all {
                    li {
                        (weighed(said))
                        @for hint in &said.hints { p.hint { (coded(&sentence(hint))) } }
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
            (parts())
            div.wide tabindex="0" role="group" aria-label="When each bread is ready" {
                table.figures.table.stacked {
                    thead { tr {
                        th scope="col" { "Bread" }
                        @for (head, stands) in heads { @if stands { th.amount scope="col" { (head) } } }
                    } }
                    tbody {
                        @for bread in &lines.breads {
                            tr {
                                th scope="row" { (bread.name) (whose(&lines.table.title, &bread.batch)) }
                                td data-head="in" { (bread.into.shown) }
                                td data-head="out" { (bread.out.shown) }
                                td data-head="ready" { strong { (bread.ready.shown) } }
                                @if wanted { td data-head="wanted" { (bread.wanted.as_ref().map_or("", |at| &at.shown)) } }
                                @if waits { td data-head="waits risen" { (bread.waits.as_ref().map_or("", |waits| &waits.shown)) } }
                            }
                        }
                    }
                }
            }
            @for words in &lines.legend { p.hint { (words) } }
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
            h2 #by-the-clock { (table.title) }
            p { (table.when) }
            @for note in &table.notes { p.hint { (note) } }
            @let legend = table.legend();
            @if !legend.is_empty() { p.hint { (legend.join(" ")) } }
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
                                span.whole { " · no.\u{a0}" (row.number) }
                            }
                        }
                    }
                }
            }
        }
    }
}

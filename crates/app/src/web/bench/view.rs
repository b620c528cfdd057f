//! One screen of the bench as HTML.

use super::heard::{heard, working};
use super::show::Screen;
use super::{address, frame};
use axum::response::Response;
use edit::ledger::model::{MarginKind, MarginLine, Run};
use edit::ledger::say::{capital, duration};
use edit::ledger::under_way::{BenchStep, expected_degrees, left, next, times};
use maud::{Markup, html};
use numerics::quantity::Duration;
use plan::under_way::{Manner, Piece, Stands};
use press::address::relative;
use press::marks;

/// A clock of the machine that was set by less is the same clock, ms.
const NOTICED_MS: i64 = 30_000;

/// What is due within so many minutes stands among the times.
const SOON_MINUTES: f64 = 60.0;

/// A timer of the strip: a step that stands by itself, or something that is due.
struct Timer<'a> {
    piece: &'a Piece,
    step: &'a BenchStep,
    ends: Duration,
    looks: Duration,
    quiet: bool,
    due: bool,
}

/// The page.
pub fn page(screen: &Screen) -> Response {
    let title = &screen.ready.made().ledger.title;
    let place = relative(screen.name.text());
    let shown = shown(screen);
    let head = shown.map_or_else(
        || format!("{title}, everything is done"),
        |(_, step, _)| format!("{}, {}", step.heading, step.what),
    );
    let body = html! {
        header.top {
            nav aria-label="Recipe" {
                a href=(format!("/recipe/{place}")) { (title) }
                " "
                a href=(format!("/recipe/{place}/log")) { "Bench log" }
            }
        }
        main #main {
            p.said #said role="status" {}
            noscript { p.again { a href="" { "Look again" } ": times go on, and this page shows them as they were when it was opened." } }
            div #bench data-now=(screen.now_ms) data-clock=(format!("{}/now", address(&screen.name)))
                data-step=(screen.shown.unwrap_or(0)) data-working[working(screen)] {
                (set_notice(screen))
                (timers(screen))
                @match shown {
                    Some((piece, step, stands)) => (one(screen, piece, step, stands)),
                    None => (finished(screen)),
                }
                (more(screen))
                (bar(screen, shown))
            }
        }
    };
    frame::page(&head, &body)
}

fn shown(screen: &Screen) -> Option<(&Piece, &BenchStep, &Stands)> {
    let number = screen.shown?;
    let at = screen
        .ready
        .pieces
        .iter()
        .position(|piece| piece.number == number)?;
    let step = screen
        .ready
        .steps
        .iter()
        .find(|step| step.number == number)?;
    Some((&screen.ready.pieces[at], step, &screen.stands[at]))
}

fn called(step: &BenchStep) -> String {
    format!("{}, {}", step.heading, step.what)
}

fn set_notice(screen: &Screen) -> Markup {
    let by = screen.set_by_ms;
    let gone = Duration::from_si(by.abs() as f64 / 1000.0);
    let way = if by < 0 { "back" } else { "forward" };
    html! {
        @if by.abs() > NOTICED_MS {
            p.notice {
                "This machine’s clock was set " (duration(gone)) " " (way) " while the notebook was open. What is \
                 left of each time is as it was; the hours shown are those of the clock as it is now."
            }
        }
    }
}

fn all_timers(screen: &Screen) -> Vec<Timer<'_>> {
    let all = screen.ready.pieces.iter().zip(&screen.stands);
    let soon = screen.now + Duration::from_minutes(SOON_MINUTES);
    let mut timers: Vec<Timer> = all
        .filter_map(|(piece, stands)| {
            let step = screen
                .ready
                .steps
                .iter()
                .find(|step| step.number == piece.number)?;
            let quiet = screen
                .so_far
                .done
                .get(&piece.number)
                .is_some_and(|done| done.quiet);
            let timer = |ends, looks, due| Timer {
                piece,
                step,
                ends,
                looks,
                quiet,
                due,
            };
            match (piece.manner, *stands) {
                (Manner::Waits, Stands::Running { ends, within, .. }) => {
                    Some(timer(ends, within.map_or(ends, |within| within.low), false))
                }
                (Manner::Beside, Stands::Ahead { begins, .. }) if begins <= soon => {
                    Some(timer(begins, begins, true))
                }
                _ => None,
            }
        })
        .collect();
    timers.sort_by(|a, b| a.ends.order(b.ends));
    timers
}

fn moment_ms(screen: &Screen, at: Duration) -> i64 {
    // Times of a bake are days at most.
    #[allow(clippy::cast_possible_truncation)]
    let after = (at.si() * 1000.0) as i64;
    screen.bake.begun.as_millisecond() + after
}

/// Every time that runs, each by the clock and by what is left of it.
fn timers(screen: &Screen) -> Markup {
    let all = all_timers(screen);
    html! {
        @if !all.is_empty() {
            section aria-label="Times" {
                ul.timers {
                    @for timer in &all {
                        @let rung = timer.ends <= screen.now;
                        li.rung[rung] data-name=(called(timer.step)) data-ends=(moment_ms(screen, timer.ends))
                            data-looks=(moment_ms(screen, timer.looks)) data-due[timer.due] data-quiet[timer.quiet]
                            id=(format!("time-{}", timer.piece.number)) {
                            a href=(format!("?step={}", timer.piece.number)) {
                                span.of { (called(timer.step)) @if timer.due { ", due" } }
                                span.left { (left(timer.ends, screen.now)) }
                                span.at { (screen.wall.says(timer.ends, screen.now)) }
                            }
                            @if rung && !timer.quiet {
                                @let number = timer.piece.number;
                                (tap_form(screen, "quiet", number, 100 + number, &html! {
                                    button type="submit" { "Stop the bell" span.unseen { " of " (called(timer.step)) } }
                                }))
                            }
                        }
                    }
                }
            }
        }
    }
}

fn one(screen: &Screen, piece: &Piece, step: &BenchStep, stands: &Stands) -> Markup {
    let next = next(
        &screen.ready.pieces,
        &screen.stands,
        &screen.ready.steps,
        step.number,
        &screen.wall,
        screen.now,
    );
    html! {
        p.of { (step.heading) }
        h1 #step tabindex="-1" { (capital(&step.what)) }
        (clock(screen, piece, stands))
        @if !step.portions.is_empty() {
            h2.unseen { "What goes in" }
            ul.measures {
                @for portion in &step.portions {
                    li { span.huge { (portion.shown) } " " span.word { (portion.of) } }
                }
            }
        }
        h2.unseen { "What is measured" }
        ul.measures {
            @for line in &step.margin { (measure(line)) }
            @if let Some(here) = here(screen, piece) {
                li.here { span.word { "expected here" } " " span.huge { (here) } }
            }
        }
        p.sentence {
            @for run in &step.runs {
                @match run {
                    Run::Words(words) => { (words) }
                    Run::Figure(figure) => { b { (figure.shown) } }
                }
            }
        }
        (read_off(screen, piece, step, stands))
        @if !next.is_empty() {
            section.next {
                h2 { "Next" }
                ul { @for line in &next { li { (line) } } }
            }
        }
    }
}

/// The step's own time by the clock, when it was begun.
fn clock(screen: &Screen, piece: &Piece, stands: &Stands) -> Markup {
    let told = times(stands, &screen.wall, screen.now);
    html! {
        @if let Some(told) = told {
            @match (piece.manner, stands) {
                (Manner::Waits, Stands::Running { .. }) => {
                    p.clock {
                        span.word { "until" } " " span.huge { (told.ends) }
                        @if let Some(within) = &told.within { span.word { (within) } }
                        span.word { (told.begun) }
                    }
                    (heard(screen, piece.number))
                }
                (_, Stands::Over { .. }) => { p.clock { span.word { (told.begun) ", over " (told.ends) } } }
                _ => { p.clock { span.word { (told.begun) } } }
            }
        }
    }
}

/// What is expected in this kitchen, where that is not the written time.
fn here(screen: &Screen, piece: &Piece) -> Option<String> {
    let recipe = &screen.ready.made().recipe;
    let step = plan::under_way::steps(recipe).nth(piece.number.checked_sub(1)?)?;
    let own = plan::under_way::written(&step.action).usual;
    let fine = if piece.oven.is_some() { 1.0 } else { 5.0 };
    let rounded = numerics::decimal::round_to(piece.length.usual.minutes(), fine);
    let apart = (rounded - own.minutes()).abs();
    let told = piece.length.usual != own && apart >= fine;
    told.then(|| duration(Duration::from_minutes(rounded)))
}

const fn class(kind: MarginKind) -> &'static str {
    match kind {
        MarginKind::Heat => "heat",
        MarginKind::Cold => "cold",
        MarginKind::Cue => "cue",
        MarginKind::Time => "time",
        MarginKind::How | MarginKind::Here => "how",
    }
}

/// A line of the margin: its figures huge, its words small.
fn measure(line: &MarginLine) -> Markup {
    html! {
        li class=(class(line.kind)) {
            @if line.kind == MarginKind::Cue {
                span.word { @if press::line::until(line) { "until" } @else { (marks::word(line.kind)) } }
                " "
            }
            @for piece in marks::pieces(&line.shown, &line.figures) {
                @match piece {
                    marks::Piece::Figure(shown) => { span.huge { (shown) } }
                    marks::Piece::Words(words) => { span.word { (words) } }
                }
            }
        }
    }
}

fn hidden(screen: &Screen, does: &str, step: usize, number: usize) -> Markup {
    html! {
        input type="hidden" name="do" value=(does);
        input type="hidden" name="bake" value=(screen.bake.number);
        input type="hidden" name="step" value=(step);
        input type="hidden" name="mark" value=(format!("{}-{number}", screen.mark));
    }
}

fn tap_form(screen: &Screen, does: &str, step: usize, number: usize, inside: &Markup) -> Markup {
    let to = format!("{}/tap", address(&screen.name));
    html! {
        form data-tap method="post" action=(to) class=(does) {
            (hidden(screen, does, step, number))
            (inside)
        }
    }
}

fn stay(step: usize) -> Markup {
    html! { input type="hidden" name="stay" value=(step); }
}

/// What can be read off while a step goes on: a thermometer, a sign, words; more time, and silence.
fn read_off(screen: &Screen, piece: &Piece, step: &BenchStep, stands: &Stands) -> Markup {
    let Stands::Running { began, .. } = *stands else {
        return html! {};
    };
    let number = step.number;
    let inputs = screen.ready.inputs();
    let degrees = expected_degrees(&inputs, &screen.ready.course, number, screen.now - began);
    let read = screen
        .so_far
        .read
        .iter()
        .filter(|read| read.step == Some(number));
    html! {
        section.readings aria-label="Read off" {
            @if piece.manner == Manner::Waits {
                div.taps {
                    (tap_form(screen, "longer", number, 1, &html! { button type="submit" { "5\u{a0}min more" } }))
                    @if let Some(sign) = step.sign {
                        (tap_form(screen, "seen", number, 3, &html! { (stay(number)) button type="submit" { (sign) } }))
                    }
                }
            }
            @if let (Some(into), Some(degrees)) = (step.thermometer, degrees) {
                (tap_form(screen, "temperature", number, 4, &html! {
                    (stay(number))
                    label for="celsius" { "Thermometer in the " (into) ", °C; expected " (degrees) "\u{a0}°C" }
                    div.degrees {
                        button.less type="button" data-by="-1" aria-label="One degree less" hidden { "−" }
                        input.huge #celsius name="celsius" type="number" inputmode="decimal" step="any"
                            min="-30" max="300" value=(degrees);
                        button.more type="button" data-by="1" aria-label="One degree more" hidden { "+" }
                    }
                    button type="submit" { "Note it" }
                }))
            }
            @let read: Vec<_> = read.collect();
            @if !read.is_empty() {
                ul.read {
                    @for read in read { li { (screen.wall.says(read.at, screen.now)) " " (read.words) } }
                }
            }
            details {
                summary { "A note" }
                (tap_form(screen, "note", number, 5, &html! {
                    (stay(number))
                    label for="words" { "What you see" }
                    input #words type="text" name="words" maxlength="500" autocomplete="off";
                    button type="submit" { "Keep the note" }
                }))
            }
        }
    }
}

/// The main taps, in the lower part of the screen.
fn bar(screen: &Screen, shown: Option<(&Piece, &BenchStep, &Stands)>) -> Markup {
    html! {
        div.bar {
            @if let Some((_, words)) = &screen.so_far.last {
                (tap_form(screen, "undo", 0, 6, &html! {
                    button type="submit" { "Undo" span.unseen { ": " (words) } }
                }))
            }
            @if let Some((piece, step, stands)) = shown {
                @match (stands, step.taps.begin) {
                    (Stands::Ahead { .. }, Some(begin)) if piece.manner != Manner::Beside => {
                        (tap_form(screen, "begin", step.number, 7, &html! { button.main type="submit" { (begin) } }))
                    }
                    (Stands::Over { .. }, _) => {
                        a.main href="?" { "To what is in hand" }
                    }
                    _ => {
                        (tap_form(screen, "over", step.number, 8, &html! { button.main type="submit" { (step.taps.over) } }))
                    }
                }
            }
        }
    }
}

fn finished(screen: &Screen) -> Markup {
    html! {
        h1 #step tabindex="-1" { "Everything is done" }
        (end(screen))
    }
}

fn end(screen: &Screen) -> Markup {
    tap_form(
        screen,
        "end",
        0,
        9,
        &html! {
            label for="last-words" { "How it came out" }
            input #last-words type="text" name="words" maxlength="500" autocomplete="off";
            button type="submit" { "End the bake" }
        },
    )
}

/// Every step with how it stands, and what the screen itself needs.
fn more(screen: &Screen) -> Markup {
    html! {
        p.of #awake { "The page cannot keep the screen awake by itself here. Set the telephone to stay on while you bake." }
        details.all {
            summary { "All steps" }
            ol {
                @for (step, stands) in screen.ready.steps.iter().zip(&screen.stands) {
                    li {
                        a href=(format!("?step={}", step.number)) aria-current=[(screen.in_hand == Some(step.number)).then_some("step")] {
                            (called(step))
                        }
                        " "
                        span.word {
                            @match stands {
                                Stands::Over { ended, .. } => { "over " (screen.wall.says(*ended, screen.now)) },
                                Stands::Running { .. } => { "under way" },
                                Stands::Ahead { begins, .. } => { (screen.wall.says(*begins, screen.now)) },
                            }
                        }
                    }
                }
            }
            @for caution in &screen.ready.made().ledger.cautions {
                p { (caution.text) " " span.of { "(" (caution.source) ")" } }
            }
            @if screen.shown.is_some() {
                h2 { "Stop here" }
                (end(screen))
            }
        }
    }
}

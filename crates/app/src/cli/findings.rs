//! Findings as the terminal shows them: name, place, reason, way out.

use super::work::Work;
use annotate_snippets::{AnnotationKind, Group, Level, Renderer, Snippet};
use edit::code;
use recipe::source::{Code, Concern, Diagnostic, Severity};

/// Draws one finding against the text it is about.
pub fn draw(file: &str, source: &str, diagnostic: &Diagnostic) -> String {
    let level = match diagnostic.code.severity {
        Severity::Mend => Level::ERROR,
        Severity::LookAgain => Level::WARNING,
        Severity::Could => Level::INFO,
    }
    .with_name(diagnostic.code.severity.word());
    let mut group = Group::with_title(
        level
            .primary_title(diagnostic.message.as_str())
            .id(diagnostic.code.name),
    );
    if let Some(span) = diagnostic.span {
        let clamp = |at: usize| floor_char(source, at.min(source.len()));
        let range = |start: usize, end: usize| clamp(start)..clamp(end.max(start));
        let mut snippet = Snippet::source(source)
            .path(file)
            .annotation(AnnotationKind::Primary.span(range(span.start, span.end)));
        for label in &diagnostic.labels {
            snippet = snippet.annotation(
                AnnotationKind::Context
                    .span(range(label.span.start, label.span.end))
                    .label(label.text.as_str()),
            );
        }
        group = group.element(snippet);
    } else {
        group = group.element(Level::NOTE.with_name("in").message(file));
    }
    for hint in &diagnostic.hints {
        group = group.element(Level::HELP.with_name("way out").message(hint.as_str()));
    }
    let renderer = Renderer::plain().term_width(100);
    renderer.render(&[group]) + "\n"
}

fn floor_char(text: &str, mut at: usize) -> usize {
    while !text.is_char_boundary(at) {
        at -= 1;
    }
    at
}

/// Leaves out what is found as often in the recipe that this one was made of, but nothing that is to be mended; gives
/// how many.
pub fn leave_out_known(work: &mut Work, original: &Work) -> usize {
    let mut before: Vec<Code> = original
        .findings
        .iter()
        .map(|one| one.diagnostic.code)
        .collect();
    let all = work.findings.len();
    work.findings.retain(|finding| {
        let own = finding.diagnostic.code;
        let known = before.iter().position(|code| *code == own);
        let Some(at) = known.filter(|_| own.severity != Severity::Mend) else {
            return true;
        };
        before.swap_remove(at);
        false
    });
    all - work.findings.len()
}

/// How a list of findings is cut for the eye.
#[derive(Clone, Copy, PartialEq, Eq)]
pub enum For {
    /// What would spoil the bake, and whatever is to be mended; the rest is counted.
    Bake,
    /// Everything.
    Print,
    /// What stops it from going out, and what only going out shows; the rest is counted.
    Publication,
}

/// What nobody knows before the files are made: whether a photograph lies where it should.
const GOING_OUT: [Code; 2] = [code::PHOTO_MISSING, code::PHOTO_LEADS_OUTSIDE];

/// So many findings are drawn; whoever has more begins with these.
const MOST_DRAWN: usize = 60;

/// All findings of a piece of work, those that would spoil the bake first, and a line of counts.
pub fn list(work: &Work, purpose: For) -> String {
    let mut shown = String::new();
    let mut drawn = 0;
    let mut counted = 0;
    for concern in [Concern::Bake, Concern::Print] {
        for severity in [Severity::Mend, Severity::LookAgain, Severity::Could] {
            for finding in &work.findings {
                let own = finding.diagnostic.code;
                if own.concern != concern || own.severity != severity {
                    continue;
                }
                let left_out = match purpose {
                    For::Bake => concern == Concern::Print && severity != Severity::Mend,
                    For::Print => false,
                    For::Publication => {
                        severity != Severity::Mend && finding.file == 0 && !GOING_OUT.contains(&own)
                    }
                };
                if left_out {
                    counted += 1;
                    continue;
                }
                drawn += 1;
                if drawn > MOST_DRAWN {
                    continue;
                }
                let source = work.source(finding.file);
                shown.push_str(&draw(&source.path, &source.text, &finding.diagnostic));
                shown.push('\n');
            }
        }
    }
    if drawn > MOST_DRAWN {
        let more = drawn - MOST_DRAWN;
        shown += &format!("And {more} more; mend these first, then check again.\n\n");
    }
    shown.push_str(&summary(work, purpose, counted));
    shown
}

fn summary(work: &Work, purpose: For, counted: usize) -> String {
    let of = |severity: Severity| {
        work.findings
            .iter()
            .filter(|f| f.diagnostic.code.severity == severity)
            .count()
    };
    let (mend, look, could) = (
        of(Severity::Mend),
        of(Severity::LookAgain),
        of(Severity::Could),
    );
    let mut line = if mend + look + could == 0 {
        "Nothing to mend.".to_owned()
    } else {
        format!("{mend} to mend, {look} to look at again, {could} that could be better.")
    };
    if purpose == For::Bake && counted > 0 {
        line += &format!(
            "\nNot shown: {counted} about the printed page (everyoven check --for print)."
        );
    }
    if purpose == For::Publication && counted > 0 {
        let file = &work.source(0).path;
        line += &format!("\nEach of them: everyoven check {file} --for print");
    }
    if mend + look + could > 0 {
        line.push_str("\nMore on any of them: everyoven explain NAME");
    }
    line.push('\n');
    line
}

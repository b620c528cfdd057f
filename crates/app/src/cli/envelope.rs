//! The JSON that every command prints with `--json`: one shape, one version, one schema.

use crate::failure::Failure;
use edit::advice::Advice;
use edit::answers::Answer;
use edit::ledger::happens::{Happens, Told};
use edit::ledger::model::Figure;
use edit::ledger::others::{self as other, Others};
use edit::ledger::timetable::TableLines;
use press::printed::Output;
use recipe::import::{Assumed, Line, Mark};
use recipe::source::Diagnostic;
use serde::Serialize;
use serde_json::Value;
use std::collections::BTreeSet;

/// The schema of what is printed, version 1.
pub const SCHEMA: &str = include_str!("../../assets/output-1.schema.json");

/// The answer of a command for machines.
#[derive(Serialize)]
pub struct Envelope {
    /// Version of this shape.
    everyoven: u32,
    /// Which command answered.
    command: &'static str,
    /// Findings, in the order of the text.
    findings: Vec<Value>,
    /// Figures, each with its value in SI and the string that every face prints.
    figures: Vec<Value>,
    /// Files written, by path.
    files: Vec<String>,
    /// Lines of a pasted text, with what was made of each.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    lines: Vec<Value>,
    /// What a pasted text leaves out and its file assumes.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    assumed: Vec<Value>,
    /// What happens in each kitchen that a recipe is baked in.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    happens: Vec<Value>,
    /// What comes of a recipe in other kitchens.
    #[serde(skip_serializing_if = "Option::is_none")]
    others: Option<Value>,
    /// A planned day, entry by entry.
    #[serde(skip_serializing_if = "Option::is_none")]
    timetable: Option<Value>,
    /// Which changes of the words would save most bakes there.
    #[serde(skip_serializing_if = "Option::is_none")]
    advice: Option<Value>,
    /// Answers to readers' questions.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    answers: Vec<Value>,
    /// What is said of a talk: when, in which words, what the recipe has, what to say instead.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    talk: Vec<Value>,
    /// The answer as text, for commands whose answer is a text.
    #[serde(skip_serializing_if = "Option::is_none")]
    text: Option<String>,
    /// Why the command failed, if it did.
    #[serde(skip_serializing_if = "Option::is_none")]
    failed: Option<String>,
}

impl Envelope {
    /// An empty answer.
    pub const fn new(command: &'static str) -> Self {
        Self {
            everyoven: 1,
            command,
            findings: Vec::new(),
            figures: Vec::new(),
            files: Vec::new(),
            lines: Vec::new(),
            assumed: Vec::new(),
            happens: Vec::new(),
            others: None,
            timetable: None,
            advice: None,
            answers: Vec::new(),
            talk: Vec::new(),
            text: None,
            failed: None,
        }
    }

    /// The answer of a command that failed.
    pub fn failed(command: &'static str, failure: &Failure) -> Self {
        Self {
            failed: Some(failure.to_string()),
            ..Self::new(command)
        }
    }

    /// Adds a text.
    pub fn with_text(mut self, text: &str) -> Self {
        self.text = Some(text.to_owned());
        self
    }

    /// Adds a finding with its line and column in its file.
    pub fn finding(&mut self, file: &str, source: &str, diagnostic: &Diagnostic) {
        let place = diagnostic.span.map(|span| {
            let (line, column) = line_and_column(source, span.start);
            serde_json::json!({
                "file": file, "line": line, "column": column,
                "start": span.start, "end": span.end,
            })
        });
        self.findings.push(serde_json::json!({
            "code": diagnostic.code.name,
            "grade": diagnostic.code.severity.word(),
            "place": place,
            "message": diagnostic.message,
            "ways_out": diagnostic.hints,
            "trace": diagnostic.trace,
        }));
    }

    /// Adds a figure.
    pub fn figure(&mut self, figure: &Figure) {
        self.figures.push(serde_json::json!({
            "name": figure.name,
            "value": figure.value,
            "unit": figure.unit,
            "shown": figure.shown,
            "source": figure.origin.source,
            "had": figure.origin.had.words(),
        }));
    }

    /// Adds a figure with the outputs that print it.
    pub fn figure_on(&mut self, figure: &Figure, outputs: Option<&BTreeSet<Output>>) {
        self.figure(figure);
        if let Some(Value::Object(last)) = self.figures.last_mut() {
            let words: Vec<&str> = outputs
                .into_iter()
                .flatten()
                .map(|output| output.word())
                .collect();
            last.insert("printed_on".to_owned(), words.into());
        }
    }

    /// Adds a line of a pasted text.
    pub fn line(&mut self, file: &str, line: &Line) {
        let readings: Vec<Value> = line
            .readings
            .iter()
            .map(|one| {
                serde_json::json!({
                    "words": one.words,
                    "key": one.key,
                    "place": one.place.map(recipe::document::model::Place::word),
                    "state": one.state,
                    "mass_kg": one.mass.map(|mass| [mass.low.si(), mass.high.si()]),
                })
            })
            .collect();
        self.lines.push(serde_json::json!({
            "file": file,
            "number": line.number,
            "text": line.text,
            "kind": format!("{:?}", line.kind).to_lowercase(),
            "mark": match line.mark {
                Mark::Understood => "understood",
                Mark::Doubtful => "doubtful",
                Mark::NotUnderstood => "not understood",
            },
            "reason": line.reason,
            "readings": readings,
        }));
    }

    /// Adds what a file assumes.
    pub fn assumed(&mut self, assumed: &Assumed) {
        self.assumed.push(serde_json::json!({
            "what": assumed.what,
            "sentence": assumed.sentence,
            "file_line": assumed.file_line,
        }));
    }

    /// Adds what happens in a kitchen: its figures, and the lines that they stand in.
    pub fn happens(&mut self, happens: &Happens) {
        for figure in happens.figures() {
            self.figure(figure);
        }
        let names = |figures: &[Figure]| -> Vec<String> {
            figures.iter().map(|figure| figure.name.clone()).collect()
        };
        let told = |all: &[Told]| -> Vec<Value> {
            all.iter()
                .map(|one| {
                    serde_json::json!({
                        "step": one.step,
                        "sentence": one.sentence,
                        "source": one.source,
                        "figures": names(&one.figures),
                    })
                })
                .collect()
        };
        let steps: Vec<Value> = happens
            .steps()
            .map(|step| {
                let lines: Vec<Value> = step
                    .lines
                    .iter()
                    .map(|line| {
                        serde_json::json!({
                            "about": press::marks::word(line.kind),
                            "written": line.written,
                            "here": line.here,
                            "differs": line.differs,
                            "figures": names(&line.figures),
                        })
                    })
                    .collect();
                serde_json::json!({
                    "number": step.number,
                    "what": step.what,
                    "begins": step.begins.name,
                    "takes": step.takes.name,
                    "lines": lines,
                })
            })
            .collect();
        self.happens.push(serde_json::json!({
            "kitchen": happens.kitchen,
            "follows": happens.follows,
            "tested": told(&happens.tested),
            "steps": steps,
            "differences": told(&happens.differences),
            "safety": told(&happens.safety),
        }));
    }

    /// Adds what comes of a recipe in other kitchens: its figures, and the lines that they stand in.
    pub fn others(&mut self, others: &Others, seed: u64) {
        for figure in others.figures() {
            self.figure(figure);
        }
        let lines = |all: &[other::Line]| -> Vec<Value> {
            all.iter()
                .map(|line| {
                    let names: Vec<&str> = line
                        .figures
                        .iter()
                        .map(|figure| figure.name.as_str())
                        .collect();
                    serde_json::json!({
                        "step": line.step,
                        "what": line.what,
                        "shown": line.shown,
                        "more": line.more,
                        "figures": names,
                    })
                })
                .collect()
        };
        self.others = Some(serde_json::json!({
            "audience": others.audience,
            "kitchens": others.kitchens,
            "seed": seed,
            "about": others.about,
            "well": lines(&others.well),
            "wrong": lines(&others.failures),
            "times": lines(&others.times),
            "decides": lines(&others.decides),
            "alone": lines(&others.alone),
            "safety": lines(&others.safety),
            "band": others.band,
            "not_known": others.unknowns,
        }));
    }

    /// Adds a planned day: its figures, and the entries that they stand in.
    pub fn timetable(&mut self, table: &TableLines) {
        for figure in table.figures() {
            self.figure(figure);
        }
        let entries: Vec<Value> = table
            .rows
            .iter()
            .map(|row| {
                serde_json::json!({
                    "number": row.number,
                    "date": table.dates[row.date],
                    "begins_at": row.begins_at.iso,
                    "ends_at": row.ends_at.iso,
                    "begins": row.begins.name,
                    "ends": row.ends.name,
                    "takes": row.takes.as_ref().map(|takes| &takes.name),
                    "what": row.words,
                    "whose": row.batch,
                    "kind": row.kind.word(),
                    "keeps_busy": row.occupies,
                    "note": row.note,
                    "bell": row.alarm,
                })
            })
            .collect();
        self.timetable = Some(serde_json::json!({
            "title": table.title,
            "when": table.when,
            "notes": table.notes,
            "entries": entries,
        }));
    }

    /// Adds which changes of the words would save most bakes.
    pub fn advice(&mut self, advice: &Advice) {
        let mut advised = Vec::new();
        for one in &advice.advised {
            for figure in &one.figures {
                self.figure(figure);
            }
            let lines: Vec<String> = one
                .diff
                .iter()
                .map(|(sign, line)| format!("{sign} {line}"))
                .collect();
            advised.push(serde_json::json!({
                "what": one.what,
                "sentence": one.sentence,
                "shown": one.shown,
                "holds": one.holds,
                "lines": lines,
            }));
        }
        let mut alone = Vec::new();
        for (what, shown, figure) in &advice.tried {
            self.figure(figure);
            alone.push(serde_json::json!({ "what": what, "shown": shown }));
        }
        self.advice = Some(serde_json::json!({
            "about": advice.about,
            "advised": advised,
            "alone": alone,
        }));
    }

    /// Adds an answer and its figures.
    pub fn answer(&mut self, answer: &Answer) {
        for figure in &answer.figures {
            self.figure(figure);
        }
        let causes: Vec<Value> = answer
            .causes
            .iter()
            .map(|cause| {
                serde_json::json!({
                    "what": cause.what,
                    "does": cause.does,
                    "way_out": cause.way_out,
                    "reach": cause.reach,
                    "verdict": cause.verdict,
                })
            })
            .collect();
        let names: Vec<&str> = answer.figures.iter().map(|one| one.name.as_str()).collect();
        self.answers.push(serde_json::json!({
            "name": answer.name,
            "asks": answer.asks,
            "reply": answer.reply,
            "more": answer.more,
            "refused": answer.refused,
            "changes": answer.changes,
            "causes": causes,
            "figures": names,
            "rests_on": answer.rests(false),
        }));
    }

    /// Adds what is said of a talk.
    pub fn talk(&mut self, talk: &edit::talk::Talk) {
        let value = |value: &Option<edit::talk::Value>| {
            value.as_ref().map(|value| {
                serde_json::json!({
                    "value": value.value, "unit": value.unit, "shown": value.shown,
                })
            })
        };
        for finding in &talk.findings {
            self.talk.push(serde_json::json!({
                "kind": finding.kind.word(),
                "code": finding.diagnostic.code.name,
                "grade": finding.diagnostic.code.severity.word(),
                "at_s": finding.at.map(|at| at.as_secs_f64()),
                "words": finding.words,
                "said": value(&finding.said),
                "written": value(&finding.written),
                "instead": finding.instead,
                "places": finding.places,
            }));
        }
    }

    /// Adds a written file.
    pub fn file(&mut self, path: String) {
        self.files.push(path);
    }

    /// Adds what another answer holds, findings that are already there left out.
    pub fn append(&mut self, other: Self) {
        for finding in other.findings {
            if !self.findings.contains(&finding) {
                self.findings.push(finding);
            }
        }
        self.figures.extend(other.figures);
        self.files.extend(other.files);
        self.happens.extend(other.happens);
        self.timetable = self.timetable.take().or(other.timetable);
    }

    /// Gives the answer to another command.
    pub const fn rename(&mut self, command: &'static str) {
        self.command = command;
    }

    /// The JSON text with a line end.
    pub fn text(&self) -> String {
        serde_json::to_string_pretty(self).unwrap_or_default() + "\n"
    }
}

/// Line and column of a byte, both from 1; the column counts characters.
pub fn line_and_column(source: &str, byte: usize) -> (usize, usize) {
    let before = source.get(..byte).unwrap_or(source);
    let line = before.matches('\n').count() + 1;
    let column = before.rsplit('\n').next().unwrap_or("").chars().count() + 1;
    (line, column)
}

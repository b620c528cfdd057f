//! How high a unit will be, worked out from the widths of its letters before anything is set.
//!
//! It repeats what the template says about distances and fills lines as the typesetter fills them
//! when text is not justified: each with as many words as it takes. Pairs that stand closer than
//! their widths say (kerning, ligatures) are left out, so a unit comes out a little too high rather
//! than too low; the tests hold it against the galley.

use serde_json::Value;

use super::look::{Look, Margin, PT_PER_MM};
use crate::pdf::faces::{CAP_HEIGHT_EM, Face, advance_em};

/// A run of text in one face and size; `whole` ends no line.
#[derive(Clone, Copy)]
struct Run<'a> {
    text: &'a str,
    face: Face,
    size_pt: f64,
    whole: bool,
}

impl<'a> Run<'a> {
    const fn new(text: &'a str, face: Face, size_pt: f64) -> Self {
        Self {
            text,
            face,
            size_pt,
            whole: false,
        }
    }

    fn width_pt(&self) -> f64 {
        let widths = self.text.chars().map(|sign| advance_em(sign, self.face));
        widths.sum::<f64>() * self.size_pt
    }
}

/// Lines while they are filled.
struct Lines {
    width_pt: f64,
    /// What the line holds up to its last word.
    used: f64,
    /// The blank after that word, which counts only when another follows.
    blank: f64,
    /// The word that is being read.
    word: f64,
    count: usize,
}

impl Lines {
    const fn of_width(width_pt: f64) -> Self {
        Self {
            width_pt,
            used: 0.0,
            blank: 0.0,
            word: 0.0,
            count: 1,
        }
    }

    fn add(&mut self, run: &Run) {
        if run.whole {
            self.word += run.width_pt();
            return;
        }
        for sign in run.text.chars() {
            match sign {
                ' ' => self.end_word(advance_em(sign, run.face) * run.size_pt),
                '\u{200b}' => self.end_word(0.0),
                _ => self.word += advance_em(sign, run.face) * run.size_pt,
            }
        }
    }

    /// Blank that a line may end in.
    fn end_word(&mut self, blank: f64) {
        if self.word > 0.0 {
            if self.used > 0.0 && self.used + self.blank + self.word > self.width_pt {
                self.count += 1;
                self.used = self.word;
            } else {
                self.used += self.blank + self.word;
            }
            self.word = 0.0;
            self.blank = blank;
        } else {
            self.blank += blank;
        }
    }

    fn end(mut self) -> usize {
        self.end_word(0.0);
        self.count
    }
}

fn lines(runs: &[Run], width_pt: f64) -> usize {
    let mut lines = Lines::of_width(width_pt);
    for run in runs {
        lines.add(run);
    }
    lines.end()
}

/// The distances of a look, in points.
struct Gauge<'a> {
    look: &'a Look,
    columns: [f64; 3],
    body: f64,
    small: f64,
    rise: f64,
    /// Distance of baselines of the text, and of second things.
    lead: f64,
    small_lead: f64,
}

/// Leading of second things in parts of their size, as the template has it.
const SMALL_LEADING: f64 = 1.22;

/// The same of a margin over its sentence.
const OVER_LEADING: f64 = 1.16;

/// Height of a unit, printed as the template reads it, in a column so many millimetres wide.
pub(super) fn heights(look: &Look, columns: [f64; 3], width_mm: f64, units: &[Value]) -> Vec<f64> {
    let (body, small) = (look.type_pt, look.small_pt());
    let gauge = Gauge {
        look,
        columns,
        body,
        small,
        rise: 0.66 * body,
        lead: look.leading * body,
        small_lead: SMALL_LEADING * small,
    };
    let width = width_mm * PT_PER_MM;
    units.iter().map(|unit| gauge.unit(unit, width)).collect()
}

impl Gauge<'_> {
    fn unit(&self, unit: &Value, width: f64) -> f64 {
        let it = &unit["content"];
        match word(&unit["kind"]) {
            "title" => self.title(it, width),
            "facts" => self.facts(it, width),
            "contains" => {
                let runs = [
                    self.strong(word(&it["contains"])),
                    self.soft(" "),
                    self.soft(word(&it["honesty"])),
                ];
                self.high(lines(&runs, width), self.lead)
            }
            "labels" => self.lead,
            "stage" | "besides" => {
                let narrow = self.look.left_mm > 0.0 && unit["wide"] != true;
                self.amounts(it, width, narrow)
            }
            "step" => {
                let heading = if unit["heading"].is_null() {
                    0.0
                } else {
                    let heading = [self.strong(word(&unit["heading"]))];
                    self.high(lines(&heading, width), self.lead)
                        + self.look.below_heading_mm() * PT_PER_MM
                };
                heading + self.step(it, width)
            }
            "banner" => self.rise + 1.6 * PT_PER_MM,
            "rule" => 0.0,
            "kit" => self.small_text(&["Kit  ", word(it), "."], width),
            "note" => {
                let runs = [
                    Run::new(word(&it["label"]), Face::Semibold, self.small),
                    self.soft("  "),
                    self.soft(word(&it["shown"])),
                ];
                self.high(lines(&runs, width), self.small_lead)
            }
            "caution" => self.small_text(&[word(&it["label"]), " ", word(&it["shown"])], width),
            "key" => {
                let mut filled = Lines::of_width(width);
                for meaning in list(it) {
                    let run = Run {
                        whole: true,
                        ..self.soft(word(&meaning["word"]))
                    };
                    filled.word += 0.9 * self.small;
                    filled.add(&run);
                    filled.end_word(1.2 * self.small);
                }
                self.high(filled.end(), self.small_lead)
            }
            _ => self.small_text(&[word(it)], width),
        }
    }

    const fn strong<'t>(&self, text: &'t str) -> Run<'t> {
        Run::new(text, Face::Semibold, self.body)
    }

    const fn soft<'t>(&self, text: &'t str) -> Run<'t> {
        Run::new(text, Face::Regular, self.small)
    }

    /// So many lines at a distance, from the top of the first to the last baseline.
    fn high(&self, lines: usize, distance: f64) -> f64 {
        self.rise + lines.saturating_sub(1) as f64 * distance
    }

    fn small_text(&self, texts: &[&str], width: f64) -> f64 {
        let runs: Vec<_> = texts.iter().map(|text| self.soft(text)).collect();
        self.high(lines(&runs, width), self.small_lead)
    }

    fn title(&self, it: &Value, width: f64) -> f64 {
        let size = self.look.title_pt;
        let title = lines(&[Run::new(word(&it["title"]), Face::Semibold, size)], width) as f64;
        let cap = CAP_HEIGHT_EM * size;
        let high = title * cap + (title - 1.0) * 0.4 * size + 2.4 * PT_PER_MM;
        match word(&it["byline"]) {
            "" => high,
            byline => high + self.small_text(&[byline], width),
        }
    }

    fn facts(&self, it: &Value, width: f64) -> f64 {
        let column = self.look.facts_column_em() * self.body;
        let rows: Vec<f64> = list(it)
            .map(|row| {
                let column = if row["whole"] == true { width } else { column };
                let cells = list(&row["facts"]).map(|fact| {
                    let label = Run::new(word(&fact["label"]), Face::Regular, self.body);
                    let mut filled = Lines::of_width(column);
                    filled.add(&label);
                    filled.end_word(0.6 * self.body);
                    filled.add(&self.strong(word(&fact["shown"])));
                    filled.end()
                });
                self.high(cells.max().unwrap_or(1), self.lead)
            })
            .collect();
        let between = rows.len().saturating_sub(1) as f64 * (self.lead - self.rise);
        rows.iter().sum::<f64>() + between + 4.0 * PT_PER_MM
    }

    fn amounts(&self, it: &Value, width: f64, narrow: bool) -> f64 {
        const INSET: f64 = 2.2 * PT_PER_MM;
        let [grams, measure, share] = self.columns;
        let name_width = if narrow {
            width - grams - INSET
        } else {
            width - grams - measure - share - 3.0 * INSET
        };
        let row = |item: &Value| {
            let said = word(&item["said"]);
            let comma = if said.is_empty() { "" } else { ", " };
            let name = [
                Run::new(word(&item["name"]), Face::Regular, self.body),
                self.soft(comma),
                self.soft(said),
            ];
            let name = lines(&name, name_width);
            let (amount, percent) = (word(&item["measure"]), word(&item["percent"]));
            let count = if narrow && !(amount.is_empty() && percent.is_empty()) {
                let mut under = Lines::of_width(name_width);
                under.add(&self.soft(amount));
                under.end_word(0.9 * self.small);
                under.add(&self.soft(percent));
                name + under.end()
            } else if narrow {
                name
            } else {
                name.max(lines(&[self.soft(amount)], measure))
            };
            self.high(count, self.lead) + self.lead - self.rise
        };
        let rows: f64 = list(&it["items"]).map(row).sum();
        let heading = if it["heading"].is_null() {
            0.0
        } else {
            let shown = [
                self.strong(word(&it["heading"])),
                self.soft(word(&it["share"])),
            ];
            let high = self.high(lines(&shown, width), self.lead);
            high + (self.look.stage_gap_mm() + 0.6) * PT_PER_MM
        };
        let sum = if it["sum"].is_null() { 0.0 } else { self.lead };
        heading + rows + sum
    }

    fn step(&self, it: &Value, width: f64) -> f64 {
        let width = width - 1.5 * self.body;
        let sentence: Vec<_> = list(&it["runs"])
            .map(|run| Run {
                whole: run["whole"] == true,
                ..if run["figure"] == true {
                    self.strong(word(&run["text"]))
                } else {
                    Run::new(word(&run["text"]), Face::Regular, self.body)
                }
            })
            .collect();
        let margin: Vec<_> = list(&it["margin"]).collect();
        match self.look.margin {
            Margin::Beside(mm) => {
                let beside = mm * PT_PER_MM;
                let said = lines(&sentence, width - beside - 4.0 * PT_PER_MM);
                let measured: usize = margin
                    .iter()
                    .map(|line| lines(&of_margin(line, self.small), beside - self.small))
                    .sum();
                let measured = self.high(measured, self.small_lead);
                self.high(said, self.lead).max(measured)
            }
            Margin::Under => {
                let said = self.high(lines(&sentence, width), self.lead);
                if margin.is_empty() {
                    return said;
                }
                let under = under(&margin, self.small, width);
                said + self.small_lead - self.rise + self.high(under, self.small_lead)
            }
            Margin::Over(size) => {
                let said = self.high(lines(&sentence, width), self.lead);
                if margin.is_empty() {
                    return said;
                }
                // A mark is higher there than a line of the text.
                let rise = self.rise.max(0.62 * size);
                let over = under(&margin, size, width) as f64;
                let high = over * rise + (over - 1.0) * (OVER_LEADING * size - self.rise);
                high + 1.9 * PT_PER_MM + said
            }
        }
    }
}

/// A margin line in the face of its kind.
fn of_margin(line: &Value, size_pt: f64) -> Vec<Run<'_>> {
    let face = match word(&line["kind"]) {
        "time" => Face::Semibold,
        "cue" => Face::Italic,
        _ => Face::Regular,
    };
    let run = |run| Run {
        whole: Value::get(run, "whole") == Some(&Value::Bool(true)),
        ..Run::new(word(&run["text"]), face, size_pt)
    };
    list(&line["runs"]).map(run).collect()
}

/// Lines of a margin that is set in one run.
fn under(margin: &[&Value], size_pt: f64, width_pt: f64) -> usize {
    const SHORT: usize = 44;
    let mut filled = Lines::of_width(width_pt);
    for line in margin {
        let runs = of_margin(line, size_pt);
        let letters: usize = runs.iter().map(|run| run.text.chars().count()).sum();
        filled.word += 0.95 * size_pt;
        for run in runs {
            let whole = run.whole || letters <= SHORT;
            filled.add(&Run { whole, ..run });
        }
        filled.end_word(1.1 * size_pt);
    }
    filled.end()
}

fn word(value: &Value) -> &str {
    value.as_str().unwrap_or_default()
}

fn list(value: &Value) -> impl Iterator<Item = &Value> {
    value.as_array().into_iter().flatten()
}

#[cfg(test)]
mod tests {
    use super::super::book::{Galley, looks};
    use super::super::columns;
    use super::super::look::{By, MadeUp};
    use super::super::{CardSize, set};
    use crate::pdf::wording::Wording;
    use crate::sample;

    /// The typesetter's own heights, unit by unit: the outside check of the arithmetic above.
    #[test]
    fn heights_that_are_worked_out_are_those_of_the_galley() {
        let wording = Wording::of(&sample::ledger());
        let mut units = 0;
        let mut misses = vec![];
        {
            for look in looks(CardSize::A5) {
                let worked = Galley::of(look, &wording, By::Letters, true).expect("letters");
                let set = Galley::of(look, &wording, By::Galley, true).expect("printable");
                for ((unit, worked), set) in
                    worked.units.iter().zip(&worked.pieces).zip(&set.pieces)
                {
                    units += 1;
                    let (worked, set) = (worked.height + worked.labels, set.height + set.labels);
                    if (worked - set).abs() > 0.05 {
                        misses.push(format!(
                            "{:?} {} pt, {} {}: {worked:.2} pt, set {set:.2} pt",
                            look.margin, look.type_pt, unit.kind, unit.at
                        ));
                    }
                }
            }
        }
        assert!(units > 200, "{units} units");
        assert!(misses.len() * 50 < units, "{misses:#?}");
    }

    #[test]
    fn small_and_large_cards_are_made_up_the_same_by_letters_and_by_galley() {
        let ledger = sample::ledger();
        let wording = Wording::of(&ledger);
        let sides = |made: MadeUp| -> Vec<_> {
            made.sides
                .into_iter()
                .map(|side| (side.top, side.left, side.right))
                .collect()
        };
        let [worked, galley] = [By::Letters, By::Galley]
            .map(|by| set::make_up(&ledger, &wording, CardSize::A6, by).expect("printable"));
        assert_eq!(sides(worked), sides(galley));
        let [worked, galley] = [By::Letters, By::Galley]
            .map(|by| columns::make_up(&wording, CardSize::A4, by).expect("printable"));
        assert_eq!(sides(worked), sides(galley));
    }
}

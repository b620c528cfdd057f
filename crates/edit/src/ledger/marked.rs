//! A ledger whose figures carry a mark each, so that what is printed of it tells which figures are in it.
//!
//! A mark is a letter of private use (The Unicode Standard, 23.5, from memory: plane 15 has 65,534 of them) behind the
//! string that is printed. No output drops letters, and none asks what they are, so that a figure is printed where its
//! mark is. Strings that hold several figures carry the marks of all.

use super::model::{Figure, ItemLine, Ledger, MarginKind, Run, StepLine};

/// The first letter of private use in plane 15, and how many there are.
const FIRST: u32 = 0xF_0000;
const MOST: usize = 65_533;

/// Gives each figure its mark.
struct Marker {
    names: Vec<String>,
}

impl Marker {
    fn mark(&mut self, name: &str) -> String {
        let at = self.names.len().min(MOST);
        self.names.push(name.to_owned());
        let at = u32::try_from(at).unwrap_or(0);
        char::from_u32(FIRST + at)
            .map(String::from)
            .unwrap_or_default()
    }

    fn own(&mut self, figure: &mut Figure) {
        let mark = self.mark(&figure.name);
        figure.shown.push_str(&mark);
    }

    /// Marks behind a string for every figure in it; a figure that is printed by itself too has one there as well.
    fn all_in(&mut self, text: &mut String, figures: &[Figure]) {
        for figure in figures {
            text.push_str(&self.mark(&figure.name));
        }
    }

    fn item(&mut self, item: &mut ItemLine) {
        for figure in [
            &mut item.grams,
            &mut item.measure,
            &mut item.measure_error,
            &mut item.percent,
        ]
        .into_iter()
        .flatten()
        {
            self.own(figure);
        }
    }
}

/// The step of a number.
fn step_of<'a>(ledger: &'a mut Ledger, number: &str) -> Option<&'a mut StepLine> {
    let number: usize = number.parse().ok()?;
    ledger
        .sections
        .iter_mut()
        .flat_map(|section| &mut section.steps)
        .find(|step| step.number == number)
}

/// A mark behind the paragraph of a heading.
fn in_paragraph(ledger: &mut Ledger, heading: &str, mark: &str) {
    if let Some((_, text)) = ledger.paragraphs.iter_mut().find(|(own, _)| own == heading) {
        text.push_str(mark);
    }
}

/// Marks in a text, each by its place among the names.
pub fn marks_in(text: &str) -> impl Iterator<Item = usize> {
    text.chars().filter_map(|letter| {
        let at = usize::try_from(u32::from(letter).checked_sub(FIRST)?).ok()?;
        (at < MOST).then_some(at)
    })
}

impl Ledger {
    /// The same ledger with a mark behind every figure, and the figure's name for each mark.
    pub fn marked(&self) -> (Self, Vec<String>) {
        let mut marker = Marker { names: Vec::new() };
        let mut ledger = self.clone();
        for fact in &mut ledger.facts {
            marker.all_in(&mut fact.shown, &fact.figures);
            // Structured data has its own strings for times and for what is made.
            for figure in &fact.figures {
                let own = match figure.name.as_str() {
                    "time.total" => &mut ledger.iso_times.total,
                    "time.hands-on" => &mut ledger.iso_times.prep,
                    "time.in-the-oven" => &mut ledger.iso_times.cook,
                    name if name.starts_with("makes.") => &mut ledger.yield_line,
                    _ => continue,
                };
                if !own.is_empty() {
                    own.push_str(&marker.mark(&figure.name));
                }
            }
        }
        for said in &self.said {
            let mark = marker.mark(&said.figure.name);
            let passage: Vec<&str> = said.passage.split('.').collect();
            match passage.as_slice() {
                ["title"] => ledger.title.push_str(&mark),
                ["headnote"] => ledger
                    .headnote
                    .iter_mut()
                    .for_each(|text| text.push_str(&mark)),
                ["make-ahead"] => in_paragraph(&mut ledger, "Make ahead", &mark),
                ["storage"] => in_paragraph(&mut ledger, "Storage", &mark),
                ["note", _] => in_paragraph(&mut ledger, "Notes", &mark),
                ["step", number] => {
                    if let Some(step) = step_of(&mut ledger, number) {
                        step.runs.push(Run::Words(mark));
                    }
                }
                ["step", number, "see"] => {
                    let step = step_of(&mut ledger, number);
                    let cue = step.and_then(|step| {
                        step.margin
                            .iter_mut()
                            .find(|line| line.kind == MarginKind::Cue)
                    });
                    if let Some(cue) = cue {
                        cue.shown.push_str(&mark);
                    }
                }
                _ => {}
            }
        }
        for stage in &mut ledger.stages {
            stage
                .flour_share
                .iter_mut()
                .for_each(|figure| marker.own(figure));
            stage.items.iter_mut().for_each(|item| marker.item(item));
            marker.own(&mut stage.sum);
        }
        ledger.besides.iter_mut().for_each(|item| marker.item(item));
        for (_, figure) in &mut ledger.formula {
            marker.own(figure);
        }
        for step in ledger
            .sections
            .iter_mut()
            .flat_map(|section| &mut section.steps)
        {
            for run in &mut step.runs {
                if let Run::Figure(figure) = run {
                    marker.own(figure);
                }
            }
            for line in &mut step.margin {
                marker.all_in(&mut line.shown, &line.figures);
                for figure in &mut line.figures {
                    marker.own(figure);
                }
            }
        }
        for product in &mut ledger.products {
            for figure in product.figures.clone() {
                let fields = [
                    Some(&mut product.pieces),
                    product.tin.as_mut(),
                    product.bake.as_mut(),
                    product.after.as_mut(),
                ];
                let mut lines: Vec<&mut String> = fields.into_iter().flatten().collect();
                let at = lines.iter().position(|line| line.contains(&figure.shown));
                let mark = marker.mark(&figure.name);
                if let Some(line) = at.and_then(|at| lines.get_mut(at)) {
                    line.push_str(&mark);
                }
            }
        }
        for product in &mut ledger.label.products {
            marker.all_in(&mut product.baked, &product.figures);
            for panel in [&mut product.us, &mut product.eu] {
                for figure in panel
                    .rows
                    .iter_mut()
                    .flat_map(|row| row.cells.iter_mut().flatten())
                {
                    marker.own(figure);
                }
            }
        }
        for (room, shown, liquid) in ledger.rooms.iter_mut().flat_map(|table| &mut table.rows) {
            marker.own(room);
            if let Some(liquid) = liquid {
                shown.push_str(&marker.mark(&liquid.name));
            }
        }
        if let Some(reckoned) = &mut ledger.reckoned {
            for row in &mut reckoned.rows {
                marker.all_in(&mut row.line, &row.times);
                for room in &reckoned.rooms {
                    row.line.push_str(&marker.mark(&room.name));
                }
                row.times.iter_mut().for_each(|figure| marker.own(figure));
            }
            reckoned
                .rooms
                .iter_mut()
                .for_each(|figure| marker.own(figure));
        }
        for line in ledger
            .shopping
            .groups
            .iter_mut()
            .flat_map(|group| &mut group.lines)
        {
            for figure in [
                &mut line.need,
                &mut line.count,
                &mut line.packs,
                &mut line.left,
            ]
            .into_iter()
            .flatten()
            {
                marker.own(figure);
            }
        }
        for label in &mut ledger.bowl_labels {
            for figure in &label.figures {
                if let Some(line) = label
                    .stands
                    .iter_mut()
                    .find(|line| line.contains(&figure.shown))
                {
                    line.push_str(&marker.mark(&figure.name));
                }
            }
            label.mass.iter_mut().for_each(|figure| marker.own(figure));
        }
        (ledger, marker.names)
    }
}

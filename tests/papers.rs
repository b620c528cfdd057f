//! Every card, bench sheet and sheet to cut, of every example, read back by poppler: its paper, its
//! steps whole, its stages with their sums, its figures.

mod papers_readers;

use bake::anchor::anchor;
use bake::kitchen::Kitchen;
use bake::simulate::{How, simulate};
use edit::ledger::happens::other_rooms::{how, kitchens, reckon, to_the_oven};
use edit::ledger::model::{Figure, Ledger, Run, StageLines, StepLine};
use edit::{Inputs, work_out};
use everyoven_tests::demos::DEMOS;
use everyoven_tests::tree::{none, root, target};
use press::papers::{Paper, make};
use recipe::document::read_recipe;
use recipe::formula::formula;
use recipe::larder::Larder;
use std::path::PathBuf;
use std::process::Command;
use std::sync::{Mutex, OnceLock};

/// Where a paper leaves a step's margin.
#[derive(Clone, Copy, PartialEq)]
enum Kind {
    /// The sentence follows its number at once.
    Card,
    /// The margin stands between the two.
    Set,
    /// The margin, then the sentence; no sums and no shares.
    Bench,
    /// Cards on a larger sheet.
    Cut,
}

/// Papers with their width and height in millimetres, by ISO 216 (A sizes), by ANSI/ASME Y14.1
/// (letter) and by the inch of 25.4 mm.
const PAPERS: [(Paper, f64, f64, Kind); 13] = [
    (Paper::CardA6, 148.0, 105.0, Kind::Set),
    (Paper::Card4x6In, 6.0 * 25.4, 4.0 * 25.4, Kind::Set),
    (Paper::Card5x7In, 5.0 * 25.4, 7.0 * 25.4, Kind::Card),
    (Paper::CardA5, 148.0, 210.0, Kind::Card),
    (Paper::CardHalfLetter, 5.5 * 25.4, 8.5 * 25.4, Kind::Card),
    (Paper::CardLetter, 8.5 * 25.4, 11.0 * 25.4, Kind::Card),
    (Paper::CardA4, 210.0, 297.0, Kind::Card),
    (Paper::BenchA4, 210.0, 297.0, Kind::Bench),
    (Paper::BenchLetter, 8.5 * 25.4, 11.0 * 25.4, Kind::Bench),
    (Paper::SheetA4Of2A5, 297.0, 210.0, Kind::Cut),
    (Paper::SheetA4Of4A6, 297.0, 210.0, Kind::Cut),
    (
        Paper::SheetLetterOf2HalfLetter,
        11.0 * 25.4,
        8.5 * 25.4,
        Kind::Cut,
    ),
    (
        Paper::SheetLetterOf2Cards4x6In,
        8.5 * 25.4,
        11.0 * 25.4,
        Kind::Cut,
    ),
];

/// A paper of an example, read back.
struct Read {
    example: &'static str,
    paper: Paper,
    kind: Kind,
    /// As it should be, in millimetres.
    size_mm: (f64, f64),
    file: PathBuf,
    ledger: Ledger,
    /// Text of each page in the order of its content, without blanks.
    pages: Vec<String>,
}

/// The ledger of a recipe as it is published: with the times of a usual kitchen and of other rooms.
fn ledger_of(text: &str) -> Ledger {
    let recipe = read_recipe(text).output.expect("an example reads");
    let mut larder = Larder::open();
    larder.stock(&recipe.pantry);
    let sums = formula(&recipe, &larder).output;
    let kitchen = Kitchen::standard();
    let inputs = Inputs::new(&recipe, &sums, &larder, &kitchen);
    let mut ledger = work_out(&inputs).output.1;
    let taught = anchor(&recipe, &sums, std::slice::from_ref(&kitchen), &how()).output;
    let here = How {
        anchor: taught.factors,
        ..how()
    };
    let rises = to_the_oven(&here);
    let mut course = simulate(&recipe, &sums, &kitchen, &here).output;
    course.anchored = taught;
    let others = kitchens(&inputs);
    let others = others
        .iter()
        .map(|other| simulate(&recipe, &sums, other, &rises).output);
    reckon(&mut ledger, &inputs, &course, &others.collect::<Vec<_>>());
    ledger
}

fn run(program: &str, arguments: &[&str]) -> String {
    let out = Command::new(program)
        .args(arguments)
        .output()
        .unwrap_or_else(|e| panic!("{program} does not start ({e}); tests/run installs it"));
    String::from_utf8_lossy(&out.stdout).into_owned()
}

/// A text without blanks and without the places where a long word may break.
fn tight(text: &str) -> String {
    text.chars()
        .filter(|sign| !sign.is_whitespace() && !matches!(sign, '\u{200b}' | '\u{2060}'))
        .collect()
}

/// All papers of all examples, made once by two workers.
fn all() -> &'static [Read] {
    static DONE: OnceLock<Vec<Read>> = OnceLock::new();
    DONE.get_or_init(|| {
        let done = Mutex::new(Vec::new());
        std::thread::scope(|scope| {
            for half in [0, 1] {
                let done = &done;
                scope.spawn(move || {
                    for (example, text) in DEMOS.iter().skip(half).step_by(2) {
                        let ledger = ledger_of(text);
                        for (paper, width, height, kind) in PAPERS {
                            let read = read(example, &ledger, paper, (width, height), kind);
                            done.lock().expect("no worker failed").push(read);
                        }
                    }
                });
            }
        });
        done.into_inner().expect("no worker failed")
    })
}

fn read(
    example: &'static str,
    ledger: &Ledger,
    paper: Paper,
    size_mm: (f64, f64),
    kind: Kind,
) -> Read {
    let folder = target().join("papers").join(example);
    std::fs::create_dir_all(&folder).expect("a folder for the test");
    let file = folder.join(paper.file_name());
    let bytes = make(ledger, paper).unwrap_or_else(|e| panic!("{example} {}: {e}", paper.word()));
    std::fs::write(&file, bytes).expect("written");
    let text = run("pdftotext", &["-raw", file.to_str().expect("UTF-8"), "-"]);
    let pages = text.trim_end_matches('\u{c}').split('\u{c}').map(tight);
    Read {
        example,
        paper,
        kind,
        size_mm,
        pages: pages.collect(),
        file,
        ledger: ledger.clone(),
    }
}

impl Read {
    fn fault(&self, what: impl std::fmt::Display) -> String {
        format!("{} {}: {what}", self.example, self.paper.word())
    }

    fn stands(&self, text: &str) -> bool {
        let text = tight(text);
        self.pages.iter().any(|page| page.contains(&text))
    }
}

fn sentence(step: &StepLine) -> String {
    let runs = step.runs.iter().map(|run| match run {
        Run::Words(words) => words.as_str(),
        Run::Figure(figure) => figure.shown.as_str(),
    });
    tight(&runs.collect::<String>())
}

#[test]
fn every_page_has_the_size_of_its_paper() {
    const POINT_MM: f64 = 25.4 / 72.0;
    let mut faults = vec![];
    for read in all() {
        let file = read.file.to_str().expect("UTF-8");
        let count = read.pages.len().to_string();
        let said = run("pdfinfo", &["-f", "1", "-l", &count, file]);
        let sizes: Vec<Vec<f64>> = said
            .lines()
            .filter(|line| line.starts_with("Page") && line.contains(" size:"))
            .filter_map(|line| line.split_once("size:"))
            .map(|(_, rest)| {
                let words = rest.split_whitespace();
                words.filter_map(|word| word.parse().ok()).collect()
            })
            .collect();
        if sizes.len() != read.pages.len() {
            faults.push(read.fault(format!("{} sizes for {count} pages", sizes.len())));
        }
        for size in sizes {
            let [wide, high] = size[..2] else {
                faults.push(read.fault("a page without a size"));
                continue;
            };
            let (width, height) = (wide * POINT_MM, high * POINT_MM);
            // pdfinfo gives hundredths of a point, and some six digits of it.
            if (width - read.size_mm.0).abs() > 0.05 || (height - read.size_mm.1).abs() > 0.05 {
                faults.push(read.fault(format!("{width:.2} × {height:.2} mm")));
            }
        }
        if read.paper.size_mm() != read.size_mm {
            let (width, height) = read.paper.size_mm();
            if (width - read.size_mm.0).abs() > 1e-9 || (height - read.size_mm.1).abs() > 1e-9 {
                faults.push(read.fault(format!("is said to be {width} × {height} mm")));
            }
        }
    }
    none("sizes", &faults);
}

#[test]
fn no_step_is_parted_from_itself_or_from_its_margin() {
    let mut faults = vec![];
    let mut steps = 0;
    for read in all() {
        for step in read
            .ledger
            .sections
            .iter()
            .flat_map(|section| &section.steps)
        {
            steps += 1;
            let sentence = sentence(step);
            let numbered = format!("{}{sentence}", step.number);
            let whole = |page: &&String| {
                let said = match read.kind {
                    Kind::Card => page.contains(&numbered),
                    Kind::Set | Kind::Bench | Kind::Cut => page.contains(&sentence),
                };
                said && step
                    .margin
                    .iter()
                    .all(|line| page.contains(&tight(&line.shown)))
            };
            let count = read.pages.iter().filter(whole).count();
            // Two steps may have one wording; a numbered one stands once.
            if count == 0 || read.kind == Kind::Card && count > 1 {
                faults.push(read.fault(format!("step {} whole on {count} pages", step.number)));
            }
        }
    }
    assert!(steps > 1000, "{steps} steps were looked at");
    none("steps", &faults);
}

#[test]
fn a_stage_stands_with_its_sum_on_one_side() {
    let mut faults = vec![];
    for read in all().iter().filter(|read| read.kind != Kind::Bench) {
        for stage in &read.ledger.stages {
            let sum = tight(&format!("{}in all", stage.sum.shown));
            let whole = |page: &&String| {
                let lines = stage.items.iter().all(|item| {
                    let grams = item.grams.as_ref().map_or("", |grams| &grams.shown);
                    page.contains(&tight(grams)) && page.contains(&tight(&item.name))
                });
                lines && page.contains(&sum) && page.contains(&tight(&stage.heading))
            };
            if !read.pages.iter().any(|page| whole(&page)) {
                faults.push(read.fault(format!("{} is parted", stage.heading)));
            }
        }
    }
    none("stages", &faults);
}

/// Every figure that a paper of this kind prints.
fn figures(ledger: &Ledger, kind: Kind) -> Vec<&Figure> {
    let mut all: Vec<&Figure> = ledger.facts.iter().flat_map(|fact| &fact.figures).collect();
    let stages = ledger.stages.iter();
    let items = stages.clone().flat_map(|stage: &StageLines| &stage.items);
    for item in items.chain(&ledger.besides) {
        all.extend(item.grams.iter().chain(&item.measure));
        if kind != Kind::Bench {
            all.extend(&item.percent);
        }
    }
    if kind != Kind::Bench {
        all.extend(stages.flat_map(|stage| std::iter::once(&stage.sum).chain(&stage.flour_share)));
    }
    for step in ledger.sections.iter().flat_map(|section| &section.steps) {
        all.extend(step.runs.iter().filter_map(|run| match run {
            Run::Figure(figure) => Some(figure),
            Run::Words(_) => None,
        }));
        all.extend(step.margin.iter().flat_map(|line| &line.figures));
    }
    all
}

#[test]
fn every_figure_stands_on_every_paper() {
    let mut faults = vec![];
    let mut count = 0;
    for read in all() {
        for figure in figures(&read.ledger, read.kind) {
            count += 1;
            if !read.stands(&figure.shown) {
                faults.push(read.fault(format!("{} ({})", figure.shown, figure.name)));
            }
        }
        for words in [&read.ledger.title, &read.ledger.allergens.contains] {
            if !read.stands(words) {
                faults.push(read.fault(words));
            }
        }
    }
    assert!(count > 5000, "{count} figures were looked for");
    none("figures", &faults);
}

/// What a card of a set is of, and how many there are.
#[test]
fn a_card_of_a_set_says_which_it_is_and_repeats_its_amounts() {
    let mut faults = vec![];
    for read in all().iter().filter(|read| read.kind == Kind::Set) {
        let count = read.pages.len();
        for (at, page) in read.pages.iter().enumerate() {
            if !page.contains(&format!("card{}of{count}", at + 1)) {
                faults.push(read.fault(format!("card {} does not say so", at + 1)));
            }
        }
        // An amount that a step names stands twice on its card: in the sentence and beside it.
        for step in read
            .ledger
            .sections
            .iter()
            .flat_map(|section| &section.steps)
        {
            let said = sentence(step);
            let used = step.runs.iter().filter_map(|run| match run {
                Run::Figure(figure) if figure.name.rsplit('.').next() == Some("used") => {
                    Some(figure)
                }
                _ => None,
            });
            for figure in used.filter(|figure| !figure.name.contains(".part.")) {
                let amount = tight(&figure.shown);
                let twice = |page: &&String| {
                    page.contains(&said)
                        && page.matches(&amount).count() > said.matches(&amount).count()
                };
                if !read.pages.iter().any(|page| twice(&page)) {
                    faults.push(read.fault(format!("{} of step {}", figure.shown, step.number)));
                }
            }
        }
    }
    none("cards of a set", &faults);
}

/// Sides that a recipe takes. A recipe of one product is one card of two sides; that of four is two.
#[test]
fn a_recipe_takes_few_sides() {
    const MOST: [(&str, [usize; 5]); 5] = [
        // A6, 5 × 7 in, A5, A4, bench sheet.
        ("same-day-loaf", [9, 4, 4, 2, 6]),
        ("cardamom-dough", [16, 6, 4, 4, 9]),
        ("hearth-loaf", [7, 2, 2, 2, 4]),
        ("feast-bread", [9, 4, 2, 2, 5]),
        ("feast-bread-active-dry", [9, 4, 2, 2, 5]),
    ];
    const SHOWN: [Paper; 5] = [
        Paper::CardA6,
        Paper::Card5x7In,
        Paper::CardA5,
        Paper::CardA4,
        Paper::BenchA4,
    ];
    let mut faults = vec![];
    for (example, most) in MOST {
        for (paper, most) in SHOWN.into_iter().zip(most) {
            let of = |read: &&Read| read.example == example && read.paper == paper;
            let read = all().iter().find(of).expect("every paper is made");
            if read.pages.len() > most {
                faults.push(read.fault(format!("{} sides, {most} before", read.pages.len())));
            }
        }
    }
    none("sides", &faults);
}

#[test]
fn the_judge_of_pdf_accepts_every_paper() {
    let files: Vec<&str> = all().iter().filter_map(|read| read.file.to_str()).collect();
    assert_eq!(files.len(), PAPERS.len() * DEMOS.len());
    let judge = root().join("tests/peers/judge_pdf.py");
    let arguments: Vec<&str> = std::iter::once(judge.to_str().expect("UTF-8"))
        .chain(files)
        .collect();
    let answer: serde_json::Value =
        serde_json::from_str(&run("python3", &arguments)).expect("the judge answers");
    let findings = answer["findings"].as_array().expect("findings");
    let said: Vec<_> = findings.iter().map(ToString::to_string).collect();
    none("poppler", &said);
}

/// The tags that PDF/UA-1 (ISO 14289-1) asks for: headings, tables with header cells, lists.
#[test]
fn every_paper_is_tagged() {
    let mut faults = vec![];
    for read in all() {
        let file = read.file.to_str().expect("UTF-8");
        let tree = run("pdfinfo", &["-struct", file]);
        for tag in ["H1", "Table", "TH", "TD", "L", "LI", "P"] {
            let first = |line: &str| line.trim().split([' ', ':']).next() == Some(tag);
            let has = tree.lines().any(first);
            if !has {
                faults.push(read.fault(format!("no {tag}")));
            }
        }
        let bytes = std::fs::read(&read.file).expect("it was written");
        let text = String::from_utf8_lossy(&bytes);
        if !text.contains("pdfuaid:part>1") {
            faults.push(read.fault("does not say that it is PDF/UA-1"));
        }
    }
    none("tags", &faults);
}

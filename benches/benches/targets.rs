//! The stated targets of the main job, each beside a peer that does comparable work in the same run.
//!
//! Whole commands are timed with the release binary (`cargo build --release` first); their peer is
//! `true`, the cheapest process there is.

use bake::kitchen::Kitchen;
use bake::simulate::{Grid, How, simulate};
use criterion::{Criterion, criterion_group, criterion_main};
use edit::{Inputs, work_out};
use press::papers::{Paper, make};
use recipe::document::{read_recipe, read_recipe_bytes};
use recipe::formula::formula;
use recipe::larder::Larder;
use std::hint::black_box;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

const DEMO: &str = include_str!("../../examples/same-day-loaf.toml");
const TALK: &str = include_str!("../../examples/talk/cardamom-dough.txt");
const FOUR_BREADS: &str = include_str!("../../examples/cardamom-dough.toml");

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR"))
        .parent()
        .expect("benches/ lies in the project")
        .to_owned()
}

/// Reading a recipe; peer: a general TOML reader that keeps no places and checks nothing.
fn read(c: &mut Criterion) {
    let mut group = c.benchmark_group("read");
    group.bench_function("everyoven", |b| b.iter(|| read_recipe(black_box(DEMO))));
    group.bench_function("peer: toml table", |b| {
        b.iter(|| black_box(DEMO).parse::<toml::Table>());
    });
    group.finish();
}

/// Refusing 10 MB; peer: checking that the same bytes are UTF-8.
fn hostile(c: &mut Criterion) {
    let line = vec![b'x'; 10_000_000];
    let nested = "[".repeat(500_000).into_bytes();
    let mut group = c.benchmark_group("hostile");
    group.sample_size(20);
    group.bench_function("everyoven, one line of 10 MB", |b| {
        b.iter(|| read_recipe_bytes(black_box(&line)));
    });
    group.bench_function("everyoven, 500,000 brackets", |b| {
        b.iter(|| read_recipe_bytes(black_box(&nested)));
    });
    group.bench_function("peer: UTF-8 check", |b| {
        b.iter(|| std::str::from_utf8(black_box(&line)).is_ok());
    });
    group.finish();
}

/// Everything between the text and the ledger.
fn work(c: &mut Criterion) {
    let recipe = read_recipe(DEMO).output.expect("the demo reads");
    let mut larder = Larder::open();
    larder.stock(&recipe.pantry);
    let sums = formula(&recipe, &larder).output;
    let kitchen = Kitchen::standard();
    let inputs = Inputs::new(&recipe, &sums, &larder, &kitchen);
    let (_, ledger) = work_out(&inputs).output;
    let options = press::page::PageOptions::default();
    let mut group = c.benchmark_group("work");
    group.bench_function("larder", |b| b.iter(Larder::open));
    group.bench_function("formula", |b| b.iter(|| formula(&recipe, &larder)));
    group.bench_function("ledger and findings", |b| b.iter(|| work_out(&inputs)));
    group.bench_function("page", |b| b.iter(|| press::page::page(&ledger, &options)));
    group.sample_size(10);
    group.bench_function("card", |b| {
        b.iter(|| make(&ledger, Paper::CardA5));
    });
    group.bench_function("bench sheet", |b| b.iter(|| make(&ledger, Paper::BenchA4)));
    group.bench_function("every paper", |b| {
        b.iter(|| Paper::ALL.map(|paper| make(&ledger, paper)));
    });
    group.finish();
}

/// What happens to the cardamom dough and its four breads, from the preferment to the rack; for a peer see
/// `stepping`, whose section `SciPy` bakes too.
fn day(c: &mut Criterion) {
    let recipe = read_recipe(FOUR_BREADS).output.expect("the demo reads");
    let sums = formula(&recipe, &Larder::open()).output;
    let kitchen = Kitchen::standard();
    let mut group = c.benchmark_group("a day of four breads");
    group.sample_size(20);
    for (name, grid) in [("usual grid", Grid::Usual), ("coarse grid", Grid::Coarse)] {
        let how = How {
            grid,
            ..How::default()
        };
        group.bench_function(name, |b| {
            b.iter(|| simulate(&recipe, &sums, &kitchen, black_box(&how)));
        });
    }
    group.finish();
}

/// A talk of thirty minutes held against its recipe; peer: finding the words of the same text.
fn talk(c: &mut Criterion) {
    let recipe = read_recipe(FOUR_BREADS).output.expect("the demo reads");
    let mut larder = Larder::open();
    larder.stock(&recipe.pantry);
    let sums = formula(&recipe, &larder).output;
    let kitchen = Kitchen::standard();
    let inputs = Inputs::new(&recipe, &sums, &larder, &kitchen);
    let (_, ledger) = work_out(&inputs).output;
    let once = edit::talk::track::read(TALK.as_bytes()).output;
    let mut track = once.clone();
    track.cues = std::iter::repeat_n(once.cues, 20).flatten().collect();
    let text: String = track.cues.iter().map(|cue| cue.line() + " ").collect();
    let mut group = c.benchmark_group("a talk of thirty minutes");
    group.sample_size(20);
    group.bench_function("everyoven", |b| {
        b.iter(|| edit::talk::talk(&inputs, &ledger, black_box(&track)));
    });
    // As a machine hears: no stops, no commas, no capitals.
    let bare = edit::talk::track::read(
        track
            .cues
            .iter()
            .map(|cue| without_stops(&cue.line()) + "\n\n")
            .collect::<String>()
            .as_bytes(),
    )
    .output;
    group.bench_function("everyoven, without stops", |b| {
        b.iter(|| edit::talk::talk(&inputs, &ledger, black_box(&bare)));
    });
    group.bench_function("peer: words in lower case", |b| {
        b.iter(|| {
            black_box(&text)
                .split_whitespace()
                .map(str::to_lowercase)
                .count()
        });
    });
    group.finish();
}

/// A line without marks and capitals.
fn without_stops(line: &str) -> String {
    line.to_lowercase()
        .replace(['.', ',', ';', ':', '?', '!'], "")
}

/// The open cases of lines as one text to paste, and thirty sentences under them.
fn pasted_recipe() -> String {
    let path = root().join("tests/suite/import/lines.md");
    let text = std::fs::read_to_string(path).expect("the cases of lines");
    let cases = xtask::import_table::cases::rows(&text).expect("they read");
    let mut pasted = String::from("A long list\n\nIngredients\n");
    for case in cases {
        pasted += &case.line;
        pasted.push('\n');
    }
    pasted += "\nMethod\n";
    for step in 1..=30 {
        pasted +=
            &format!("{step}. Knead for {step} minutes, then let it rise for 1 hour at 24 °C.\n");
    }
    pasted
}

/// Whole commands.
fn commands(c: &mut Criterion) {
    let binary = root().join("target/release/everyoven");
    assert!(binary.exists(), "run `cargo build --release` first");
    let out = std::env::temp_dir().join("everyoven-bench");
    std::fs::create_dir_all(&out).expect("a folder for what is written");
    let pasted = out.join("pasted.txt");
    std::fs::write(&pasted, pasted_recipe()).expect("a text to paste");
    let (out, pasted) = (
        out.to_str().expect("UTF-8"),
        pasted.to_str().expect("UTF-8"),
    );
    let (loaf, four) = (
        "examples/same-day-loaf.toml",
        "examples/cardamom-dough.toml",
    );
    let mut group = c.benchmark_group("command");
    group.sample_size(20);
    let mut time = |name: &str, arguments: &[&str]| {
        let run = || {
            Command::new(&binary)
                .args(arguments)
                .current_dir(root())
                .stdout(Stdio::null())
                .stderr(Stdio::null())
                .status()
        };
        let ended = run().expect("the program starts");
        assert!(
            ended.code().is_some_and(|code| code < 2),
            "{arguments:?} ends with {ended}"
        );
        group.bench_function(name, |b| b.iter(run));
    };
    time("start (--version)", &["--version"]);
    time("check", &["check", loaf]);
    let read = format!("{out}/read.toml");
    let _ = std::fs::remove_file(&read);
    time("import", &["import", pasted, "--as", &read]);
    time("variant, half", &["variant", loaf, "--half"]);
    time(
        "variant, oat drink",
        &["variant", loaf, "--instead", "oat drink for milk"],
    );
    time("label", &["label", loaf]);
    time("publish", &["publish", loaf, "--into", out]);
    let every = |recipe| ["publish", recipe, "--papers", "all", "--into", out];
    time("publish, every paper", &every(loaf));
    time("publish, every paper of four breads", &every(four));
    time("bake", &["bake", four]);
    group.bench_function("peer: true", |b| {
        b.iter(|| Command::new("true").stdout(Stdio::null()).status());
    });
    group.finish();
}

criterion_group!(targets, read, hostile, work, day, talk, commands);
criterion_main!(targets);

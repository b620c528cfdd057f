//! Every stated target in one run, each beside its peer: the table of `docs/performance.md`.
//!
//! `cargo run --release -p everyoven-benches --bin every [--write]`; it takes some minutes, wants
//! `cargo build --release` before and what `tests/run` installs, and nothing else running.

use everyoven_benches::row::{Row, said_s};
use serde_json::Value;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

/// Where the table stands on the page.
const BEGINS: &str = "<!-- the table begins: written by `every` -->\n";
const ENDS: &str = "<!-- the table ends -->\n";

/// What criterion times: the folder of its figures, what it is, the aim, the folder of the peer and its name.
const TIMED: [(&str, &str, &str, &str, &str); 19] = [
    (
        "command/start (--version)",
        "start of the program, `--version`",
        "30 ms",
        "command/peer_ true",
        "`true`",
    ),
    (
        "command/check",
        "`check`, same-day loaf",
        "20 ms",
        "command/peer_ true",
        "`true`",
    ),
    (
        "command/import",
        "`import` of 197 lines",
        "20 ms",
        "command/peer_ true",
        "`true`",
    ),
    (
        "command/variant, half",
        "`variant --half`, same-day loaf",
        "50 ms",
        "command/peer_ true",
        "`true`",
    ),
    (
        "command/variant, oat drink",
        "`variant --instead \"oat drink for milk\"`",
        "50 ms",
        "command/peer_ true",
        "`true`",
    ),
    (
        "command/label",
        "`label`, same-day loaf",
        "",
        "command/peer_ true",
        "`true`",
    ),
    (
        "command/publish",
        "`publish`, the usual files, same-day loaf",
        "300 ms",
        "command/peer_ true",
        "`true`",
    ),
    (
        "command/publish, every paper",
        "`publish --papers all`, same-day loaf, 24 papers",
        "400 ms",
        "command/peer_ true",
        "`true`",
    ),
    (
        "command/publish, every paper of four breads",
        "`publish --papers all`, cardamom dough, 26 papers",
        "",
        "command/peer_ true",
        "`true`",
    ),
    (
        "command/bake",
        "`bake`, cardamom dough, its tested bakes asked first",
        "",
        "command/peer_ true",
        "`true`",
    ),
    (
        "read/everyoven",
        "reading the recipe, every place kept, every check done",
        "",
        "read/peer_ toml table",
        "the text into a plain TOML table",
    ),
    (
        "hostile/everyoven, one line of 10 MB",
        "refusing 10 MB in one line",
        "200 ms",
        "hostile/peer_ UTF-8 check",
        "UTF-8 check of the same bytes",
    ),
    (
        "hostile/everyoven, 500,000 brackets",
        "refusing 500,000 nested brackets",
        "200 ms",
        "",
        "",
    ),
    ("work/formula", "formula", "", "", ""),
    (
        "work/ledger and findings",
        "heat of the mixes in six rooms, ledger, rules",
        "",
        "",
        "",
    ),
    (
        "a day of four breads/usual grid",
        "a day of four breads, usual grid, one core",
        "60 ms",
        "",
        "SciPy's BDF bakes a section of one below",
    ),
    (
        "a day of four breads/coarse grid",
        "the same on the coarse grid",
        "",
        "",
        "",
    ),
    (
        "a talk of thirty minutes/everyoven",
        "a talk of thirty minutes held against its recipe",
        "100 ms",
        "a talk of thirty minutes/peer_ words in lower case",
        "its words in lower case",
    ),
    (
        "a talk of thirty minutes/everyoven, without stops",
        "the same as a machine hears it, without stops",
        "100 ms",
        "",
        "",
    ),
];

fn main() {
    let write = std::env::args().any(|word| word == "--write");
    let root = root();
    let load = load();
    let mut rows = timed(&root);
    for name in ["stepping", "kitchens", "readings", "day"] {
        rows.extend(said(
            &root,
            "cargo",
            &[
                "run",
                "--release",
                "--quiet",
                "-p",
                "everyoven-benches",
                "--bin",
                name,
            ],
        ));
    }
    let program = "target/release/everyoven";
    for script in ["first_page.mjs", "what_if.mjs", "load.mjs"] {
        let path = format!("benches/{script}");
        if root.join(&path).exists() {
            rows.extend(said(&root, "node", &[&path, program]));
        }
    }
    let mut table = format!(
        "{}, {}; {}; load before: {load}, after: {}.\n\n| what | aim | seen | peer in the same run |\n|---|---|---|---|\n",
        today(),
        machine(),
        rustc(),
        self::load()
    );
    for row in rows {
        table += &format!("{row}\n");
    }
    println!("{table}");
    if write {
        let page = root.join("docs/performance.md");
        let text = std::fs::read_to_string(&page).expect("docs/performance.md");
        let (before, rest) = text
            .split_once(BEGINS)
            .expect("the table's beginning on the page");
        let (_, after) = rest.split_once(ENDS).expect("the table's end on the page");
        let new = format!("{before}{BEGINS}{table}{ENDS}{after}");
        std::fs::write(&page, new).expect("the page can be written");
    }
}

/// What criterion timed, its medians with the interval of 95 %.
fn timed(root: &Path) -> Vec<Row> {
    let words = [
        "bench",
        "-p",
        "everyoven-benches",
        "--bench",
        "targets",
        "--",
        "--quiet",
    ];
    let ended = Command::new("cargo")
        .args(words)
        .current_dir(root)
        .stdout(Stdio::null())
        .status();
    assert!(
        ended.is_ok_and(|status| status.success()),
        "the bench `targets` runs"
    );
    let target =
        std::env::var_os("CARGO_TARGET_DIR").map_or_else(|| root.join("target"), PathBuf::from);
    let median = |folder: &str| {
        let path = target
            .join("criterion")
            .join(folder)
            .join("new/estimates.json");
        let text = std::fs::read_to_string(&path)
            .unwrap_or_else(|error| panic!("{}: {error}", path.display()));
        let read: Value = serde_json::from_str(&text).expect("JSON");
        let of = |key: &Value| key.as_f64().unwrap_or(f64::NAN) * 1e-9;
        let median = &read["median"];
        let within = &median["confidence_interval"];
        (
            of(&median["point_estimate"]),
            of(&within["lower_bound"]),
            of(&within["upper_bound"]),
        )
    };
    TIMED
        .iter()
        .map(|(folder, what, aim, peer, named)| {
            let (seen_s, low_s, high_s) = median(folder);
            let verdict = missed(aim, seen_s);
            let seen = format!(
                "{} ({} to {}){verdict}",
                said_s(seen_s),
                said_s(low_s),
                said_s(high_s)
            );
            let peer = match (peer.is_empty(), named.is_empty()) {
                (false, _) => format!("{named}: {}", said_s(median(peer).0)),
                (true, _) => (*named).to_owned(),
            };
            Row::new(*what, *aim, seen, peer)
        })
        .collect()
}

/// Says so when an aim in milliseconds is missed.
fn missed(aim: &str, seen_s: f64) -> &'static str {
    let aim_ms = aim
        .strip_suffix(" ms")
        .and_then(|number| number.parse::<f64>().ok());
    match aim_ms {
        Some(aim_ms) if 1e3 * seen_s > aim_ms => ", missed",
        _ => "",
    }
}

/// The rows that a program prints.
fn said(root: &Path, program: &str, words: &[&str]) -> Vec<Row> {
    let ran = Command::new(program)
        .args(words)
        .current_dir(root)
        .stderr(Stdio::inherit())
        .output();
    let ran = ran.unwrap_or_else(|error| panic!("{program} {words:?}: {error}"));
    assert!(ran.status.success(), "{program} {words:?} runs");
    let text = String::from_utf8_lossy(&ran.stdout);
    let rows: Vec<Row> = text.lines().filter_map(Row::of_line).collect();
    assert!(!rows.is_empty(), "{program} {words:?} tells no row");
    rows
}

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR"))
        .parent()
        .expect("benches/ lies in the project")
        .to_owned()
}

fn load() -> String {
    let text = std::fs::read_to_string("/proc/loadavg").unwrap_or_default();
    text.split(' ').next().unwrap_or("unknown").to_owned()
}

fn machine() -> String {
    let text = std::fs::read_to_string("/proc/cpuinfo").unwrap_or_default();
    let model = text
        .lines()
        .find_map(|line| line.strip_prefix("model name"));
    let model = model.map_or("a processor that does not say its name", |rest| {
        rest.trim_start_matches(['\t', ' ', ':'])
    });
    let cores = std::thread::available_parallelism().map_or(1, usize::from);
    format!("{cores} cores of {model}, shared with other machines")
}

fn rustc() -> String {
    let said = Command::new("rustc").arg("--version").output();
    let said = said.map(|said| String::from_utf8_lossy(&said.stdout).trim().to_owned());
    said.unwrap_or_else(|_| "rustc".to_owned())
}

fn today() -> String {
    let since = std::time::SystemTime::now().duration_since(std::time::UNIX_EPOCH);
    let seconds = since.map_or(0, |since| since.as_secs());
    let now = jiff::Timestamp::from_second(i64::try_from(seconds).unwrap_or(0)).unwrap_or_default();
    now.strftime("%-d %B %Y").to_string()
}

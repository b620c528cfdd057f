//! Outside judges over everything that is published: HTML, sight, structured data, types, PDF; and each judge tried on a bad file.

use everyoven_tests::tree::{ending, none, root, target};
use serde_json::Value;
use std::path::{Path, PathBuf};
use std::process::Command;
use std::sync::OnceLock;

/// What a judge says: its exit code and its answer.
fn judge(name: &str, files: &[PathBuf]) -> (Option<i32>, Value) {
    assert!(!files.is_empty(), "nothing to judge");
    let script = root().join("tests/peers").join(name);
    let program = if name.contains(".py") {
        "python3"
    } else {
        "node"
    };
    let out = Command::new(program)
        .arg(&script)
        .args(files)
        .output()
        .unwrap_or_else(|e| panic!("{program} does not start ({e}); tests/run installs it"));
    let answer = serde_json::from_slice(&out.stdout).unwrap_or_else(|_| {
        let said = String::from_utf8_lossy(&out.stderr);
        panic!("{name} gave no answer; tests/run installs what it needs:\n{said}")
    });
    (out.status.code(), answer)
}

/// The findings of an answer, one line each.
fn findings(answer: &Value) -> Vec<String> {
    let list = answer["findings"].as_array().expect("a list of findings");
    list.iter()
        .map(|f| {
            let word = |key: &str| f[key].as_str().unwrap_or_default();
            let file = word("file").rsplit('/').take(2).collect::<Vec<_>>();
            let file: Vec<_> = file.into_iter().rev().collect();
            format!(
                "{} {} {} {}: {}",
                file.join("/"),
                word("look"),
                word("where"),
                word("rule"),
                word("message")
            )
        })
        .collect()
}

fn accepts(name: &str, files: &[PathBuf]) -> Value {
    let (code, answer) = judge(name, files);
    none(name, &findings(&answer));
    assert_eq!(
        code,
        Some(0),
        "{name} found nothing and failed all the same"
    );
    answer
}

/// The judge fails on the files and names every one of the rules.
fn rejects(name: &str, files: &[PathBuf], rules: &[&str]) {
    let (code, answer) = judge(name, files);
    assert_eq!(code, Some(1), "{name} is blind");
    let found: Vec<&str> = answer["findings"]
        .as_array()
        .expect("findings")
        .iter()
        .filter_map(|f| f["rule"].as_str())
        .collect();
    for rule in rules {
        assert!(
            found.contains(rule),
            "{name} misses {rule}; it found {found:?}"
        );
    }
}

fn peer(path: &str) -> PathBuf {
    root().join("tests/peers").join(path)
}

/// One published recipe: the example's name and its folder.
struct Published {
    example: String,
    folder: PathBuf,
}

/// What was published, and what the program said where it refused.
type Outcome = (Vec<Published>, Vec<String>);

/// Publishes every example, and one of them with an address, by the built program.
fn outcome() -> &'static Outcome {
    static DONE: OnceLock<Outcome> = OnceLock::new();
    DONE.get_or_init(|| {
        let into = target().join("judges");
        let _ = std::fs::remove_dir_all(&into);
        let examples: Vec<String> = ending("examples", ".toml")
            .into_iter()
            .filter(|p| p.matches('/').count() == 1)
            .collect();
        assert!(examples.len() >= 4, "the examples are gone: {examples:?}");
        let mut all = Vec::new();
        let mut refused = Vec::new();
        for example in examples {
            let name = example
                .trim_start_matches("examples/")
                .trim_end_matches(".toml");
            // An address changes the structured data alone; the recipe with film and photograph shows it.
            let address = (name == "same-day-loaf").then_some("https://bread.example/loaves");
            let mut cases = vec![("plain", None)];
            cases.extend(address.map(|address| ("placed", Some(address))));
            for (case, address) in cases {
                match publish(&example, &into.join(case).join(name), address) {
                    Ok(published) => all.push(published),
                    Err(why) => refused.push(format!("{example}: {why}")),
                }
            }
        }
        (all, refused)
    })
}

fn published() -> &'static [Published] {
    &outcome().0
}

fn publish(example: &str, into: &Path, address: Option<&str>) -> Result<Published, String> {
    let program = target().join("debug/everyoven");
    assert!(
        program.is_file(),
        "{} is not built; `cargo build` makes it",
        program.display()
    );
    let mut command = Command::new(program);
    command
        .arg("publish")
        .arg(root().join(example))
        .arg("--into")
        .arg(into);
    if let Some(address) = address {
        command.arg("--address").arg(address);
    }
    let out = command.output().expect("everyoven starts");
    if !out.status.success() {
        return Err(String::from_utf8_lossy(&out.stderr).into_owned());
    }
    let folder = std::fs::read_dir(into)
        .expect("the folder it was told to fill")
        .map(|entry| entry.expect("an entry").path())
        .find(|path| path.is_dir())
        .expect("one folder named after the recipe");
    Ok(Published {
        example: example.to_owned(),
        folder,
    })
}

#[test]
fn every_example_can_be_published() {
    none("examples that are refused", &outcome().1);
}

/// Every published file of one name.
fn all(file: &str) -> Vec<PathBuf> {
    published().iter().map(|p| p.folder.join(file)).collect()
}

#[test]
fn pages_are_html() {
    accepts("judge_html.mjs", &all("index.html"));
}

#[test]
fn pages_can_be_read_by_everybody_in_every_light_and_width() {
    accepts("judge_axe.mjs", &all("index.html"));
}

/// Every fragment in a page of somebody's own, as it would be pasted.
fn pasted() -> Vec<PathBuf> {
    let page = std::fs::read_to_string(peer("good/around.html")).expect("a page to paste into");
    let mut files = vec![];
    for published in published() {
        let piece = std::fs::read_to_string(published.folder.join("fragment.html"));
        let file = published.folder.join("pasted.html");
        let whole = page.replace("<!-- here -->", &piece.expect("a fragment"));
        std::fs::write(&file, whole).expect("written");
        files.push(file);
    }
    files
}

#[test]
fn fragments_are_html_in_a_page_and_can_be_read_by_everybody() {
    let files = pasted();
    accepts("judge_html.mjs", &files);
    accepts("judge_axe.mjs", &files);
}

/// Every figure of a bake in a page of somebody's own.
fn figures() -> Vec<PathBuf> {
    let into = target().join("judges/figures");
    let out = Command::new(target().join("debug/everyoven"))
        .arg("bake")
        .arg(root().join("examples/same-day-loaf.toml"))
        .arg("--figures")
        .arg(&into)
        .output()
        .expect("everyoven starts");
    let said = String::from_utf8_lossy(&out.stderr);
    assert!(out.status.success(), "{said}");
    let page = std::fs::read_to_string(peer("good/around.html")).expect("a page to paste into");
    let mut files = vec![];
    for entry in std::fs::read_dir(&into).expect("figures") {
        let path = entry.expect("an entry").path();
        if path.extension().is_some_and(|ending| ending == "svg") {
            let svg = std::fs::read_to_string(&path).expect("a figure");
            let whole = page.replace("<!-- here -->", &format!("<figure>{svg}</figure>"));
            let file = path.with_extension("html");
            std::fs::write(&file, whole).expect("written");
            files.push(file);
        }
    }
    files.sort();
    files
}

#[test]
fn figures_are_html_in_a_page_and_can_be_read_by_everybody() {
    let files = figures();
    assert!(files.len() >= 5, "{files:?}");
    accepts("judge_html.mjs", &files);
    accepts("judge_axe.mjs", &files);
}

#[test]
fn structured_data_keeps_every_term() {
    let files = [all("index.html"), all("recipe.jsonld")].concat();
    accepts("judge_jsonld.mjs", &files);
}

#[test]
fn structured_data_has_the_types_of_schema_org() {
    let files = [all("index.html"), all("recipe.jsonld")].concat();
    accepts("judge_types.mjs", &files);
}

/// Each printed sheet with its paper, and how many steps a side must hold at least besides the
/// two sides of amounts and notes: a card is held in the hand, a bench sheet is read at arm's
/// length.
const SHEETS: &[(&str, &str, usize)] = &[
    ("card-a5.pdf", "A5 portrait", 8),
    ("bench-a4.pdf", "A4 portrait", 5),
];

#[test]
fn sheets_are_of_their_paper_and_carry_their_type() {
    let mut faults = Vec::new();
    for (file, paper, steps_a_side) in SHEETS {
        let answer = accepts("judge_pdf.py", &all(file));
        for (sheet, recipe) in answer["documents"]
            .as_array()
            .expect("documents")
            .iter()
            .zip(published())
        {
            let pages = sheet["pages"].as_array().expect("pages");
            let text = std::fs::read_to_string(root().join(&recipe.example)).expect("example");
            let steps = text
                .lines()
                .filter(|line| line.starts_with("do = "))
                .count();
            let most = 2 + steps.div_ceil(*steps_a_side);
            if pages.is_empty() || pages.len() > most {
                faults.push(format!(
                    "{} {file}: {} pages for {steps} steps, {most} at most",
                    recipe.example,
                    pages.len()
                ));
            }
            for page in pages.iter().filter(|page| page["paper"] != *paper) {
                faults.push(format!("{} {file}: {}", recipe.example, page["paper"]));
            }
            let title = text.parse::<toml::Table>().expect("TOML")["title"]
                .as_str()
                .map(str::to_owned);
            if sheet["title"].as_str() != title.as_deref() {
                faults.push(format!(
                    "{} {file}: titled {}",
                    recipe.example, sheet["title"]
                ));
            }
        }
    }
    none("sheets", &faults);
}

#[test]
fn the_html_judge_sees_and_is_not_cross() {
    accepts("judge_html.mjs", &[peer("good/page.html")]);
    rejects(
        "judge_html.mjs",
        &[peer("bad/page.html")],
        &[
            "close-order",
            "element-required-attributes",
            "heading-level",
            "no-dup-id",
            "wcag/h37",
        ],
    );
}

#[test]
fn the_judge_of_sight_sees_and_is_not_cross() {
    accepts("judge_axe.mjs", &[peer("good/page.html")]);
    rejects(
        "judge_axe.mjs",
        &[peer("bad/page.html")],
        &[
            "color-contrast",
            "image-alt",
            "html-has-lang",
            "reflow",
            "no-script",
            "stands-alone",
        ],
    );
}

#[test]
fn the_judge_of_structured_data_sees_and_is_not_cross() {
    accepts(
        "judge_jsonld.mjs",
        &[peer("good/page.html"), peer("good/recipe.jsonld")],
    );
    rejects(
        "judge_jsonld.mjs",
        &[peer("bad/page.html"), peer("bad/recipe.jsonld")],
        &[
            "address", "date", "dropped", "duration", "empty", "escape", "kind", "number", "recipe",
        ],
    );
}

#[test]
fn the_judge_of_types_sees_and_is_not_cross() {
    accepts(
        "judge_types.mjs",
        &[peer("good/page.html"), peer("good/recipe.jsonld")],
    );
    rejects("judge_types.mjs", &[peer("bad/recipe.jsonld")], &["TS2322"]);
}

#[test]
fn the_pdf_judge_sees_and_is_not_cross() {
    let good = target().join("judges-good.pdf");
    let made = Command::new("node")
        .arg(peer("make_pdf.mjs"))
        .args([peer("good/page.html"), good.clone()])
        .status()
        .expect("node starts");
    assert!(made.success(), "the browser printed nothing");
    accepts("judge_pdf.py", &[good]);
    rejects(
        "judge_pdf.py",
        &[peer("bad/card.pdf")],
        &["cut", "font", "paper", "tagged", "title"],
    );
}

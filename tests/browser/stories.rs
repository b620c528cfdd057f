//! Stories in a browser: the notebook used as a cook uses it, by mouse, by keyboard, on every width.

use everyoven_tests::tree::{none, root, target};
use serde_json::Value;
use std::io::{BufRead, BufReader, Read, Write};
use std::net::TcpStream;
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};

/// A program that serves a notebook of its own until the story ends.
struct Served {
    program: Child,
    address: String,
    folder: PathBuf,
}

impl Served {
    fn new(name: &str) -> Self {
        let folder = target().join(format!("stories/{name}-{}", std::process::id()));
        let _ = std::fs::remove_dir_all(&folder);
        std::fs::create_dir_all(&folder).expect("a folder");
        let path = target().join("debug/everyoven");
        assert!(
            path.is_file(),
            "{} is not built; `cargo build` makes it",
            path.display()
        );
        let mut program = Command::new(path)
            .arg("serve")
            .arg(folder.join("notebook"))
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .expect("everyoven starts");
        let out = program.stdout.take().expect("its output");
        let mut address = String::new();
        BufReader::new(out).read_line(&mut address).expect("a line");
        let address = address.trim().to_owned();
        assert!(address.starts_with("http://127.0.0.1:"), "{address:?}");
        Self {
            program,
            address,
            folder,
        }
    }

    fn notebook(&self, file: &str) -> PathBuf {
        self.folder.join("notebook").join(file)
    }

    /// Lets a story be told that finds nothing amiss; it says what it left behind.
    fn told(&self, story: &str, more: &[&str]) -> Value {
        let answer = self.answer(story, more);
        none(story, &findings(&answer));
        answer["told"].clone()
    }

    fn answer(&self, story: &str, more: &[&str]) -> Value {
        answer(story, &self.address, &self.folder, more)
    }

    /// Sends a form; gives the address that the answer leads to.
    fn post(&self, path: &str, form: &str) -> String {
        let more = format!(
            "content-type: application/x-www-form-urlencoded\r\ncontent-length: {}\r\n\r\n{form}",
            form.len()
        );
        let answer = self.ask("POST", path, &more);
        leads_to(&answer).unwrap_or_else(|| panic!("{path}: {answer}"))
    }

    /// Waits until long work is over; gives the address of what came of it.
    fn over(&self, begun: &str) -> String {
        let mut asks = std::iter::repeat_with(|| leads_to(&self.ask("GET", begun, "\r\n")));
        asks.find_map(|there| there).expect("asked until then")
    }

    fn ask(&self, method: &str, path: &str, more: &str) -> String {
        let host = self.address.trim_start_matches("http://");
        let host = host.trim_end_matches('/');
        let mut stream = TcpStream::connect(host).expect("somebody listens");
        let head = format!("{method} {path} HTTP/1.1\r\nhost: {host}\r\nconnection: close");
        write!(stream, "{head}\r\n{more}").expect("sent");
        let mut answer = String::new();
        stream.read_to_string(&mut answer).expect("answered");
        answer
    }
}

fn answer(story: &str, address: &str, folder: &Path, more: &[&str]) -> Value {
    let out = Command::new("node")
        .arg(root().join("tests/browser").join(story))
        .arg(address)
        .arg(folder)
        .args(more)
        .output()
        .unwrap_or_else(|e| panic!("node does not start ({e}); tests/run installs it"));
    serde_json::from_slice(&out.stdout).unwrap_or_else(|_| {
        let said = String::from_utf8_lossy(&out.stderr);
        panic!("{story} gave no answer; tests/run installs what it needs:\n{said}")
    })
}

fn findings(answer: &Value) -> Vec<String> {
    let list = answer["findings"].as_array().expect("findings");
    list.iter()
        .map(|f| format!("{}: {}", f["where"], f["message"]))
        .collect()
}

impl Drop for Served {
    fn drop(&mut self) {
        let _ = self.program.kill();
        let _ = self.program.wait();
    }
}

/// The address that an answer leads to.
fn leads_to(answer: &str) -> Option<String> {
    let there = answer.split("\r\nlocation: ").nth(1)?;
    there.split("\r\n").next().map(str::to_owned)
}

fn read(path: &Path) -> String {
    std::fs::read_to_string(path).unwrap_or_else(|e| panic!("{}: {e}", path.display()))
}

#[test]
fn from_a_pasted_text_to_a_card_without_scripts() {
    let served = Served::new("walk");
    served.told("walk.mjs", &[]);
    let pasted = read(&root().join("tests/browser/pasted.txt"));
    assert_eq!(
        read(&served.notebook("milk-buns.txt")),
        pasted,
        "kept whole"
    );
    let whole = read(&root().join("examples/hearth-loaf.toml"));
    assert_eq!(
        read(&served.notebook("milk-buns.toml")),
        whole,
        "saved as written"
    );
}

#[test]
fn from_a_pasted_text_to_a_prediction_other_kitchens_and_a_published_page() {
    let served = Served::new("predict");
    served.told("predict.mjs", &[]);
    let page = served.notebook("published/overnight-sponge-hearth-loaf/index.html");
    assert!(page.is_file(), "{} is not there", page.display());
}

#[test]
fn from_an_empty_notebook_to_a_published_recipe_by_keyboard_alone() {
    let served = Served::new("keyboard");
    served.told("keyboard.mjs", &[]);
    let page = served.notebook("published/same-day-braid-and-tied-buns/index.html");
    assert!(page.is_file(), "{} is not there", page.display());
}

#[test]
fn a_recipe_is_written_by_filling_in_fields() {
    let served = Served::new("filling");
    served.told("filling.mjs", &[]);
    let text = read(&served.notebook("same-day-loaf.toml"));
    let before = read(&root().join("examples/same-day-loaf.toml"));
    let changed: Vec<&str> = text.lines().filter(|line| !before.contains(line)).collect();
    assert_eq!(changed.len(), 2, "{changed:#?}");
}

#[test]
fn two_windows_on_one_recipe_lose_no_word() {
    let served = Served::new("two-editors");
    let file = served.notebook("loaf.toml");
    std::fs::create_dir_all(served.notebook("")).expect("a folder");
    let lines = "everyoven = 1\ntitle = \"Loaf\"\nauthor = \"Anna\"\nkind = \"lean\"\n\n\
                 # In the tin since May.\nheadnote = \"Kneaded long.\"\n";
    std::fs::write(&file, lines).expect("written");
    served.told("two-editors.mjs", &[]);
    let now = read(&file);
    for line in [
        "author = \"Cara\"",
        "headnote = \"Kneaded short.\"",
        "version = \"2\"",
        "# In the tin since May.",
    ] {
        assert!(now.contains(line), "{line} is not in\n{now}");
    }
}

#[test]
fn findings_stand_beside_the_lines_that_are_written() {
    let served = Served::new("lines");
    std::fs::create_dir_all(served.notebook("")).expect("a folder");
    std::fs::copy(
        root().join("examples/hearth-loaf.toml"),
        served.notebook("loaf.toml"),
    )
    .expect("copied");
    served.told("lines.mjs", &[]);
}

#[test]
fn a_program_killed_under_a_save_loses_nothing() {
    // The story begins and kills a program of its own, on this folder.
    let served = Served::new("killed");
    let own = served.folder.join("own");
    std::fs::create_dir_all(own.join("notebook")).expect("a folder");
    std::fs::write(
        own.join("notebook/loaf.toml"),
        "everyoven = 1\ntitle = \"Loaf 0\"\n",
    )
    .expect("written");
    let program = target().join("debug/everyoven");
    let answer = answer(
        "killed.mjs",
        &served.address,
        &own,
        &[program.to_str().expect("UTF-8")],
    );
    none("killed.mjs", &findings(&answer));
}

/// Every page, in a notebook with findings of every weight and a text that cannot be read.
const LOOKED: [&str; 35] = [
    "/",
    "/?find=milk",
    "/recipe/same-day-loaf?kitchen=studio&said=saved",
    "/recipe/same-day-loaf/form",
    "/recipe/same-day-loaf/formula?readers=en-GB",
    "/recipe/same-day-loaf/findings",
    "/recipe/same-day-loaf/page/",
    "/recipe/same-day-loaf/text",
    "/recipe/same-day-loaf/papers",
    "/recipe/same-day-loaf/bench",
    "/recipe/same-day-loaf/log",
    "/recipe/same-day-loaf/what-if?kitchen=studio&room=16&flour=bread+flour",
    "/recipe/same-day-loaf/elsewhere",
    "/recipe/same-day-loaf/reader?came=dense&audience=us&room=17C",
    "/recipe/same-day-loaf/learn?kitchen=studio",
    "/recipe/same-day-loaf/words",
    "/recipe/same-day-loaf/answers?ask=cold-kitchen",
    "/recipe/same-day-loaf/day",
    "/recipe/same-day-loaf/filming",
    "/recipe/same-day-loaf/filming/scenes?of=loaf",
    "/recipe/same-day-loaf/history",
    "/recipe/same-day-loaf/history/1",
    "/recipe/bare",
    "/recipe/bare/form",
    "/recipe/bare/findings",
    "/recipe/bare/papers",
    "/recipe/broken",
    "/recipe/broken/form",
    "/recipe/broken/formula",
    "/pasted/milk-buns?said=pasted",
    "/pasted/milk-buns?line=9",
    "/in-hand/1",
    "/explain/bowl-too-small",
    "/handbook/filming-day",
    "/recipe/none",
];

/// Addresses that answer with something else than a page of the notebook.
const NO_PAGES: [&str; 11] = [
    "/recipe/{name}/answers.html",
    "/recipe/{name}/papers.zip",
    "/recipe/{name}/page/{file}",
    "/recipe/{name}/file/{file}",
    "/recipe/{name}/bench/now",
    "/in-hand/{number}/file/{file}",
    "/script/{file}",
    "/style.css",
    "/bench.css",
    "/icon.svg",
    "/favicon.ico",
];

#[test]
fn no_address_of_the_notebook_is_left_unlooked_at() {
    let web = root().join("crates/app/src/web");
    let sources = [
        read(&web.join("router.rs")),
        read(&web.join("bench/mod.rs")),
    ];
    let routes: Vec<&str> = sources
        .iter()
        .flat_map(|source| source.split(".route(").skip(1))
        .filter(|route| route.contains("get("))
        .filter_map(|route| route.split('"').nth(1))
        .collect();
    assert!(routes.len() > 25, "few addresses were found: {routes:?}");
    let looks_at = |route: &str, path: &str| {
        let path = path.split('?').next().unwrap_or_default();
        let (route, path): (Vec<_>, Vec<_>) =
            (route.split('/').collect(), path.split('/').collect());
        let same = |(one, other): (&&str, &&str)| one == other || one.starts_with('{');
        route.len() == path.len() && route.iter().zip(&path).all(same)
    };
    let left: Vec<String> = routes
        .iter()
        .filter(|route| !NO_PAGES.contains(route))
        .filter(|route| !LOOKED.iter().any(|path| looks_at(route, path)))
        .map(|route| (*route).to_owned())
        .collect();
    none("pages that nobody looks at", &left);
    let pictured = read(&root().join("docs/screens/pages.mjs"));
    let pictured: Vec<String> = pictured
        .split(" at: ")
        .skip(1)
        .map(|rest| {
            let below = rest.split('"').nth(1).unwrap_or_default();
            let below = below.split('?').next().unwrap_or_default();
            if rest.starts_with("loaf(") || rest.starts_with("dough(") {
                format!("/recipe/any{below}")
            } else {
                format!("/{below}")
            }
        })
        .collect();
    let unseen: Vec<String> = routes
        .iter()
        .filter(|route| !NO_PAGES.contains(route) && !route.starts_with("/in-hand"))
        .filter(|route| !pictured.iter().any(|path| looks_at(route, path)))
        .map(|route| (*route).to_owned())
        .collect();
    none("pages of which the docs have no picture", &unseen);
}

#[test]
fn every_page_can_be_read_by_everybody_in_every_light_and_width() {
    let served = Served::new("look");
    let empty = served.told("look.mjs", &["/"]);
    judge_html(&empty);
    let folder = served.notebook("");
    std::fs::create_dir_all(folder.join("kitchens")).expect("a folder");
    for (from, to) in [
        ("examples/same-day-loaf.toml", "same-day-loaf.toml"),
        ("examples/kitchens/studio.toml", "kitchens/studio.toml"),
        ("tests/browser/pasted.txt", "milk-buns.txt"),
    ] {
        std::fs::copy(root().join(from), folder.join(to)).expect("copied");
    }
    // Findings of every weight, and a text that cannot be read.
    std::fs::write(
        folder.join("bare.toml"),
        "everyoven = 1\ntitle = \"Bare\"\nkind = \"soft\"\n",
    )
    .expect("written");
    std::fs::write(folder.join("broken.toml"), "title = \"Buns\nkind = 1").expect("written");
    std::fs::write(folder.join("milk-buns.mends"), "9: 2 large eggs\n").expect("written");
    // Scenes of which one needs what never comes.
    std::fs::create_dir_all(folder.join("scenes")).expect("a folder");
    std::fs::write(
        folder.join("scenes/loaf.toml"),
        "everyoven = 1\nshoot = \"A day\"\nday = 2026-12-24\n\n[[scene]]\nname = \"S01\"\nabout = \"Risen\"\n\
         for = \"15 min\"\nneeds = [\"dough risn\"]\n",
    )
    .expect("written");
    // Long work that was cancelled before anything was known of it.
    let begun = served.post(
        "/recipe/same-day-loaf/elsewhere",
        "audience=us&number=10000",
    );
    served.post(&format!("{begun}/stop"), "");
    // A day that is planned, over midnight and in a kitchen of its own.
    let begun = served.post(
        "/recipe/same-day-loaf/day",
        "kitchen=studio&of.same-day-loaf=2&serve=braid+2026-12-24+16:00&from=2026-12-23+17:00&seconds=2",
    );
    let planned = served.over(&begun);
    let mut paths = LOOKED.to_vec();
    paths.push(&planned);
    let told = served.told("look.mjs", &paths);
    assert!(
        told["passes"].as_u64() > Some(500),
        "axe looked at little: {}",
        told["passes"]
    );
    judge_html(&told);
}

#[test]
fn a_bake_along_on_a_telephone() {
    let served = Served::new("bench");
    let folder = served.notebook("");
    std::fs::create_dir_all(folder.join("kitchens")).expect("a folder");
    std::fs::copy(
        root().join("examples/same-day-loaf.toml"),
        folder.join("same-day-loaf.toml"),
    )
    .expect("copied");
    let told = served.told("bench.mjs", &[]);
    assert!(told["bytes"].as_u64() > Some(10_000), "it was not weighed");
    judge_html(&told);
}

#[test]
fn the_look_at_pages_sees() {
    let served = Served::new("blind");
    // No page at all: no language, no title, no heading.
    let answer = served.answer("look.mjs", &["/style.css"]);
    let found = findings(&answer).join("\n");
    for rule in ["html-has-lang", "document-title", "page-has-heading-one"] {
        assert!(found.contains(rule), "{rule} is missed:\n{found}");
    }
}

#[test]
fn the_pictures_in_the_docs_are_of_the_pages_as_they_are() {
    let out = Command::new("node")
        .arg(root().join("docs/screens/take.mjs"))
        .arg("--stale")
        .arg(target().join("debug/everyoven"))
        .output()
        .expect("node starts");
    let said = String::from_utf8_lossy(&out.stdout);
    let stale: Vec<String> = said
        .lines()
        .filter(|line| !line.is_empty())
        .map(str::to_owned)
        .collect();
    none(
        "pages that look otherwise than in docs/screens; `node docs/screens/take.mjs target/debug/everyoven` takes them anew",
        &stale,
    );
    let wrong = String::from_utf8_lossy(&out.stderr);
    assert!(out.status.success(), "{wrong}");
}

/// The pages that a story saved, held against the standard.
fn judge_html(told: &Value) {
    let files: Vec<&str> = told["files"]
        .as_array()
        .expect("files")
        .iter()
        .filter_map(Value::as_str)
        .collect();
    assert!(!files.is_empty(), "no page was saved");
    let out = Command::new("node")
        .arg(root().join("tests/peers/judge_html.mjs"))
        .args(&files)
        .output()
        .expect("node starts");
    let said = String::from_utf8_lossy(&out.stdout);
    assert!(out.status.success(), "{said}");
}

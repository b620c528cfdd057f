//! The program from outside: what it prints, what it writes, what it does when the world is against it.

mod advise;
mod answers;
mod backup;
mod bake;
mod day;
mod figures;
mod film;
mod importing;
mod killed;
mod kitchens;
mod learn;
mod mending;
mod practical;
mod reckoned;
mod running;
mod schemas;
mod serving;
mod shoot;
mod size;
mod slipped;
mod told;
mod trouble;
mod variants;

use running::{everyoven, folder, root, run, text};
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

/// Every file below a folder with its bytes.
fn tree(folder: &Path) -> Vec<(String, Vec<u8>)> {
    let mut files: Vec<_> = std::fs::read_dir(folder)
        .expect("the folder is there")
        .map(|entry| {
            let path = entry.expect("an entry").path();
            let name = path
                .file_name()
                .expect("a name")
                .to_string_lossy()
                .into_owned();
            (name, std::fs::read(&path).expect("a file"))
        })
        .collect();
    files.sort();
    files
}

const RECIPES: [&str; 5] = [
    "same-day-loaf",
    "cardamom-dough",
    "hearth-loaf",
    "feast-bread",
    "feast-bread-active-dry",
];

#[test]
fn every_demo_recipe_publishes_and_a_second_time_byte_for_byte() {
    for name in RECIPES {
        let out = folder(&format!("publish-{name}"));
        let recipe = format!("examples/{name}.toml");
        let mut before = None;
        for _ in 0..2 {
            let answer = run(&["publish", &recipe, "--into", out.to_str().expect("UTF-8")]);
            assert!(answer.status.success(), "{name}: {}", text(&answer.stderr));
            let slug = std::fs::read_dir(&out)
                .expect("out")
                .next()
                .expect("one")
                .expect("one");
            let files = tree(&slug.path());
            let names: Vec<_> = files.iter().map(|(name, _)| name.as_str()).collect();
            assert_eq!(
                names,
                [
                    "bench-a4.pdf",
                    "card-a5.pdf",
                    "fragment.html",
                    "index.html",
                    "recipe.jsonld",
                    "recipe.toml",
                    "recipe.txt"
                ]
            );
            if let Some(before) = before.replace(files.clone()) {
                assert!(before == files, "{name}: a second run writes other bytes");
            }
        }
        std::fs::remove_dir_all(out).expect("cleaned");
    }
}

#[test]
fn files_of_other_people_in_the_folder_are_kept() {
    let out = folder("kept");
    let into = out.to_str().expect("UTF-8");
    assert!(
        run(&["publish", "examples/hearth-loaf.toml", "--into", into])
            .status
            .success()
    );
    let target = out.join("overnight-sponge-hearth-loaf");
    std::fs::write(target.join("my-notes.txt"), "mine").expect("written");
    assert!(
        run(&["publish", "examples/hearth-loaf.toml", "--into", into])
            .status
            .success()
    );
    assert_eq!(
        std::fs::read_to_string(target.join("my-notes.txt")).expect("kept"),
        "mine"
    );
    let rest: Vec<_> = std::fs::read_dir(&out).expect("out").collect();
    assert_eq!(rest.len(), 1, "nothing is left beside the folder");
    std::fs::remove_dir_all(out).expect("cleaned");
}

#[test]
fn the_demo_prints_formula_two_kitchens_and_where_everything_is() {
    let out = folder("demo");
    let answer = run(&["demo", "--into", out.to_str().expect("UTF-8")]);
    assert!(answer.status.success(), "{}", text(&answer.stderr));
    let said = text(&answer.stdout);
    for word in [
        "Water in all",
        "Studio",
        "Cold terrace",
        "index.html",
        "card-a5.pdf",
    ] {
        assert!(said.contains(word), "{word} is missing from:\n{said}");
    }
    std::fs::remove_dir_all(out).expect("cleaned");
}

#[test]
fn a_recipe_with_something_to_mend_is_not_published() {
    let out = folder("mend");
    let recipe = out.join("broken.toml");
    let text_of = std::fs::read_to_string(root().join("examples/hearth-loaf.toml")).expect("read");
    std::fs::write(&recipe, text_of.replace("\"220 g\"", "220")).expect("written");
    let into = out.join("out");
    let answer = run(&[
        "publish",
        recipe.to_str().expect("UTF-8"),
        "--into",
        into.to_str().expect("UTF-8"),
    ]);
    assert_eq!(answer.status.code(), Some(1));
    assert!(text(&answer.stderr).contains("number-without-unit"));
    assert!(!into.exists(), "nothing was written");
    std::fs::remove_dir_all(out).expect("cleaned");
}

#[test]
fn exit_codes_say_what_went_wrong() {
    assert_eq!(
        run(&["check", "examples/hearth-loaf.toml"]).status.code(),
        Some(0)
    );
    assert_eq!(
        run(&["chekc", "examples/hearth-loaf.toml"]).status.code(),
        Some(2)
    );
    assert_eq!(run(&["explain", "no-such-finding"]).status.code(), Some(2));
    assert_eq!(run(&["check", "no-such-file.toml"]).status.code(), Some(3));
    assert_eq!(run(&["check", "examples"]).status.code(), Some(3));
}

#[test]
fn failures_of_the_world_are_said_in_plain_words() {
    let missing = text(&run(&["check", "no-such-file.toml"]).stderr);
    let a_folder = text(&run(&["check", "examples"]).stderr);
    let existing = text(&run(&["new", "examples/hearth-loaf.toml"]).stderr);
    insta::assert_snapshot!(format!("{missing}---\n{a_folder}---\n{existing}"));
}

/// Runs a shell in a mount space of its own, so that a disk may be full or read-only.
fn in_own_mounts(script: &str) -> Output {
    Command::new("unshare")
        .args(["--mount", "sh", "-c", script])
        .current_dir(root())
        .env("EVERYOVEN", everyoven().get_program())
        .output()
        .expect("unshare starts")
}

#[test]
fn a_read_only_disk_is_refused_and_nothing_is_left_behind() {
    let out = folder("read-only");
    let place = out.display();
    let answer = in_own_mounts(&format!(
        "mount -t tmpfs -o ro tmpfs {place} && \
         $EVERYOVEN publish examples/hearth-loaf.toml --into {place}; \
         code=$?; ls -A {place}; exit $code"
    ));
    let said = text(&answer.stderr).replace(&place.to_string(), "FOLDER");
    assert_eq!(answer.status.code(), Some(3), "{said}");
    assert!(said.contains("this disk can only be read"), "{said}");
    assert!(said.contains("--into FOLDER"), "{said}");
    assert_eq!(text(&answer.stdout), "", "nothing is left");
    std::fs::remove_dir_all(out).expect("cleaned");
}

#[test]
fn a_full_disk_leaves_what_was_there_before() {
    let out = folder("full");
    let place = out.display();
    let answer = in_own_mounts(&format!(
        "mount -t tmpfs -o size=48k tmpfs {place} && mkdir {place}/overnight-sponge-hearth-loaf \
         && echo before > {place}/overnight-sponge-hearth-loaf/index.html && \
         $EVERYOVEN publish examples/hearth-loaf.toml --into {place}; \
         code=$?; ls -A {place}; cat {place}/*/index.html; exit $code"
    ));
    let said = text(&answer.stderr);
    assert_eq!(answer.status.code(), Some(3), "{said}");
    assert!(said.contains("the disk is full"), "{said}");
    assert_eq!(
        text(&answer.stdout),
        "overnight-sponge-hearth-loaf\nbefore\n"
    );
    std::fs::remove_dir_all(out).expect("cleaned");
}

#[test]
fn a_closed_pipe_is_no_failure() {
    let answer = Command::new("sh")
        .args(["-c", "$EVERYOVEN licences | head -1"])
        .env("EVERYOVEN", everyoven().get_program())
        .output()
        .expect("a shell");
    assert!(answer.status.success());
    assert_eq!(text(&answer.stderr), "");
}

#[test]
fn a_new_recipe_is_complete_and_has_nothing_to_mend() {
    let out = folder("new");
    for kind in ["lean", "soft", "enriched"] {
        let file = out.join(format!("{kind}.toml"));
        let path = file.to_str().expect("UTF-8");
        assert!(run(&["new", path, "--kind", kind]).status.success());
        let answer = run(&["check", path]);
        assert_eq!(answer.status.code(), Some(0), "{}", text(&answer.stdout));
        assert!(
            text(&answer.stdout).contains("0 to mend") || text(&answer.stdout).contains("Nothing")
        );
    }
    std::fs::remove_dir_all(out).expect("cleaned");
}

#[test]
fn help_of_every_command_has_an_example() {
    let help = text(&run(&["--help"]).stdout);
    for command in [
        "new", "import", "check", "formula", "mix", "bake", "figures", "shopping", "publish",
        "demo", "serve", "explain", "licences", "manual",
    ] {
        assert!(help.contains(command), "{command} is not in the help");
        let own = text(&run(&[command, "--help"]).stdout);
        assert!(
            own.contains("Example: everyoven"),
            "{command} has no example"
        );
    }
}

#[test]
fn a_hostile_file_of_ten_megabytes_is_refused() {
    let out = folder("hostile");
    let file = out.join("large.toml");
    std::fs::write(&file, "x".repeat(10_000_000)).expect("written");
    let answer = run(&["check", file.to_str().expect("UTF-8")]);
    assert_eq!(answer.status.code(), Some(1));
    let said = text(&answer.stdout);
    assert!(
        said.contains("file-too-large"),
        "{}",
        said.chars().take(400).collect::<String>()
    );
    assert!(said.len() < 4000, "the answer is short");
    std::fs::remove_dir_all(out).expect("cleaned");
}

/// A copy of the hearth loaf with something changed, in a folder of its own.
fn changed(name: &str, from: &str, to: &str) -> (PathBuf, PathBuf) {
    let out = folder(name);
    let recipe = out.join("changed.toml");
    let text = std::fs::read_to_string(root().join("examples/hearth-loaf.toml")).expect("read");
    assert!(text.contains(from), "{from}");
    std::fs::write(&recipe, text.replacen(from, to, 1)).expect("written");
    (out, recipe)
}

#[test]
fn a_character_that_no_printed_face_has_is_a_finding_and_no_empty_box() {
    let (out, recipe) = changed("glyph", "hearth loaf\"", "hearth loaf \u{9eba}\u{5305}\"");
    let into = out.join("out");
    let answer = run(&[
        "publish",
        recipe.to_str().expect("UTF-8"),
        "--into",
        into.to_str().expect("UTF-8"),
    ]);
    let said = text(&answer.stderr);
    assert_eq!(answer.status.code(), Some(1), "{said}");
    assert!(
        said.contains("glyph-missing") && said.contains('\u{9eba}'),
        "{said}"
    );
    assert!(!into.exists(), "nothing was written");
    std::fs::remove_dir_all(out).expect("cleaned");
}

#[test]
fn photographs_beside_the_recipe_are_published_and_missing_ones_are_found() {
    let photos = "[[photo]]\nfile = \"cut.png\"\nalt = \"The loaf, cut.\"\n\n\
                  [[photo]]\nfile = \"dough.png\"\nalt = \"The dough, risen.\"\n\n[[pantry]]";
    let (out, recipe) = changed("photo", "[[pantry]]", photos);
    std::fs::write(out.join("cut.png"), b"\x89PNG\r\n\x1a\n").expect("a photograph");
    let into = out.join("out");
    let answer = run(&[
        "publish",
        recipe.to_str().expect("UTF-8"),
        "--into",
        into.to_str().expect("UTF-8"),
        "--address",
        "https://bread.example/hearth/",
    ]);
    let said = text(&answer.stderr);
    assert!(answer.status.success(), "{said}");
    assert!(
        said.contains("photo-missing") && said.contains("dough.png"),
        "{said}"
    );
    let folder = into.join("overnight-sponge-hearth-loaf");
    assert!(folder.join("cut.png").is_file());
    let page = std::fs::read_to_string(folder.join("index.html")).expect("the page");
    assert!(page.contains("The loaf, cut.") && !page.contains("The dough, risen."));
    let data = std::fs::read_to_string(folder.join("recipe.jsonld")).expect("the data");
    assert!(data.contains("https://bread.example/hearth/cut.png") && !data.contains("dough.png"));
    std::fs::remove_dir_all(out).expect("cleaned");
}

#[test]
fn the_label_says_the_same_in_the_terminal_on_the_page_and_to_machines() {
    let prices = "examples/prices/receipts.toml";
    let recipe = "examples/same-day-loaf.toml";
    let answer = run(&[
        "label", recipe, "--law", "both", "--prices", prices, "--json",
    ]);
    assert!(answer.status.success(), "{}", text(&answer.stderr));
    let json: serde_json::Value = serde_json::from_slice(&answer.stdout).expect("JSON");
    let shown = |name: &str| -> String {
        let mut figures = json["figures"].as_array().expect("figures").iter();
        let figure = figures.find(|figure| figure["name"] == name);
        let shown = figure.unwrap_or_else(|| panic!("{name}"))["shown"].as_str();
        shown.expect("a text").replace('\u{a0}', " ")
    };
    let said = json["text"]
        .as_str()
        .expect("a text")
        .replace('\u{a0}', " ");
    for name in [
        "label.braid.us.energy-kcal",
        "label.buns.eu.energy-kj.in-100-g",
        "cost.sum",
    ] {
        assert!(said.contains(&shown(name)), "{name} in:\n{said}");
    }
    assert!(said.contains("Without a price: fine salt"), "{said}");
    assert!(json["findings"].to_string().contains("price-old"));
    let out = folder("label");
    let into = out.to_str().expect("UTF-8");
    assert!(run(&["publish", recipe, "--into", into]).status.success());
    let data = out.join("same-day-braid-and-tied-buns/recipe.jsonld");
    let data = std::fs::read_to_string(data).expect("structured data");
    let data: serde_json::Value = serde_json::from_str(&data).expect("JSON");
    let nutrition = &data["nutrition"];
    assert_eq!(nutrition["calories"], shown("label.braid.us.energy-kcal"));
    assert_eq!(nutrition["sodiumContent"], shown("label.braid.us.sodium"));
    std::fs::remove_dir_all(out).expect("cleaned");
}

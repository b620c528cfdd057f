//! The figures of `bake` from outside: XML that stands alone, with the strings that machines get; and folders that refuse them.

use super::running::{folder, list, program, root, run, squeezed, text, word};
use serde_json::Value;
use std::path::Path;
use std::process::Command;

const CASES: [(&str, &str); 4] = [
    ("same-day-loaf", "terrace"),
    ("cardamom-dough", "plateau"),
    ("hearth-loaf", "studio"),
    ("feast-bread", "flat"),
];

/// What stands in a figure, its texts put together; on the way everything that must hold of one.
fn read(name: &str, svg: &str) -> String {
    let tree = roxmltree::Document::parse(svg).unwrap_or_else(|fault| panic!("{name}: {fault}"));
    let top = tree.root_element();
    assert!(
        top.has_tag_name(("http://www.w3.org/2000/svg", "svg")),
        "{name}"
    );
    let view: Vec<f64> = top
        .attribute("viewBox")
        .unwrap_or_default()
        .split(' ')
        .map(|n| n.parse().expect("a number"))
        .collect();
    assert_eq!(
        view[..3],
        [0.0, 0.0, 360.0],
        "{name}: as wide as a telephone"
    );
    assert!(top.attribute("width").is_none() && top.attribute("height").is_none());
    let ids: Vec<&str> = tree
        .descendants()
        .filter_map(|node| node.attribute("id"))
        .collect();
    for part in ["title", "desc"] {
        let node = tree.descendants().find(|node| node.has_tag_name(part));
        let said = node.and_then(|node| node.text()).unwrap_or_default();
        assert!(said.len() > 10, "{name} has no {part}");
    }
    let mut words = Vec::new();
    for node in tree.descendants().filter(roxmltree::Node::is_element) {
        assert!(!["style", "script", "image", "foreignObject"].contains(&node.tag_name().name()));
        for attribute in node.attributes() {
            let (key, value) = (attribute.name(), attribute.value());
            assert!(!["class", "style", "href"].contains(&key), "{name}: {key}");
            assert!(
                !value.contains("NaN") && !value.contains("inf"),
                "{name}: {key}={value}"
            );
            if let Some(id) = value
                .strip_prefix("url(#")
                .and_then(|v| v.strip_suffix(')'))
            {
                assert!(ids.contains(&id), "{name}: {id} is nowhere");
            }
        }
        let place = |key| node.attribute(key).and_then(|n| n.parse::<f64>().ok());
        if let Some((x, y)) = place("x").zip(place("y")) {
            assert!(
                (0.0..=360.0).contains(&x) && (0.0..=view[3]).contains(&y),
                "{name}: {x} {y}"
            );
        }
        if node.has_tag_name("text") {
            words.push(node.text().unwrap_or_default());
            let size = node
                .attribute("font-size")
                .map_or(13.0, |n| n.parse().expect("a size"));
            assert!(size >= 9.5, "{name}: {size}");
        }
    }
    squeezed(&words.join(" "))
}

#[test]
fn figures_are_xml_and_say_what_machines_are_told() {
    for (recipe, kitchen) in CASES {
        let out = folder(recipe);
        // Neither the folder nor the one that it is to lie in is there.
        let into = out.join("deep/figures");
        let answer = run(&[
            "--json",
            "bake",
            &format!("examples/{recipe}.toml"),
            "--kitchen",
            &format!("examples/kitchens/{kitchen}.toml"),
            "--figures",
            into.to_str().expect("UTF-8"),
        ]);
        let json: Value = serde_json::from_slice(&answer.stdout).expect("JSON");
        let files = list(&json["files"]);
        let mut kinds = [0; 3];
        for file in files.iter().map(word) {
            let svg = std::fs::read_to_string(file).expect("a figure that is named is there");
            let words = read(file, &svg);
            let name = Path::new(file)
                .file_name()
                .and_then(|n| n.to_str())
                .expect("a name");
            let steps = || list(&json["happens"][0]["steps"]).iter();
            let shown = |name: &Value| {
                let figure = list(&json["figures"])
                    .iter()
                    .find(|one| one["name"] == *name);
                squeezed(word(&figure.expect("a figure")["shown"]))
            };
            if name == "day.svg" {
                kinds[0] += 1;
                for step in steps() {
                    for line in list(&step["lines"]) {
                        let here = squeezed(word(&line["here"]));
                        assert!(words.contains(&here), "{file}: {here} is not in\n{words}");
                    }
                }
            } else if name.starts_with("bake-") {
                kinds[1] += 1;
                let bakes = steps().filter(|step| step["what"] == "bake");
                let times: Vec<String> = bakes.map(|step| shown(&step["takes"])).collect();
                let here = times
                    .iter()
                    .any(|time| words.contains(&format!("here: {time}")));
                assert!(here, "{file}: none of {times:?} is in {words}");
            } else {
                kinds[2] += 1;
                assert!(
                    words.contains("dry crust") && words.matches("after ").count() >= 2,
                    "{words}"
                );
            }
        }
        assert!(
            kinds[0] == 1 && kinds[1] >= 1 && kinds[1] == kinds[2],
            "{recipe}: {kinds:?}"
        );
        assert_eq!(
            std::fs::read_dir(&into).expect("figures").count(),
            files.len()
        );
        std::fs::remove_dir_all(out).expect("cleaned");
    }
}

#[test]
fn several_kitchens_have_figures_under_their_names_and_twice_are_the_same_bytes() {
    let out = folder("several");
    let into = out.to_str().expect("UTF-8");
    let kitchen = "examples/kitchens/studio.toml";
    let again = || {
        let arguments = ["bake", "examples/hearth-loaf.toml", "--figures", into];
        let two = ["--kitchen", kitchen, "--kitchen", kitchen];
        assert!(run(&[&arguments[..], &two].concat()).status.success());
        let mut files: Vec<(String, Vec<u8>)> = std::fs::read_dir(&out)
            .expect("figures")
            .map(|entry| entry.expect("an entry").path())
            .map(|path| {
                (
                    path.display().to_string(),
                    std::fs::read(&path).expect("a figure"),
                )
            })
            .collect();
        files.sort();
        files
    };
    let first = again();
    let named = |name: &str| first.iter().any(|(path, _)| path.ends_with(name));
    for name in [
        "/studio-day.svg",
        "/studio-2-day.svg",
        "/studio-bake-loaf.svg",
        "/studio-2-cut-loaf.svg",
    ] {
        assert!(named(name), "{name}");
    }
    assert!(first == again(), "a second run writes other bytes");
    std::fs::remove_dir_all(out).expect("cleaned");
}

#[test]
fn a_folder_that_cannot_be_written_to_is_said_with_the_flag_to_change() {
    let out = folder("refused");
    let place = out.display();
    let answer = Command::new("unshare")
        .args(["--mount", "sh", "-c"])
        .arg(format!(
            "mount -t tmpfs -o ro tmpfs {place} && \
             $EVERYOVEN bake examples/hearth-loaf.toml --figures {place}/figures; \
             code=$?; ls -A {place} >&2; exit $code"
        ))
        .current_dir(root())
        .env("EVERYOVEN", program())
        .output()
        .expect("unshare starts");
    let said = text(&answer.stderr);
    assert_eq!(answer.status.code(), Some(3), "{said}");
    assert!(said.contains("this disk can only be read"), "{said}");
    assert!(
        said.contains("--figures FOLDER") && !said.contains("--into"),
        "{said}"
    );
    let file = out.join("figures");
    std::fs::write(&file, "mine").expect("written");
    let path = file.to_str().expect("UTF-8");
    let answer = run(&["bake", "examples/hearth-loaf.toml", "--figures", path]);
    assert_eq!(answer.status.code(), Some(3), "{}", text(&answer.stderr));
    assert_eq!(std::fs::read_to_string(&file).expect("kept"), "mine");
    std::fs::remove_dir_all(out).expect("cleaned");
}

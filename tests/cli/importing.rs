//! `import` from the shell: every line answered for, a file that is never written over another.

use super::running::{everyoven, folder, root, run, text};
use std::process::Command;

/// A pasted text.
pub const PASTED: &str = "tests/suite/import/recipes/egg-braids-step-by-step.txt";

#[test]
fn a_pasted_text_becomes_a_file_that_is_never_written_over_another() {
    let out = folder("import");
    std::fs::create_dir_all(&out).expect("a folder");
    let file = out.join("braids.toml");
    let path = file.to_str().expect("UTF-8");
    let answer = run(&["import", PASTED, "--as", path]);
    let said = text(&answer.stdout);
    assert!(answer.status.success(), "{}", text(&answer.stderr));
    // Every line of the text is answered for, and so is the file.
    for words in ["2 braids", "12 g salt", "Cool on a rack", "Assumed", path] {
        assert!(said.contains(words), "{words}: {said}");
    }
    let mut lines = said.lines().filter(|line| !line.contains(path));
    assert!(lines.all(|line| line.chars().count() <= 80), "{said}");
    let written = std::fs::read(&file).expect("the file");
    assert!(run(&["formula", path]).status.code() != Some(70));
    let again = run(&["import", PASTED, "--as", path]);
    assert_eq!(again.status.code(), Some(3));
    assert!(text(&again.stderr).contains("a file of that name already"));
    assert_eq!(std::fs::read(&file).expect("the file"), written);
    let piped = Command::new("sh")
        .args([
            "-c",
            "cat \"$1\" | $EVERYOVEN import - --as \"$2\"",
            "sh",
            PASTED,
        ])
        .arg(out.join("piped.toml"))
        .env("EVERYOVEN", everyoven().get_program())
        .current_dir(root())
        .output()
        .expect("a shell");
    assert!(piped.status.success(), "{}", text(&piped.stderr));
    assert_eq!(
        std::fs::read(out.join("piped.toml")).expect("the file"),
        written
    );
    std::fs::remove_dir_all(out).expect("cleaned");
}

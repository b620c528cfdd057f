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

/// What a home cook adds behind a comma, as nobody weighs it: the word stays, and nothing is left to mend.
#[test]
fn a_list_with_words_behind_its_commas_leaves_nothing_to_mend() {
    let out = folder("rings");
    let pasted = out.join("rings.txt");
    let text_of = "Sunday rings\n\nMakes 12\n\nIngredients\n\
        500 g bread flour, plus more for the bench\n7 g instant yeast\n180 ml milk\n100 ml water\n\
        2 tablespoons sugar\n9 g fine salt\n90 ml sunflower oil\n\
        1 egg, white in the dough and yolk for the top\n120 g very soft butter, for spreading\n\n\
        Method\nStir the milk, water, sugar and yeast in a bowl and leave 10 minutes until it foams.\n\
        Add the oil, the egg white, the flour and the salt. Knead by hand 10 minutes until smooth.\n\
        Cover and let it rise for an hour until doubled.\nDivide into 12 pieces and let them rest 15 minutes.\n\
        Flatten each piece, spread with the butter, roll up and join into a ring.\n\
        Put the rings on two trays, cover and leave 40 minutes until puffy.\nBrush with the egg yolk.\n\
        Bake at 190C for 20 to 25 minutes until golden. Let them cool.\n";
    std::fs::write(&pasted, text_of).expect("written");
    let file = out.join("rings.toml");
    let path = file.to_str().expect("UTF-8");
    let answer = run(&["import", pasted.to_str().expect("UTF-8"), "--as", path]);
    assert!(answer.status.success(), "{}", text(&answer.stderr));
    let made = std::fs::read_to_string(&file).expect("the file");
    for words in [
        "note = \"plus more for the bench\"",
        "[egg white]",
        "[egg yolk for the top]",
        "with = [{ of = \"filling\", each = \"10 g\" }]",
        "Assumed: dough temperature: 2",
        "°C / 7",
    ] {
        assert!(made.contains(words), "{words}: {made}");
    }
    let checked = run(&["check", path]);
    assert!(checked.status.success(), "{}", text(&checked.stdout));
    std::fs::remove_dir_all(out).expect("cleaned");
}

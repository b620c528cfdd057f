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

/// A text as people send them, by somebody who had not seen the reader: a paste cooked over a flame, two speeds, pans
/// told by one measure, an egg wash that no line has, what each piece weighs.
#[test]
fn what_the_sentences_say_of_things_is_in_the_file() {
    let out = folder("sentences");
    let made = |name: &str, pasted: &str| {
        let from = out.join(format!("{name}.txt"));
        std::fs::write(&from, pasted).expect("written");
        let file = out.join(format!("{name}.toml"));
        let path = file.to_str().expect("UTF-8");
        let answer = run(&["import", from.to_str().expect("UTF-8"), "--as", path]);
        assert!(answer.status.success(), "{}", text(&answer.stderr));
        std::fs::read_to_string(&file).expect("the file")
    };
    let holds = |made: &str, all: &[&str]| {
        for words in all {
            assert!(made.contains(words), "{words}: {made}");
        }
    };
    let cushions = made(
        "cushions",
        "Cushion bread\n\nMakes 1 loaf in a 9 x 5 inch tin. Serves about 8.\n\nFor the cooked paste\n\
        25 g bread flour\n120 g whole milk\n\nFor the dough\n315 g bread flour\n100 g milk\n45 g sugar\n\
        6 g instant yeast\n6 g fine salt\n1 large egg\n55 g soft butter\n\nMethod\n\
        1. Whisk the flour and milk for the paste in a small pan and stir over medium heat until it reaches 149°F, 4 minutes. Let it cool to 90 degrees.\n\
        2. Put the paste, milk, egg, sugar, yeast, flour and salt in the mixer bowl and knead on low for 5 minutes. Add the butter and knead on medium for 10 minutes more.\n\
        3. Cover and let rise for 1 hour until doubled.\n4. Divide into 3 pieces of about 215 g each and round them.\n\
        5. Set them in the buttered tin. Cover and leave 45 minutes.\n\
        6. Heat the oven to 350°F. Egg wash and bake 30 to 35 minutes, until the middle reads 190°F.\n",
    );
    holds(
        &cushions,
        &[
            "serves = \"8\"",
            "name = \"cooked paste\"",
            "heat = { to = \"65 °C\"",
            "until = { dough = \"32 °C\" }",
            "speed = \"low\", for = \"5 min\" }, { speed = \"medium\", for = \"10 min\"",
            "piece = \"3 x 215 g\"",
            "Egg wash ([egg for the top])",
            "To decide: The text washes the pieces with egg",
        ],
    );
    let rounds = made(
        "rounds",
        "Lemon rounds\n\nMakes two round loaves\n\nIngredients\n625 g all-purpose flour\n7 g instant yeast\n\
        180 ml whole milk\n160 g sugar\n3 large eggs\n113 g butter, melted\n8 g fine salt\n\
        1 yolk + 1 tsp water, for the glaze\n30 g pearl sugar\n\nDirections\n\
        Warm the milk to 37 °C. In the bowl of a mixer beat the eggs with the sugar, add the milk, the yeast, the salt and most of the flour. Mix on low 3 min, add the butter and knead on medium-low 10-12 min.\n\
        Let rise, covered, until doubled, 2 hours.\nDivide in two, shape into balls, put each in a greased 8\" cake pan. Cover and let rise until puffy, 90 minutes.\n\
        Preheat the oven to 325F. Glaze, scatter pearl sugar, and bake for 30-35 mins until deep brown.\n",
    );
    holds(
        &rounds,
        &[
            "{ of = \"whole milk\", take = \"180 mL\", at = \"37 °C\" }",
            "size = \"Ø 8 x 2 in\"",
            "Assumed: tin: its depth, 5 cm / 2 in",
            "most of the [all-purpose flour]",
            "speed = \"low\", for = \"3 min\" }, { speed = \"medium\", for = \"11 min\"",
            "Glaze ([yolk for the top], [water for the top]), scatter [pearl sugar for the top]",
        ],
    );
    std::fs::remove_dir_all(out).expect("cleaned");
}

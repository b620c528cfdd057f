//! A recipe told in sentences goes from the pasted text to a published page by the program's own words.

use super::running::{folder, run, text};

/// A Mexican sweet bread for the second of November, told as one tells it. (Invented.)
const TOLD: &str = "tests/cli/pan-de-muerto.txt";

/// What stands on the page where the cook reads it, and what must not.
const SENTENCES: [&str; 5] = [
    "Dissolve 7 g instant yeast in 122 g whole milk with 12.5 g sugar and wait ten minutes until it foams.",
    "mix 500 g bread flour with 110 g sugar, 6 g salt, 2.1 g anise seeds and zest of 1 orange (8 g).",
    "Make a well in the bread flour, pour in the instant yeast and add 3 large eggs (150 g) and 2 large egg yolks (34 g).",
    "then work in 110 g unsalted butter, a little at a time",
    "brush them with 50 g unsalted butter, melted, and sprinkle them all over with 80 g sugar.",
];

#[test]
fn a_recipe_told_in_sentences_is_published_by_the_program_s_own_words() {
    let out = folder("told");
    let file = out.join("bread.toml");
    let path = file.to_str().expect("UTF-8");
    let answer = run(&["import", TOLD, "--as", path]);
    assert!(answer.status.success(), "{}", text(&answer.stderr));
    // Nothing is left to decide, so no word of the text is doubtful.
    assert_eq!(text(&answer.stderr), "");

    // The file is publishable as it is.
    let checked = run(&["check", path]);
    let said = text(&checked.stdout) + &text(&checked.stderr);
    assert!(checked.status.success(), "{said}");
    assert!(said.contains("0 to mend"), "{said}");

    // What the program asks for is mended in its own words.
    let edits = [
        ("size-not-said", "take = \"3\"", "take = \"3 large\""),
        ("size-not-said", "take = \"2\"", "take = \"2 large\""),
        (
            "yeast-settles-too-cold",
            "state = \"warm\"",
            "state = \"warm\", at = \"37 °C\"",
        ),
    ];
    let mut recipe = std::fs::read_to_string(&file).expect("the file");
    for (code, before, after) in edits {
        assert!(said.contains(code), "{code}: {said}");
        assert_eq!(recipe.matches(before).count(), 1, "{before}: {recipe}");
        recipe = recipe.replacen(before, after, 1);
    }
    std::fs::write(&file, recipe).expect("written");
    let checked = run(&["check", path]);
    let said = text(&checked.stdout) + &text(&checked.stderr);
    for (code, ..) in edits {
        assert!(!said.contains(code), "{code}: {said}");
    }

    let pages = out.join("pages");
    let published = run(&["publish", path, "--into", pages.to_str().expect("UTF-8")]);
    assert!(published.status.success(), "{}", text(&published.stderr));
    let plain = std::fs::read(pages.join("pan-de-muerto/recipe.txt")).expect("the plain text");
    let plain = text(&plain);
    // The left column alone, its lines joined.
    let left: Vec<String> = plain
        .lines()
        .map(|line| line.chars().take(48).collect::<String>())
        .collect();
    let left: Vec<&str> = left
        .iter()
        .flat_map(|line| line.split([' ', '\u{a0}']))
        .filter(|word| !word.is_empty())
        .collect();
    let left = left.join(" ");
    for sentence in SENTENCES {
        assert!(left.contains(sentence), "{sentence}\n{plain}");
    }
    std::fs::remove_dir_all(out).expect("cleaned");
}

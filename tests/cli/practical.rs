//! The practical papers from outside: shopping lists, and papers that a recipe has nothing for.

use super::running::{folder, run, text};

#[test]
fn a_shopping_list_goes_to_the_terminal_to_a_text_and_to_a_pdf() {
    let out = folder("shopping");
    let recipes = ["examples/same-day-loaf.toml=2", "examples/hearth-loaf.toml"];
    let answer = run(&["shopping", recipes[0], recipes[1]]);
    let said = text(&answer.stdout);
    assert!(answer.status.success(), "{}", text(&answer.stderr));
    // 2 x (180 + 420 + 15) g.
    assert!(said.contains("1230 g  all-purpose flour"), "{said}");
    assert!(
        said.lines().all(|line| line.chars().count() <= 80),
        "{said}"
    );
    for (file, begins) in [("list.txt", "Shopping list"), ("list.pdf", "%PDF-")] {
        let path = out.join(file);
        let place = path.to_str().expect("UTF-8");
        let answer = run(&["shopping", recipes[0], recipes[1], "--as", place]);
        assert!(answer.status.success(), "{}", text(&answer.stderr));
        let written = std::fs::read(&path).expect("written");
        assert!(written.starts_with(begins.as_bytes()), "{file}");
    }
    let wrong = out.join("list.docx");
    let wrong = wrong.to_str().expect("UTF-8");
    assert_eq!(
        run(&["shopping", recipes[0], "--as", wrong]).status.code(),
        Some(2)
    );
    assert_eq!(
        run(&["shopping", "examples/hearth-loaf.toml=many"])
            .status
            .code(),
        Some(2)
    );
    assert_eq!(run(&["shopping"]).status.code(), Some(2));
    std::fs::remove_dir_all(out).expect("cleaned");
}

#[test]
fn a_paper_that_a_recipe_has_nothing_for_is_left_out_with_a_word_why() {
    let out = folder("left-out");
    let into = out.to_str().expect("UTF-8");
    let recipe = "examples/feast-bread.toml";
    let papers = "labels-a4,lining-a4,lining-letter,level-letter";
    let answer = run(&["publish", recipe, "--into", into, "--papers", papers]);
    let said = text(&answer.stdout);
    assert!(answer.status.success(), "{}", text(&answer.stderr));
    assert!(
        said.contains("not made: lining-a4, lining-letter"),
        "{said}"
    );
    assert!(said.contains("needs no lining"), "{said}");
    let folder = out.join("tall-orange-feast-bread");
    assert!(folder.join("labels-a4.pdf").is_file());
    assert!(!folder.join("lining-a4.pdf").exists());
    std::fs::remove_dir_all(out).expect("cleaned");
}

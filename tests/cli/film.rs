//! A film's papers from outside: what `talk --into` writes, and clips in the page of `publish --talk`.

use super::running::{folder, run};
use edit::talk::track::read;

#[test]
fn the_papers_of_a_talk_are_written_and_can_be_read_again() {
    let out = folder("film");
    let into = out.join("papers");
    let talk = "examples/talk/cardamom-dough.txt";
    run(&[
        "talk",
        "examples/cardamom-dough.toml",
        talk,
        "--into",
        into.to_str().expect("UTF-8"),
    ]);
    let file = |name: &str| {
        std::fs::read(into.join(name)).unwrap_or_else(|error| panic!("{name}: {error}"))
    };
    let captions = read(&file("captions.vtt"));
    assert!(
        captions.diagnostics.is_empty(),
        "{:?}",
        captions.diagnostics
    );
    assert!(captions.output.cues.len() > 15);
    let words = |track: &edit::talk::track::Track| -> String {
        let text: String = track.cues.iter().map(|cue| cue.text.clone()).collect();
        text.split_whitespace().collect()
    };
    assert_eq!(
        words(&captions.output),
        words(&read(&file("captions.srt")).output)
    );
    let description = String::from_utf8(file("description.txt")).expect("UTF-8");
    for said in [
        "Contains wheat (gluten), milk and egg.",
        "\n0:00 Firm preferment\n",
        "245 g (1¾ cups + 3 Tbsp) bread flour",
    ] {
        assert!(
            description.contains(said),
            "{said} is missing from\n{description}"
        );
    }
    assert!(file("say-these-a4.pdf").starts_with(b"%PDF-"));
    assert!(file("card-01-firm-preferment.png").starts_with(b"\x89PNG"));
    // This recipe names no film.
    assert!(!into.join("recipe.jsonld").exists());
    let _ = std::fs::remove_dir_all(&out);
}

#[test]
fn a_page_has_the_chapters_of_its_film_as_clips() {
    let out = folder("clips");
    let talk = out.join("talk.txt");
    let said = "[0:00] For the sponge wake the active dry yeast in warm milk, then the flour; it stands for fifty-five minutes.\n\
         [0:30] Then the dough: eggs, sugar, salt and flour in the mixer, and the butter at the end.\n\
         [1:00] Roll three ropes of 35 cm and braid them; the braid goes into its tin and bakes thirty-six minutes.\n\
         [1:30] Tie the buns with their strips, and bake them fifteen minutes.\n[2:00]\n";
    std::fs::write(&talk, said).expect("written");
    let into = out.join("pages");
    let (talk, into_text) = (talk.to_str().expect("UTF-8"), into.to_str().expect("UTF-8"));
    let answer = run(&[
        "publish",
        "examples/same-day-loaf.toml",
        "--into",
        into_text,
        "--address",
        "https://bread.example/loaves",
        "--talk",
        talk,
    ]);
    assert!(
        answer.status.success(),
        "{}",
        String::from_utf8_lossy(&answer.stderr)
    );
    let folder = std::fs::read_dir(&into)
        .expect("a folder")
        .next()
        .expect("one")
        .expect("an entry")
        .path();
    let page = std::fs::read_to_string(folder.join("index.html")).expect("the page");
    assert!(
        page.contains("\"@type\": \"Clip\"") && page.contains("#t=0,30"),
        "no clips in the page"
    );
    let _ = std::fs::remove_dir_all(&out);
}

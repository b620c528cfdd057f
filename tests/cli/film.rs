//! A film's papers from outside: what `talk --into` writes, and clips in the page of `publish --talk`.

use super::running::{folder, run, text};
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

/// Chapters follow what most of a paragraph is about: one that opens with the bread's name is about its paste, and
/// figures of the mix are the dough's although the paste is named first.
#[test]
fn chapters_begin_where_their_figures_are_said() {
    let out = folder("chapters");
    std::fs::create_dir_all(&out).expect("a folder");
    let track = out.join("talk.txt");
    let talk = "[0:00] Hi everyone, it's my cardamom loaf today. First the paste: sixty grams of bread flour and three hundred grams of milk, over medium heat till it hits sixty-five Celsius.\n\
        [0:20] While that cools, take the butter out.\n\
        [0:31] In the bowl: the paste, six hundred and seventy-five grams of bread flour, a hundred and thirty-five grams of milk, two large eggs, a hundred and fifty-seven grams of sugar and seventeen and a half grams of salt.\n\
        [0:55] Four minutes on low and six on medium. Let it rise for an hour and twenty.\n\
        [1:25] The loaf proves for seventy-five minutes, till it is a finger below the rim, then it bakes at one seventy-five for thirty-four minutes.\n\
        [1:55] An hour and a quarter on the rack.\n";
    std::fs::write(&track, talk).expect("written");
    let into = out.join("film");
    let answer = run(&[
        "talk",
        "examples/cardamom-dough.toml",
        track.to_str().expect("UTF-8"),
        "--into",
        into.to_str().expect("UTF-8"),
    ]);
    assert!(answer.status.success(), "{}", text(&answer.stderr));
    let chapters = std::fs::read_to_string(into.join("chapters.vtt")).expect("chapters");
    let lines: Vec<&str> = chapters.lines().collect();
    let begun: Vec<(&str, &str)> = lines
        .windows(2)
        .filter_map(|pair| Some((pair[0].split_once(" --> ")?.0, pair[1])))
        .collect();
    assert_eq!(
        begun,
        [
            ("00:00:00.000", "Cooked paste"),
            ("00:00:31.000", "Dough"),
            ("00:01:25.000", "Loaf"),
        ]
    );
    std::fs::remove_dir_all(out).expect("cleaned");
}

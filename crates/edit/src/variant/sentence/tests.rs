//! Holds lists, words and parts of sentences to what a cook would write.

use super::*;

#[test]
fn a_thing_goes_out_of_its_list() {
    for (text, item, expected) in [
        ("Mix [a], [b] and [c].", "a", "Mix [b] and [c]."),
        ("Mix [a], [b] and [c].", "b", "Mix [a] and [c]."),
        ("Mix [a], [b] and [c].", "c", "Mix [a] and [b]."),
        ("Mix [a] and [b].", "b", "Mix [a]."),
        ("Mix [a] and [b].", "a", "Mix [b]."),
        (
            "Put [s], [eggs] cold from the refrigerator, [c] and [d] in.",
            "eggs",
            "Put [s], [c] and [d] in.",
        ),
        ("Stir in [a]. Add [b]. Rest.", "b", "Stir in [a]. Rest."),
        (
            "Beat [egg for the top] with [milk for the top]; brush.",
            "egg",
            "Beat [milk for the top]; brush.",
        ),
        (
            "Mix [flour], [milk] at [milk temperature] and [salt].",
            "milk",
            "Mix [flour] and [salt].",
        ),
        (
            "Stir [yeast] into [flour], then [milk].",
            "yeast",
            "Stir [flour], then [milk].",
        ),
    ] {
        assert_eq!(take_out(text, item), expected, "{text}");
    }
}

#[test]
fn a_thing_comes_into_a_list() {
    for (text, item, expected) in [
        ("Mix [a], [b] and [c].", "a", "Mix [a], [n], [b] and [c]."),
        ("Mix [a] and [b].", "b", "Mix [a], [b] and [n]."),
        ("Add [a] slowly.", "a", "Add [a] and [n] slowly."),
    ] {
        assert_eq!(put_beside(text, item, "[n]").as_deref(), Some(expected));
    }
}

#[test]
fn words_outside_brackets_follow() {
    let text = "Cut the butter; add [butter] and buttermilk. Butter melts.";
    let new = replace_words(text, "butter", "margarine");
    assert_eq!(
        new,
        "Cut the margarine; add [butter] and buttermilk. Margarine melts."
    );
    assert_eq!(
        take_words_out("Take the eggs and the butter out.", "eggs"),
        "Take the butter out."
    );
    assert_eq!(
        take_words_out("Cut the butter. The eggs stay in. Wait.", "eggs"),
        "Cut the butter. Wait."
    );
}

#[test]
fn parts_follow_the_mass() {
    let mut one = "Add [60 g of milk], then".to_owned();
    let mut two = "[40 g of milk].".to_owned();
    let by = Reckoning {
        before: Mass::from_grams(100.0),
        after: Mass::from_grams(90.0),
        count: None,
    };
    reckon_parts(&mut [&mut one, &mut two], "milk", by);
    assert_eq!(one, "Add [54 g of milk], then");
    assert_eq!(two, "[36 g of milk].");
}

//! Checks of the page: the whole of it, what it must not hold, and that text cannot become markup.

use super::{PageOptions, page};
use crate::sample;

#[test]
fn the_sample_in_full() {
    insta::assert_snapshot!(page(&sample::ledger(), &PageOptions::default()));
}

#[test]
fn it_stands_alone() {
    let html = page(&sample::ledger(), &PageOptions::default());
    for banned in [
        "<link",
        "<iframe",
        "url(",
        "@import",
        " onclick",
        "style=\"",
        "src=\"http",
    ] {
        assert!(!html.contains(banned), "{banned}");
    }
    assert_eq!(html.matches("<script").count(), 1);
    assert!(html.contains("<script type=\"application/ld+json\">"));
    assert_eq!(html.matches("<h1>").count(), 1);
}

#[test]
fn text_never_becomes_markup() {
    let mut ledger = sample::ledger();
    let nasty = "</script></style><b onx='1'>\"Tom\" & <i>Ann</i>";
    ledger.title = nasty.to_owned();
    ledger.headnote = Some(nasty.to_owned());
    ledger.stages[0].heading = nasty.to_owned();
    ledger.stages[0].items[0].name = nasty.to_owned();
    ledger.sections[0].heading = nasty.to_owned();
    ledger.photos[0].0 = "\" onerror=\"x.jpg".to_owned();
    ledger.photos[0].1 = nasty.to_owned();
    ledger.footnotes[0] = nasty.to_owned();
    let html = page(&ledger, &PageOptions::default());
    assert!(!html.contains("<b ") && !html.contains("<i>"));
    assert!(!html.contains(" onerror="));
    assert_eq!(html.matches("</script>").count(), 1);
    assert_eq!(html.matches("</style>").count(), 1);
    assert!(html.contains("&quot;Tom&quot; &amp; &lt;i&gt;Ann"));
}

#[test]
fn an_absent_photograph_leaves_nothing() {
    let ledger = sample::ledger();
    let options = PageOptions {
        absent: vec!["braid-cut.jpg".to_owned()],
        ..Default::default()
    };
    let html = page(&ledger, &options);
    assert!(!html.contains("<img") && !html.contains("three-strand"));
}

#[test]
fn a_film_with_a_strange_address_is_no_link() {
    let mut ledger = sample::ledger();
    ledger.film.as_mut().expect("the sample has a film").address = "javascript:alert(1)".to_owned();
    let html = page(&ledger, &PageOptions::default());
    assert!(!html.contains("javascript:"));
    assert!(html.contains("A braid and ten buns before tea"));
}

#[test]
fn every_mark_has_its_word() {
    let html = page(&sample::ledger(), &PageOptions::default());
    for kind in crate::marks::KINDS {
        assert!(html.contains(crate::marks::word(kind)), "{kind:?}");
    }
}

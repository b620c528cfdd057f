//! A notebook opened anew: what happened in its folder meanwhile is kept beside what the record knew.

use super::{HOST, folder};
use crate::web::desk::Desk;
use crate::web::router::router;
use crate::world::notebook::Notebook;
use crate::world::record::Record;
use axum::body::{Body, to_bytes};
use axum::http::{Request, header};
use jiff::Timestamp;
use std::fs;
use std::path::Path;
use tower::ServiceExt;

const LOAF: &str = "loaf.toml";

fn text(number: u32) -> String {
    format!("everyoven = 1\ntitle = \"Loaf {number}\"\n")
}

fn at(second: i64) -> Timestamp {
    Timestamp::from_second(second).expect("a moment")
}

/// The program begun at a moment by its clock, before any page is asked for.
fn begun(notebook: &Path, second: i64) -> Desk {
    let desk = Desk::new(Notebook::at(notebook.to_owned()), 4700);
    desk.begin(at(second));
    desk
}

/// Every text that the record holds of the loaf, the last one first.
fn kept(notebook: &Path) -> Vec<(i64, String)> {
    let record = Record::open(notebook);
    let all = record.revisions(LOAF).expect("read");
    all.iter()
        .map(|one| {
            let bytes = record.revision_text(LOAF, one.number).expect("read");
            let text = String::from_utf8(bytes.expect("a text")).expect("UTF-8");
            (one.number, text)
        })
        .collect()
}

fn page(desk: Desk, path: &str) -> String {
    let runtime = tokio::runtime::Builder::new_current_thread()
        .enable_time()
        .build()
        .expect("a runtime");
    runtime.block_on(async {
        let request = Request::get(path).header(header::HOST, HOST);
        let request = request.body(Body::empty()).expect("a request");
        let answer = router(desk).oneshot(request).await.expect("an answer");
        let bytes = to_bytes(answer.into_body(), usize::MAX).await;
        String::from_utf8_lossy(&bytes.expect("a body")).into_owned()
    })
}

#[test]
fn a_file_changed_by_hand_while_nobody_looked_is_a_version_beside_the_last() {
    let notebook = folder("start-changed");
    fs::write(notebook.join(LOAF), text(1)).expect("written");
    drop(begun(&notebook, 100));
    assert_eq!(
        kept(&notebook),
        [(1, text(1))],
        "known from the start, before any page"
    );
    fs::write(notebook.join(LOAF), text(2)).expect("written");
    drop(begun(&notebook, 200));
    assert_eq!(kept(&notebook), [(2, text(2)), (1, text(1))]);
    drop(begun(&notebook, 300));
    assert_eq!(
        kept(&notebook).len(),
        2,
        "nothing happened, nothing is kept"
    );
}

#[test]
fn a_clock_set_back_between_two_starts_loses_no_version_and_no_order() {
    let notebook = folder("start-clock");
    for (number, second) in [(1, 5_000_000), (2, 1_000), (3, 9_000_000), (4, 0)] {
        fs::write(notebook.join(LOAF), text(number)).expect("written");
        drop(begun(&notebook, second));
    }
    let wanted: Vec<_> = [4, 3, 2, 1]
        .map(|number| (i64::from(number), text(number)))
        .to_vec();
    assert_eq!(kept(&notebook), wanted, "in the order in which they were");
    let history = page(begun(&notebook, 10), "/recipe/loaf/history");
    let places: Vec<_> = (1..=4)
        .map(|number| history.find(&format!("Version {number}<")))
        .collect();
    assert!(places.iter().all(Option::is_some), "{places:?}");
    assert!(places.is_sorted_by(|one, next| one > next), "{places:?}");
}

#[test]
fn a_file_deleted_while_nobody_looked_can_be_had_from_the_contents() {
    let notebook = folder("start-deleted");
    fs::write(notebook.join(LOAF), text(1)).expect("written");
    drop(begun(&notebook, 100));
    fs::remove_file(notebook.join(LOAF)).expect("removed");
    let desk = begun(&notebook, 200);
    let gone = Record::open(&notebook).gone().expect("read");
    assert_eq!(gone.len(), 1);
    assert_eq!((gone[0].file.as_str(), gone[0].at), (LOAF, at(200)));
    assert_eq!(kept(&notebook), [(1, text(1))], "its last text is there");
    let contents = page(desk, "/");
    assert!(contents.contains(LOAF), "{contents}");
    // It comes back by hand with another text: both are kept.
    fs::write(notebook.join(LOAF), text(2)).expect("written");
    drop(begun(&notebook, 300));
    assert_eq!(Record::open(&notebook).gone().expect("read"), []);
    assert_eq!(kept(&notebook), [(2, text(2)), (1, text(1))]);
}

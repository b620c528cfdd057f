//! A record through good and bad days: kept in order, brought together with its folder, damaged, newer, full.

use super::bakes::{Of, Reading};
use super::reconcile::Found;
use super::revisions::{How, Sent};
use super::{FILE, Record, Standing, open, schema};
use crate::world::notebook::{Kept, Name, Notebook};
use jiff::Timestamp;
use std::fs;
use std::path::PathBuf;

fn folder(name: &str) -> PathBuf {
    crate::web::tests::folder(&format!("record-{name}"))
}

fn at(second: i64) -> Timestamp {
    Timestamp::from_second(second).expect("a moment")
}

fn sent(bytes: &[u8], second: i64) -> Sent<'_> {
    Sent {
        file: "buns.toml",
        bytes,
        how: How::Written,
        window: Some("w1"),
        from: None,
        at: at(second),
    }
}

fn temperature(value: f64, mark: &str) -> Reading {
    Reading {
        number: 0,
        step: Some("bake".to_owned()),
        of: Of::Temperature,
        value: Some(value),
        unit: Some("°C".to_owned()),
        words: None,
        at: at(10),
        sent: Some(mark.to_owned()),
    }
}

#[test]
fn looking_makes_nothing_and_the_first_word_makes_it() {
    let folder = folder("first").join("not yet there");
    let record = Record::open(&folder);
    assert_eq!(record.standing(), Standing::Kept);
    assert_eq!(record.revisions("buns.toml").expect("empty"), []);
    assert!(!folder.exists());
    assert_eq!(record.keep_revision(&sent(b"a", 1)).expect("kept"), 1);
    assert!(folder.join(FILE).is_file());
}

#[test]
fn revisions_are_in_order_of_number_when_the_clock_is_set_back() {
    let record = Record::open(&folder("clock"));
    for (bytes, second) in [(b"a", 500), (b"b", 100), (b"c", 300)] {
        record.keep_revision(&sent(bytes, second)).expect("kept");
    }
    let all = record.revisions("buns.toml").expect("read");
    let numbers: Vec<_> = all.iter().map(|revision| revision.number).collect();
    assert_eq!(numbers, [3, 2, 1]);
    assert_eq!(all[0].at, at(300));
    let text = |number| record.revision_text("buns.toml", number).expect("read");
    assert_eq!(text(2).as_deref(), Some(b"b".as_slice()));
    assert_eq!(text(4), None);
}

#[test]
fn the_same_text_twice_is_one_version_and_back_again_is_a_third() {
    let record = Record::open(&folder("twice"));
    let numbers: Vec<_> = [b"a", b"a", b"b", b"a"]
        .into_iter()
        .map(|bytes| record.keep_revision(&sent(bytes, 1)).expect("kept"))
        .collect();
    assert_eq!(numbers, [1, 1, 2, 3]);
}

#[test]
fn a_bake_and_its_readings_come_back_and_what_is_sent_twice_is_kept_once() {
    let folder = folder("bake");
    let record = Record::open(&folder);
    let revision = record.keep_revision(&sent(b"a", 1)).expect("kept");
    let bake = record
        .begin_bake("buns", Some(revision), Some("studio"), at(5))
        .expect("begun");
    let first = record
        .note_reading(bake, &temperature(26.5, "m1"))
        .expect("kept");
    let second = record
        .note_reading(bake, &temperature(94.0, "m2"))
        .expect("kept");
    let again = record
        .note_reading(bake, &temperature(26.5, "m1"))
        .expect("kept");
    assert_eq!((first, second, again), (1, 2, 1));
    record
        .withdraw_reading(bake, first, at(20))
        .expect("taken back");
    record
        .end_bake(bake, Some("dark below"), at(30))
        .expect("ended");
    drop(record);

    let record = Record::open(&folder);
    let readings = record.readings(bake).expect("read");
    assert_eq!(readings.len(), 1);
    assert_eq!((readings[0].number, readings[0].value), (2, Some(94.0)));
    let bakes = record.bakes(Some("buns")).expect("read");
    assert_eq!(bakes[0].words.as_deref(), Some("dark below"));
    assert_eq!(bakes[0].ended, Some(at(30)));
    assert_eq!(record.bakes(Some("braid")).expect("read"), []);
    assert!(
        record.note_reading(99, &temperature(20.0, "m3")).is_err(),
        "no such bake"
    );
}

#[test]
fn the_folder_is_the_truth_and_nothing_is_lost() {
    let folder = folder("reconcile");
    let notebook = Notebook::at(folder.clone());
    let record = Record::open(&folder);
    let name = Name::of("buns").expect("a name");
    let file = "buns.toml";
    let together = || {
        record
            .reconcile(&notebook, at(9))
            .expect("brought together")
    };

    notebook
        .write(Kept::Recipe, &name, b"one")
        .expect("written");
    assert_eq!(together(), [(file.to_owned(), Found::Outside(1))]);
    assert_eq!(together(), []);

    // A save that was cut short after the file was written is the save that it was.
    let number = record
        .announce_revision(&sent(b"two", 2))
        .expect("announced");
    notebook
        .write(Kept::Recipe, &name, b"two")
        .expect("written");
    assert_eq!(together(), [(file.to_owned(), Found::Reached(number))]);

    // One that was cut short before is in the record, and the file is as it was.
    let number = record
        .announce_revision(&sent(b"three", 3))
        .expect("announced");
    assert_eq!(together(), []);
    let all = record.revisions(file).expect("read");
    assert_eq!((all[0].number, all[0].reached), (number, false));
    assert_eq!(
        record
            .last_revision(file)
            .expect("read")
            .expect("one")
            .number,
        2
    );

    // A record that is newer than the file, after an older folder was put back.
    record.keep_revision(&sent(b"four", 4)).expect("kept");
    assert_eq!(together(), [(file.to_owned(), Found::Outside(5))]);
    let text = record.revision_text(file, 4).expect("read");
    assert_eq!(text.as_deref(), Some(b"four".as_slice()), "both are there");

    notebook.remove(Kept::Recipe, &name).expect("removed");
    assert_eq!(together(), [(file.to_owned(), Found::Missing)]);
    assert_eq!(together(), []);
    assert_eq!(record.gone().expect("read")[0].file, file);
    let text = record.revision_text(file, 5).expect("read");
    assert_eq!(
        text.as_deref(),
        Some(b"two".as_slice()),
        "its last text can be had"
    );
    notebook
        .write(Kept::Recipe, &name, b"two")
        .expect("written");
    together();
    assert_eq!(record.gone().expect("read"), []);
}

#[test]
fn a_damaged_record_is_moved_aside_whole_and_a_new_one_begun() {
    let folder = folder("damaged");
    let record = Record::open(&folder);
    for number in 0..200_u32 {
        let text = format!("text {number} {}", "long ".repeat(100));
        record
            .keep_revision(&sent(text.as_bytes(), 1))
            .expect("kept");
    }
    drop(record);
    let path = folder.join(FILE);
    let mut bytes = fs::read(&path).expect("a file");
    // A page in the middle, and the header in the second round.
    let middle = bytes.len() / 2 / 4096 * 4096;
    bytes[middle..middle + 64].fill(0xA5);
    for (round, broken) in [
        bytes,
        b"no record at all, and long enough to be read as one".repeat(40),
    ]
    .into_iter()
    .enumerate()
    {
        fs::write(&path, &broken).expect("written");
        let record = Record::open(&folder);
        assert_eq!(record.standing(), Standing::Kept);
        assert_eq!(record.revisions("buns.toml").expect("new"), []);
        let aside = record.moved_aside();
        assert_eq!(aside.len(), round + 1);
        assert_eq!(fs::read(folder.join(&aside[round])).expect("there"), broken);
        assert_eq!(record.keep_revision(&sent(b"a", 1)).expect("kept"), 1);
    }
}

#[test]
fn a_record_of_a_newer_program_is_read_and_left_alone() {
    let folder = folder("newer");
    let record = Record::open(&folder);
    record.keep_revision(&sent(b"a", 1)).expect("kept");
    let newer = schema::present() + 1;
    record
        .write(|transaction| transaction.pragma_update(None, "user_version", newer))
        .expect("numbered");
    drop(record);
    let record = Record::open(&folder);
    let Standing::NothingKept(why) = record.standing() else {
        panic!("it is written to");
    };
    assert!(why.contains("newer version"), "{why}");
    assert_eq!(record.revisions("buns.toml").expect("read").len(), 1);
    assert!(record.keep_revision(&sent(b"b", 1)).is_err());
}

#[test]
fn where_no_record_can_be_it_says_so() {
    let folder = folder("blocked");
    fs::create_dir(folder.join(FILE)).expect("a folder in its place");
    let record = Record::open(&folder);
    assert!(matches!(record.standing(), Standing::NothingKept(_)));
    assert!(record.keep_revision(&sent(b"a", 1)).is_err());
}

#[test]
fn a_full_disk_refuses_the_new_and_keeps_the_old() {
    let record = Record::open(&folder("full"));
    record.keep_revision(&sent(b"a", 1)).expect("kept");
    record
        .read(|connection| {
            let pages: i64 = connection.pragma_query_value(None, "page_count", |row| row.get(0))?;
            connection
                .pragma_update_and_check(None, "max_page_count", pages, |row| row.get::<_, i64>(0))
        })
        .expect("as full as it is");
    let failure = record
        .keep_revision(&sent(&vec![b'x'; 100_000], 2))
        .expect_err("full");
    assert!(
        failure.to_string().contains("the disk is full"),
        "{failure}"
    );
    assert_eq!(record.revisions("buns.toml").expect("read").len(), 1);
}

#[test]
fn steps_are_taken_once_by_many_programs_at_a_time() {
    let folder = folder("steps");
    fs::create_dir_all(&folder).expect("a folder");
    std::thread::scope(|scope| {
        for number in 0..4 {
            let folder = &folder;
            scope.spawn(move || {
                let text = format!("{number}");
                Record::open(folder)
                    .keep_revision(&sent(text.as_bytes(), 1))
                    .expect("kept");
            });
        }
    });
    let all = Record::open(&folder).revisions("buns.toml").expect("read");
    assert_eq!(all.len(), 4);
    let (connection, _) = open::at(&folder).expect("open");
    assert_eq!(
        schema::of(&connection).expect("a number"),
        schema::present()
    );
}

//! A planned day as calendar, table, drawing and sheet, read back by programs of others.

use crate::peer;
use edit::ledger::timetable::{Hours, TableLines, table_lines};
use everyoven_tests::tree::root;
use jiff::civil::{DateTime, date};
use jiff::tz::TimeZone;
use plan::timetable::{Entry, Kind, Occupied, Resource, Timetable};
use press::papers::Sheet;
use serde_json::{Value, json};
use std::io::Write;
use std::process::{Command, Stdio};

fn entry(words: &str, batch: &str, begins_min: i64, lasts_min: i64, kind: Kind) -> Entry {
    Entry {
        words: words.to_owned(),
        batch: batch.to_owned(),
        begins_min,
        lasts_min,
        occupies: Vec::new(),
        kind,
        note: String::new(),
        alarm: kind == Kind::Work || kind == Kind::Scene,
    }
}

/// A night and a day with everything that makes a reader stumble.
fn day(starts: DateTime, zone: Option<TimeZone>) -> Timetable {
    let mut entries = vec![
        entry("Knead the preferment", "P1", 0, 8, Kind::Work),
        entry("Preferment ripens", "P1", 8, 720, Kind::Stands),
        entry("Opening", "", 720, 25, Kind::Scene),
        entry("Mix; add butter, slowly\\calmly", "P1", 728, 25, Kind::Work),
        entry("Rises", "P1", 753, 80, Kind::Stands),
        entry("Chills", "P1", 833, 35, Kind::Stands),
        entry("Waits as a slab", "P1", 868, 35, Kind::Waits),
        entry("Lunch", "", 860, 45, Kind::Pause),
        entry("Oven heats to 200 °C", "", 890, 25, Kind::Heats),
        entry("Knots bake", "P1, knots", 915, 13, Kind::Bakes),
        entry("Knots cool", "P1, knots", 928, 15, Kind::Cools),
        entry("Knots and rolls, a close look", "", 930, 30, Kind::Scene),
        entry("Wrap", "", 975, 0, Kind::Mark),
    ];
    for at in [5, 6] {
        entries[at].occupies = vec![Occupied::one(Resource::Refrigerator)];
    }
    entries[3].occupies = vec![
        Occupied::one(Resource::Mixer),
        Occupied {
            what: Resource::Hands,
            count: 2,
        },
    ];
    "Ends at 25–26 °C.\nA piece stretches to a thin film; \"as thin as paper\", \
                       die Teigoberfläche glänzt und löst sich von der Schüssel — 生地がなめらか"
        .clone_into(&mut entries[3].note);
    Timetable {
        title: "Cardamom dough, a night and a day".to_owned(),
        starts,
        zone,
        has: Vec::new(),
        entries,
    }
}

/// In the European Union clocks go forward at 01:00 UTC on the last Sunday of March and back on the last
/// Sunday of October (Directive 2000/84/EC): in 2026 on 29 March and 25 October.
fn days() -> Vec<(&'static str, Timetable)> {
    let oslo = TimeZone::get("Europe/Oslo").expect("the zones are built in");
    let evening = |month, day| date(2026, month, day).at(21, 0, 0, 0);
    vec![
        ("no zone", day(evening(2, 13), None)),
        ("winter", day(evening(2, 13), Some(oslo.clone()))),
        ("clock forward", day(evening(3, 28), Some(oslo.clone()))),
        ("clock back", day(evening(10, 24), Some(oslo))),
    ]
}

/// The answer of `ical.js`.
fn ical_js(text: &str) -> Value {
    let mut running = Command::new("node")
        .arg(root().join("tests/peers/calendar_read.mjs"))
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("node starts");
    let problem = json!({ "text": text }).to_string();
    let mut stdin = running.stdin.take().expect("a pipe");
    let _ = stdin.write_all(problem.as_bytes());
    drop(stdin);
    let out = running.wait_with_output().expect("node ends");
    let said = String::from_utf8_lossy(&out.stderr);
    assert!(out.status.success(), "calendar_read.mjs failed:\n{said}");
    serde_json::from_slice(&out.stdout).expect("JSON")
}

/// What a calendar should say of a day, from the day itself: instants are counted in minutes of
/// universal time from those of minute 0.
fn wanted(table: &Timetable, lines: &TableLines) -> Vec<Value> {
    let at = |minute: i64| match &table.zone {
        None => {
            let at = table.starts + jiff::SignedDuration::from_mins(minute);
            at.strftime("%Y-%m-%dT%H:%M:%S").to_string()
        }
        Some(zone) => {
            let zero = table
                .starts
                .to_zoned_datetime(zone.clone())
                .expect("a time");
            let at = zero.timestamp() + jiff::SignedDuration::from_mins(minute);
            at.strftime("%Y-%m-%dT%H:%M:%SZ").to_string()
        }
    };
    lines
        .rows
        .iter()
        .map(|row| {
            let summary = if row.batch.is_empty() {
                row.words.clone()
            } else {
                format!("{} ({})", row.words, row.batch)
            };
            json!({
                "uid": row.uid,
                "summary": summary.replace('\u{a0}', " "),
                "description": row.note.replace('\u{a0}', " "),
                "begins": at(row.begins_min),
                "ends": (row.ends_min > row.begins_min).then(|| at(row.ends_min)),
                "alarms": u8::from(row.alarm),
            })
        })
        .collect()
}

#[test]
fn two_readers_of_calendars_find_every_entry_at_its_minute() {
    for (name, table) in days() {
        let lines = table_lines(&table, Hours::Of24);
        let text = press::timetable::calendar(&lines);
        let wanted = Value::from(wanted(&table, &lines));
        let icalendar = peer::ask("calendar_read.py", Some(&json!({ "text": text })));
        assert_eq!(icalendar["errors"], json!([]), "{name}");
        for (reader, answer) in [("icalendar", icalendar), ("ical.js", ical_js(&text))] {
            assert_eq!(answer["version"], "2.0", "{name}, {reader}");
            assert_eq!(answer["events"], wanted, "{name}, {reader}");
        }
    }
}

#[test]
fn a_calendar_has_the_lines_that_its_standard_wants() {
    for (name, table) in days() {
        let lines = table_lines(&table, Hours::Of24);
        let text = press::timetable::calendar(&lines);
        assert!(!text.replace("\r\n", "").contains(['\r', '\n']), "{name}");
        let long: Vec<&str> = text.split("\r\n").filter(|l| l.len() > 75).collect();
        assert!(long.is_empty(), "{name}: {long:?}");
        let mut uids: Vec<&str> = lines.rows.iter().map(|row| row.uid.as_str()).collect();
        uids.sort_unstable();
        uids.dedup();
        assert_eq!(uids.len(), lines.rows.len(), "{name}: a uid twice");
    }
}

#[test]
fn a_uid_stays_when_its_entry_moves() {
    let table = days().remove(0).1;
    let mut later = table.clone();
    for entry in &mut later.entries {
        entry.begins_min += 17;
    }
    let uids = |table: &Timetable| -> Vec<String> {
        let lines = table_lines(table, Hours::Of24);
        lines.rows.into_iter().map(|row| row.uid).collect()
    };
    assert_eq!(uids(&table), uids(&later));
    let mut other = table.clone();
    other.starts = date(2026, 2, 20).at(21, 0, 0, 0);
    assert!(uids(&other).iter().all(|uid| !uids(&table).contains(uid)));
}

#[test]
fn a_reader_of_tables_finds_the_same_cells() {
    for (name, table) in days() {
        let lines = table_lines(&table, Hours::Of24);
        let text = press::timetable::cells(&lines);
        assert!(text.ends_with("\r\n"), "{name}");
        let mut reader = csv::ReaderBuilder::new()
            .terminator(csv::Terminator::CRLF)
            .from_reader(text.as_bytes());
        let head = reader.headers().expect("a head").clone();
        let place = |column: &str| head.iter().position(|name| name == column).expect("there");
        let records: Vec<_> = reader.records().map(|one| one.expect("a record")).collect();
        assert_eq!(records.len(), lines.rows.len(), "{name}");
        for (record, row) in records.iter().zip(&lines.rows) {
            let plain = |text: &str| text.replace('\u{a0}', " ");
            assert_eq!(record[place("what")], plain(&row.words));
            assert_eq!(record[place("note")], plain(&row.note));
            assert_eq!(record[place("begins")], row.begins_at.iso);
            assert_eq!(record[place("keeps busy")], row.occupies.join(", "));
        }
    }
}

#[test]
fn a_clock_that_is_changed_is_said_and_keeps_every_wait() {
    let said = |table: &Timetable| table_lines(table, Hours::Of24);
    let all = days();
    let ripe = |lines: &TableLines| {
        let row = lines
            .rows
            .iter()
            .find(|row| row.words == "Preferment ripens");
        let row = row.expect("there");
        (
            row.ends.shown.clone(),
            row.takes.clone().expect("it lasts").shown,
        )
    };
    let twelve = "12\u{a0}h".to_owned();
    assert_eq!(ripe(&said(&all[1].1)), ("09:08".to_owned(), twelve.clone()));
    assert_eq!(ripe(&said(&all[2].1)), ("10:08".to_owned(), twelve.clone()));
    assert_eq!(ripe(&said(&all[3].1)), ("08:08".to_owned(), twelve));
    assert_eq!(said(&all[1].1).notes.len(), 1);
    assert!(said(&all[2].1).notes[1].contains("forward by 1\u{a0}h"));
    assert!(said(&all[3].1).notes[1].contains("back by 1\u{a0}h"));
}

#[test]
fn noon_and_midnight_have_their_halves() {
    use edit::ledger::timetable::clock;
    let at = |hour, minute| date(2026, 2, 14).at(hour, minute, 0, 0);
    let twelve = |hour, minute| clock(at(hour, minute), Hours::Of12).replace('\u{a0}', " ");
    assert_eq!(twelve(0, 5), "12:05 am");
    assert_eq!(twelve(11, 59), "11:59 am");
    assert_eq!(twelve(12, 0), "12:00 pm");
    assert_eq!(twelve(13, 5), "1:05 pm");
    assert_eq!(clock(at(0, 5), Hours::Of24), "00:05");
}

#[test]
fn the_drawing_has_every_entry_and_every_pattern_that_it_uses() {
    for (name, table) in days() {
        let lines = table_lines(&table, Hours::Of24);
        let svg = press::figure::gantt(&lines);
        let tree = roxmltree::Document::parse(&svg).expect("XML");
        let ids: Vec<&str> = tree
            .descendants()
            .filter_map(|n| n.attribute("id"))
            .collect();
        for node in tree.descendants() {
            if let Some(used) = node.attribute("fill").and_then(|f| f.strip_prefix("url(#")) {
                let used = used.trim_end_matches(')');
                assert!(ids.contains(&used), "{name}: {used}");
            }
        }
        let told: Vec<&str> = tree
            .descendants()
            .filter(|n| n.has_tag_name("g"))
            .filter_map(|g| g.children().find(|n| n.has_tag_name("title"))?.text())
            .collect();
        for row in &lines.rows {
            assert!(
                told.iter().any(|one| one.starts_with(&row.words)),
                "{name}: {}",
                row.words
            );
        }
        // The night in which nothing is to be done is drawn short, and says so.
        assert!(svg.contains("11\u{a0}h 52\u{a0}min"), "{name}");
    }
}

#[test]
fn the_sheet_holds_every_entry_and_is_the_same_each_time() {
    for (name, mut table) in days() {
        // Letters that the faces of print do not have are refused, not printed as boxes.
        let odd = table_lines(&table, Hours::Of24);
        let refused = press::timetable::sheet(&odd, "everyoven", "en", Sheet::A4);
        assert!(
            refused.is_err_and(|why| why.to_string().contains('生')),
            "{name}"
        );
        "Ends at 25–26 °C; \"as thin as paper\".".clone_into(&mut table.entries[3].note);
        let lines = table_lines(&table, Hours::Of24);
        for size in [Sheet::A4, Sheet::Letter] {
            let make =
                || press::timetable::sheet(&lines, "everyoven", "en", size).expect("a sheet");
            let bytes = make();
            assert_eq!(bytes, make(), "{name}");
            let file = everyoven_tests::poppler::print(&bytes);
            let out = Command::new("pdftotext")
                .args(["-layout"])
                .arg(&file)
                .arg("-")
                .output();
            let text = String::from_utf8_lossy(&out.expect("poppler").stdout).into_owned();
            for row in &lines.rows {
                assert!(text.contains(&row.begins.shown), "{name}: {}", row.words);
            }
            let _ = std::fs::remove_file(&file);
        }
    }
}

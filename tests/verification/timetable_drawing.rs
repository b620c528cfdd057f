//! The drawing of a day measured: labels stand on no other, bakes lie in the oven's row, closed hours on their minutes.

use edit::ledger::timetable::{Hours, TableLines, closed, table_lines};
use jiff::civil::{date, time};
use plan::day::means::Means;
use plan::timetable::{Entry, Kind, Occupied, Resource, Timetable};
use recipe::document::model::Hours as Span;

/// Width of a letter in parts of its size, as wide faces without serifs have it on average; as the drawing
/// reckons it, and of heavy ones.
const LETTER: f64 = 0.54;
const HEAVY: f64 = 0.62;

fn entry(
    words: &str,
    batch: &str,
    (begins_min, lasts_min): (i64, i64),
    kind: Kind,
    what: &[Resource],
) -> Entry {
    Entry {
        words: words.to_owned(),
        batch: batch.to_owned(),
        begins_min,
        lasts_min,
        occupies: what.iter().cloned().map(Occupied::one).collect(),
        kind,
        note: String::new(),
        alarm: false,
    }
}

/// Three doughs over two nights, with long names, two long waits one after the other and bakes one after another.
fn day() -> Timetable {
    let (hands, oven) = (&[Resource::Hands][..], &[Resource::Oven][..]);
    let mut entries = Vec::new();
    for (name, nth) in [
        "Same-day braid and tied buns of the second batch, with a name of three lines",
        "Overnight sponge hearth loaf",
        "Rye",
    ]
    .into_iter()
    .zip(0_i64..)
    {
        let from = 11 * nth;
        let late = from + 1500;
        entries.extend([
            entry("Mix the sponge", name, (from, 3), Kind::Work, hands),
            entry(
                "Rise of the sponge",
                name,
                (from + 3, 300 + from),
                Kind::Stands,
                &[],
            ),
            entry(
                "Waits: rise of the sponge",
                name,
                (from + 303 + from, 1100),
                Kind::Waits,
                &[],
            ),
            entry("Divide the dough", name, (late, 5), Kind::Work, hands),
            entry(
                "Lay ready, greased or lined: baking tray",
                name,
                (late + 4, 0),
                Kind::Ready,
                &[],
            ),
            entry(
                "Last rise of the loaf",
                name,
                (late + 5, 61),
                Kind::Stands,
                &[],
            ),
            entry(
                "Bake the loaf",
                name,
                (late + 70 + 30 * nth, 30),
                Kind::Bakes,
                oven,
            ),
            entry(
                "Cool the loaf",
                name,
                (late + 100 + 30 * nth, 200),
                Kind::Cools,
                &[],
            ),
        ]);
    }
    entries.push(entry(
        "Heat the oven to 200 °C / 400 °F",
        "",
        (1550, 20),
        Kind::Heats,
        oven,
    ));
    Timetable {
        title: "Three doughs".to_owned(),
        starts: date(2026, 12, 4).at(20, 0, 0, 0),
        zone: None,
        has: Vec::new(),
        entries,
    }
}

fn kitchen() -> Means {
    let hours = |from: i8, to: i8| Span {
        from: time(from, 0, 0, 0),
        to: time(to, 0, 0, 0),
    };
    Means {
        quiet: vec![hours(22, 6)],
        breaks: vec![hours(12, 13)],
        ..Means::default()
    }
}

fn lines(hours: Hours) -> TableLines {
    let mut lines = table_lines(&day(), hours);
    lines.closed = closed(&day(), &kitchen(), 0, day().ends_min());
    lines
}

/// Left, right, top, bottom and words of every label.
fn labels(svg: &str) -> Vec<(f64, f64, f64, f64, String)> {
    let tree = roxmltree::Document::parse(svg).expect("XML");
    let texts = tree.descendants().filter(|node| node.has_tag_name("text"));
    let label = |node: roxmltree::Node<'_, '_>| {
        let number = |name: &str| {
            node.attribute(name)
                .and_then(|value| value.parse::<f64>().ok())
        };
        let (x, y) = (number("x").expect("x"), number("y").expect("y"));
        let size = number("font-size").unwrap_or(13.0);
        let words = node.text().unwrap_or_default().to_owned();
        let letter = if node.attribute("font-weight").is_some() {
            HEAVY
        } else {
            LETTER
        };
        let wide = words.chars().count() as f64 * size * letter;
        let left = match node.attribute("text-anchor") {
            Some("middle") => x - wide / 2.0,
            Some("end") => x - wide,
            _ => x,
        };
        // A face's capitals are some 0.73 of its size high, its tails 0.2 deep (DejaVu Sans, from memory).
        (left, left + wide, y - 0.73 * size, y + 0.2 * size, words)
    };
    texts.map(label).collect()
}

#[test]
fn no_label_stands_on_another_or_leaves_the_paper() {
    for hours in [Hours::Of24, Hours::Of12] {
        let lines = lines(hours);
        for (svg, wide) in [
            (press::figure::gantt(&lines), 1120.0),
            (press::figure::gantt_on(&lines, (269.0, 160.0)), 940.0),
        ] {
            let all = labels(&svg);
            assert!(all.len() > 30, "{svg}");
            for (at, one) in all.iter().enumerate() {
                assert!(one.0 >= 0.0 && one.1 <= wide, "{one:?}");
                for other in &all[..at] {
                    let apart = one.1 <= other.0
                        || other.1 <= one.0
                        || one.3 <= other.2
                        || other.3 <= one.2;
                    assert!(apart, "{one:?} stands on {other:?}");
                }
            }
        }
    }
}

#[test]
fn a_name_of_several_lines_stays_between_the_lines_of_its_row() {
    let svg = press::figure::gantt(&lines(Hours::Of24));
    let tree = roxmltree::Document::parse(&svg).expect("XML");
    let rules: Vec<f64> = tree
        .descendants()
        .filter(|node| node.has_tag_name("line") && node.attribute("x1") == Some("10"))
        .filter_map(|node| node.attribute("y1")?.parse().ok())
        .collect();
    let names = labels(&svg)
        .into_iter()
        .filter(|label| (label.0 - 10.0).abs() < 0.01 && label.2 > rules[0] - 40.0);
    for (_, _, top, bottom, words) in names {
        assert!(
            rules.iter().all(|rule| *rule <= top || *rule >= bottom),
            "{words}: {top} to {bottom}"
        );
    }
}

#[test]
fn what_bakes_lies_in_the_ovens_row_and_in_its_doughs() {
    let lines = lines(Hours::Of24);
    let mut owner = "";
    let mut seen = std::collections::BTreeMap::new();
    for lane in &lines.lanes {
        if !lane.name.is_empty() {
            owner = &lane.name;
        }
        for at in &lane.rows {
            seen.entry(owner)
                .or_insert_with(Vec::new)
                .push(lines.rows[*at].words.as_str());
        }
    }
    let oven = &seen["oven"];
    assert_eq!(
        oven.iter()
            .filter(|words| **words == "Bake the loaf")
            .count(),
        3
    );
    assert!(oven.contains(&"Heat the oven to 200 °C / 400 °F"));
    assert!(seen["Rye"].contains(&"Bake the loaf"));
    assert_eq!(
        seen["hands"],
        [
            "Mix the sponge",
            "Mix the sponge",
            "Mix the sponge",
            "Divide the dough",
            "Divide the dough",
            "Divide the dough"
        ]
    );
}

/// Friday 20:00 is minute 0: quiet from 22:00 to 06:00 twice, as the day ends on Sunday at 02:12, and one break.
#[test]
fn closed_hours_lie_on_their_minutes() {
    let ends = day().ends_min();
    assert_eq!(ends, 1500 + 22 + 160 + 200);
    let all = closed(&day(), &kitchen(), 0, ends);
    let told: Vec<_> = all
        .iter()
        .map(|one| (one.word, one.from_min, one.to_min))
        .collect();
    assert_eq!(
        told,
        [
            ("quiet hours", 120, 600),
            ("quiet hours", 1560, ends),
            ("break", 960, 1020),
        ]
    );
    let svg = press::figure::gantt(&lines(Hours::Of24));
    assert!(svg.contains("<title>quiet hours</title>") && svg.contains(">break</text>"));
}

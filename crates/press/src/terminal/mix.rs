//! The temperatures of a mix as a terminal shows them.

use super::{COLUMNS, left, right, two_ends};
use edit::mixture::{MixLine, MixLines};

/// What each liquid must read in one kitchen, and what becomes of the mix as written.
pub fn mix(lines: &MixLines) -> String {
    let mut text = two_ends(
        &lines.kitchen,
        &format!("room {}", lines.room.shown),
        COLUMNS,
    );
    for wake in &lines.wakes {
        text.push_str(&row(
            &wake.stage,
            &format!("pour the {} at {}", wake.liquid, wake.pour_at.shown),
            &format!("yeast wakes at {}", wake.band.shown),
        ));
        text.push_str(&row(
            "",
            "",
            &format!("as written it settles at {}", wake.settles.shown),
        ));
    }
    for mix in &lines.mixes {
        text.push_str(&row(
            &mix.stage,
            &liquid(mix),
            &format!("ends at {}", mix.ends.shown),
        ));
        let wanted = format!("wanted {}", mix.wanted.shown);
        let wanted = if mix.reached {
            wanted
        } else {
            format!("{wanted}: not reached")
        };
        text.push_str(&row("", "", &wanted));
        if mix.as_written.shown != mix.ends.shown {
            let as_written = format!("as written it ends at {}", mix.as_written.shown);
            text.push_str(&row("", "", &as_written));
        }
    }
    if lines.wakes.is_empty() && lines.mixes.is_empty() {
        text.push_str("  No step of this recipe asks for a dough temperature.\n");
    }
    text
}

fn liquid(mix: &MixLine) -> String {
    match (&mix.liquid, &mix.ice) {
        (Some((name, _)), Some(ice)) => format!("{name}: {} of it as ice", ice.shown),
        (Some((name, at)), None) => format!("{name} at {}", at.shown),
        (None, _) => "nothing to adjust".to_owned(),
    }
}

fn row(stage: &str, what: &str, result: &str) -> String {
    let begin = format!("  {}{what}", left(stage, 16));
    let width = begin.chars().count();
    if width + 2 + result.chars().count() > COLUMNS {
        return format!("{begin}\n{}\n", right(result, COLUMNS));
    }
    two_ends(&begin, result, COLUMNS)
}

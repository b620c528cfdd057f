//! What is done in a run, in a cook's words.

use super::process::{Doing, Process, Run};

/// "Shape the loaf", "Dough: rise".
pub fn of_run(process: &Process, run: &Run) -> String {
    let to = &process.points[run.to];
    let of = &to.of;
    match run.what {
        Doing::Mixes | Doing::Hands("mix") => format!("Mix the {of}"),
        Doing::Hands("divide") => format!("Divide the {}", process.of),
        Doing::Hands("shape") => format!("Shape the {of}"),
        Doing::Hands("finish") if to.product.is_some() => format!("Finish the {of}"),
        Doing::Hands("finish") => format!("Make the {of}"),
        Doing::Hands(word) => format!("{}: {word}", capital(of)),
        Doing::Stands { cold: true, .. } => format!("{}: chill", capital(of)),
        Doing::Stands { .. } => {
            let does = match to.state.split(' ').next().unwrap_or_default() {
                "ripe" => "ripen",
                "rested" => "rest",
                "awake" => "wake",
                _ => "rise",
            };
            format!("{}: {does}", capital(of))
        }
        Doing::Bakes { .. } => format!("Bake the {of}"),
        Doing::Cools => format!("{}: cool", capital(of)),
    }
}

/// First letter upper case.
pub fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_uppercase().collect::<String>() + letters.as_str()
    })
}

/// "20 min", "2 h", "1 h 20 min".
pub fn spell(minutes: i64) -> String {
    match (minutes / 60, minutes % 60) {
        (0, rest) => format!("{rest}\u{a0}min"),
        (hours, 0) => format!("{hours}\u{a0}h"),
        (hours, rest) => format!("{hours}\u{a0}h {rest}\u{a0}min"),
    }
}

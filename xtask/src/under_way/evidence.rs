//! The tables of how often bands hold, written into their page from thousands of made-up bakes.

use super::teach::{Taught, taught};
use super::trial::Held;
use super::{World, demo, set_up, whole};
use bake::condition::{Here, one_by_one};
use std::fmt::Write;
use std::ops::Range;
use std::path::Path;

/// Where the tables stand.
pub const PAGE: &str = "docs/learn.md";
/// The lines that they stand between.
const BETWEEN: [&str; 2] = [
    "<!-- `cargo run -p xtask -- under-way 1000` writes from here -->",
    "<!-- to here -->",
];
/// The recipe.
const RECIPE: &str = "same-day-loaf";

/// Works everything out with so many made-up bakes and as many kitchens that are taught, a tenth as many bakes in each other
/// world, and writes it.
///
/// # Errors
/// When the page cannot be read or written or has no place for the tables.
pub fn write(root: &Path, number: u64) -> Result<String, String> {
    let fault = |fault: std::io::Error| format!("{PAGE}: {fault}");
    let page = std::fs::read_to_string(root.join(PAGE)).map_err(fault)?;
    let [first, last] = BETWEEN;
    let begins = page.find(first).ok_or("no place for the tables")? + first.len();
    let ends = page.find(last).ok_or("no end of the tables")?;
    let tables = tables(root, number);
    let made = format!("{}\n{tables}{}", &page[..begins], &page[ends..]);
    std::fs::write(root.join(PAGE), made).map_err(fault)?;
    Ok(tables)
}

/// Both tables.
fn tables(root: &Path, number: u64) -> String {
    let (recipe, sums) = demo(root, RECIPE);
    let here = set_up(&recipe, &sums);
    let mut out = "\n| bands of a bake under way | bakes | next sign | all that is to come | before the band, after it | band of the next sign, with and without readings | of the kitchen, what readings narrowed | kitchens that count, runs |\n|---|---|---|---|---|---|---|---|\n".to_owned();
    for world in World::ALL {
        let some = if world == World::AsReckoned {
            number
        } else {
            number / 10
        };
        eprintln!("{some} bakes, {}", world.words());
        let held = sum(&in_pieces(some, |range| {
            whole(&here, world, range, &one_by_one)
        }));
        out.push_str(&row(world.words(), &held));
    }
    let all = taught_by_road(&here, number);
    out.push_str("\nThree whole bakes in one kitchen each time:\n\n| what is learnt | told (narrower than four fifths) | held, where told | held, of all |\n|---|---|---|---|\n");
    out.push_str(&all.rows());
    let _ = writeln!(
        out,
        "\nOf {} kitchens: {}\n",
        all.trials - all.left_out,
        all.in_one(),
    );
    out
}

fn row(words: &str, held: &Held) -> String {
    let (next, all) = held.shares();
    let share = |count: u64| 100.0 * count as f64 / held.all.0.max(1) as f64;
    let signs = held.next.0.max(1) as f64;
    let n = held.trials.max(1) as f64;
    format!(
        "| {words} | {} | {:.1} % | {:.1} % of {} | {:.1} %, {:.1} % | {:.0} min, {:.0} min | {:.1} % of {} | {:.0}, {:.0} |\n",
        held.trials,
        100.0 * next,
        100.0 * all,
        held.all.0,
        share(held.outside.0),
        share(held.outside.1),
        held.width_min.0 / signs,
        held.width_min.1 / signs,
        100.0 * held.shares_of_known().0,
        held.narrowed.0,
        held.counted / n,
        held.runs as f64 / n,
    )
}

fn sum(pieces: &[Held]) -> Held {
    pieces.iter().fold(Held::default(), |mut all, one| {
        all.add(one);
        all
    })
}

/// What is learnt in so many kitchens, each of three bakes.
fn taught_by_road(here: &Here, number: u64) -> Taught {
    eprintln!("{number} kitchens that three bakes teach");
    let pieces = in_pieces(number, |range| taught(here, range, &one_by_one));
    let mut all = Taught::default();
    for piece in &pieces {
        all.add(piece);
    }
    all
}

/// The table of what is learnt alone, of so many kitchens.
pub fn teaching(root: &Path, number: u64) -> String {
    let (recipe, sums) = demo(root, RECIPE);
    let all = taught_by_road(&set_up(&recipe, &sums), number);
    format!("{}{}", all.rows(), all.in_one())
}

/// Pieces of a range on two threads, in order.
fn in_pieces<Made: Send>(number: u64, work: impl Fn(Range<u64>) -> Made + Sync) -> Vec<Made> {
    const AT_ONCE: u64 = 2;
    let half = number.div_ceil(AT_ONCE);
    std::thread::scope(|scope| {
        let threads: Vec<_> = (0..AT_ONCE)
            .map(|at| {
                let work = &work;
                scope.spawn(move || work((at * half).min(number)..((at + 1) * half).min(number)))
            })
            .collect();
        threads
            .into_iter()
            .map(|one| one.join().expect("it is worked out"))
            .collect()
    })
}

//! Printed files read back by poppler: page sizes, dark pixels, and lines as they are drawn.

use std::path::{Path, PathBuf};
use std::process::Command;
use std::sync::atomic::{AtomicUsize, Ordering};

/// Millimetres of a point.
const POINT_MM: f64 = 25.4 / 72.0;

/// Writes a PDF where poppler can read it; no two have one name.
///
/// # Panics
///
/// When the folder for passing files cannot be written to.
pub fn print(bytes: &[u8]) -> PathBuf {
    static PRINTED: AtomicUsize = AtomicUsize::new(0);
    let number = PRINTED.fetch_add(1, Ordering::Relaxed);
    let name = format!("everyoven-print-{}-{number}.pdf", std::process::id());
    let path = std::env::temp_dir().join(name);
    std::fs::write(&path, bytes).expect("a folder for the test");
    path
}

fn run(program: &str, arguments: &[&str], file: &Path, to: &str) -> Vec<u8> {
    let answer = Command::new(program)
        .args(arguments)
        .arg(file)
        .args((!to.is_empty()).then_some(to))
        .output()
        .unwrap_or_else(|error| panic!("{program} (poppler-utils): {error}"));
    assert!(
        answer.status.success(),
        "{program}: {}",
        String::from_utf8_lossy(&answer.stderr)
    );
    answer.stdout
}

/// Width and height of every page, mm.
pub fn page_sizes(file: &Path) -> Vec<(f64, f64)> {
    let said = run("pdfinfo", &["-f", "1", "-l", "999"], file, "");
    String::from_utf8_lossy(&said)
        .lines()
        .filter(|line| line.starts_with("Page ") && line.contains("size:"))
        .map(|line| {
            let numbers: Vec<f64> = line
                .split("size:")
                .nth(1)
                .unwrap_or("")
                .split_whitespace()
                .filter_map(|word| word.parse().ok())
                .collect();
            (numbers[0] * POINT_MM, numbers[1] * POINT_MM)
        })
        .collect()
}

/// The longest run of dark pixels in each row of the lowest part of a page, at 254 dots an inch.
pub fn longest_runs(file: &Path, page: usize, lowest_mm: f64) -> Vec<usize> {
    let number = page.to_string();
    let picture = run(
        "pdftoppm",
        &["-r", "254", "-gray", "-f", &number, "-l", &number],
        file,
        "",
    );
    let (width, height, pixels) = grey(&picture);
    let rows = pixels
        .chunks(width)
        .skip(height.saturating_sub(tenths(lowest_mm)));
    let mut runs: Vec<usize> = rows.map(longest).filter(|run| *run > 100).collect();
    runs.sort_unstable();
    runs.dedup();
    runs
}

/// Whole tenths of a millimetre.
fn tenths(mm: f64) -> usize {
    format!("{:.0}", mm * 10.0).parse().expect("digits")
}

fn longest(row: &[u8]) -> usize {
    let mut best = 0;
    let mut run = 0;
    for pixel in row {
        run = if *pixel < 128 { run + 1 } else { 0 };
        best = best.max(run);
    }
    best
}

/// Width, height and pixels of a portable grey map (netpbm's P5, 8 bits).
fn grey(picture: &[u8]) -> (usize, usize, &[u8]) {
    let mut words = Vec::new();
    let mut at = 0;
    while words.len() < 4 {
        let end = at
            + picture[at..]
                .iter()
                .position(u8::is_ascii_whitespace)
                .expect("a head");
        words.push(String::from_utf8_lossy(&picture[at..end]).into_owned());
        at = end + 1;
    }
    assert_eq!((words[0].as_str(), words[3].as_str()), ("P5", "255"));
    let number = |word: &String| word.parse().expect("a number");
    (number(&words[1]), number(&words[2]), &picture[at..])
}

/// A stroked line of a page.
#[derive(Clone, Debug)]
pub struct Drawn {
    /// Its corners, mm from the page's upper left; a closed one's first is not repeated.
    pub points: Vec<(f64, f64)>,
    /// Dashed or dotted.
    pub dashed: bool,
}

impl Drawn {
    fn ends(&self, pick: fn(&(f64, f64)) -> f64) -> (f64, f64) {
        let all = self.points.iter().map(pick);
        all.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), at| {
            (low.min(at), high.max(at))
        })
    }

    /// From left to right, mm.
    pub fn width(&self) -> f64 {
        let (low, high) = self.ends(|at| at.0);
        high - low
    }

    /// From top to bottom, mm.
    pub fn height(&self) -> f64 {
        let (low, high) = self.ends(|at| at.1);
        high - low
    }

    /// Its right end, mm from the page's left.
    pub fn right(&self) -> f64 {
        self.ends(|at| at.0).1
    }

    /// Its lower end, mm from the page's top.
    pub fn bottom(&self) -> f64 {
        self.ends(|at| at.1).1
    }

    /// Along its corners, mm.
    pub fn length(&self) -> f64 {
        let pairs = self.points.windows(2);
        pairs
            .map(|pair| ((pair[1].0 - pair[0].0).powi(2) + (pair[1].1 - pair[0].1).powi(2)).sqrt())
            .sum()
    }
}

/// Every stroked line of a page, as pdftocairo writes it in SVG; left alone it would shrink the page
/// by a thousandth to fit a paper of whole points.
pub fn drawn(file: &Path, page: usize) -> Vec<Drawn> {
    let number = page.to_string();
    let svg = run(
        "pdftocairo",
        &[
            "-svg",
            "-noshrink",
            "-nocenter",
            "-f",
            &number,
            "-l",
            &number,
        ],
        file,
        "-",
    );
    String::from_utf8_lossy(&svg)
        .lines()
        .filter(|line| line.starts_with("<path") && line.contains("stroke-width"))
        .filter_map(strokes)
        .flatten()
        .collect()
}

/// The pieces of a path, each of which begins where the pen is set down.
fn strokes(line: &str) -> Option<Vec<Drawn>> {
    let value = |name: &str| line.split(&format!("{name}=\"")).nth(1)?.split('"').next();
    let numbers = |text: &str| -> Vec<f64> {
        text.split([' ', ','])
            .filter_map(|word| word.parse().ok())
            .collect()
    };
    let matrix = value("transform")
        .and_then(|text| text.strip_prefix("matrix(")?.strip_suffix(')'))
        .map_or(vec![1.0, 0.0, 0.0, 1.0, 0.0, 0.0], numbers);
    let on_page = |at: &[f64]| {
        let x = matrix[0] * at[0] + matrix[2] * at[1] + matrix[4];
        let y = matrix[1] * at[0] + matrix[3] * at[1] + matrix[5];
        (x * POINT_MM, y * POINT_MM)
    };
    let piece = |piece: &str| {
        let flat: Vec<f64> = piece
            .split_whitespace()
            .filter_map(|word| word.parse().ok())
            .collect();
        Drawn {
            points: flat.chunks_exact(2).map(on_page).collect(),
            dashed: line.contains("stroke-dasharray"),
        }
    };
    let pieces = value(" d")?.split('M').filter(|piece| !piece.contains('C'));
    // A point alone only says where the pen is after the closing of a path.
    let drawn = pieces.map(piece).filter(|drawn| drawn.points.len() > 1);
    Some(drawn.collect())
}

//! What the program did lately, for whoever looks for a fault: kinds of pages, times and places in our code, never a name or a word of a recipe.

use super::clock;
use std::fs::{self, OpenOptions};
use std::io::Write;
use std::panic;
use std::path::{Path, PathBuf};

/// Its file in the notebook; hidden, so that it is no text of the cook's and in no backup.
pub const FILE: &str = ".everyoven-log";
/// A longer one loses its older half, bytes.
const LONGEST: u64 = 256 * 1024;

/// The log of one notebook.
#[derive(Clone, Debug)]
pub struct Log {
    path: PathBuf,
}

impl Log {
    /// The log of the notebook in a folder.
    pub fn of(folder: &Path) -> Self {
        Self {
            path: folder.join(FILE),
        }
    }

    /// Adds a line. A notebook that is not there yet gets none, and a log that cannot be kept is no fault.
    pub fn note(&self, what: &str) {
        let _ = self.halved();
        let there = self.path.parent().is_some_and(Path::is_dir);
        if !there {
            return;
        }
        let line = format!("{} {what}\n", clock::now());
        let opened = OpenOptions::new()
            .append(true)
            .create(true)
            .open(&self.path);
        let _ = opened.and_then(|mut file| file.write_all(line.as_bytes()));
    }

    fn halved(&self) -> std::io::Result<()> {
        if fs::metadata(&self.path)?.len() <= LONGEST {
            return Ok(());
        }
        let text = fs::read_to_string(&self.path)?;
        let lines: Vec<&str> = text.lines().collect();
        fs::write(&self.path, lines[lines.len() / 2..].join("\n") + "\n")
    }

    /// Its last lines that are ours: whatever somebody else wrote into the file is left out.
    pub fn last(&self, lines: usize) -> Vec<String> {
        let text = fs::read(&self.path).unwrap_or_default();
        let text = String::from_utf8_lossy(&text).into_owned();
        let ours: Vec<&str> = text.lines().filter(|line| is_ours(line)).collect();
        let from = ours.len().saturating_sub(lines);
        ours[from..].iter().map(|&line| line.to_owned()).collect()
    }

    /// From now on a fault of ours is noted with its place in our code; what it says may hold words of a recipe.
    pub fn note_faults(&self) {
        let log = self.clone();
        let usual = panic::take_hook();
        panic::set_hook(Box::new(move |fault| {
            if let Some(place) = fault.location() {
                log.note(&fault_at(place));
            }
            usual(fault);
        }));
    }
}

/// "fault at crates/bake/src/mix/mod.rs:12".
pub fn fault_at(place: &panic::Location<'_>) -> String {
    // Code of a library lies in a folder of this machine, which is nobody's business.
    let file = place.file().replace('\\', "/");
    let ours = file
        .find("crates/")
        .filter(|&at| at == 0 || file[..at].ends_with('/'));
    let file = match ours {
        Some(at) if !file.contains("/registry/") => &file[at..],
        _ => file.rsplit('/').next().unwrap_or("unknown"),
    };
    format!("fault at {file}:{}", place.line())
}

/// A moment, then words out of which no name can be made: see the four kinds that are noted.
fn is_ours(line: &str) -> bool {
    let Some((moment, what)) = line.split_once(' ') else {
        return false;
    };
    let is_moment =
        moment.len() == 20 && moment.ends_with('Z') && moment.parse::<jiff::Timestamp>().is_ok();
    let words: Vec<&str> = what.split(' ').collect();
    is_moment
        && match words[..] {
            ["began", version] => version
                .bytes()
                .all(|sign| sign.is_ascii_digit() || sign == b'.'),
            ["ended"] => true,
            ["fault", "at", place] => place.split_once(".rs:").is_some_and(|(file, line)| {
                file.bytes().all(|sign| {
                    sign.is_ascii_lowercase() || matches!(sign, b'/' | b'_' | b'0'..=b'9')
                }) && line.parse::<u32>().is_ok()
            }),
            ["GET" | "POST" | "HEAD", page, status, took, "ms"] => {
                is_pattern(page) && status.parse::<u16>().is_ok() && took.parse::<u64>().is_ok()
            }
            _ => false,
        }
}

/// A kind of page: "/recipe/{name}/formula". Only the router can have written it.
fn is_pattern(page: &str) -> bool {
    page == "other"
        || page.starts_with('/')
            && page.bytes().all(|sign| {
                sign.is_ascii_lowercase()
                    || matches!(sign, b'/' | b'{' | b'}' | b'*' | b'-' | b'_' | b'.')
            })
}

#[cfg(test)]
mod tests {
    use super::{Log, is_ours};

    #[test]
    fn only_our_own_lines_go_out() {
        for ours in [
            "2026-11-28T10:00:00Z began 0.1.0",
            "2026-11-28T10:00:00Z ended",
            "2026-11-28T10:00:00Z GET /recipe/{name}/formula 200 35 ms",
            "2026-11-28T10:00:00Z POST other 404 0 ms",
            "2026-11-28T10:00:00Z fault at crates/bake/src/mix/mod.rs:12",
        ] {
            assert!(is_ours(ours), "{ours}");
        }
        for not in [
            "",
            "GET /recipe/{name} 200 1 ms",
            "2026-11-28T10:00:00Z GET /recipe/{name}/formula 200 35 ms for Petra",
            "2026-11-28T10:00:00Z GET /recipe/Petra 200 35 ms",
            "2026-11-28T10:00:00Z Flour 500 g",
            "2026-11-28T10:00:00Z fault at /houses/Petra/bread.rs:12",
        ] {
            assert!(!is_ours(not), "{not}");
        }
    }

    #[test]
    fn a_log_stays_short_and_keeps_its_last_lines() {
        let folder = std::env::temp_dir().join(format!("everyoven-log-{}", std::process::id()));
        let log = Log::of(&folder);
        log.note("ended");
        assert!(!folder.exists(), "a notebook that is not there gets no log");
        std::fs::create_dir_all(&folder).expect("a folder");
        let line = "2026-11-28T10:00:00Z ended\n";
        std::fs::write(folder.join(super::FILE), line.repeat(20_000)).expect("written");
        log.note("began 0.1.0");
        let length = std::fs::metadata(folder.join(super::FILE))
            .expect("it is there")
            .len();
        assert!(length < 280_000, "{length}");
        let last = log.last(2);
        assert_eq!(last.len(), 2);
        assert!(last[1].ends_with(" began 0.1.0"), "{last:?}");
        std::fs::remove_dir_all(&folder).expect("cleaned");
    }
}

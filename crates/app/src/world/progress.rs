//! A bar on a terminal for work that takes longer than a blink.

use std::io::{IsTerminal, Write};
use std::sync::atomic::{AtomicUsize, Ordering};
use std::sync::{Condvar, Mutex, PoisonError};
use std::time::Duration;

/// Nothing is drawn before so long.
const BLINK: Duration = Duration::from_millis(200);
/// Between two drawings.
const FRAME: Duration = Duration::from_millis(100);
/// Columns of the bar itself.
const WIDE: usize = 24;
/// So many pieces are counted one by one.
const FEW: usize = 20;

/// How many pieces of work are done.
#[derive(Default)]
pub struct Done(AtomicUsize);

/// How far a piece of work is, for a page to ask.
#[derive(Default)]
pub struct Far {
    what: Mutex<String>,
    of: AtomicUsize,
    done: Done,
}

impl Far {
    /// What is being done, how many pieces of it are done, and of how many.
    pub fn seen(&self) -> (String, usize, usize) {
        let what = self.what.lock().unwrap_or_else(PoisonError::into_inner);
        let of = self.of.load(Ordering::Relaxed);
        (
            what.clone(),
            self.done.0.load(Ordering::Relaxed).min(of),
            of,
        )
    }

    /// Work of so many pieces begins.
    pub fn begins(&self, what: &str, of: usize) {
        let mut doing = self.what.lock().unwrap_or_else(PoisonError::into_inner);
        what.clone_into(&mut doing);
        self.done.0.store(0, Ordering::Relaxed);
        self.of.store(of, Ordering::Relaxed);
    }

    /// So many pieces are done.
    pub fn is(&self, done: usize) {
        self.done.0.store(done, Ordering::Relaxed);
    }
}

/// Who is told how far work is.
#[derive(Clone, Copy)]
pub enum Told<'a> {
    /// Whoever looks at the terminal.
    Terminal,
    /// Whoever looks at a page.
    Page(&'a Far),
}

impl Told<'_> {
    /// Does work in so many pieces and tells how far it is.
    pub fn of<Made>(self, what: &str, pieces: usize, work: impl FnOnce(&Done) -> Made) -> Made {
        match self {
            Self::Terminal => watched(what, pieces, work),
            Self::Page(far) => {
                far.begins(what, pieces);
                work(&far.done)
            }
        }
    }
}

impl Done {
    /// One more.
    pub fn one(&self) {
        self.0.fetch_add(1, Ordering::Relaxed);
    }
}

/// Does work in so many pieces; a terminal on stderr sees how far it is when it takes longer than
/// 200 ms, and nothing of it stays.
pub fn watched<Made>(what: &str, pieces: usize, work: impl FnOnce(&Done) -> Made) -> Made {
    let done = Done::default();
    if !std::io::stderr().is_terminal() {
        return work(&done);
    }
    let over = (Mutex::new(false), Condvar::new());
    std::thread::scope(|scope| {
        scope.spawn(|| draw(what, pieces, &done, &over));
        let made = work(&done);
        *over.0.lock().unwrap_or_else(PoisonError::into_inner) = true;
        over.1.notify_all();
        made
    })
}

fn draw(what: &str, pieces: usize, done: &Done, (over, told): &(Mutex<bool>, Condvar)) {
    let mut drawn = 0;
    let mut frame = 0;
    let mut wait = BLINK;
    let mut over = over.lock().unwrap_or_else(PoisonError::into_inner);
    loop {
        let answer = told.wait_timeout_while(over, wait, |over| !*over);
        let (now, _) = answer.unwrap_or_else(PoisonError::into_inner);
        over = now;
        if *over {
            break;
        }
        let line = line(what, done.0.load(Ordering::Relaxed), pieces, frame);
        drawn = drawn.max(line.chars().count());
        let _ = write!(std::io::stderr(), "\r{line}");
        let _ = std::io::stderr().flush();
        (frame, wait) = (frame + 1, FRAME);
    }
    if drawn > 0 {
        let _ = write!(std::io::stderr(), "\r{:drawn$}\r", "");
        let _ = std::io::stderr().flush();
    }
}

/// The bar at a moment: done pieces filled, and in what is left a mark that goes to and fro, for
/// how far one piece is nobody knows.
fn line(what: &str, done: usize, pieces: usize, frame: usize) -> String {
    let full = WIDE * done.min(pieces) / pieces.max(1);
    let left = WIDE - full;
    let place = match left {
        0 | 1 => 0,
        left => {
            let turn = 2 * (left - 1);
            let at = frame % turn;
            at.min(turn - at)
        }
    };
    let bar: String = (0..WIDE)
        .map(|at| match at {
            at if at < full => '=',
            at if at == full + place => '>',
            _ => ' ',
        })
        .collect();
    format!("{what} [{bar}]{}", so_much(done, pieces))
}

/// How far work is in words: few pieces are counted; of many, which are nobody's pieces, the share is told.
pub fn so_much(done: usize, pieces: usize) -> String {
    match pieces {
        0 | 1 => String::new(),
        2..=FEW => format!(" {done} of {pieces}"),
        _ => format!(" {} %", 100 * done.min(pieces) / pieces),
    }
}

#[cfg(test)]
mod tests {
    use super::{Far, Told, WIDE, line, so_much, watched};

    #[test]
    fn the_bar_fills_with_what_is_done_and_keeps_its_width() {
        let none = line("Baking", 0, 4, 0);
        let half = line("Baking", 2, 4, 0);
        let all = line("Baking", 4, 4, 7);
        assert_eq!(half.matches('=').count(), WIDE / 2);
        assert_eq!(all.matches('=').count(), WIDE);
        assert!(none.contains("[>") && none.ends_with("0 of 4"));
        for frame in 0..200 {
            let line = line("Baking", 1, 4, frame);
            assert_eq!(line.chars().count(), none.chars().count());
            assert_eq!(line.matches('>').count(), 1, "{line}");
        }
    }

    #[test]
    fn few_pieces_are_counted_and_of_many_the_share_is_told() {
        assert_eq!(so_much(0, 1), "");
        assert_eq!(so_much(3, 4), " 3 of 4");
        assert_eq!(so_much(20, 1968), " 1 %");
        assert_eq!(so_much(1968, 1968), " 100 %");
    }

    #[test]
    fn a_page_is_told_how_far_it_is() {
        let far = Far::default();
        assert_eq!(far.seen(), (String::new(), 0, 0));
        Told::Page(&far).of("Baking", 3, |done| {
            done.one();
            assert_eq!(far.seen(), ("Baking".to_owned(), 1, 3));
        });
        Told::Page(&far).of("Cooling", 2, |_| ());
        assert_eq!(far.seen(), ("Cooling".to_owned(), 0, 2));
    }

    #[test]
    fn work_is_done_and_its_result_comes_back() {
        let made = watched("Baking", 3, |done| {
            (0..3).inspect(|_| done.one()).sum::<i32>()
        });
        assert_eq!(made, 3);
    }
}

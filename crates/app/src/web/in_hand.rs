//! Long work in hand: begun by a form, two at once and the rest in line; seen, stopped, and kept when it is done.

use crate::failure::Failure;
use crate::world::progress::{Far, Told};
use crate::world::stop::Stop;
use std::collections::{BTreeMap, VecDeque};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

/// So many are worked on at once; each takes every core that it gets.
const AT_ONCE: usize = 2;
/// So many wait in line at most.
const MOST_IN_LINE: usize = 8;
/// So many that are over are kept, the newest.
const MOST_KEPT: usize = 12;

/// What came of it: the part of a page, and files to take away.
#[derive(Default)]
pub struct Made {
    /// HTML that stands before the files; empty when these stand last.
    pub first: String,
    /// HTML.
    pub main: String,
    /// By their names.
    pub files: BTreeMap<String, Vec<u8>>,
    /// It was stopped, and this is what was known until then.
    pub stopped: bool,
    /// What was pasted, to be mended and asked again.
    pub pasted: String,
}

/// What is done.
pub type Doing = Box<dyn FnOnce(&Work) -> Result<Made, Failure> + Send>;

/// How it stands with it.
#[derive(Clone)]
pub enum State {
    /// It waits until one before it is over.
    InLine,
    /// It is worked on.
    UnderWay,
    /// It is over, and this is what came of it.
    Over(Arc<Made>),
    /// It came to nothing, and why.
    Nothing(String),
}

/// One piece of long work.
pub struct Work {
    /// Its number, in its address.
    pub number: u64,
    /// What it is called: "Loaf in 1000 other kitchens".
    pub called: String,
    /// Where what comes of it is shown.
    pub there: String,
    /// How far it is.
    pub far: Far,
    /// Whether it is wished to stop.
    pub stop: Stop,
    mark: String,
    state: Mutex<State>,
}

impl Work {
    /// Who is told how far it is.
    pub fn told(&self) -> Told<'_> {
        Told::Page(&self.far)
    }

    /// How it stands with it.
    pub fn state(&self) -> State {
        let state = self.state.lock().unwrap_or_else(PoisonError::into_inner);
        state.clone()
    }

    fn is(&self, state: State) {
        *self.state.lock().unwrap_or_else(PoisonError::into_inner) = state;
    }
}

/// Everything in hand.
#[derive(Default)]
pub struct InHand(Mutex<Hands>);

#[derive(Default)]
struct Hands {
    all: VecDeque<Arc<Work>>,
    line: VecDeque<(Arc<Work>, Doing)>,
    under_way: usize,
    last: u64,
}

impl InHand {
    fn hands(&self) -> MutexGuard<'_, Hands> {
        self.0.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// Begins a piece of work, or gives the same one when it is in hand or kept already; none when the line
    /// is full. `mark`: by what the same question is known again.
    pub fn begin(
        self: &Arc<Self>,
        mark: &str,
        called: String,
        there: String,
        doing: Doing,
    ) -> Option<Arc<Work>> {
        let mut hands = self.hands();
        // What was stopped is no answer to somebody who asks again.
        if let Some(same) = hands.of(mark).filter(|same| !same.stop.wanted()) {
            return Some(same);
        }
        if hands.line.len() >= MOST_IN_LINE {
            return None;
        }
        hands.last += 1;
        let work = Arc::new(Work {
            number: hands.last,
            called,
            there,
            far: Far::default(),
            stop: Stop::default(),
            mark: mark.to_owned(),
            state: Mutex::new(State::InLine),
        });
        hands.all.push_back(work.clone());
        hands.line.push_back((work.clone(), doing));
        self.next(&mut hands);
        Some(work)
    }

    /// A piece of work by its number.
    pub fn numbered(&self, number: u64) -> Option<Arc<Work>> {
        let hands = self.hands();
        hands.all.iter().find(|work| work.number == number).cloned()
    }

    /// What is kept of a question, and its number.
    pub fn kept(&self, mark: &str) -> Option<(u64, Arc<Made>)> {
        let work = self.hands().of(mark)?;
        match work.state() {
            State::Over(made) => Some((work.number, made)),
            _ => None,
        }
    }

    /// How many are before it in line.
    pub fn before(&self, number: u64) -> usize {
        let hands = self.hands();
        let place = hands
            .line
            .iter()
            .position(|(work, _)| work.number == number);
        place.unwrap_or(0)
    }

    /// Stops a piece of work: what waits comes to nothing, what is under way ends with what it knows.
    pub fn stop(&self, work: &Work) {
        let mut hands = self.hands();
        work.stop.want();
        let waiting = hands.line.len();
        hands.line.retain(|(other, _)| other.number != work.number);
        if hands.line.len() < waiting {
            work.is(State::Nothing("It was taken out of the line.".to_owned()));
        }
    }

    /// Takes from the line what can be worked on now.
    fn next(self: &Arc<Self>, hands: &mut Hands) {
        while hands.under_way < AT_ONCE {
            let Some((work, doing)) = hands.line.pop_front() else {
                return;
            };
            hands.under_way += 1;
            work.is(State::UnderWay);
            let all = self.clone();
            std::thread::spawn(move || {
                // A bug in one piece of work is said on its page, and the next one is worked on.
                let done = std::panic::catch_unwind(std::panic::AssertUnwindSafe(|| doing(&work)));
                work.is(match done {
                    Ok(Ok(made)) => State::Over(Arc::new(made)),
                    Ok(Err(failure)) => State::Nothing(failure.to_string()),
                    Err(_) => State::Nothing("A mistake of ours: it broke off.".to_owned()),
                });
                let mut hands = all.hands();
                hands.under_way -= 1;
                hands.tidy();
                all.next(&mut hands);
            });
        }
    }
}

impl Hands {
    /// The newest piece of work of a mark that has not come to nothing.
    fn of(&self, mark: &str) -> Option<Arc<Work>> {
        let counts = |work: &&Arc<Work>| {
            work.mark == mark
                && match work.state() {
                    State::Nothing(_) => false,
                    State::Over(_) | State::InLine | State::UnderWay => true,
                }
        };
        self.all.iter().rev().find(counts).cloned()
    }

    /// Lets go of the oldest that are over.
    fn tidy(&mut self) {
        let over = |work: &Arc<Work>| matches!(work.state(), State::Over(_) | State::Nothing(_));
        let mut most = self.all.iter().filter(|work| over(work)).count();
        self.all.retain(|work| {
            let goes = most > MOST_KEPT && over(work);
            most -= usize::from(goes);
            !goes
        });
    }
}

#[cfg(test)]
mod tests {
    use super::{AT_ONCE, Doing, InHand, MOST_IN_LINE, MOST_KEPT, Made, State, Work};
    use std::sync::mpsc::{Receiver, Sender, channel};
    use std::sync::{Arc, Mutex};

    /// Work that says that it has begun and ends when it is told to.
    fn held(begun: &Sender<u64>, go: &Arc<Mutex<Receiver<()>>>) -> Doing {
        let (begun, go) = (begun.clone(), go.clone());
        Box::new(move |work: &Work| {
            begun.send(work.number).expect("somebody listens");
            go.lock().expect("unbroken").recv().expect("told");
            Ok(Made {
                main: work.number.to_string(),
                stopped: work.stop.wanted(),
                ..Made::default()
            })
        })
    }

    fn quick() -> Doing {
        Box::new(|_| Ok(Made::default()))
    }

    fn begin(all: &Arc<InHand>, mark: &str, doing: Doing) -> Option<Arc<Work>> {
        all.begin(mark, mark.to_owned(), "/".to_owned(), doing)
    }

    /// Waits until it is over.
    fn over(work: &Work) -> State {
        loop {
            match work.state() {
                State::InLine | State::UnderWay => std::thread::yield_now(),
                over => return over,
            }
        }
    }

    #[test]
    fn two_are_worked_on_and_the_rest_waits_its_turn() {
        let all = Arc::new(InHand::default());
        let ((begun, begins), (go, goes)) = (channel(), channel());
        let goes = Arc::new(Mutex::new(goes));
        let works: Vec<_> = (0..AT_ONCE + 2)
            .map(|at| begin(&all, &at.to_string(), held(&begun, &goes)).expect("room"))
            .collect();
        for _ in 0..AT_ONCE {
            begins.recv().expect("begun");
        }
        assert!(matches!(works[2].state(), State::InLine));
        assert_eq!(all.before(works[3].number), 1);
        let same = begin(&all, "2", quick()).expect("the same");
        assert_eq!(
            same.number, works[2].number,
            "the same question is asked once"
        );
        // The third is taken out of the line; the fourth comes when one is over.
        all.stop(&works[2]);
        assert!(matches!(works[2].state(), State::Nothing(_)));
        assert_eq!(all.before(works[3].number), 0);
        go.send(()).expect("told");
        assert_eq!(begins.recv(), Ok(works[3].number));
        all.stop(&works[3]);
        go.send(()).expect("told");
        go.send(()).expect("told");
        let State::Over(made) = over(&works[3]) else {
            panic!("what it knows is kept");
        };
        assert!(made.stopped);
        assert!(all.kept("3").is_some());
        let again = begin(&all, "3", quick()).expect("room");
        assert_ne!(again.number, works[3].number, "asked again, it is done");
    }

    #[test]
    fn a_full_line_takes_no_more_and_what_breaks_off_says_so() {
        let all = Arc::new(InHand::default());
        let ((begun, begins), (go, goes)) = (channel(), channel());
        let goes = Arc::new(Mutex::new(goes));
        for at in 0..AT_ONCE + MOST_IN_LINE {
            assert!(begin(&all, &at.to_string(), held(&begun, &goes)).is_some());
        }
        assert!(begin(&all, "one more", quick()).is_none());
        for _ in 0..AT_ONCE + MOST_IN_LINE {
            go.send(()).expect("told");
            begins.recv().expect("begun");
        }
        let broken = begin(&all, "broken", Box::new(|_| panic!("as planned"))).expect("room");
        assert!(matches!(over(&broken), State::Nothing(_)));
        let again = begin(&all, "broken", quick()).expect("room");
        assert_ne!(
            again.number, broken.number,
            "what came to nothing is tried again"
        );
    }

    #[test]
    fn only_the_newest_are_kept() {
        let all = Arc::new(InHand::default());
        for at in 0..MOST_KEPT + 4 {
            let work = begin(&all, &at.to_string(), quick()).expect("room");
            over(&work);
        }
        let last = begin(&all, "last", quick()).expect("room");
        over(&last);
        assert!(all.hands().all.len() <= MOST_KEPT + AT_ONCE);
        assert!(all.numbered(1).is_none(), "the oldest is gone");
    }
}

//! What one tap of the cook changes: a step begun or over, and what begins of itself with it.

use super::{Done, Manner, Piece, ahead};
use numerics::quantity::Duration;
use std::collections::BTreeMap;

/// What the cook taps.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Tap {
    /// A step begins.
    Begin(usize),
    /// A step is over.
    Over(usize),
    /// A step gets more time.
    Longer(usize, Duration),
    /// A step's bell stops.
    Quiet(usize),
}

/// One thing that is kept of a tap.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Change {
    /// The step began.
    Began(usize),
    /// The step ended.
    Ended(usize),
    /// The step has more time.
    Longer(usize, Duration),
    /// The step's bell is stopped.
    Quiet(usize),
}

/// What a tap changes; nothing when it says what is so already.
pub fn tapped(
    pieces: &[Piece],
    done: &BTreeMap<usize, Done>,
    now: Duration,
    tap: Tap,
) -> Vec<Change> {
    let of = |number: usize| done.get(&number).copied().unwrap_or_default();
    let known = |number: usize| pieces.iter().any(|piece| piece.number == number);
    match tap {
        Tap::Begin(step) if known(step) && of(step).began.is_none() && of(step).ended.is_none() => {
            vec![Change::Began(step)]
        }
        Tap::Longer(step, more) if known(step) && of(step).ended.is_none() => {
            vec![Change::Longer(step, more)]
        }
        Tap::Quiet(step) if known(step) && of(step).ended.is_none() && !of(step).quiet => {
            vec![Change::Quiet(step)]
        }
        Tap::Over(step) if known(step) && of(step).ended.is_none() => over(pieces, done, now, step),
        _ => Vec::new(),
    }
}

fn over(pieces: &[Piece], done: &BTreeMap<usize, Done>, now: Duration, step: usize) -> Vec<Change> {
    let mut then = done.clone();
    let mut changes = Vec::new();
    let own = then.entry(step).or_default();
    if own.began.is_none() {
        own.began = Some(now);
        changes.push(Change::Began(step));
    }
    own.ended = Some(now);
    changes.push(Change::Ended(step));
    let untouched = |then: &BTreeMap<usize, Done>, number: usize| {
        then.get(&number)
            .is_none_or(|done| done.began.is_none() && done.ended.is_none())
    };
    let free = |then: &BTreeMap<usize, Done>, piece: &Piece| {
        let over = |number: &usize| then.get(number).is_some_and(|done| done.ended.is_some());
        piece.follows_on
            && !piece.after.is_empty()
            && piece.after.iter().all(over)
            && untouched(then, piece.number)
    };
    // What stands by itself begins with the end of what came before it.
    for piece in pieces {
        if piece.manner == Manner::Waits && piece.after.contains(&step) && free(&then, piece) {
            then.entry(piece.number).or_default().began = Some(now);
            changes.push(Change::Began(piece.number));
        }
    }
    // Free hands take up the first thing that can be done.
    let stands = ahead(pieces, &then, now);
    let busy = pieces
        .iter()
        .zip(&stands)
        .any(|(piece, stands)| piece.manner == Manner::Hands && stands.running());
    if !busy {
        let next = pieces
            .iter()
            .zip(&stands)
            .filter(|(piece, _)| piece.manner == Manner::Hands && free(&then, piece))
            .min_by(|a, b| a.1.begins().order(b.1.begins()));
        changes.extend(next.map(|(piece, _)| Change::Began(piece.number)));
    }
    changes
}

#[cfg(test)]
mod tests {
    use super::super::{Done, Piece, Stands, ahead, in_hand, pieces};
    use super::{Change, Tap, tapped};
    use numerics::quantity::Duration;
    use recipe::document::read_recipe;
    use std::collections::BTreeMap;

    const LOAF: &str = include_str!("../../../../examples/same-day-loaf.toml");

    fn loaf() -> Vec<Piece> {
        let recipe = read_recipe(LOAF).output.expect("it reads");
        pieces(&recipe, |_| None)
    }

    fn minutes(minutes: f64) -> Duration {
        Duration::from_minutes(minutes)
    }

    /// Taps one after another; each at its minute.
    fn taps(pieces: &[Piece], taps: &[(f64, Tap)]) -> BTreeMap<usize, Done> {
        let mut done: BTreeMap<usize, Done> = BTreeMap::new();
        for (minute, tap) in taps {
            let now = minutes(*minute);
            for change in tapped(pieces, &done, now, *tap) {
                match change {
                    Change::Began(step) => done.entry(step).or_default().began = Some(now),
                    Change::Ended(step) => done.entry(step).or_default().ended = Some(now),
                    Change::Longer(step, more) => done.entry(step).or_default().longer += more,
                    Change::Quiet(step) => done.entry(step).or_default().quiet = true,
                }
            }
        }
        done
    }

    #[test]
    fn at_the_beginning_the_butter_is_taken_out_and_the_yeast_is_woken() {
        let pieces = loaf();
        let stands = ahead(&pieces, &BTreeMap::new(), Duration::ZERO);
        // Written: butter 60 min before the dough, the dough after 8 + 2 + 55 min: at minute 5.
        assert_eq!(stands[3].begins(), minutes(5.0));
        assert_eq!(in_hand(&pieces, &stands), Some(1));
        // Sums of the written times: the rise of the sponge from minute 10, the mixer from 65.
        assert_eq!(stands[2].begins(), minutes(10.0));
        assert_eq!(stands[4].begins(), minutes(65.0));
    }

    #[test]
    fn the_oven_is_lit_so_that_it_is_hot_for_the_first_bread() {
        let pieces = loaf();
        let stands = ahead(&pieces, &BTreeMap::new(), Duration::ZERO);
        // Step 13 heats the oven 25 min before step 15 bakes.
        assert_eq!(stands[14].begins() - stands[12].begins(), minutes(25.0));
        // Two racks, one dial: nobody waits for the oven.
        assert!(stands[19].begins() < stands[14].ends());
    }

    #[test]
    fn what_stands_begins_of_itself_and_hands_take_up_the_next_thing() {
        let pieces = loaf();
        let to_the_pieces: Vec<(f64, Tap)> = (1..=9)
            .map(|step| (10.0 * step as f64, Tap::Over(step)))
            .collect();
        let mut all = to_the_pieces;
        all.push((100.0, Tap::Over(10)));
        let done = taps(&pieces, &all);
        // The braid is shaped first; the buns wait for the hands.
        assert_eq!(done[&11].began, Some(minutes(100.0)));
        assert!(!done.contains_key(&17));
        all.push((108.0, Tap::Over(11)));
        let done = taps(&pieces, &all);
        assert_eq!(done[&12].began, Some(minutes(108.0)), "the braid rises");
        assert_eq!(done[&17].began, Some(minutes(108.0)), "the buns are shaped");
        // A bake waits for the cook: the bread has to be put in.
        all.extend([
            (126.0, Tap::Over(17)),
            (180.0, Tap::Over(12)),
            (182.0, Tap::Over(14)),
        ]);
        let done = taps(&pieces, &all);
        assert!(done.get(&15).is_none_or(|done| done.began.is_none()));
        let stands = ahead(&pieces, &done, minutes(182.0));
        assert_eq!(
            in_hand(&pieces, &stands),
            Some(13),
            "the oven is not lit yet"
        );
        all.extend([(183.0, Tap::Over(13)), (184.0, Tap::Begin(15))]);
        let done = taps(&pieces, &all);
        let stands = ahead(&pieces, &done, minutes(184.0));
        assert_eq!(stands[14].ends(), minutes(184.0 + 36.0));
        all.push((220.0, Tap::Over(15)));
        assert_eq!(
            taps(&pieces, &all)[&16].began,
            Some(minutes(220.0)),
            "it cools"
        );
    }

    #[test]
    fn a_second_tap_on_the_same_thing_changes_nothing() {
        let pieces = loaf();
        let once = taps(&pieces, &[(0.0, Tap::Begin(1)), (8.0, Tap::Over(1))]);
        let twice = taps(
            &pieces,
            &[
                (0.0, Tap::Begin(1)),
                (1.0, Tap::Begin(1)),
                (8.0, Tap::Over(1)),
                (8.2, Tap::Over(1)),
                (9.0, Tap::Begin(1)),
                (9.0, Tap::Over(99)),
            ],
        );
        assert_eq!(once, twice);
    }

    #[test]
    fn five_minutes_more_move_the_end_and_what_hangs_on_it() {
        let pieces = loaf();
        let begun = [(0.0, Tap::Over(1)), (2.0, Tap::Over(2))];
        let before = ahead(&pieces, &taps(&pieces, &begun), minutes(3.0));
        let more = [begun[0], begun[1], (3.0, Tap::Longer(3, minutes(5.0)))];
        let after = ahead(&pieces, &taps(&pieces, &more), minutes(3.0));
        assert_eq!(before[2].ends(), minutes(57.0));
        for step in [2, 6, 14] {
            assert_eq!(
                after[step].ends() - before[step].ends(),
                minutes(5.0),
                "{step}"
            );
        }
        let Stands::Running {
            within: Some(within),
            ..
        } = after[2]
        else {
            panic!("it runs, with a range: {:?}", after[2]);
        };
        assert_eq!((within.low, within.high), (minutes(52.0), minutes(82.0)));
    }

    #[test]
    fn what_is_past_its_time_holds_up_what_comes_after() {
        let pieces = loaf();
        let done = taps(&pieces, &[(0.0, Tap::Over(1)), (2.0, Tap::Over(2))]);
        let stands = ahead(&pieces, &done, minutes(90.0));
        assert_eq!(stands[2].ends(), minutes(57.0), "its bell rang at 57 min");
        assert_eq!(stands[4].begins(), minutes(90.0));
    }
}

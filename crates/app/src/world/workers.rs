//! Several workers: independent pieces of work on every core, their results in the order of the
//! pieces.

use bake::anchor::OneBake;
use bake::condition::{Life, OneLife};
use edit::stretch::{OneDay, Stretch};
use std::sync::Mutex;
use std::sync::atomic::{AtomicUsize, Ordering};

/// Does the work of every piece. Which worker does which piece decides nothing about the results.
pub fn each<Piece: Sync, Made: Send>(
    pieces: &[Piece],
    work: impl Fn(&Piece) -> Made + Sync,
) -> Vec<Made> {
    let workers = std::thread::available_parallelism()
        .map_or(1, usize::from)
        .min(pieces.len());
    let next = AtomicUsize::new(0);
    let made = Mutex::new(Vec::with_capacity(pieces.len()));
    std::thread::scope(|scope| {
        for _ in 0..workers {
            scope.spawn(|| {
                loop {
                    let at = next.fetch_add(1, Ordering::Relaxed);
                    let Some(piece) = pieces.get(at) else { break };
                    let result = work(piece);
                    // A worker that panicked ends the scope with its panic, so the list is whole.
                    if let Ok(mut made) = made.lock() {
                        made.push((at, result));
                    }
                }
            });
        }
    });
    let mut made = made.into_inner().unwrap_or_default();
    made.sort_by_key(|(at, _)| *at);
    made.into_iter().map(|(_, result)| result).collect()
}

/// So many pieces of work by their places, several at once.
fn in_order<Made: Send>(count: usize, one: &(dyn Fn(usize) -> Made + Sync)) -> Vec<Made> {
    let places: Vec<usize> = (0..count).collect();
    each(&places, |place| one(*place))
}

/// The tested bakes of a round.
pub fn bakes(count: usize, one: &OneBake<'_>) -> Vec<Vec<Option<f64>>> {
    in_order(count, one)
}

/// Days that are set beside each other.
pub fn days(count: usize, one: &OneDay<'_>) -> Vec<Vec<Stretch>> {
    in_order(count, one)
}

/// Possible kitchens.
pub fn lives(count: usize, one: &OneLife<'_>) -> Vec<Life> {
    in_order(count, one)
}

/// Does two things at once.
pub fn both<One: Send, Other>(
    one: impl FnOnce() -> One + Send,
    other: impl FnOnce() -> Other,
) -> (One, Other) {
    let mut done = None;
    let other = meanwhile(|| done = Some(one()), other);
    (done.expect("it is done when its thread has ended"), other)
}

/// Does one thing while another is done.
pub fn meanwhile<Made>(other: impl FnOnce() + Send, work: impl FnOnce() -> Made) -> Made {
    std::thread::scope(|scope| {
        scope.spawn(other);
        work()
    })
}

#[cfg(test)]
mod tests {
    use super::each;

    #[test]
    fn results_stand_in_the_order_of_the_pieces() {
        let pieces: Vec<usize> = (0..200).collect();
        let doubled: Vec<usize> = pieces.iter().map(|piece| piece * 2).collect();
        assert_eq!(each(&pieces, |piece| piece * 2), doubled);
        assert_eq!(each(&[], |piece: &usize| *piece), Vec::<usize>::new());
    }
}

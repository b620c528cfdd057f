//! A second search of a day beside the first: on a core of its own, and where there is none, after it.

use std::sync::atomic::{AtomicBool, Ordering};

/// Does both. The second ends when the first says that nothing can be better, or when somebody wants to stop.
///
/// Nothing of what they find hangs on which of them is quicker: on one core both take longer, and come to the same.
pub fn beside(
    stop: &(dyn Fn() -> bool + Sync),
    first: &mut dyn FnMut() -> bool,
    second: &mut (dyn FnMut(&dyn Fn() -> bool) + Send),
) {
    let over = AtomicBool::new(false);
    let go_on = || !over.load(Ordering::Relaxed) && !stop();
    if std::thread::available_parallelism().map_or(1, usize::from) == 1 {
        over.store(first(), Ordering::Relaxed);
        second(&go_on);
        return;
    }
    std::thread::scope(|scope| {
        scope.spawn(|| second(&go_on));
        over.store(first(), Ordering::Relaxed);
    });
}

#[cfg(test)]
mod tests {
    use super::beside;

    #[test]
    fn what_is_beside_ends_when_the_first_needs_it_no_more_or_nobody_does() {
        for (proven, stopped) in [(true, false), (false, true)] {
            let mut ended = false;
            beside(&|| stopped, &mut || proven, &mut |go_on| {
                while go_on() {
                    std::thread::yield_now();
                }
                ended = true;
            });
            assert!(ended);
        }
    }
}

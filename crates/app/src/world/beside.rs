//! Two searches of a day at once, each on a thread of its own.

use std::sync::atomic::{AtomicBool, Ordering};

/// Does both; the second ends when the first has ended. On one core they take turns, so both keep to the seconds.
pub fn beside(first: &mut dyn FnMut(), second: &mut (dyn FnMut(&dyn Fn() -> bool) + Send)) {
    /// Says so even where the first panics, as the second would go on for ever.
    struct Over<'a>(&'a AtomicBool);
    impl Drop for Over<'_> {
        fn drop(&mut self) {
            self.0.store(true, Ordering::Relaxed);
        }
    }
    let over = AtomicBool::new(false);
    std::thread::scope(|scope| {
        scope.spawn(|| second(&|| !over.load(Ordering::Relaxed)));
        let _over = Over(&over);
        first();
    });
}

#[cfg(test)]
mod tests {
    use super::beside;

    #[test]
    fn what_is_beside_ends_with_the_first() {
        let (mut begun, mut ended) = (false, false);
        beside(&mut || begun = true, &mut |go_on| {
            while go_on() {
                std::thread::yield_now();
            }
            ended = true;
        });
        assert!(begun && ended);
    }
}

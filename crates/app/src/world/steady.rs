//! A clock that nobody can set: it goes on from what the machine's clock said at the beginning, asleep or awake.
//!
//! Where the system tells how long it has been up, sleep included (Linux), that counts. Elsewhere the
//! machine's own clock is asked, and whoever sets it moves the bench's times with it.

use jiff::Timestamp;
use std::path::Path;
use std::time::{SystemTime, UNIX_EPOCH};

/// Where the time comes from.
#[derive(Clone, Debug)]
enum From {
    /// The machine.
    Machine,
    /// A test.
    #[cfg(test)]
    Held(std::sync::Arc<std::sync::Mutex<(i64, i64)>>),
}

/// The clock, in milliseconds since 1970 as the machine had it when the program began.
#[derive(Clone, Debug)]
pub struct Steady {
    from: From,
    began_wall_ms: i64,
    began_up_ms: Option<i64>,
}

impl Steady {
    /// From now on.
    pub fn begin() -> Self {
        Self::of(From::Machine)
    }

    /// A clock that a test moves: what the wall says, and how long the machine is up, both in ms.
    #[cfg(test)]
    pub fn held(times: std::sync::Arc<std::sync::Mutex<(i64, i64)>>) -> Self {
        Self::of(From::Held(times))
    }

    fn of(from: From) -> Self {
        let (wall, up) = read(&from);
        Self {
            from,
            began_wall_ms: wall,
            began_up_ms: up,
        }
    }

    /// This moment, whatever the machine's clock was set to meanwhile.
    pub fn now_ms(&self) -> i64 {
        let (wall, up) = read(&self.from);
        match (self.began_up_ms, up) {
            (Some(began), Some(up)) => self.began_wall_ms + (up - began),
            _ => wall,
        }
    }

    /// The same as a moment for the record.
    pub fn now(&self) -> Timestamp {
        Timestamp::from_millisecond(self.now_ms()).unwrap_or(Timestamp::UNIX_EPOCH)
    }

    /// By how much the machine's clock was set since the program began, ms; positive is forward. What is
    /// shown by the clock on the wall has it added.
    pub fn set_by_ms(&self) -> i64 {
        read(&self.from).0 - self.now_ms()
    }
}

fn read(from: &From) -> (i64, Option<i64>) {
    match from {
        From::Machine => (wall_ms(), up_ms()),
        #[cfg(test)]
        From::Held(times) => {
            let times = times.lock().expect("a test's own clock");
            (times.0, Some(times.1))
        }
    }
}

fn wall_ms() -> i64 {
    let gone = SystemTime::now().duration_since(UNIX_EPOCH);
    gone.map_or(0, |gone| i64::try_from(gone.as_millis()).unwrap_or(0))
}

/// How long the machine is up, sleep included; none where that cannot be had.
fn up_ms() -> Option<i64> {
    let text = std::fs::read_to_string(Path::new("/proc/uptime")).ok()?;
    let (whole, hundredths) = text.split_whitespace().next()?.split_once('.')?;
    let seconds: i64 = whole.parse().ok()?;
    let hundredths: i64 = hundredths.parse().ok()?;
    Some(seconds * 1000 + hundredths * 10)
}

#[cfg(test)]
mod tests {
    use super::Steady;
    use std::sync::{Arc, Mutex};

    #[test]
    fn a_clock_that_is_set_moves_nothing() {
        let times = Arc::new(Mutex::new((1_000_000, 500)));
        let clock = Steady::held(times.clone());
        *times.lock().expect("held") = (1_060_000, 60_500);
        assert_eq!((clock.now_ms(), clock.set_by_ms()), (1_060_000, 0));
        // An hour forward, a second later.
        *times.lock().expect("held") = (1_061_000 + 3_600_000, 61_500);
        assert_eq!((clock.now_ms(), clock.set_by_ms()), (1_061_000, 3_600_000));
        // A day back.
        *times.lock().expect("held") = (1_062_000 - 86_400_000, 62_500);
        assert_eq!(
            (clock.now_ms(), clock.set_by_ms()),
            (1_062_000, -86_400_000)
        );
    }

    #[test]
    fn the_machine_agrees_with_itself() {
        let clock = Steady::begin();
        assert!(clock.set_by_ms().abs() < 1_000);
        assert!(clock.now_ms() > 1_700_000_000_000);
    }
}

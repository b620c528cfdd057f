//! What the clock on this machine says, and where it hangs.

use jiff::Timestamp;
use jiff::tz::TimeZone;
use std::path::Path;
use std::time::{SystemTime, UNIX_EPOCH};

/// This moment.
pub fn now() -> Timestamp {
    let gone = SystemTime::now().duration_since(UNIX_EPOCH);
    let seconds = gone.map_or(0, |gone| i64::try_from(gone.as_secs()).unwrap_or(0));
    Timestamp::from_second(seconds).unwrap_or(Timestamp::UNIX_EPOCH)
}

/// This moment to the millisecond.
pub fn moment() -> Timestamp {
    let gone = SystemTime::now().duration_since(UNIX_EPOCH);
    let milliseconds = gone.map_or(0, |gone| i64::try_from(gone.as_millis()).unwrap_or(0));
    Timestamp::from_millisecond(milliseconds).unwrap_or(Timestamp::UNIX_EPOCH)
}

/// The zone that this machine is set to; none when it does not say.
pub fn zone() -> Option<TimeZone> {
    if let Ok(name) = std::env::var("TZ")
        && let Ok(zone) = TimeZone::get(name.trim_start_matches(':'))
    {
        return Some(zone);
    }
    let link = std::fs::read_link(Path::new("/etc/localtime")).ok()?;
    let path = link.to_string_lossy().into_owned();
    let (_, name) = path.split_once("zoneinfo/")?;
    TimeZone::get(name).ok()
}

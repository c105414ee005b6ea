//! Which day it is.

use jiff::Timestamp;
use jiff::civil::Date;
use jiff::tz::TimeZone;

/// The day of the calendar at this moment where clocks show that time.
///
/// # Example
///
/// ```
/// use fretloom::practice::day_at;
/// use jiff::civil::date;
/// use jiff::tz::{TimeZone, offset};
/// let evening = "2026-05-04T23:30:00Z".parse().unwrap();
/// assert_eq!(day_at(evening, TimeZone::UTC), date(2026, 5, 4));
/// assert_eq!(day_at(evening, TimeZone::fixed(offset(2))), date(2026, 5, 5));
/// ```
#[must_use]
pub fn day_at(moment: Timestamp, zone: TimeZone) -> Date {
    moment.to_zoned_datetime(zone).date()
}

//! Days as a player says them.

use jiff::SignedDuration;
use jiff::civil::Date;

const MONTHS: [&str; 12] =
    ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];

/// A day that has been: `today`, `yesterday`, `6 May`, in another year `May 2025`.
pub(super) fn past(day: Date, today: Date) -> String {
    match days_between(today, day) {
        0 => "today".to_owned(),
        -1 => "yesterday".to_owned(),
        _ => named(day, today),
    }
}

/// A day on which something is due: `now` once it has come, `tomorrow`, `8 May`.
pub(super) fn coming(day: Date, today: Date) -> String {
    match days_between(today, day) {
        ..=0 => "now".to_owned(),
        1 => "tomorrow".to_owned(),
        _ => named(day, today),
    }
}

fn named(day: Date, today: Date) -> String {
    let month = usize::try_from(day.month() - 1).ok().and_then(|month| MONTHS.get(month));
    let month = month.copied().unwrap_or_default();
    if day.year() == today.year() {
        format!("{} {month}", day.day())
    } else {
        format!("{month} {}", day.year())
    }
}

fn days_between(from: Date, to: Date) -> i64 {
    const DAY: SignedDuration = SignedDuration::from_hours(24);
    from.duration_until(to).as_secs() / DAY.as_secs()
}

#[cfg(test)]
mod tests {
    use jiff::civil::date;

    use super::*;

    #[test]
    fn days_are_told_from_today() {
        let today = date(2026, 5, 6);
        let days = [date(2026, 5, 6), date(2026, 5, 5), date(2026, 1, 31), date(2025, 12, 31)];
        let told = days.map(|day| past(day, today));
        assert_eq!(told, ["today", "yesterday", "31 Jan", "Dec 2025"]);
        let days = [date(2026, 5, 1), today, date(2026, 5, 7), date(2026, 5, 8), date(2027, 1, 1)];
        let told = days.map(|day| coming(day, today));
        assert_eq!(told, ["now", "now", "tomorrow", "8 May", "Jan 2027"]);
    }
}

//! A moment as it is kept: whole milliseconds, with offset and zone.

use jiff::{
    RoundMode, SignedDuration, Timestamp, Unit, ZonedDateTime, ZonedDateTimeRound, civil, tz::TimeZone,
};
use serde::{Deserialize, Serialize};

/// An instant and how it was written where it happened (RFC 9557), such as
/// `2026-11-02T09:30:00-05:00[America/New_York]`. The text is kept as it is, although this machine may not know
/// the zone.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(try_from = "String", into = "String")]
pub struct Stamp {
    text: String,
    ms: i64,
}

impl Stamp {
    /// The text.
    pub fn text(&self) -> &str {
        &self.text
    }

    /// The instant, in milliseconds since 1970-01-01 UTC.
    pub fn ms(&self) -> i64 {
        self.ms
    }

    /// The instant.
    pub fn instant(&self) -> Timestamp {
        instant(self.ms)
    }

    /// The local date and time, to the minute, for people: `2026-11-02 09:30`.
    pub fn minute(&self) -> String {
        self.text
            .parse::<civil::DateTime>()
            .map_or_else(|_| self.text.clone(), |local| local.strftime("%Y-%m-%d %H:%M").to_string())
    }

    /// The local date on which it was; where only UTC was written, the one there. `None` only for a moment that no calendar
    /// has.
    pub fn day(&self) -> Option<civil::Date> {
        let local = self.text.parse::<civil::DateTime>().ok().map(civil::DateTime::date);
        let utc = || Some(TimeZone::UTC.to_datetime(Timestamp::from_millisecond(self.ms).ok()?).date());
        local.or_else(utc)
    }

    /// The moment `ms` milliseconds later, written in the same zone if this machine knows it, else in UTC.
    #[must_use]
    pub fn plus(&self, ms: i64) -> Self {
        let here = self.text.parse().unwrap_or_else(|_| ZonedDateTime::new(self.instant(), TimeZone::UTC));
        Self::from(&here.saturating_add(SignedDuration::from_millis(ms)))
    }
}

/// The instant so many milliseconds after 1970-01-01 UTC; that date itself for a number that no calendar has.
pub fn instant(ms: i64) -> Timestamp {
    Timestamp::from_millisecond(ms).unwrap_or_default()
}

impl From<&ZonedDateTime> for Stamp {
    fn from(at: &ZonedDateTime) -> Self {
        let whole = ZonedDateTimeRound::new().smallest(Unit::Millisecond).mode(RoundMode::Trunc);
        let at = at.round(whole).unwrap_or_else(|_| at.clone());
        Self { text: at.to_string(), ms: at.timestamp().as_millisecond() }
    }
}

impl TryFrom<String> for Stamp {
    type Error = String;

    fn try_from(text: String) -> Result<Self, String> {
        let instant: Timestamp = text.parse().map_err(|_| {
            format!("\"{text}\" is not a date and time with an offset and a zone in brackets")
        })?;
        Ok(Self { ms: instant.as_millisecond(), text })
    }
}

impl From<Stamp> for String {
    fn from(stamp: Stamp) -> Self {
        stamp.text
    }
}

#[cfg(test)]
mod test {
    use super::Stamp;

    #[test]
    fn a_stamp_keeps_offset_and_zone_and_drops_what_is_below_a_millisecond() {
        let at: jiff::ZonedDateTime = "2026-11-02T09:30:00.1239-05:00[America/New_York]".parse().unwrap();
        let stamp = Stamp::from(&at);
        assert_eq!(stamp.text(), "2026-11-02T09:30:00.123-05:00[America/New_York]");
        // date -u -d 2026-11-02T14:30:00Z +%s
        assert_eq!(stamp.ms(), 1_793_629_800_123);
        assert_eq!(stamp.minute(), "2026-11-02 09:30");
        assert_eq!(stamp.day(), Some(jiff::civil::date(2026, 11, 2)));
        assert_eq!(Stamp::try_from(stamp.text().to_owned()), Ok(stamp));
    }

    #[test]
    fn a_zone_that_this_machine_does_not_know_is_kept() {
        let text = "2026-11-02T09:30:00-05:00[Mars/Olympus]";
        let stamp = Stamp::try_from(text.to_owned()).unwrap();
        assert_eq!((stamp.text(), stamp.ms()), (text, 1_793_629_800_000));
        assert_eq!(stamp.minute(), "2026-11-02 09:30");
        assert_eq!(stamp.plus(1_000).text(), "2026-11-02T14:30:01+00:00[UTC]");
    }

    #[test]
    fn a_later_stamp_follows_the_clock_change() {
        // Clocks in New York go back at 2026-11-01T06:00Z (IANA tz database).
        let before = Stamp::try_from("2026-11-01T01:59:59-04:00[America/New_York]".to_owned()).unwrap();
        assert_eq!(before.plus(1_000).text(), "2026-11-01T01:00:00-05:00[America/New_York]");
    }

    #[test]
    fn what_has_no_offset_is_no_stamp() {
        for text in ["", "yesterday", "2026-11-02", "2026-11-02T09:30:00", "2026-13-02T09:30:00Z[UTC]"] {
            assert!(Stamp::try_from(text.to_owned()).is_err(), "{text}");
        }
    }
}

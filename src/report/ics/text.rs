//! Events written as RFC 5545 wants them: lines of 75 octets that end in CR LF, texts escaped.

use super::{Event, Status};
use chrono::{DateTime, Days, NaiveDate, Utc};
use uuid::Uuid;

/// The most octets of a line, without its end (RFC 5545, section 3.1).
const LINE: usize = 75;

/// Who wrote the file (RFC 5545, section 3.7.3).
const PRODID: &str = concat!("-//Benchwalk//NONSGML Benchwalk ", env!("CARGO_PKG_VERSION"), "//EN");

/// The calendar of a season, written at an instant. `sequence` must be higher in a later file of a changed season: calendars keep the
/// event with the higher one.
pub fn calendar(name: &str, season: Uuid, events: &[Event], (now, sequence): (DateTime<Utc>, u64)) -> String {
    let mut out = String::new();
    let mut put = |name: &str, value: &str| line(&mut out, name, value);
    put("BEGIN", "VCALENDAR");
    put("VERSION", "2.0");
    put("PRODID", PRODID);
    put("CALSCALE", "GREGORIAN");
    put("X-WR-CALNAME", &escaped(name));
    let stamp = now.format("%Y%m%dT%H%M%SZ").to_string();
    for event in events {
        put("BEGIN", "VEVENT");
        put("UID", &format!("{season}.{}.{}@benchwalk", event.lot, event.what));
        put("DTSTAMP", &stamp);
        put("LAST-MODIFIED", &stamp);
        put("SEQUENCE", &sequence.to_string());
        put("DTSTART;VALUE=DATE", &day(event.first));
        put("DTEND;VALUE=DATE", &day(event.last.checked_add_days(Days::new(1)).unwrap_or(event.last)));
        put("SUMMARY", &escaped(&event.summary));
        put("DESCRIPTION", &escaped(&event.description));
        put("STATUS", status(event.status));
        put("TRANSP", "TRANSPARENT");
        put("CLASS", "PRIVATE");
        if !event.houses.is_empty() {
            put("CATEGORIES", &event.houses.iter().map(|house| escaped(house)).collect::<Vec<_>>().join(","));
        }
        put("END", "VEVENT");
    }
    put("END", "VCALENDAR");
    out
}

const fn status(status: Status) -> &'static str {
    match status {
        Status::Planned => "CONFIRMED",
        Status::Forecast => "TENTATIVE",
        Status::Over => "CANCELLED",
    }
}

fn day(day: NaiveDate) -> String {
    day.format("%Y%m%d").to_string()
}

/// A text with its commas, semicolons, backslashes and line breaks escaped; other control characters are left out (section 3.3.11).
fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '\\' | ',' | ';' => out.extend(['\\', c]),
            '\n' => out.push_str("\\n"),
            c if c.is_control() => {}
            c => out.push(c),
        }
    }
    out
}

/// One property, folded between characters: a line that goes on begins with a blank.
fn line(out: &mut String, name: &str, value: &str) {
    let mut used = 0;
    for c in name.chars().chain([':']).chain(value.chars()) {
        if used + c.len_utf8() > LINE {
            out.push_str("\r\n ");
            used = 1;
        }
        out.push(c);
        used += c.len_utf8();
    }
    out.push_str("\r\n");
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    /// What a reader makes of a property: unfolded, then unescaped.
    fn read(written: &str) -> String {
        let flat = written.replace("\r\n ", "");
        let value = flat.trim_end_matches("\r\n").split_once(':').unwrap().1.to_owned();
        let mut chars = value.chars();
        let mut out = String::new();
        while let Some(c) = chars.next() {
            match c {
                '\\' => match chars.next().unwrap() {
                    'n' => out.push('\n'),
                    c => out.push(c),
                },
                c => out.push(c),
            }
        }
        out
    }

    proptest! {
        #[test]
        fn any_text_is_read_back_and_no_line_is_too_long(text in "(\\PC|[\n,;:\\\\°µ]){0,200}") {
            let mut out = String::new();
            line(&mut out, "DESCRIPTION", &escaped(&text));
            prop_assert!(out.ends_with("\r\n"));
            for line in out.split_terminator("\r\n") {
                prop_assert!(line.len() <= LINE && !line.contains(['\r', '\n']), "{line:?}");
            }
            prop_assert_eq!(read(&out), text);
        }
    }

    #[test]
    fn a_line_of_75_octets_is_whole_and_one_more_is_folded() {
        for (length, lines) in [(LINE, 1), (LINE + 1, 2)] {
            let mut out = String::new();
            line(&mut out, "SUMMARY", &"x".repeat(length - "SUMMARY:".len()));
            assert_eq!(out.split_terminator("\r\n").count(), lines, "{out:?}");
        }
    }

    #[test]
    fn control_characters_are_left_out() {
        assert_eq!(escaped("a\u{1b}[31mb\r\nc\td"), "a[31mb\\ncd");
    }
}

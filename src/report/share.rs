//! What is said of a season that several laptops keep: in the frame around every page, and when the screens are left.

use crate::exchange::{CarrierError, CarrierState, Sharing};
use chrono::{DateTime, TimeDelta, Utc};

/// From this age on it is said how long ago the season was shared although there is something to send.
const OLD: TimeDelta = TimeDelta::hours(1);

/// A length of time, short: `2 min`, `5 h`, `3 days`.
pub fn length(time: TimeDelta) -> String {
    match time.num_minutes() {
        minutes @ ..60 => format!("{} min", minutes.max(1)),
        minutes @ 60..2880 => format!("{} h", minutes / 60),
        minutes => format!("{} days", minutes / 1440),
    }
}

/// How long ago something was: `just now`, `2 min ago`.
pub fn ago(at: DateTime<Utc>, now: DateTime<Utc>) -> String {
    let since = now.signed_duration_since(at);
    if since < TimeDelta::minutes(1) { "just now".to_owned() } else { format!("{} ago", length(since)) }
}

/// True where a carrier failed; a folder that is not there, such as a stick that is not put in, is no failure.
pub const fn fails(carrier: &CarrierState) -> bool {
    matches!(&carrier.failed, Some((error, _)) if !matches!(error, CarrierError::NotThere { .. }))
}

/// What the frame says: `shared 2 min ago`, `14 to send`, `office cut 2 h, 14 to send`. Empty where nothing carries the season.
pub fn frame(sharing: &Sharing, now: DateTime<Utc>) -> String {
    let carriers = &sharing.carriers;
    let send = |n: usize| format!("{n} to send");
    let failing = carriers.iter().filter(|carrier| fails(carrier));
    let longest = failing.filter_map(|carrier| Some((carrier, carrier.failed.as_ref()?))).min_by_key(|(_, f)| f.1);
    if let Some((carrier, (error, since))) = longest {
        let what = match error {
            CarrierError::Unreachable { .. } | CarrierError::Cut(_) => "cut",
            _ => "failing",
        };
        let text = format!("{} {what} {}", carrier.name, length(now.signed_duration_since(*since)));
        return match carrier.to_send {
            0 => text,
            n => format!("{text}, {}", send(n)),
        };
    }
    let last = carriers.iter().filter_map(|carrier| carrier.shared).max();
    let shared = last.map(|at| format!("shared {}", ago(at, now)));
    match (sharing.unsent(), shared) {
        (0, Some(shared)) => shared,
        (0, None) if carriers.is_empty() => String::new(),
        (0, None) => "not shared yet".to_owned(),
        (n, Some(shared)) if last.is_some_and(|at| now.signed_duration_since(at) >= OLD) => {
            format!("{shared}, {}", send(n))
        }
        (n, _) => send(n),
    }
}

/// What is said when the screens are left; `None` where everything is sent.
pub fn leaving(sharing: &Sharing) -> Option<String> {
    match sharing.unsent() {
        0 => None,
        1 => Some("1 to send; it goes out the next time".to_owned()),
        n => Some(format!("{n} to send; they go out the next time")),
    }
}

/// What came of an exchange that was asked for, in one line.
///
/// # Errors
/// The first failure, where a carrier failed.
pub fn exchanged(sharing: &Sharing) -> Result<String, String> {
    let failure = |carrier: &CarrierState| {
        let (error, _) = carrier.failed.as_ref()?;
        Some((format!("{}: {error}", carrier.name), fails(carrier)))
    };
    let failures: Vec<(String, bool)> = sharing.carriers.iter().filter_map(failure).collect();
    if let Some((text, _)) = failures.iter().find(|(_, fails)| *fails) {
        return Err(text.clone());
    }
    let done = sharing.carriers.iter().filter(|carrier| carrier.failed.is_none());
    let (came, went) = done
        .clone()
        .fold((0_usize, 0_usize), |sum, c| (sum.0.saturating_add(c.did.taken), sum.1.saturating_add(c.did.given)));
    let absent = failures.into_iter().map(|(text, _)| text);
    let counts = match (came, went) {
        _ if done.count() == 0 => None,
        (0, 0) => Some("Shared: nothing new".to_owned()),
        (came, 0) => Some(format!("Shared: {came} came")),
        (0, went) => Some(format!("Shared: {went} sent")),
        (came, went) => Some(format!("Shared: {came} came, {went} sent")),
    };
    Ok(counts.into_iter().chain(absent).collect::<Vec<_>>().join("; ") + ".")
}

#[cfg(test)]
mod tests {
    use super::*;
    use uuid::Uuid;

    fn now() -> DateTime<Utc> {
        "2026-10-12T11:00:00Z".parse().unwrap()
    }

    fn carrier(name: &str, shared: Option<i64>, to_send: usize) -> CarrierState {
        let shared = shared.map(|minutes| now() - TimeDelta::minutes(minutes));
        CarrierState { name: name.to_owned(), shared, to_send, ..CarrierState::default() }
    }

    fn said(carriers: Vec<CarrierState>) -> String {
        let laptop = "ann-2".to_owned();
        let sharing = Sharing { season: Uuid::from_u128(1), laptop, carriers, laptops: Vec::new(), held: 0 };
        frame(&sharing, now())
    }

    #[test]
    fn how_old_what_is_shared_is_and_what_is_to_send() {
        assert_eq!(said(Vec::new()), "");
        assert_eq!(said(vec![carrier("stick", None, 0)]), "not shared yet");
        assert_eq!(said(vec![carrier("stick", Some(0), 0)]), "shared just now");
        assert_eq!(said(vec![carrier("stick", Some(2), 0)]), "shared 2 min ago");
        assert_eq!(said(vec![carrier("stick", Some(59), 0)]), "shared 59 min ago");
        assert_eq!(said(vec![carrier("stick", Some(60), 0)]), "shared 1 h ago");
        assert_eq!(said(vec![carrier("stick", Some(47 * 60), 0)]), "shared 47 h ago");
        assert_eq!(said(vec![carrier("stick", Some(48 * 60), 0)]), "shared 2 days ago");
        assert_eq!(said(vec![carrier("stick", Some(2), 14)]), "14 to send");
        assert_eq!(said(vec![carrier("stick", Some(60), 14)]), "shared 1 h ago, 14 to send");
        // A clock that was put back.
        assert_eq!(said(vec![carrier("stick", Some(-90), 0)]), "shared just now");
    }

    #[test]
    fn of_several_carriers_what_none_of_them_has() {
        assert_eq!(said(vec![carrier("stick", None, 300), carrier("office", Some(4), 0)]), "shared 4 min ago");
        assert_eq!(said(vec![carrier("stick", Some(9), 300), carrier("office", Some(4), 2)]), "2 to send");
    }

    #[test]
    fn a_carrier_that_fails_is_named_and_a_stick_that_is_not_there_is_none() {
        let mut office = carrier("office", Some(125), 14);
        let unreachable = CarrierError::Unreachable { place: "localhost:5432".into(), why: "refused".into() };
        office.failed = Some((unreachable, now() - TimeDelta::minutes(121)));
        assert_eq!(said(vec![carrier("stick", Some(1), 0), office.clone()]), "office cut 2 h, 14 to send");
        office.to_send = 0;
        office.failed = Some((CarrierError::NoTls, now() - TimeDelta::minutes(5)));
        assert_eq!(said(vec![office]), "office failing 5 min");
        let mut stick = carrier("stick", Some(3 * 24 * 60), 14);
        stick.failed = Some((CarrierError::NotThere { place: "/media/STICK".into() }, now()));
        assert_eq!(said(vec![stick]), "shared 3 days ago, 14 to send");
    }
}

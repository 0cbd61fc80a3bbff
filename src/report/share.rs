//! What is said of a season that several laptops keep: in the frame around every page, and when the screens are left.

pub mod lines;

use crate::exchange::{CarrierError, CarrierState, Damaged, Remark, Sharing};
use chrono::{DateTime, TimeDelta, Utc};

/// What is said while an exchange that was asked for goes on.
pub const EXCHANGING: &str = "Exchanging now; walking and saving go on.";

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
        let between = if fails(carrier) { ": " } else { " " };
        Some((format!("{}{between}{error}", carrier.name), fails(carrier)))
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
    let shared = (done.count() > 0).then(|| format!("Shared: {}", counts(came, went)));
    Ok(shared.into_iter().chain(absent).collect::<Vec<_>>().join("; ") + ".")
}

/// How many lines came and went: `nothing new`, `3 came`, `14 sent`, `3 came, 14 sent`.
fn counts(came: usize, sent: usize) -> String {
    match (came, sent) {
        (0, 0) => "nothing new".to_owned(),
        (came, 0) => format!("{came} came"),
        (0, sent) => format!("{sent} sent"),
        (came, sent) => format!("{came} came, {sent} sent"),
    }
}

/// All that is to be said of a carrier, a sentence each: why it failed, what of it is damaged, what its clock says.
pub fn notes(carrier: &CarrierState, now: DateTime<Utc>) -> Vec<String> {
    let name = &carrier.name;
    let mut notes: Vec<String> = failure(carrier, now).into_iter().collect();
    notes.extend(carrier.did.damaged.iter().map(|damaged| damage(name, damaged)));
    if carrier.given_again > 0 {
        let n = carrier.given_again;
        let (lines, were) = (lines::lines(n), if n == 1 { "was" } else { "were" });
        notes.push(format!("{name}: had less than before, perhaps put back from a backup; {lines} {were} given again"));
    }
    if carrier.did.came_back > 0 {
        let n = carrier.did.came_back;
        notes.push(format!("this file was put back from an older copy; {n} of its own lines came back from {name}"));
    }
    notes.extend(carrier.did.remarks.iter().filter_map(|said| remark(name, said)));
    notes
}

/// Why a carrier failed, and what comes of it; of a folder that is not there, only what waits for it.
fn failure(carrier: &CarrierState, now: DateTime<Utc>) -> Option<String> {
    let (error, _) = carrier.failed.as_ref()?;
    let name = &carrier.name;
    let send = if carrier.to_send == 0 { String::new() } else { format!("; {} to send", carrier.to_send) };
    if !fails(carrier) {
        return Some(format!("{name} {error}{send}"));
    }
    let again = carrier.next.map(|next| match next.signed_duration_since(now) {
        left if left < TimeDelta::seconds(30) => "tried again at once".to_owned(),
        left => format!("tried again in {}", length(left)),
    });
    let again = again.map(|again| if send.is_empty() { format!("; {again}") } else { format!(", {again}") });
    Some(format!("{name}: {error}{send}{}; walking and saving go on", again.unwrap_or_default()))
}

fn damage(name: &str, damaged: &Damaged) -> String {
    let whose = damaged.laptop.as_deref().unwrap_or("a laptop");
    let (after, from) = (damaged.after, damaged.after.saturating_add(1));
    format!("{name}: {whose}'s lines are damaged from {from} on (chain); nothing after {after} was taken")
}

/// What is said of a remark; nothing of a clock that is off by less than [`CLOCK`].
fn remark(name: &str, said: &Remark) -> Option<String> {
    Some(match said {
        Remark::Cut { laptop, pieces } => {
            let whose = laptop.as_deref().unwrap_or("another laptop");
            let (pieces, are) = if *pieces == 1 {
                ("1 piece".to_owned(), "is incomplete and was")
            } else {
                (format!("{pieces} pieces"), "are incomplete and were")
            };
            format!("{name}: {pieces} of {whose}'s {are} skipped; exchange with {name} from that laptop again")
        }
        Remark::ClockOff(off) => return clock(name, *off),
        Remark::InClear => format!("{name}: the connection is not protected (sslmode=disable)"),
        Remark::Advised(version) => format!("{name}: Benchwalk {version} or newer is advised for this hub"),
        Remark::MayOnlyRead { role } => {
            format!(
                "{name}: {role} may only read this season, nothing was sent; ask the keeper of the hub (table member)"
            )
        }
    })
}

/// A laptop's clock that is off by so much puts entries in a wrong order.
const CLOCK: TimeDelta = TimeDelta::minutes(2);

fn clock(name: &str, off: TimeDelta) -> Option<String> {
    let (by, way) = if off < TimeDelta::zero() { (-off, "behind") } else { (off, "ahead of") };
    let minutes = by.num_minutes();
    let amount = match (minutes / 60, minutes % 60) {
        (0, minutes) => format!("{minutes} min"),
        (hours, 0) => format!("{hours} h"),
        (hours, minutes) => format!("{hours} h {minutes} min"),
    };
    let text =
        format!("this laptop's clock is {amount} {way} {name}'s; entries since then carry wrong times: set the clock");
    (by >= CLOCK).then_some(text)
}

/// What is said of lines of a newer program.
pub fn held(sharing: &Sharing) -> Option<String> {
    match sharing.held {
        0 => None,
        1 => Some("1 line of a newer program is kept but not understood here: update this program".to_owned()),
        n => Some(format!("{n} lines of a newer program are kept but not understood here: update this program")),
    }
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

    #[test]
    fn what_failed_says_what_waits_and_when_it_is_tried_again() {
        let mut office = carrier("office", None, 14);
        let why = "connection refused".to_owned();
        office.failed = Some((CarrierError::Unreachable { place: "localhost:5432".into(), why }, now()));
        office.next = Some(now() + TimeDelta::minutes(2));
        let text = "office: cannot be reached (localhost:5432: connection refused); 14 to send, tried again in 2 min; \
                    walking and saving go on";
        assert_eq!(notes(&office, now()), [text]);
        let mut stick = carrier("stick", None, 3);
        stick.failed = Some((CarrierError::NotThere { place: "/media/STICK".into() }, now()));
        assert_eq!(notes(&stick, now()), ["stick is not there (/media/STICK); 3 to send"]);
    }

    #[test]
    fn what_else_is_said_of_a_carrier() {
        let mut office = carrier("office", Some(1), 0);
        office.given_again = 300;
        office.did.came_back = 20;
        office.did.damaged = vec![Damaged {
            stream: crate::exchange::Stream(Uuid::from_u128(2)),
            laptop: Some("bob".into()),
            after: 130,
        }];
        office.did.remarks = vec![
            Remark::Cut { laptop: Some("bob".into()), pieces: 1 },
            Remark::ClockOff(TimeDelta::minutes(-182)),
            Remark::ClockOff(TimeDelta::seconds(119)),
            Remark::MayOnlyRead { role: "cyd".into() },
        ];
        assert_eq!(
            notes(&office, now()),
            [
                "office: bob's lines are damaged from 131 on (chain); nothing after 130 was taken",
                "office: had less than before, perhaps put back from a backup; 300 lines were given again",
                "this file was put back from an older copy; 20 of its own lines came back from office",
                "office: 1 piece of bob's is incomplete and was skipped; exchange with office from that laptop again",
                "this laptop's clock is 3 h 2 min behind office's; entries since then carry wrong times: set the clock",
                "office: cyd may only read this season, nothing was sent; ask the keeper of the hub (table member)",
            ]
        );
    }
}

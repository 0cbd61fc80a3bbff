//! The thread beside the loop, with exchangers that hang, fail, bring lines, and bring a closure while a card is open.

use super::super::double::Shaky;
use super::super::{Loop, Reading, Saving, last_year, time};
use super::*;
use crate::app::App;
use crate::clock::Fixed;
use crate::exchange::{CarrierError, CarrierState};
use crate::input::{Event, Key, Look, Palette};
use crate::journal;
use crate::keys::Context;
use crate::limits::Limits;
use crate::model::{Effect, Model, Now, Status};
use crate::record::{Entry, Kind, Line, Place};
use crate::season::Season;
use std::collections::VecDeque;
use std::sync::{Arc, Mutex};
use std::time::Instant;
use uuid::Uuid;

const DEMO: &str = include_str!("../../../demo-data/demo.jsonl");

/// Noon of the demo's last day.
fn noon() -> DateTime<Utc> {
    "2026-10-14T16:00:00Z".parse().unwrap()
}

/// What an exchanger of these tests does when it is asked for an exchange.
#[derive(Default)]
struct Script {
    /// What it was asked for.
    asked: Vec<Wanted>,
    /// How things stand.
    sharing: Option<Sharing>,
    /// What it writes into the season file, and where.
    brings: Vec<Entry>,
    file: Arc<Mutex<Vec<Entry>>>,
    /// It waits until this is closed.
    hangs: Option<Receiver<()>>,
}

struct Scripted(Arc<Mutex<Script>>);

impl Exchanger for Scripted {
    fn state(&mut self) -> Sharing {
        self.0.lock().unwrap().sharing.clone().unwrap()
    }

    fn exchange(&mut self, wanted: Wanted, now: DateTime<Utc>, gate: &Gate, tell: &dyn Fn(Sharing)) -> Sharing {
        let hangs = {
            let mut script = self.0.lock().unwrap();
            script.asked.push(wanted);
            script.hangs.take()
        };
        if let Some(hangs) = hangs {
            hangs.recv().unwrap_err();
        }
        gate.pass();
        let mut script = self.0.lock().unwrap();
        let brings = std::mem::take(&mut script.brings);
        let taken = brings.len();
        script.file.lock().unwrap().extend(brings);
        let mut sharing = script.sharing.clone().unwrap();
        for carrier in &mut sharing.carriers {
            carrier.did.taken = taken;
            carrier.next = Some(now + chrono::TimeDelta::minutes(5));
            if carrier.failed.is_none() {
                (carrier.shared, carrier.to_send) = (Some(now), 0);
            }
        }
        tell(sharing.clone());
        script.sharing = Some(sharing.clone());
        sharing
    }
}

fn carrier(to_send: usize) -> CarrierState {
    CarrierState { name: "office".into(), to_send, next: Some(noon()), ..CarrierState::default() }
}

fn sharing(carrier: CarrierState) -> Sharing {
    let (season, laptop) = (Uuid::from_u128(1), "ann-2".to_owned());
    Sharing { season, laptop, carriers: vec![carrier], laptops: Vec::new(), held: 0 }
}

/// The loop of the demo's last day over a storage that has this exchanger, and what a test does with it.
fn with(
    carrier: CarrierState,
    prepare: impl FnOnce(&mut Script),
    on: bool,
    act: impl FnOnce(&mut Loop<'_>, &Arc<Mutex<Script>>),
) {
    let season = Season::of(journal::read(DEMO).unwrap());
    let clock = Fixed::at(noon());
    let look = Look { color: false, ascii: false, palette: Palette::Usual };
    let at = noon().with_timezone(&season.site().unwrap().time_zone).fixed_offset();
    let now = Now { at, ms: 0, id: Uuid::from_u128(1) };
    let mut app = App::new(Model::new(&season, Limits::default(), "kt".into(), now, look));
    let mut storage = Shaky::default();
    let mut script =
        Script { sharing: Some(sharing(carrier)), file: Arc::clone(&storage.arrived), ..Script::default() };
    prepare(&mut script);
    let script = Arc::new(Mutex::new(script));
    storage.exchanger = Some(Box::new(Scripted(Arc::clone(&script))));
    let saving = Saving::new(super::super::Storage::rescue(&storage));
    app.model.set_replayed(on);
    let mut this = Loop {
        app: &mut app,
        storage: &mut storage,
        clock: &clock,
        on: None,
        start: Instant::now(),
        saving,
        dirty: false,
        reading: Reading::default(),
        last_year: last_year::Beside::default(),
        sharing: Shared::default(),
        later: VecDeque::new(),
    };
    act(&mut this, &script);
}

/// Lets the thread go on until the loop has seen what is wanted.
fn until(this: &mut Loop<'_>, wanted: impl Fn(&Loop<'_>) -> bool) {
    let start = Instant::now();
    while !wanted(this) {
        this.share();
        assert!(start.elapsed() < Duration::from_secs(20), "{:?}", this.app.model.sharing);
        std::thread::yield_now();
    }
}

fn rests(this: &Loop<'_>) -> bool {
    this.sharing.begun && !this.sharing.is_running() && this.app.model.sharing.is_some()
}

/// Reads what arrived, as the loop does before the next key.
fn read(this: &mut Loop<'_>) -> bool {
    let arrived = this.look();
    while !this.app.model.loaded {
        this.read();
    }
    arrived
}

fn press(this: &mut Loop<'_>, row: &str) {
    for key in Key::row(row).unwrap() {
        let effects = this.app.event(Event::Key(key), time(this.clock, this.app, None, this.start));
        for effect in effects {
            if let Effect::Append(lines) = effect {
                let outcomes = this.saving.save(this.storage, lines, this.start.elapsed());
                for outcome in outcomes {
                    this.answer(outcome);
                }
            }
        }
    }
}

fn entry(n: u128, place: Place, kind: Kind) -> Entry {
    let at = "2026-10-14T12:00:00-04:00".parse().unwrap();
    Entry { id: Uuid::from_u128(n), at, by: "bob".into(), place, plot: None, kind: kind.into(), note: None }
}

fn said(this: &Loop<'_>) -> String {
    match &this.app.model.status {
        Some(Status::Info(text) | Status::Saved(text, _) | Status::Trouble(text)) => text.clone(),
        None => String::new(),
    }
}

#[test]
fn at_the_start_what_is_known_is_shown_and_what_is_due_is_exchanged() {
    with(
        carrier(14),
        |_| {},
        false,
        |this, script| {
            assert_eq!(this.app.model.shared(), "");
            until(this, |this| this.app.model.sharing.is_some());
            until(this, |this| rests(this) && this.app.model.shared() == "shared just now");
            assert_eq!(script.lock().unwrap().asked, [Wanted::Due]);
        },
    );
}

#[test]
fn what_hangs_holds_up_no_save_and_no_leaving() {
    let (end, hangs) = channel::<()>();
    with(
        carrier(14),
        |script| script.hangs = Some(hangs),
        false,
        |this, script| {
            until(this, |_| !script.lock().unwrap().asked.is_empty());
            press(this, "w3");
            assert_eq!(said(this).split(' ').take(2).collect::<Vec<_>>(), ["saved:", "M4"], "{}", said(this));
            assert_eq!(this.app.model.shared(), "15 to send", "counted though nobody answers");
            assert!(this.sharing.is_running());
            // Leaving: the thread is left behind.
            this.sharing = Shared::default();
            assert_eq!(script.lock().unwrap().asked, [Wanted::Due]);
        },
    );
    drop(end);
}

#[test]
fn what_fails_is_said_in_the_frame_and_in_answer_to_a_person_below_the_page() {
    let why = CarrierError::Unreachable { place: "localhost:5432".into(), why: "connection refused".into() };
    let failed = CarrierState { failed: Some((why, noon() - chrono::TimeDelta::hours(2))), ..carrier(14) };
    with(
        failed,
        |_| {},
        false,
        |this, script| {
            until(this, |this| rests(this) && !script.lock().unwrap().asked.is_empty());
            assert_eq!(this.app.model.shared(), "office cut 2 h, 14 to send");
            assert_eq!(said(this), "", "nobody asked");
            this.share_now();
            assert_eq!(said(this), "Exchanging now; walking and saving go on.");
            until(this, |this| !this.app.model.exchanging);
            assert_eq!(said(this), "office: cannot be reached (localhost:5432: connection refused)");
            assert_eq!(script.lock().unwrap().asked, [Wanted::Due, Wanted::Asked]);
        },
    );
}

#[test]
fn lines_that_arrive_are_taken_in_with_the_laptop_that_wrote_them() {
    let note = || entry(0xb0b, Place::Bench("M3".into()), Kind::Water { level: 2, base: None });
    with(
        carrier(0),
        |script| script.brings = vec![note()],
        false,
        |this, _| {
            press(this, "wnhalf typed");
            until(this, |this| rests(this) && this.app.model.shared() == "shared just now");
            assert!(read(this));
            let season = &this.app.model.season;
            assert_eq!(season.origin(Uuid::from_u128(0xb0b)), Some("bob"));
            assert_eq!(said(this), "1 entry from bob loaded.");
            // The line that is being typed is as it was.
            assert_eq!(this.app.context(), Context::Line);
            press(this, " note{Enter}");
            let notes = this.app.model.season.entries().iter().filter(|e| e.note.as_deref() == Some("half typed note"));
            assert_eq!(notes.count(), 1);
            assert!(!read(this), "nothing more arrived");
        },
    );
}

#[test]
fn a_closure_from_another_laptop_shuts_the_card_at_once_and_keeps_what_was_typed() {
    let fog = || {
        let text = concat!(
            r#"{"type":"journal","version":1}"#,
            "\n",
            r#"{"type":"entry","at":"2026-10-14T12:00:00-04:00","by":"bob","house":"Mill","kind":"sprayed","#,
            r#""ai":"pyrethrins","against":"whitefly","how":"fog","re_entry_h":12}"#
        );
        let lines = journal::read(text).unwrap();
        lines.into_iter().find_map(|line| if let Line::Entry(entry) = line { Some(entry) } else { None }).unwrap()
    };
    with(
        carrier(0),
        |script| script.brings = vec![fog()],
        false,
        |this, _| {
            press(this, "w");
            assert_eq!(this.app.screen.bench(&this.app.model).as_deref(), Some("M4"));
            press(this, "nslow on the line");
            until(this, |this| rests(this) && this.app.model.shared() == "shared just now");
            assert!(read(this));
            assert_eq!(this.app.context(), Context::WalkShut, "the note is closed, the card shut");
            let kept = this.app.model.season.entries().len();
            press(this, "3");
            assert!(said(this).starts_with("Not logged: M4 is closed"), "{}", said(this));
            assert_eq!(this.app.model.season.entries().len(), kept);
            let note = crate::model::DraftKey::Note(Place::Bench("M4".into()));
            assert_eq!(this.app.model.draft(&note), Some("slow on the line"));
        },
    );
}

#[test]
fn on_a_given_day_nothing_is_exchanged_unless_it_is_asked_for() {
    with(
        carrier(3),
        |_| {},
        true,
        |this, script| {
            until(this, rests);
            for _ in 0..50 {
                this.share();
            }
            assert!(script.lock().unwrap().asked.is_empty());
            assert_eq!(this.app.model.shared(), "3 to send");
            this.share_now();
            until(this, |this| !this.app.model.exchanging);
            assert_eq!(script.lock().unwrap().asked, [Wanted::Asked]);
            assert_eq!(said(this), "Shared: nothing new.");
        },
    );
}

#[test]
fn a_season_that_is_not_shared_says_nothing_and_has_no_thread() {
    with(
        carrier(0),
        |_| {},
        false,
        |this, script| {
            this.storage.exchanger();
            for _ in 0..50 {
                assert!(!this.share());
            }
            assert!(this.sharing.begun && !this.sharing.is_running());
            press(this, "w3");
            assert_eq!((this.app.model.shared(), script.lock().unwrap().asked.len()), (String::new(), 0));
        },
    );
}

/// What the thread would be asked for at a time, in seconds since the start; then it has answered.
fn asked(shared: &mut Shared, seconds: u64, sharing: &Sharing, asks: &Receiver<Ask>) -> Option<Wanted> {
    let now = Duration::from_secs(seconds);
    shared.send(Some(sharing), true, (now, noon()));
    let wanted = asks.try_recv().ok().and_then(|ask| match ask {
        Ask::Exchange(wanted, ..) => Some(wanted),
        Ask::State => None,
    });
    if shared.at.take().is_some_and(|at| matches!(at, At::Exchange(_))) {
        shared.ended = Some(now);
    }
    wanted
}

#[test]
fn what_was_saved_goes_out_after_a_rest_and_at_last_while_one_works_on() {
    let later = sharing(CarrierState { next: Some(noon() + chrono::TimeDelta::minutes(5)), ..carrier(0) });
    let (send, asks) = channel::<Ask>();
    let thread = Thread { asks: send, tells: channel().1, handle: std::thread::spawn(|| {}) };
    let mut shared = Shared::default();
    (shared.thread, shared.begun) = (Some(thread), true);
    let save = |shared: &mut Shared, seconds| shared.saved(1, Duration::from_secs(seconds));
    assert_eq!(asked(&mut shared, 1, &later, &asks), None);
    save(&mut shared, 10);
    save(&mut shared, 20);
    assert_eq!(asked(&mut shared, 49, &later, &asks), None, "it only counts");
    assert_eq!(asked(&mut shared, 50, &later, &asks), Some(Wanted::Saved));
    assert_eq!(asked(&mut shared, 100, &later, &asks), None, "once");
    for seconds in (200..320).step_by(10) {
        save(&mut shared, seconds);
        assert_eq!(asked(&mut shared, seconds, &later, &asks), None, "{seconds}");
    }
    assert_eq!(asked(&mut shared, 320, &later, &asks), Some(Wanted::Saved), "two minutes after the first");
    // What is due by the clock, and no sooner again than after a pause, also where its time does not move on.
    let due = sharing(carrier(0));
    assert_eq!(asked(&mut shared, 322, &due, &asks), None);
    assert_eq!(asked(&mut shared, 325, &due, &asks), Some(Wanted::Due));
    assert_eq!(asked(&mut shared, 326, &due, &asks), None);
    assert!(shared.ask());
    assert_eq!(asked(&mut shared, 327, &due, &asks), Some(Wanted::Asked), "a person does not wait");
}

#[test]
fn after_a_save_a_carrier_that_fails_is_left_until_its_time() {
    let later = noon() + chrono::TimeDelta::minutes(5);
    let fails = CarrierState { failed: Some((CarrierError::NoTls, noon())), next: Some(later), ..carrier(1) };
    let goes = CarrierState { next: Some(later), ..carrier(1) };
    let by_command = CarrierState { next: None, ..carrier(1) };
    let takes = |wanted: Wanted| [&fails, &goes, &by_command].map(|carrier| wanted.takes(carrier, noon()));
    assert_eq!(takes(Wanted::Due), [false; 3]);
    assert_eq!(takes(Wanted::Saved), [false, true, false]);
    assert_eq!(takes(Wanted::Asked), [true; 3]);
    assert_eq!([&fails, &goes, &by_command].map(|c| Wanted::Due.takes(c, later)), [true, true, false]);
}

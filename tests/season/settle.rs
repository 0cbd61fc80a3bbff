//! What several laptops' records leave to settle: every row of the table, the same in whatever order it arrives and on
//! whichever laptop it is read.

use benchwalk::journal;
use benchwalk::record::{Entry, Line};
use benchwalk::report::words;
use benchwalk::season::{Origins, Season, Unsettled, both_right, names_as_right};
use benchwalk::units::System;
use chrono::{DateTime, NaiveDate, Utc};
use uuid::Uuid;

const PLAN: &str = r#"{"type":"journal","version":1}
{"type":"site","name":"Wrenby Hill","latitude":44.1,"longitude":-70.21,"time_zone":"America/New_York","units":"us"}
{"type":"lot","lot":"R1","cultivar":"mid red","container":"6.5 in","cuttings_per_pot":1,"pots":240,"planted":"2026-08-17","pinch":"soft","response_weeks":9.5,"nights":"natural","ready_by":"2026-11-27"}
{"type":"lot","lot":"W1","cultivar":"white","container":"6.5 in","cuttings_per_pot":1,"pots":240,"planted":"2026-08-17","pinch":"soft","response_weeks":9.5,"nights":"natural","ready_by":"2026-11-27"}
{"type":"bench","bench":"M1","house":"North","order":1}
{"type":"bench","bench":"M2","house":"North","order":2}
{"type":"bench","bench":"M3","house":"North","order":3}
{"type":"placement","bench":"M1","lot":"R1","pots":80,"from":"2026-08-17"}
{"type":"placement","bench":"M2","lot":"R1","pots":80,"from":"2026-08-17"}
"#;

/// An entry of a laptop: its id, when on Oct 7, who, the rest of the line; `None` for the laptop where it is written.
type Told = (u128, &'static str, &'static str, &'static str, Option<&'static str>);

const BOB: Option<&str> = Some("bob-2");

fn id(n: u128) -> Uuid {
    Uuid::from_u128(0x0199_0000_0000_7000_8000_0000_0000_0000 | n)
}

fn line((n, at, by, rest, _): &Told) -> String {
    let at = if at.contains('T') { (*at).to_owned() } else { format!("2026-10-07T{at}:00-04:00") };
    format!(r#"{{"type":"entry","id":"{}","at":"{at}","by":"{by}",{rest}}}"#, id(*n))
}

fn day() -> NaiveDate {
    "2026-10-07".parse().unwrap()
}

fn noon() -> DateTime<Utc> {
    "2026-10-07T16:00:00Z".parse().unwrap()
}

/// The season as a laptop holds it that wrote the entries without another laptop's name.
fn season(told: &[Told]) -> Season {
    let mut season = Season::of(journal::read(PLAN).unwrap()).on(day());
    let mut shared = Origins::default();
    shared.set_held(0);
    season.add_origins(&shared);
    for one in told {
        let text = format!("{{\"type\":\"journal\",\"version\":1}}\n{}\n", line(one));
        for line in journal::read(&text).unwrap_or_else(|faults| panic!("{faults:?}: {text}")) {
            season.revise(line);
        }
        if let Some(laptop) = one.4 {
            let mut origins = Origins::default();
            origins.add(id(one.0), laptop);
            season.add_origins(&origins);
        }
    }
    season
}

/// The same lines as the other of two laptops holds them.
fn other_side(told: &[Told]) -> Vec<Told> {
    let there = |laptop: Option<&'static str>| if laptop == BOB { None } else { laptop.or(Some("ann-1")) };
    told.iter().map(|(n, at, by, rest, laptop)| (*n, *at, *by, *rest, there(*laptop))).collect()
}

fn words(all: &[Unsettled]) -> Vec<String> {
    all.iter().map(|one| words::settle(one, System::Us)).collect()
}

/// What is listed, whatever each laptop calls the others.
fn listed(season: &Season) -> Vec<String> {
    let all = season.to_settle_at(Some(noon())).into_iter().map(|one| match one {
        Unsettled::Plan(plan) => format!("{} {:?} {:?}", plan.key, plan.before, plan.lines),
        Unsettled::Pots(pots) => format!("{} {} {:?} {:?}", pots.text, pots.day, pots.entry, pots.other),
        Unsettled::Twins(twins) => format!("{:?} {} {:?} {}", twins.kind, twins.day, twins.places, twins.writers.len()),
        Unsettled::NotThere(of) => format!("{:?} {:?}", of.what, of.lines),
        Unsettled::Clock(of) => format!("{:?} {}", of.lines, of.minutes),
        Unsettled::Held(lines) => format!("{lines}"),
    });
    all.collect()
}

/// What is to settle at noon, after it was seen to be the same in both orders of arrival and on both laptops.
fn told(told: &[Told]) -> Vec<String> {
    let here = season(told);
    let mut back: Vec<Told> = told.to_vec();
    back.reverse();
    assert_eq!(
        words(&season(&back).to_settle_at(Some(noon()))),
        words(&here.to_settle_at(Some(noon()))),
        "the order of arrival"
    );
    assert_eq!(listed(&season(&other_side(told))), listed(&here), "on the other laptop");
    words(&here.to_settle_at(Some(noon())))
}

const SOLD: &str = r#""bench":"M1","kind":"sold","pots":20"#;

#[test]
fn the_same_sale_on_two_laptops_is_asked_about_and_both_count_meanwhile() {
    let both = [(1, "09:00", "ann", SOLD, None), (2, "09:05", "bob", SOLD, BOB)];
    assert_eq!(told(&both), ["M1, Wed Oct 7: sold 20 pots, logged twice? ann 09:00, bob (bob-2) 09:05"]);
    assert_eq!(season(&both).standing("M1", day()).unwrap().pots, 40);
    // From one laptop, of another day, with another number or at another bench it is no twin.
    for other in [
        (2, "09:05", "bob", SOLD, None),
        (2, "2026-10-06T09:05:00-04:00", "bob", SOLD, BOB),
        (2, "09:05", "bob", r#""bench":"M1","kind":"sold","pots":21"#, BOB),
        (2, "09:05", "bob", r#""bench":"M2","kind":"sold","pots":20"#, BOB),
        (2, "09:05", "bob", r#""bench":"M1","kind":"losses","pots":20"#, BOB),
    ] {
        assert_eq!(told(&[both[0], other]), [""; 0], "{other:?}");
    }
}

#[test]
fn every_kind_of_work_that_is_asked_about_and_none_besides() {
    let kinds = [
        r#""kind":"sold","pots":2"#,
        r#""kind":"losses","pots":2,"cause":"stem broken""#,
        r#""kind":"moved","to":"M3","pots":2"#,
        r#""kind":"grade","sell":70,"second":5,"dump":2"#,
        r#""kind":"fed","n_ppm":150.0"#,
        r#""kind":"watered","ml_per_pot":300.0"#,
        r#""kind":"topdressed","g_per_pot":3.0"#,
        r#""kind":"nutrient","material":"magnesium-sulfate","ppm":50.0,"how":"drench""#,
        r#""kind":"growth-regulator","parts":[{"ai":"daminozide","ppm":1000.0}],"how":"spray","rei_h":12.0"#,
        r#""kind":"sprayed","ai":"spinosad","against":"thrips","how":"spray","rei_h":4.0"#,
        r#""kind":"released","species":"Encarsia","count":500"#,
    ];
    for kind in kinds {
        let rest: &'static str = Box::leak(format!(r#""bench":"M1",{kind}"#).into_boxed_str());
        let found = told(&[(1, "09:00", "ann", rest, None), (2, "09:05", "bob", rest, BOB)]);
        assert_eq!(found.len(), 1, "{kind}: {found:?}");
        assert!(found[0].ends_with("logged twice? ann 09:00, bob (bob-2) 09:05"), "{found:?}");
    }
    for kind in [r#""kind":"water","level":3"#, r#""kind":"counted","pots":80"#, r#""kind":"note","note":"seen""#] {
        let rest: &'static str = Box::leak(format!(r#""bench":"M1",{kind}"#).into_boxed_str());
        assert_eq!(told(&[(1, "09:00", "ann", rest, None), (2, "09:05", "bob", rest, BOB)]), [""; 0], "{kind}");
    }
}

#[test]
fn how_a_cause_a_product_or_a_species_is_worded_is_no_number() {
    let twins = [
        (r#""kind":"losses","pots":2,"cause":"stem broken""#, r#""kind":"losses","pots":2"#),
        (
            r#""kind":"sprayed","ai":"Spinosad","against":"thrips","how":"spray","rei_h":4.0,"product":"a""#,
            r#""kind":"sprayed","ai":"spinosad","against":"western flower thrips","how":"spray","rei_h":4.0"#,
        ),
    ];
    let no_twins = [(
        r#""kind":"sprayed","ai":"spinosad","against":"thrips","how":"spray","rei_h":4.0"#,
        r#""kind":"sprayed","ai":"abamectin","against":"thrips","how":"spray","rei_h":4.0"#,
    )];
    for (at, (a, b)) in twins.iter().chain(&no_twins).enumerate() {
        let place = if a.contains("losses") { r#""bench":"M1""# } else { r#""house":"North""# };
        let rest = |kind: &str| -> &'static str { Box::leak(format!("{place},{kind}").into_boxed_str()) };
        let (a, b) = (rest(a), rest(b));
        let found = told(&[(1, "09:00", "ann", a, None), (2, "09:05", "bob", b, BOB)]);
        assert_eq!(found.len(), usize::from(at < twins.len()), "{found:?}");
    }
}

#[test]
fn the_same_work_at_several_places_by_the_same_people_is_one_thing_to_settle() {
    let fed = |bench: &str| -> &'static str {
        Box::leak(format!(r#""bench":"{bench}","kind":"fed","n_ppm":150.0"#).into_boxed_str())
    };
    let all = [
        (1, "09:00", "ann", fed("M1"), None),
        (2, "09:00", "ann", fed("M2"), None),
        (3, "10:00", "bob", fed("M2"), BOB),
        (4, "10:00", "bob", fed("M1"), BOB),
    ];
    assert_eq!(told(&all), ["M1, M2, Wed Oct 7: fed 150 ppm N, logged twice? ann 09:00, bob (bob-2) 10:00"]);
    let season = season(&all);
    let Some(Unsettled::Twins(twins)) = season.to_settle().into_iter().next() else { panic!() };
    assert_eq!(twins.of(&season, &twins.writers[1]), [id(4), id(3)]);
}

#[test]
fn a_voided_entry_is_no_twin_and_a_note_that_both_are_right_settles_it() {
    let twins = [(1, "09:00", "ann", SOLD, None), (2, "09:05", "bob", SOLD, BOB)];
    let strike: &'static str =
        Box::leak(format!(r#""bench":"M1","kind":"strike","entry":"{}","why":"logged twice""#, id(2)).into_boxed_str());
    assert_eq!(told(&[twins[0], twins[1], (3, "09:30", "ann", strike, None)]), [""; 0]);

    let right: &'static str =
        Box::leak(format!(r#""bench":"M1","kind":"note","note":"{}""#, both_right(&[id(1), id(2)])).into_boxed_str());
    let noted = [twins[0], twins[1], (3, "09:30", "cyd", right, Some("cyd-3"))];
    assert_eq!(told(&noted), [""; 0]);
    // A third one that comes later is asked about, and a voided note says nothing.
    let third = (4, "09:40", "cyd", SOLD, Some("cyd-3"));
    assert_eq!(told(&[noted[0], noted[1], noted[2], third]).len(), 1);
    let voided: &'static str =
        Box::leak(format!(r#""bench":"M1","kind":"strike","entry":"{}","why":"not so""#, id(3)).into_boxed_str());
    assert_eq!(told(&[noted[0], noted[1], noted[2], (5, "09:50", "ann", voided, None)]).len(), 1);
}

#[test]
fn the_note_is_read_as_it_is_spelled_and_other_notes_are_none() {
    let entry = |note: &str| -> Entry {
        let text = format!(
            "{{\"type\":\"journal\",\"version\":1}}\n{}\n",
            line(&(
                1,
                "09:00",
                "ann",
                Box::leak(format!(r#""bench":"M1","kind":"note","note":"{note}""#).into_boxed_str()),
                None
            ))
        );
        let Some(Line::Entry(entry)) = journal::read(&text).unwrap().pop() else { panic!() };
        entry
    };
    let text = both_right(&[id(1), id(2)]);
    assert_eq!(text, "both right: 01990000-0000-7000-8000-000000000001 01990000-0000-7000-8000-000000000002");
    assert_eq!(names_as_right(&entry(&text)), [id(1), id(2)]);
    assert_eq!(names_as_right(&entry("both right: they say")), Vec::<Uuid>::new());
    assert_eq!(names_as_right(&entry("wilted")), Vec::<Uuid>::new());
}

#[test]
fn the_same_initials_on_two_laptops_are_told_apart() {
    let both = [(1, "09:00", "ann", SOLD, None), (2, "09:05", "ann", SOLD, BOB)];
    assert_eq!(
        words(&season(&both).to_settle()),
        ["M1, Wed Oct 7: sold 20 pots, logged twice? ann (this laptop) 09:00, ann (bob-2) 09:05"]
    );
}

#[test]
fn pots_moved_beyond_what_stands_are_told_with_both_writers() {
    let moved = r#""bench":"M1","kind":"moved","to":"M3","pots":80"#;
    let again = r#""bench":"M1","kind":"moved","to":"M3","pots":60"#;
    let all = [(1, "09:00", "ann", moved, None), (2, "09:05", "bob", again, BOB)];
    assert_eq!(
        told(&all),
        [
            "60 moved off bench M1 on 2026-10-07, but 0 are there; first log how pots came there (a placement or a move); or \
         void what was logged twice (written by bob (bob-2) Wed Oct 7 09:05, ann Wed Oct 7 09:00)"
        ]
    );
}

#[test]
fn two_lots_moved_to_one_bench_are_told_with_both_writers() {
    let plan = PLAN.replace(r#""bench":"M2","lot":"R1""#, r#""bench":"M2","lot":"W1""#);
    let mut season = Season::of(journal::read(&plan).unwrap()).on(day());
    for (n, bench, by) in [(1, "M1", "ann"), (2, "M2", "bob")] {
        let rest = Box::leak(format!(r#""bench":"{bench}","kind":"moved","to":"M3","pots":40"#).into_boxed_str());
        let text = format!("{{\"type\":\"journal\",\"version\":1}}\n{}\n", line(&(n, "09:00", by, rest, None)));
        journal::read(&text).unwrap().into_iter().for_each(|line| season.revise(line));
    }
    let mut origins = Origins::default();
    origins.add(id(2), "bob-2");
    season.add_origins(&origins);
    let said = words(&season.to_settle());
    assert_eq!(said.len(), 1, "{said:?}");
    assert!(said[0].starts_with("M3 already holds lot R1, and lot W1 cannot join it"), "{said:?}");
    assert!(said[0].ends_with("(written by bob (bob-2) Wed Oct 7 09:00, ann Wed Oct 7 09:00)"), "{said:?}");
}

#[test]
fn a_laptop_that_writes_later_than_now_is_told_with_the_amount() {
    let water = r#""bench":"M1","kind":"water","level":3"#;
    // Noon at the site; clocks may differ by ten minutes.
    assert_eq!(told(&[(1, "12:10", "bob", water, BOB)]), [""; 0]);
    assert_eq!(told(&[(1, "12:11", "bob", water, BOB), (2, "15:02", "bob", water, BOB)]), [
        "the clock of bob-2 is 3 h 2 min ahead of this one: 2 lines written later than now, the last by bob (bob-2) Wed \
         Oct 7 15:02. Set the clock, then void its entries of that time and log them again"
    ]
    .map(String::from));
    let tomorrow = season(&[(1, "2026-10-08T13:00:00-04:00", "bob", water, BOB)]);
    let said = words(&tomorrow.to_settle_at(Some(noon())));
    assert!(said[0].starts_with("the clock of bob-2 is 1 day 1 h ahead of this one: 1 line"), "{said:?}");
    assert_eq!(tomorrow.to_settle(), [], "without a clock no clock is judged");
}

#[test]
fn what_is_named_and_not_there_is_told_after_a_day() {
    let at_n9 = r#""bench":"M9","kind":"water","level":3"#;
    let early = (1, "2026-10-06T11:59:00-04:00", "bob", at_n9, BOB);
    let late = (2, "2026-10-06T12:01:00-04:00", "bob", at_n9, BOB);
    assert_eq!(told(&[late]), [""; 0], "it may still come");
    assert_eq!(
        told(&[early, late]),
        [
            "bench M9 is not in the plan: 2 lines name it, bob (bob-2) Tue Oct 6 11:59 first. Share with that laptop, or add \
         bench M9 in Setup"
        ]
    );
    let strike: &'static str =
        Box::leak(format!(r#""bench":"M1","kind":"strike","entry":"{}","why":"twice""#, id(77)).into_boxed_str());
    assert_eq!(
        told(&[(3, "2026-10-06T09:00:00-04:00", "bob", strike, BOB)]),
        [
            "the entry 01990000 is not here, but bob (bob-2) Tue Oct 6 09:00 voided it. Share with the laptop that logged it"
        ]
    );
    for (rest, what) in [
        (r#""house":"Sauth","kind":"climate","day_c":20.0"#, "house Sauth"),
        (r#""lot":"R9","kind":"pinched","how":"soft""#, "lot R9"),
        (r#""bench":"M1","kind":"moved","to":"M8","pots":1"#, "bench M8"),
    ] {
        let said = told(&[(1, "2026-10-06T09:00:00-04:00", "bob", rest, BOB)]);
        assert!(
            said[0].starts_with(&format!("{what} is not in the plan: bob (bob-2) Tue Oct 6 09:00 named it")),
            "{said:?}"
        );
    }
}

#[test]
fn lines_of_a_newer_program_are_counted() {
    for (held, text) in [
        (1, "1 line of a newer program is not understood here: update this program"),
        (3, "3 lines of a newer program are not understood here: update this program"),
    ] {
        let mut origins = Origins::default();
        origins.set_held(held);
        let mut season = season(&[]);
        season.add_origins(&origins);
        assert_eq!(words(&season.to_settle()), [text]);
    }
}

#[test]
fn nothing_of_two_laptops_is_asked_where_nothing_is_shared() {
    let ahead = (3, "15:00", "ann", SOLD, None);
    let unknown = (4, "2026-10-02T15:00:00-04:00", "ann", r#""bench":"M9","kind":"water","level":3"#, None);
    let alone = [(1, "09:00", "ann", SOLD, None), (2, "09:05", "ann", SOLD, None), ahead, unknown];
    let shared = season(&alone);
    assert_eq!(shared.to_settle_at(Some(noon())).len(), 2);
    let lines = shared.plan().lines().into_iter().chain(shared.entries().iter().cloned().map(Line::Entry));
    assert_eq!(Season::of(lines).on(day()).to_settle_at(Some(noon())), []);
}

const SPRAYED: &str =
    r#""house":"North","kind":"sprayed","ai":"spinosad","against":"thrips","how":"spray","rei_h":12.0"#;

/// A strike of the first entry, at North.
fn strike_of(reopen: bool) -> &'static str {
    let reopen = if reopen { r#","reopen":true"# } else { "" };
    let text = format!(r#""house":"North","kind":"strike","entry":"{}","why":"not so"{reopen}"#, id(1));
    Box::leak(text.into_boxed_str())
}

#[test]
fn a_place_opens_only_where_every_strike_says_so() {
    let spray = (1, "09:00", "ann", SPRAYED, None);
    for (first, second, opens) in
        [(true, true, true), (true, false, false), (false, true, false), (false, false, false)]
    {
        let mut all =
            vec![spray, (2, "09:30", "ann", strike_of(first), None), (3, "09:40", "bob", strike_of(second), BOB)];
        for _ in 0..2 {
            let season = season(&all);
            let closed = season.keep_out_at_present("M1", noon());
            assert_eq!(closed.is_none(), opens, "{first} {second}: {closed:?}");
            assert!(season.is_struck(season.entry(id(1)).unwrap(), day()));
            assert_eq!(season.to_settle_at(Some(noon())), [], "two strikes are nothing to settle");
            all.reverse();
        }
    }
    // One strike alone opens as it did before.
    let alone = season(&[spray, (2, "09:30", "ann", strike_of(true), None)]);
    assert_eq!(alone.keep_out_at_present("M1", noon()), None);
}

#[test]
fn an_entry_struck_twice_is_struck_from_the_first_strike_on() {
    let strike = |n: u128, at: &'static str, laptop| {
        let rest = format!(r#""bench":"M1","kind":"strike","entry":"{}","why":"twice""#, id(1));
        (n, at, "bob", Box::leak(rest.into_boxed_str()) as &'static str, laptop)
    };
    let all = [
        (1, "2026-10-04T09:00:00-04:00", "ann", SOLD, None),
        strike(2, "2026-10-05T09:00:00-04:00", None),
        strike(3, "2026-10-06T09:00:00-04:00", BOB),
    ];
    let season = season(&all);
    let sold = season.entry(id(1)).unwrap();
    let struck = |day: &str| season.is_struck(sold, day.parse().unwrap());
    assert_eq!([struck("2026-10-04"), struck("2026-10-05"), struck("2026-10-06")], [false, true, true]);
    assert_eq!(season.standing("M1", "2026-10-05".parse().unwrap()).unwrap().pots, 80);
    assert_eq!(season.standing("M1", "2026-10-04".parse().unwrap()).unwrap().pots, 60);
}

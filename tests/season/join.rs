//! Joining is a union: whatever several laptops wrote of the plan, and in whatever order their files meet, all come to hold
//! the same, and the same is left to settle.

use benchwalk::journal;
use benchwalk::record::{Line, Revision};
use benchwalk::season::Season;
use chrono::{DateTime, FixedOffset, TimeDelta};
use proptest::prelude::*;
use uuid::Uuid;

/// A site, a lot and two benches.
const SMALL: &str = r#"{"type":"journal","version":1}
{"type":"site","name":"Thistlecot","latitude":44.1,"longitude":-70.21,"time_zone":"America/New_York","units":"us"}
{"type":"lot","lot":"R1","cultivar":"mid red","container":"6.5 in","cuttings_per_pot":1,"pots":240,"planted":"2026-08-17","pinch":"soft","response_weeks":9.5,"nights":"natural","ready_by":"2026-11-27"}
{"type":"bench","bench":"E1","house":"East","order":1}
{"type":"bench","bench":"E2","house":"East","order":2}
"#;

/// What happens: a laptop writes a revision of a key, or takes in what another has.
#[derive(Debug, Clone)]
enum Step {
    Write { laptop: usize, key: usize, number: u32, minutes: i64, corrects: bool },
    Join { from: usize, to: usize },
}

fn steps() -> impl Strategy<Value = Vec<Step>> {
    let write = (0..3_usize, 0..3_usize, 1..4_u32, 0..5_000_i64, any::<bool>())
        .prop_map(|(laptop, key, number, minutes, corrects)| Step::Write { laptop, key, number, minutes, corrects });
    let join = (0..3_usize, 0..3_usize).prop_map(|(from, to)| Step::Join { from, to });
    prop::collection::vec(prop_oneof![2 => write, 1 => join], 0..40)
}

fn start() -> DateTime<FixedOffset> {
    "2026-10-01T08:00:00-04:00".parse().unwrap()
}

fn write(season: &mut Season, key: usize, number: u32, minutes: i64, (corrects, id): (bool, u128)) {
    let lines = season.plan().lines();
    let mut line = lines.iter().filter(|l| matches!(l, Line::Lot(_) | Line::Bench(_))).nth(key).unwrap().clone();
    match &mut line {
        Line::Lot(lot) => lot.pots = number,
        Line::Bench(bench) => bench.order = number,
        _ => unreachable!(),
    }
    let mut replaces: Vec<Uuid> = season.heads(&line.key()).iter().map(Line::id).collect();
    replaces.sort_unstable();
    *line.revision_mut().unwrap() = Revision {
        id: Some(Uuid::from_u128(id)),
        at: Some(start() + TimeDelta::minutes(minutes)),
        by: Some("ann".to_owned()),
        replaces: Some(replaces),
        corrects,
        ..Revision::default()
    };
    season.revise(line);
}

fn join(from: &Season, to: &mut Season) {
    for line in from.plan().lines() {
        to.revise(line);
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 48, ..ProptestConfig::default() })]

    #[test]
    fn any_order_of_joins_comes_to_the_same(steps in steps()) {
        let first = Season::of(journal::read(SMALL).unwrap());
        let mut laptops = [first.clone(), first.clone(), first];
        let mut writes = 0_u128;
        for step in steps {
            match step {
                Step::Write { laptop, key, number, minutes, corrects } => {
                    writes += 1;
                    write(&mut laptops[laptop], key, number, minutes, (corrects, writes));
                }
                Step::Join { from, to } => {
                    let from = laptops[from].clone();
                    join(&from, &mut laptops[to]);
                }
            }
        }
        for _ in 0..2 {
            for (from, to) in [(0, 1), (1, 2), (2, 0)] {
                let from = laptops[from].clone();
                join(&from, &mut laptops[to]);
            }
        }
        let texts: Vec<String> =
            laptops.iter().map(|s| journal::write(None, s.plan(), s.entries())).collect();
        prop_assert_eq!(&texts[0], &texts[1]);
        prop_assert_eq!(&texts[1], &texts[2]);
        prop_assert_eq!(laptops[0].plan().lines().len(), laptops[2].plan().lines().len());
        prop_assert_eq!(laptops[0].plan().lines().len() as u128, 4 + writes, "nothing is lost, nothing twice");
        for day in [start().date_naive(), start().date_naive() + TimeDelta::days(2)] {
            let views = laptops.each_ref().map(|s| s.on(day));
            prop_assert_eq!(views[0].to_settle(), views[1].to_settle());
            prop_assert_eq!(views[0].lots(), views[2].lots());
            prop_assert_eq!(views[0].benches(), views[2].benches());
        }
        prop_assert_eq!(laptops[0].to_settle(), laptops[2].to_settle());
    }
}

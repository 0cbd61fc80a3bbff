//! The journal of a made-up season for load: water daily with dry-down, weekly roots, pests, heights and bracts, root zone tests
//! every two weeks. No fault is put in.

use chrono::NaiveDate;
use std::fmt::Write;

/// The day it was planted.
pub(crate) const PLANTED: (i32, u32, u32) = (2026, 8, 10);

struct Dice(u64);

impl Dice {
    fn below(&mut self, most: u64) -> u64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 33) % most
    }
}

/// A season of so many benches, fifty a house and 25 a lot, with so many days written.
pub(crate) fn journal(benches: u32, days: u32) -> String {
    let planted = NaiveDate::from_ymd_opt(PLANTED.0, PLANTED.1, PLANTED.2).unwrap();
    let mut text = String::from(
        "{\"type\":\"journal\",\"version\":1}\n{\"type\":\"site\",\"name\":\"Load Site\",\"latitude\":43.2,\"longitude\":-73.1,\
         \"time_zone\":\"America/New_York\",\"units\":\"us\",\"region\":\"cool\"}\n",
    );
    let lots = (benches / 25).max(1);
    for lot in 0..lots {
        writeln!(
            text,
            "{{\"type\":\"lot\",\"lot\":\"L{lot}\",\"cultivar\":\"mid red\",\"container\":\"6 in\",\"rim_cm\":15.2,\
             \"pot_height_cm\":11.4,\"cuttings_per_pot\":1,\"pots\":2000,\"planted\":\"{planted}\",\"pinch\":\"soft\",\
             \"response_weeks\":9,\"nights\":\"natural\",\"height_low_cm\":35,\"height_high_cm\":42,\"ready_by\":\"2026-11-27\",\
             \"feed_n_ppm\":150,\"feed_mg_ppm\":32,\"feed_mo_ppm\":0.1}}\n\
             {{\"type\":\"order\",\"lot\":\"L{lot}\",\"date\":\"2026-11-27\",\"pots\":1000}}"
        )
        .unwrap();
    }
    let code = |n: u32| format!("H{}-{:02}", n / 50 + 1, n % 50 + 1);
    for n in 0..benches {
        writeln!(
            text,
            "{{\"type\":\"bench\",\"bench\":\"{bench}\",\"house\":\"H{}\",\"order\":{},\"area_m2\":9.0}}\n\
             {{\"type\":\"placement\",\"bench\":\"{bench}\",\"lot\":\"L{}\",\"pots\":80,\"from\":\"{planted}\"}}",
            n / 50 + 1,
            n + 1,
            n % lots,
            bench = code(n)
        )
        .unwrap();
    }
    let mut dice = Dice(1);
    for n in 0..benches {
        one_bench(&code(n), u64::from(n), (planted, days), &mut dice, &mut text);
    }
    text
}

fn one_bench(bench: &str, n: u64, (planted, days): (NaiveDate, u32), dice: &mut Dice, text: &mut String) {
    let winter = NaiveDate::from_ymd_opt(2026, 11, 1).unwrap();
    let mut level = 2 + dice.below(4);
    for (i, day) in (0_u64..).zip(planted.iter_days().take(days as usize)) {
        let offset = if day >= winter { "-05:00" } else { "-04:00" };
        let (minute, second) = (dice.below(50), dice.below(60));
        let mut line = |hour: u32, more: u64, rest: String| {
            writeln!(
                text,
                "{{\"type\":\"entry\",\"at\":\"{day}T{hour:02}:{:02}:{second:02}{offset}\",\"by\":\"ld\",\"bench\":\"{bench}\",{rest}}}",
                minute + more
            )
            .unwrap();
        };
        line(7, 0, format!("\"kind\":\"water\",\"level\":{level}"));
        if level <= 2 {
            line(10, 0, "\"kind\":\"watered\"".to_owned());
            level = 5;
        } else {
            level = level.saturating_sub(dice.below(3).min(1)).max(2);
        }
        if i == 14 {
            line(11, 0, "\"kind\":\"pinched\",\"how\":\"soft\"".to_owned());
        }
        if i >= 10 && (i + n).is_multiple_of(7) {
            line(7, 1, "\"kind\":\"roots\",\"score\":0,\"pots\":3,\"reach\":\"wall\"".to_owned());
            line(7, 2, "\"kind\":\"pests\",\"pest\":\"whitefly\",\"inspected\":20,\"infested\":0".to_owned());
        }
        if i >= 15 && (i + n) % 7 == 2 {
            let mean = 19.0 + 19.0 * (i - 14) as f64 / 95.0;
            let cm: Vec<String> = (0..6).map(|_| format!("{:.1}", mean + dice.below(11) as f64 / 10.0 - 0.5)).collect();
            line(7, 3, format!("\"kind\":\"height\",\"cm\":[{}]", cm.join(",")));
        }
        if i >= 40 && (i + n) % 7 == 4 {
            line(7, 4, format!("\"kind\":\"bracts\",\"stage\":{}", (1 + (i - 40) / 10).min(7)));
        }
        if i % 14 == 3 {
            line(
                9,
                0,
                "\"kind\":\"root-zone\",\"method\":\"pour-through\",\"ph\":5.9,\"ec_ms_cm\":2.8,\"pots\":5".to_owned(),
            );
        }
    }
}

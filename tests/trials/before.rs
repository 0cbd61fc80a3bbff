//! What was read before the treatment sharpens the comparison after it.

use crate::field::{Field, date, near};
use benchwalk::record::TrialReading;
use benchwalk::trials::{Over, Readings, Rules, analyze};

/// Eelworms in the soil of 48 plots before and after fumigation: block, fumigant and dose (control four times a block), counts (Cochran
/// and Cox 1957, Experimental Designs, as in agridat).
const EELWORMS: [(u32, &str, f64, f64); 48] = [
    (1, "Con0", 269.0, 466.0),
    (1, "See2", 283.0, 280.0),
    (1, "Chl1", 252.0, 398.0),
    (1, "Cym1", 212.0, 386.0),
    (1, "Car1", 138.0, 194.0),
    (1, "Con0", 100.0, 219.0),
    (1, "Con0", 197.0, 421.0),
    (1, "Cym2", 263.0, 379.0),
    (1, "Car2", 282.0, 372.0),
    (1, "See1", 230.0, 256.0),
    (1, "Con0", 216.0, 708.0),
    (1, "Chl2", 145.0, 304.0),
    (2, "See1", 124.0, 268.0),
    (2, "Con0", 211.0, 505.0),
    (2, "Car1", 194.0, 433.0),
    (2, "See2", 222.0, 408.0),
    (2, "Con0", 102.0, 363.0),
    (2, "Chl2", 193.0, 561.0),
    (2, "Car2", 128.0, 311.0),
    (2, "Chl1", 42.0, 222.0),
    (2, "Cym2", 162.0, 365.0),
    (2, "Con0", 191.0, 563.0),
    (2, "Cym1", 107.0, 415.0),
    (2, "Con0", 67.0, 338.0),
    (3, "See2", 193.0, 292.0),
    (3, "Con0", 209.0, 352.0),
    (3, "See1", 109.0, 132.0),
    (3, "Cym1", 153.0, 454.0),
    (3, "Con0", 29.0, 254.0),
    (3, "Chl2", 9.0, 92.0),
    (3, "Car2", 17.0, 28.0),
    (3, "Con0", 19.0, 106.0),
    (3, "Car1", 23.0, 80.0),
    (3, "Chl1", 19.0, 114.0),
    (3, "Con0", 44.0, 268.0),
    (3, "Cym2", 48.0, 298.0),
    (4, "Cym2", 95.0, 199.0),
    (4, "Car2", 127.0, 166.0),
    (4, "See2", 80.0, 142.0),
    (4, "Con0", 134.0, 590.0),
    (4, "See1", 107.0, 236.0),
    (4, "Chl1", 89.0, 332.0),
    (4, "Cym1", 41.0, 176.0),
    (4, "Con0", 74.0, 137.0),
    (4, "Con0", 88.0, 356.0),
    (4, "Con0", 25.0, 212.0),
    (4, "Chl2", 42.0, 308.0),
    (4, "Car1", 62.0, 221.0),
];

const TREATMENTS: [&str; 9] = ["Car1", "Car2", "Chl1", "Chl2", "Con0", "Cym1", "Cym2", "See1", "See2"];

/// The counts as logarithms, written as heights: before on October 1, treated on October 2, after on October 12.
fn eelworms() -> Field {
    let mut field = Field::new();
    field.trial("randomized-blocks", &TREATMENTS, r#","reads":["height"],"control":"Con0""#);
    for (n, (block, treatment, before, after)) in (1..).zip(EELWORMS) {
        field.plot(n, ("M4", block, n), Some(block), treatment);
        field.height(date(10, 1), n, &[before.ln()]);
        field.entry(date(10, 2), n, r#""kind":"topdressed","g_per_pot":4"#);
        field.height(date(10, 12), n, &[after.ln()]);
    }
    field
}

fn analyzed(field: &Field, before: bool) -> (f64, f64, f64, usize) {
    let readings = field.readings(date(10, 12));
    let data = readings.data(TrialReading::Height, Over::Day(date(10, 12)), before).unwrap();
    let analysis = analyze(&data, Rules::default()).unwrap();
    let rest = analysis.rest.squares;
    (rest.mean().unwrap(), analysis.treatment.f.unwrap(), analysis.treatment.p.unwrap(), rest.df)
}

#[test]
fn a_reading_before_the_treatment_takes_most_of_the_spread_out() {
    let field = eelworms();
    assert_eq!(field.readings(date(10, 12)).baseline(TrialReading::Height), Some(date(10, 1)));
    // Computed from the normal equations beside the program.
    let (rest, f, p, df) = analyzed(&field, false);
    near(rest, 0.238_021_359_3, 1e-9);
    near(f, 1.461_933_267_8, 1e-8);
    assert!(df == 36 && (p - 0.21).abs() < 0.005, "{df} {p}");
    let (rest, f, p, df) = analyzed(&field, true);
    near(rest, 0.095_940_956_5, 1e-9);
    near(f, 4.706_697_046_1, 1e-8);
    assert!(df == 35 && (p - 0.0006).abs() < 0.0001, "{df} {p}");
}

#[test]
fn only_a_day_before_the_treatment_on_which_every_plot_was_read_is_taken() {
    let baseline = |field: &Field| field.readings(date(10, 12)).baseline(TrialReading::Height);
    // One plot is missing on the day before the treatment.
    let mut field = Field::new();
    field.trial("as-laid", &["0 g", "8 g"], r#","reads":["height"]"#);
    for n in 1..=8 {
        field.plot(n, ("M4", 1, n), None, if n % 2 == 0 { "8 g" } else { "0 g" });
        field.height(date(9, 20), n, &[19.0]);
        field.height(date(9, 24), n, &[20.0]);
        if n > 1 {
            field.height(date(10, 1), n, &[21.0]);
        }
        field.height(date(10, 2), n, &[21.5]);
    }
    assert_eq!(baseline(&field), None, "no treatment is written as given");
    field.entry(date(10, 2), 2, r#""kind":"topdressed","g_per_pot":8"#);
    assert_eq!(baseline(&field), Some(date(9, 24)), "not the day of the treatment, nor the day with a plot missing");
    // More than two weeks before the first reading is too long ago.
    let mut late = Field::new();
    late.trial("as-laid", &["0 g", "8 g"], r#","reads":["height"]"#);
    for n in 1..=2 {
        late.plot(n, ("M4", 1, n), None, if n == 2 { "8 g" } else { "0 g" });
        late.height(date(9, 20), n, &[19.0]);
        late.entry(date(10, 2), n, r#""kind":"topdressed","g_per_pot":8"#);
    }
    assert_eq!(baseline(&late), None);
    assert!(Readings::of(&late.season(), "T2", date(10, 12)).is_none(), "no such trial");
}

//! Growth-regulator amounts against printed dilution tables and labels.

use super::basis::{Basis, Row};
use benchwalk::crop::growth_regulator::{
    Amount, Ingredient, PackCheck, SprayRate, Strength, check_pack, dose_per_pot, drench_volume, measured_out, packs,
    pots_from, ppm_for_dose, ppm_made, product_for, spray_volume, strong, usual_drench,
};
use benchwalk::limits::Limits;
use benchwalk::terms::Method;
use benchwalk::units::System::{Metric, Us};
use benchwalk::units::{Area, Concentration, Length, Mass, Quantity, Volume, parse};

const MSU_GUIDE: Basis = Basis::Published("Runkle (Michigan State), PGR dilution guide");
const MSU_SIZE: Basis = Basis::Published("Runkle (Michigan State), Increasing poinsettia size");
const MSU_DRENCH: Basis = Basis::Published("Runkle (Michigan State), PGR drench guidelines");
const MSU_2002: Basis =
    Basis::Published("Michigan State, Using paclobutrazol to control height of poinsettia, 2002 (abstract)");
const BRANCHING: Basis = Basis::Published("breeder's production guide, ethephon on poinsettia to stimulate branching");
const LABEL_PACLO: Basis = Basis::Published("label, paclobutrazol 0.4%");
const LABEL_UNI_A: Basis = Basis::Published("label, uniconazole-P 0.055%, first product");
const LABEL_UNI_B: Basis = Basis::Published("label, uniconazole-P 0.055%, second product");
const PAINT: Basis = Basis::Published("North Carolina State, Response of poinsettias to paclobutrazol in paint");
const VOLUME: Basis = Basis::Published("Pilon, PGRs: the importance of volume, 2010");
const NEWSLETTER: Basis = Basis::Published("university newsletter, growth regulator general advice, 2015");
const NEW_YORK: Basis = Basis::Published("New York State Flower Industries, Poinsettia production, 1970");
const TRADE: Basis = Basis::Published("trade press, poinsettia height control strategies");
const GEORGIA: Basis = Basis::Published("University of Georgia agriculture-teachers' list, 2011 and 2012");
const CONNECTICUT: Basis = Basis::Published("University of Connecticut, HortScience 25(9), 1990 (doses in mg a pot)");
const PURDUE: Basis =
    Basis::Published("Currey and Lopez (Purdue), Early growth regulator drenches, 2010 (ppm and volume)");
const OURS: Basis =
    Basis::Computed("the formula, with US units from NIST Handbook 44, reckoned apart from the program");

pub(crate) fn rows() -> Vec<Row> {
    [dilution(), a_gallon(), doses(), areas_and_pots(), rules_of_thumb(), whole_jobs(), packs_and_tops()].concat()
}

fn volume(text: &str) -> Volume {
    parse(text, Metric).unwrap()
}

fn ppm(value: f64) -> Concentration {
    Concentration::from_ppm(value)
}

/// g or mL of product.
fn base(value: f64, solution: &str, strength: &str) -> f64 {
    product_for(ppm(value), volume(solution), Strength::parse(strength).unwrap()).unwrap().base()
}

fn fluid_ounces(ml: f64) -> f64 {
    ml / volume("1 fl oz").ml()
}

fn ounces(g: f64) -> f64 {
    Mass::from_g(g).in_system(Us)
}

fn mg(value: f64, per_pot: &str) -> f64 {
    dose_per_pot(ppm(value), volume(per_pot)).unwrap().g() * 1000.0
}

fn dilution() -> Vec<Row> {
    let rounded = |value: f64, step: f64, solid: bool| {
        let amount = if solid { Amount::Weight(Mass::from_g(value)) } else { Amount::Volume(Volume::from_ml(value)) };
        measured_out(amount, step).unwrap().base()
    };
    let uniconazole = base(5.0, "1 gal", "0.5 g/L");
    let daminozide = base(1000.0, "1 gal", "85% solid");
    let ethephon = |v| base(v, "1 gal", "39 g/L");
    vec![
        Row::new("uniconazole 5 ppm, 1 gal, 0.5 g/L: mL", MSU_GUIDE, 38.0, 0.5, uniconazole),
        // The same label strength read as 0.055% by weight gives 34.4 mL, which is not what the guide prints.
        Row::new("uniconazole 5 ppm, 1 gal, 0.55 g/L: mL", MSU_GUIDE, 38.0, 0.5, base(5.0, "1 gal", "0.55 g/L"))
            .refuted(),
        Row::new("that, to the mL, times 50 gal: mL", MSU_GUIDE, 1900.0, 0.5, rounded(uniconazole, 1.0, false) * 50.0),
        Row::new("50 gal at once, exactly: mL", OURS, 1892.7, 0.05, base(5.0, "50 gal", "0.5 g/L")),
        // Printed as mL by a slip; it is weighed.
        Row::new("daminozide 1,000 ppm, 1 gal, 0.85 g/g: g", MSU_GUIDE, 4.5, 0.05, daminozide),
        Row::new(
            "that, to 0.1 g, at 3,500 ppm for 100 gal: g",
            MSU_GUIDE,
            1575.0,
            0.5,
            rounded(daminozide, 0.1, true) * 350.0,
        ),
        Row::new("3,500 ppm for 100 gal at once, exactly: g", OURS, 1558.7, 0.05, base(3500.0, "100 gal", "85% solid")),
        Row::new(
            "BA+GA 3 ppm of each, 100 gal, 18 g/L: fl oz",
            MSU_SIZE,
            2.1,
            0.05,
            fluid_ounces(base(3.0, "100 gal", "18 g/L")),
        ),
        Row::new("ethephon 500 ppm, 1 gal, 39 g/L: fl oz", BRANCHING, 1.6, 0.05, fluid_ounces(ethephon(500.0))),
        Row::new("ethephon 300 ppm, 1 gal: fl oz", BRANCHING, 1.0, 0.05, fluid_ounces(ethephon(300.0))),
        Row::new("ethephon 350 ppm, 1 gal: fl oz", BRANCHING, 1.1, 0.05, fluid_ounces(ethephon(350.0))),
        Row::new("ethephon 500 ppm, 1 gal, to 5 mL", BRANCHING, 50.0, 0.01, rounded(ethephon(500.0), 5.0, false)),
        Row::new("ethephon 300 ppm, 1 gal, to 5 mL", BRANCHING, 30.0, 0.01, rounded(ethephon(300.0), 5.0, false)),
        Row::new("ethephon 350 ppm, 1 gal, to 5 mL", BRANCHING, 35.0, 0.01, rounded(ethephon(350.0), 5.0, false)),
    ]
}

fn a_gallon() -> Vec<Row> {
    vec![
        // In the trade; the place it is printed was not found again.
        Row::new(
            "chlormequat 1,500 ppm, 1 gal, 118 g/L: fl oz",
            Basis::CommonPractice,
            1.6,
            0.05,
            fluid_ounces(base(1500.0, "1 gal", "118 g/L")),
        ),
        Row::new(
            "chlormequat 1,500 ppm, 1 gal, 1 lb/gal: fl oz",
            Basis::CommonPractice,
            1.6,
            0.05,
            fluid_ounces(base(1500.0, "1 gal", "1 lb/gal")),
        ),
        Row::new(
            "daminozide 2,500 ppm, 1 gal, 0.85 g/g: oz",
            Basis::CommonPractice,
            0.39,
            0.005,
            ounces(base(2500.0, "1 gal", "85% solid")),
        ),
        Row::new("daminozide 1,250 ppm, 1 gal: g", OURS, 5.57, 0.005, base(1250.0, "1 gal", "85% solid")),
        Row::new("daminozide 5,000 ppm, 1 gal: oz", OURS, 0.785, 0.0006, ounces(base(5000.0, "1 gal", "85% solid"))),
        Row::new("chlormequat 1,000 ppm, 1 gal, 118 g/L: mL", OURS, 32.1, 0.05, base(1000.0, "1 gal", "118 g/L")),
        Row::new("paclobutrazol 30 ppm, 1 gal, 4 g/L: mL", OURS, 28.4, 0.05, base(30.0, "1 gal", "4 g/L")),
        Row::new("paclobutrazol 0.1 ppm, 100 gal, 4 g/L: mL", OURS, 9.46, 0.005, base(0.1, "100 gal", "4 g/L")),
    ]
}

fn doses() -> Vec<Row> {
    let one_ounce = Volume::from_ml(volume("1 fl oz").ml());
    let in_an_ounce = ppm_made(Amount::Volume(one_ounce), volume("1 gal"), Strength::parse("4 g/L").unwrap()).unwrap();
    // The label's amount of a pint a gallon: 0.064 ounces in a gallon is 0.479 g/L, not the 0.5 g/L it prints, nor 0.55.
    let label_b = parse::<Mass>("0.064 oz", Us).unwrap().g() / (volume("1 gal").ml() / 1000.0);
    let of_gallon = |pounds: &str| Strength::parse(pounds).unwrap().g_per_l().unwrap();
    let mut rows = vec![
        Row::new(
            "paclobutrazol 4 g/L: g in 1 fl oz",
            LABEL_PACLO,
            0.12,
            0.005,
            in_an_ounce.ppm() * volume("1 gal").ml() / 1e6,
        ),
        Row::new("paclobutrazol 1 ppm, 118 mL a pot: mg", MSU_2002, 0.12, 0.005, mg(1.0, "118 mL")),
        Row::new("paclobutrazol 2 ppm, 118 mL a pot: mg", MSU_2002, 0.24, 0.005, mg(2.0, "118 mL")),
        Row::new("1 oz in mg", MSU_2002, 28_350.0, 5.0, parse::<Mass>("1 oz", Us).unwrap().g() * 1000.0),
        Row::new("uniconazole 0.0046 lb/gal: g/L of 0.055%", LABEL_UNI_A, 0.55, 0.006, of_gallon("0.0046 lb/gal")),
        Row::new("uniconazole 0.064 oz a gallon: g/L", LABEL_UNI_B, 0.5, 0.01, label_b).refuted(),
        Row::new("uniconazole 0.064 oz a gallon, exactly: g/L", OURS, 0.479, 0.0006, label_b),
    ];
    for (strength, printed) in [(5.0, 0.032), (100.0, 0.64), (150.0, 0.96), (200.0, 1.28), (300.0, 1.92)] {
        rows.push(Row::new(
            format!("paclobutrazol {strength} ppm, 6.4 mL a pot: mg"),
            PAINT,
            printed,
            1e-6,
            mg(strength, "6.4 mL"),
        ));
    }
    for (strength, expected) in [(0.05, 0.0059), (0.10, 0.0118), (0.15, 0.0177)] {
        rows.push(Row::new(
            format!("flurprimidol {strength} ppm, 4 fl oz a pot: mg"),
            PURDUE,
            expected,
            0.000_06,
            mg(strength, "4 fl oz"),
        ));
    }
    for (dose, expected) in [(0.04, 0.338), (0.08, 0.676)] {
        let got = ppm_for_dose(Mass::from_g(dose / 1000.0), volume("4 fl oz")).unwrap().ppm();
        rows.push(Row::new(format!("uniconazole {dose} mg a pot in 4 fl oz: ppm"), CONNECTICUT, expected, 0.0006, got));
    }
    rows
}

fn areas_and_pots() -> Vec<Row> {
    let spray = |area: &str| spray_volume(parse::<Area>(area, Us).unwrap(), SprayRate::USUAL).unwrap().ml();
    let (gallon, quart) = (volume("1 gal").ml(), volume("1 qt").ml());
    let half_gallon = SprayRate::ml_per_m2(gallon / 2.0 / parse::<Area>("100 ft2", Us).unwrap().m2()).unwrap();
    let on_hundred = spray_volume(parse("100 ft2", Us).unwrap(), half_gallon).unwrap().ml();
    let mut rows = vec![
        // An acre is 43,560 ft2 (NIST Handbook 44).
        Row::new("usual spray, gal an acre", VOLUME, 218.0, 0.5, spray("43560 ft2") / gallon),
        Row::new("usual spray, gal on 1,000 ft2", VOLUME, 5.0, 1e-6, spray("1000 ft2") / gallon),
        Row::new("usual spray, qt on 100 ft2", VOLUME, 2.0, 1e-6, spray("100 ft2") / quart),
        Row::new("0.5 gal on 100 ft2 in qt", NEWSLETTER, 2.0, 1e-6, on_hundred / quart),
        Row::new("usual spray, L on a m2", VOLUME, 0.20, 0.005, SprayRate::USUAL.in_ml_per_m2() / 1000.0),
    ];
    // The first two are near; the printed counts of the others keep up to 7% in reserve.
    let pots = [(2, 640.0, 0.5), (3, 425.0, 2.0), (4, 300.0, 21.0), (6, 200.0, 14.0), (8, 150.0, 11.0)];
    for (ounces, printed, tolerance) in pots {
        let got = pots_from(volume("10 gal"), volume(&format!("{ounces} fl oz"))).unwrap();
        rows.push(Row::new(
            format!("pots from 10 gal at {ounces} fl oz"),
            NEW_YORK,
            printed,
            tolerance,
            f64::from(got),
        ));
    }
    for (rim, ml) in [(4.0, 59.0), (5.0, 89.0), (6.0, 118.0)] {
        let got = usual_drench(Length::from_cm(rim * 2.54)).unwrap().ml();
        rows.push(Row::new(format!("usual drench of a {rim}-in pot, mL"), MSU_DRENCH, ml, 0.5, got));
    }
    rows
}

/// Printed amounts that the formula does not bear out, with how far off they are.
fn rules_of_thumb() -> Vec<Row> {
    let mut rows = Vec::new();
    for (strength, printed, exact) in [(0.25, 0.75, 0.80), (0.5, 1.5, 1.60), (1.0, 3.0, 3.20)] {
        let got = fluid_ounces(base(strength, "100 gal", "4 g/L"));
        let name = format!("paclobutrazol {strength} ppm, 100 gal, 4 g/L: fl oz");
        // The source rounds 3.2 down to 3 and takes fractions of that: 7% weak.
        rows.push(Row::new(name.clone(), TRADE, printed, printed * 0.05, got).refuted());
        rows.push(Row::new(format!("{name}, within its 7%"), TRADE, printed, printed * 0.07, got));
        rows.push(Row::new(format!("{name}, exactly"), OURS, exact, 0.005, got));
    }
    for (typed, strength, printed, exact) in [
        ("1 fl oz", "118 g/L", 1000.0, 922.0),
        ("1.5 fl oz", "118 g/L", 1500.0, 1383.0),
        ("1 fl oz", "1 lb/gal", 1000.0, 936.0),
        ("1.5 fl oz", "1 lb/gal", 1500.0, 1404.0),
    ] {
        let product = Strength::parse(strength).unwrap();
        let got = ppm_made(Amount::Volume(volume(typed)), volume("1 gal"), product).unwrap().ppm();
        let name = format!("chlormequat {strength}, {typed} in a gallon: ppm");
        // A rule of thumb, 6 to 8% weak.
        rows.push(Row::new(name.clone(), GEORGIA, printed, printed * 0.05, got).refuted());
        rows.push(Row::new(format!("{name}, exactly"), OURS, exact, 0.5, got));
    }
    rows
}

fn whole_jobs() -> Vec<Row> {
    let drench = drench_volume(1000, volume("4 fl oz"), 0.0).unwrap();
    let paclobutrazol = product_for(ppm(0.1), drench, Strength::parse("4 g/L").unwrap()).unwrap();
    let bench = parse::<Area>("500 ft2", Us).unwrap();
    let spray = spray_volume(bench, SprayRate::USUAL).unwrap();
    let of = |value, strength| product_for(ppm(value), spray, Strength::parse(strength).unwrap()).unwrap().base();
    // Measured out for the usual 0.4% pack, poured from the 4% one.
    let wrong = ppm_made(paclobutrazol, drench, Strength::parse("4% liquid").unwrap()).unwrap();
    vec![
        Row::new("1,000 six-inch pots at 4 fl oz: L", OURS, 118.3, 0.05, drench.ml() / 1000.0),
        Row::new("1,000 six-inch pots at 4 fl oz: gal", OURS, 31.25, 1e-6, drench.ml() / volume("1 gal").ml()),
        Row::new("paclobutrazol 0.1 ppm in that, 4 g/L: mL", OURS, 2.96, 0.005, paclobutrazol.base()),
        Row::new("that a pot: mg", OURS, 0.0118, 0.000_05, mg(0.1, "4 fl oz")),
        Row::new("bench of 5 × 100 ft: m2", OURS, 46.45, 0.005, bench.m2()),
        Row::new("usual spray on it: L", OURS, 9.46, 0.005, spray.ml() / 1000.0),
        Row::new("daminozide 1,500 ppm in it: g", OURS, 16.7, 0.05, of(1500.0, "85% solid")),
        Row::new("chlormequat 1,000 ppm in it, 118 g/L: mL", OURS, 80.2, 0.05, of(1000.0, "118 g/L")),
        Row::new("0.1 ppm measured for 0.4%, poured from 4%: ppm", OURS, 1.0, 1e-9, wrong.ppm()),
    ]
}

fn packs_and_tops() -> Vec<Row> {
    let times = |ingredient, typed: &str| match check_pack(ingredient, Strength::parse(typed).unwrap()) {
        PackCheck::Unusual { times, .. } => times,
        _ => f64::NAN,
    };
    let guide = Basis::Published("North Carolina State growth-regulator guide for annuals, 2017 to 2020");
    let england = Basis::Published("New England Greenhouse Floriculture Guide");
    let halo = Basis::Published("Lopez and Currey (Purdue), chlormequat phytotoxicity, 2010");
    let paclo = packs(Ingredient::Paclobutrazol).find(|p| p.usual).unwrap().strength;
    let top = strong((Ingredient::Chlormequat, Method::Spray), &Limits::default(), ppm(4000.0), None, None)
        .map_or(f64::NAN, |s| s.top);
    vec![
        Row::new(
            "paclobutrazol 4% against the usual pack, times",
            guide,
            10.0,
            1e-9,
            times(Ingredient::Paclobutrazol, "4% liquid"),
        ),
        Row::new("ethephon 21.7% against 3.9%, times", england, 5.6, 0.05, times(Ingredient::Ethephon, "21.7% liquid")),
        Row::new("usual paclobutrazol pack in ppm", LABEL_PACLO, 4000.0, 1e-6, paclo * 1000.0),
        Row::new("chlormequat spray: yellow spots above, ppm", halo, 1500.0, 1e-9, top),
    ]
}

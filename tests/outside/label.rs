//! Bag labels, tanks, alkalinity and feed EC.

use crate::basis::{Basis, Row};
use benchwalk::crop::feed::{Alkalinity, Analysis, Carries, Clash, LabelEc, clashes, injector_check};
use benchwalk::units::{Concentration, Conductivity};

const ATOMIC: Basis = Basis::Computed("IUPAC 2021 standard atomic weights, worked apart from the program");
const SUPPLIER: Basis = Basis::Published("a supplier's newsletter 11, 2012, Avoid poinsettia nutrition problems");

fn ppm(value: f64) -> Concentration {
    Concentration::from_ppm(value)
}

fn yes(is: bool) -> f64 {
    f64::from(u8::from(is))
}

pub(crate) fn rows() -> Vec<Row> {
    [labels(), tanks(), alkalinity(), hose()].concat()
}

fn labels() -> Vec<Row> {
    const MARYLAND: Basis = Basis::Published(
        "University of Maryland, JASHS 116(5):802, 1991, and J. Plant Nutr.: 20-10-20 as 20N-4.4P-16.6K",
    );
    const TRUNCATED: Basis = Basis::Published(
        "a subirrigation paper (recalled as Cox, UMass, 2001) prints 20N-4.3P-16.6K: P is cut off, not rounded",
    );
    const IMPATIENS: Basis = Basis::Published("HortTechnology 23(2):157, 2013: 16-9-12 as 16N-3.9P-10K");
    let of = |n, p, k, pick: fn(benchwalk::crop::feed::Elements) -> f64| {
        Analysis::new(n, p, k).map_or(f64::NAN, |label| pick(label.elements()))
    };
    let fed = Analysis::new(20.0, 10.0, 20.0).and_then(|label| label.at_n(ppm(200.0)));
    vec![
        Row::new("20-10-20, % P", MARYLAND, 4.4, 0.05, of(20.0, 10.0, 20.0, |e| e.p)),
        Row::new("20-10-20, % K", MARYLAND, 16.6, 0.05, of(20.0, 10.0, 20.0, |e| e.k)),
        Row::new("20-10-20, % P", TRUNCATED, 4.3, 0.05, of(20.0, 10.0, 20.0, |e| e.p)).refuted(),
        Row::new("16-9-12, % P", IMPATIENS, 3.9, 0.05, of(16.0, 9.0, 12.0, |e| e.p)),
        Row::new("16-9-12, % K", IMPATIENS, 10.0, 0.05, of(16.0, 9.0, 12.0, |e| e.k)),
        Row::new("20-10-20 at 200 ppm N, ppm P", ATOMIC, 43.64, 0.01, fed.as_ref().map_or(f64::NAN, |e| e.p)),
        Row::new("20-10-20 at 200 ppm N, ppm K", ATOMIC, 166.03, 0.05, fed.as_ref().map_or(f64::NAN, |e| e.k)),
    ]
}

fn tanks() -> Vec<Row> {
    const CAROLINA: Basis =
        Basis::Published("N.C. Agronomic Division, via the trade press: magnesium sulfate apart from calcium nitrate");
    vec![
        Row::new(
            "calcium nitrate and magnesium sulfate clash",
            CAROLINA,
            1.0,
            0.0,
            yes(clashes(&[Carries::CALCIUM, Carries::SULFATE]) == [(0, 1, Clash::CalciumSulfate)]),
        ),
        Row::new(
            "calcium and a phosphate clash",
            Basis::CommonPractice,
            1.0,
            0.0,
            yes(clashes(&[Carries::PHOSPHATE, Carries::CALCIUM]) == [(0, 1, Clash::CalciumPhosphate)]),
        ),
    ]
}

fn alkalinity() -> Vec<Row> {
    const POINTERS: Basis = Basis::Published("trade press, Production pointers: understanding alkalinity");
    let caco3 = |meq: f64| Alkalinity::from_meq_l(meq).map_or(f64::NAN, Alkalinity::caco3_ppm);
    let hco3 = |meq: f64| Alkalinity::from_meq_l(meq).map_or(f64::NAN, Alkalinity::hco3_ppm);
    vec![
        Row::new("2.0 meq/L as ppm CaCO3", SUPPLIER, 100.0, 0.5, caco3(2.0)),
        Row::new("2.0 meq/L as ppm CaCO3", ATOMIC, 100.1, 0.05, caco3(2.0)),
        Row::new("1.7 meq/L as ppm CaCO3", POINTERS, 85.0, 0.5, caco3(1.7)),
        Row::new("0.75 meq/L as ppm CaCO3, to the ten", POINTERS, 40.0, 5.0, caco3(0.75)),
        Row::new("1.25 meq/L as ppm CaCO3, to the ten", POINTERS, 60.0, 5.0, caco3(1.25)),
        Row::new("1 meq/L as ppm CaCO3", POINTERS, 50.0, 0.05, caco3(1.0)),
        Row::new("1 meq/L as ppm HCO3", Basis::FromMemory, 61.0, 0.05, hco3(1.0)),
        Row::new("HCO3 over CaCO3", Basis::FromMemory, 1.22, 0.005, hco3(1.0) / caco3(1.0)),
    ]
}

fn hose() -> Vec<Row> {
    const CHART: Basis =
        Basis::Published("a supplier's newsletter 38: 15-5-15 chart, 0.37, 0.74, 1.48 mS/cm at 50, 100, 200 ppm N");
    const MARYLAND: Basis = Basis::Published(
        "University of Maryland, JASHS 116(5):802, 1991: 20-10-20 at 300 mg N/L, 2.1 mS/cm with its water",
    );
    const CHECK: Basis = Basis::Computed(
        "by hand after UMass Floriculture 2008, Check your fertilizer injectors: feed less water, against the chart",
    );
    let ms = Conductivity::from_ms_cm;
    let chart = LabelEc::from_chart(ms(0.74), ppm(100.0));
    let expected =
        |n: f64| chart.clone().and_then(|chart| chart.expected(ppm(n), ms(0.0))).map_or(f64::NAN, Conductivity::ms_cm);
    let check = |feed: f64| chart.clone().and_then(|chart| injector_check(chart, ppm(200.0), ms(feed), ms(0.30)));
    let maryland = LabelEc::from_chart(ms(2.1), ppm(300.0)).map_or(f64::NAN, LabelEc::per_ppm);
    vec![
        Row::new("15-5-15 at 50 ppm N, mS/cm", CHART, 0.37, 1e-9, expected(50.0)),
        Row::new("15-5-15 at 200 ppm N, mS/cm", CHART, 1.48, 1e-9, expected(200.0)),
        Row::new("20-10-20, mS/cm a ppm N", MARYLAND, 0.0070, 0.00005, maryland),
        Row::new("right injector: of wanted", CHECK, 1.0, 1e-9, check(1.78).map_or(f64::NAN, |c| c.of_wanted)),
        Row::new(
            "feed at 1.04 over water at 0.30: ppm N",
            CHECK,
            100.0,
            1e-9,
            check(1.04).map_or(f64::NAN, |c| c.delivers.ppm()),
        ),
        Row::new("the water forgotten: ppm N", CHECK, 140.5, 1.0, check(1.04).map_or(f64::NAN, |c| c.delivers.ppm()))
            .refuted(),
    ]
}

//! The season the screens and forms are tried on: two houses, six benches, two lots, on the morning of October 12.

use super::Crop;
use super::lines::{lot, sprayed};
use benchwalk::record::{Kind, Lot, Material, Method, PestCount, PestName, Pinch, PinchHow};

/// The morning the desk opens on.
pub(crate) const NOW: &str = "2026-10-12T07:10:00-04:00";

/// Water of October 2 to 11.
const WATER: [(&str, [u8; 10]); 5] = [
    ("E1", [3, 2, 5, 4, 3, 2, 5, 4, 3, 2]),
    ("E2", [3, 2, 4, 4, 5, 5, 5, 5, 4, 4]),
    ("E3", [2, 5, 4, 3, 2, 5, 4, 3, 2, 5]),
    ("W1", [4, 3, 2, 5, 4, 3, 2, 5, 4, 3]),
    ("W2", [3, 2, 5, 4, 3, 2, 5, 4, 3, 2]),
];

/// The plan: L1 on the three benches of East, L2 on two of the three of West.
fn plan() -> Crop {
    let l1 = Lot { pots: 320, response_weeks: 9.0, slow_release_g: Some(4.0), ..lot("L1") };
    let l2 = Lot {
        cultivar: "early white".into(),
        container: "10 in".into(),
        rim_cm: Some(25.4),
        pot_height_cm: None,
        cuttings_per_pot: 4,
        pots: 60,
        planted: super::date(8, 24),
        pinch: Pinch::None,
        response_weeks: 8.5,
        ready_by: super::date(12, 4),
        height_low_cm: None,
        height_high_cm: None,
        ..lot("L2")
    };
    let benches = [("E1", "East"), ("E2", "East"), ("E3", "East"), ("W1", "West"), ("W2", "West"), ("W3", "West")];
    let crop = Crop::bare().with_lot(l1).with_lot(l2);
    let crop = benches.iter().zip(1..).fold(crop, |crop, ((bench, house), n)| crop.bench_in(bench, house, n));
    let crop = ["E1", "E2", "E3"].iter().fold(crop, |crop, bench| crop.filled(bench, "L1", 80, (8, 17)));
    ["W1", "W2"].iter().fold(crop, |crop, bench| crop.filled(bench, "L2", 30, (8, 24)))
}

/// Ten days of water, watered on every 2.
fn dried_down(crop: Crop, levels: [u8; 10]) -> Crop {
    (2..12_u32).zip(levels).fold(crop, |crop, (day, level)| {
        let crop = crop.at((10, day), (7, 5), Kind::Water { level, base: None });
        if level != 2 {
            return crop;
        }
        crop.at((10, day), (8, 30), Kind::Watered { ml_per_pot: Some(300.0) })
    })
}

/// The sixth week's magnesium and molybdenum.
fn supplemented(crop: Crop) -> Crop {
    let drench = |material, ppm| Kind::Nutrient { material, ppm, how: Method::Drench, ml_per_pot: Some(200.0) };
    crop.at((9, 1), (15, 0), drench(Material::MagnesiumSulfate, 200.0)).at(
        (9, 1),
        (15, 5),
        drench(Material::SodiumMolybdate, 0.5),
    )
}

/// The season.
pub(crate) fn hollow() -> Crop {
    let scouted = PestCount::Plants { inspected: 20, infested: 0 };
    let mut crop = plan();
    for (bench, levels) in WATER {
        let checked = if matches!(bench, "E1" | "W1") { (10, 5) } else { (10, 8) };
        let score = u8::from(bench == "E2");
        crop = supplemented(dried_down(crop.on(bench), levels))
            .at(checked, (7, 6), Kind::Roots { score, pots: None, bad: None, signs: vec![], reach: None })
            .at(checked, (7, 7), Kind::Bracts { stage: 1 })
            .at((10, 9), (7, 8), Kind::Pests { pest: PestName::Whitefly, count: scouted.clone() });
    }
    for bench in ["E1", "E2", "E3"] {
        crop = crop
            .on(bench)
            .at((9, 1), (9, 0), Kind::Pinched { how: PinchHow::Soft, nodes_left: Some(6) })
            .at((9, 3), (9, 0), Kind::Height { cm: vec![19.1, 19.4, 18.8, 19.0] })
            .at((10, 6), (9, 0), Kind::Height { cm: vec![24.1, 24.9, 23.8, 24.4] });
    }
    // Somebody has been looking since the planting.
    for (lot, on) in [("L1", (8, 17)), ("L2", (8, 24))] {
        crop = crop.noted(lot, on);
    }
    crop.on("E3").at((10, 11), (18, 0), sprayed("demo soap, not a real product", 14.0)).with_derived_ids()
}

/// The season as a journal without its end line, so that a test may add lines and change them.
pub(crate) fn journal() -> String {
    let whole = hollow().journal().replacen(",\"ends\":true", "", 1);
    whole.split_inclusive('\n').filter(|line| !line.starts_with("# end")).collect()
}

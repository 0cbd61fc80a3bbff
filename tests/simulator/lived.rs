//! One simulated season: six benches in two houses, four lots, one fault.

use crate::faults::Fault;
use crate::grow::bench::Trouble;
use crate::grow::book::Book;
use crate::grow::color::Color;
use crate::grow::grower::{Drift, Grower, Habits, round};
use crate::grow::plant::Size;
use crate::grow::weather::Weather;
use crate::grow::{after, date, days};
use crate::rng::Rng;
use crate::season as plain;
use benchwalk::record::{Kind, LeafSign, Lot, Nights, Pinch, Place, Plan, PlantPart, Site};
use benchwalk::season::Season;
use benchwalk::units::System;
use chrono::NaiveDate;

/// First and last day.
pub(crate) const FIRST: (u32, u32) = (8, 17);
pub(crate) const LAST: (u32, u32) = (11, 25);

/// The mean over 24 hours at which the weeks of the lots hold, °C.
const USUAL_C: f64 = 20.0;

/// A color forecast knows no better, days: 5% of the nine weeks.
const ABOUT: u32 = 3;
/// As far as the early and the late end of its range lie apart at first color, days: within it a lot is rightly watched.
const NEAR: u32 = 7;

/// A season and what truly happened in it.
pub(crate) struct Lived {
    pub(crate) season: Season,
    pub(crate) fault: Fault,
    /// The day it began.
    pub(crate) began: NaiveDate,
    /// Whom it concerns.
    pub(crate) benches: Vec<String>,
    /// The first day anybody could see the loss.
    pub(crate) loss: Option<NaiveDate>,
    /// The benches whose full color truly comes after the sale, or less than [`ABOUT`] days before it.
    pub(crate) late: Vec<String>,
    /// The same, or less than [`NEAR`] days before it.
    pub(crate) near: Vec<String>,
}

/// One cutting per pot, pinched; the other containers differ from it.
const MEDIUM: Size = Size {
    container: "15 cm",
    cuttings: 1,
    pinch: Pinch::Soft,
    rim_cm: 15.2,
    pot_cm: 11.4,
    sold_cm: (35.6, 40.6),
    holds_ml: 600.0,
    uses: 1.0,
    watering_ml: 300.0,
    topdressed_g: 8.0,
    centers_cm: 33.0,
    nodes_left: 6,
};

const SMALL: Size = Size {
    container: "11 cm",
    rim_cm: 11.4,
    pot_cm: 9.5,
    sold_cm: (25.4, 30.5),
    holds_ml: 290.0,
    uses: 0.52,
    watering_ml: 140.0,
    topdressed_g: 4.0,
    centers_cm: 22.0,
    nodes_left: 5,
    ..MEDIUM
};

/// Five cuttings per pot, not pinched.
const LARGE: Size = Size {
    container: "20 cm",
    cuttings: 5,
    pinch: Pinch::None,
    rim_cm: 20.3,
    pot_cm: 15.2,
    sold_cm: (43.2, 50.8),
    holds_ml: 1650.0,
    uses: 2.7,
    watering_ml: 850.0,
    topdressed_g: 12.0,
    centers_cm: 46.0,
    ..MEDIUM
};

fn lot(code: &str, size: Size, nights: Nights) -> (Lot, Size) {
    let lot = Lot {
        planted: date(FIRST.0, FIRST.1),
        response_weeks: 9.0,
        nights,
        ready_by: date(LAST.0, LAST.1),
        // The usual mean of these houses in short days.
        response_c: Some(USUAL_C),
        blackout_from: (nights == Nights::Blackout).then(|| date(9, 14)),
        ..size.lot(code)
    };
    (lot, size)
}

/// Bench, house, lot.
const BENCHES: [(&str, &str, usize); 6] = [
    ("E1", "East", 0),
    ("E2", "East", 0),
    ("E3", "East", 0),
    ("E4", "East", 1),
    ("C1", "Cloth", 2),
    ("C2", "Cloth", 3),
];

/// Filled in week 4 from the first bench.
const SPACED: usize = 2;

/// Pots set down on a bench.
const fn pots(plot: usize) -> u32 {
    if plot == 0 { 160 } else { 80 }
}

fn plan(lots: &[(Lot, Size)]) -> Plan {
    let site = Site { latitude: 43.2, longitude: -73.1, units: System::Metric, ..plain::site() };
    let bench = |(n, (code, house, _)): (u32, &(&str, &str, usize))| plain::bench_line(code, house, n);
    let placed = BENCHES.iter().enumerate().filter(|(i, _)| *i != SPACED);
    Plan {
        sites: vec![site],
        lots: lots.iter().map(|(l, _)| l.clone()).collect(),
        benches: (1..).zip(&BENCHES).map(bench).collect(),
        placements: placed
            .map(|(i, (code, _, lot))| plain::placement(code, &lots[*lot].0.lot, pots(i), FIRST))
            .collect(),
        histories: Vec::new(),
        trials: Vec::new(),
        plots: Vec::new(),
        orders: vec![plain::order("A", LAST, 200)],
    }
}

/// Draws the day a fault begins and whom it concerns.
fn draw(fault: Fault, rng: &mut Rng) -> (NaiveDate, Vec<usize>) {
    let mut from = |(month, day): (u32, u32), span: u64| after(date(month, day), rng.next() % span);
    let began = match fault {
        Fault::None => date(LAST.0, LAST.1),
        Fault::LeakLate => from((10, 21), 14),
        Fault::CoolFinish => from((10, 4), 4),
        Fault::Cracked => from((9, 25), 40),
        Fault::Ethylene => from((10, 20), 20),
        Fault::Potassium => from((9, 18), 20),
        Fault::PhDrift => from((9, 1), 30),
        Fault::HeatYoung => from((8, 19), 8),
        Fault::Trifles => date(FIRST.0, FIRST.1),
        Fault::SlowLate => date(10, 21),
        Fault::Leak | Fault::Puddle | Fault::Dry => from((9, 22), 40),
        Fault::LeakYoung => from((9, 1), 15),
        Fault::Drench => date(9, 28),
        Fault::Lamp => from((9, 24), 21),
        Fault::Heat => from((9, 22), 14),
        Fault::Whitefly => from((9, 1), 30),
        Fault::Night => from((9, 16), 30),
    };
    let one = usize::try_from(rng.next() % 6).unwrap();
    let benches = match fault {
        Fault::None | Fault::Trifles | Fault::SlowLate => vec![],
        Fault::Cracked => vec![0, 1],
        // Half of the first bench's young pots are spaced, wet as they are, in week 4.
        Fault::LeakYoung if one == 0 || one == SPACED => vec![0, SPACED],
        Fault::Leak | Fault::LeakYoung | Fault::LeakLate | Fault::Puddle | Fault::Dry => vec![one],
        Fault::Drench | Fault::Whitefly | Fault::Potassium | Fault::PhDrift => vec![0, 1, 2],
        Fault::Lamp | Fault::Ethylene => vec![0, 1, 2, 3],
        Fault::Heat | Fault::HeatYoung | Fault::CoolFinish => vec![0, 1, 2, 3, 4, 5],
        Fault::Night => vec![4],
    };
    (began, benches)
}

/// Lives a season through.
pub(crate) fn live(seed: u64, fault: Fault) -> Lived {
    let mut rng = Rng::new(seed);
    let mut weather = Weather::new(&mut rng);
    weather.wander(&mut rng);
    let (began, concerned) = draw(fault, &mut rng);
    spoil(&mut weather, fault, began);
    let lots = vec![
        lot("A", MEDIUM, Nights::Natural),
        lot("B", LARGE, Nights::Natural),
        lot("C", MEDIUM, Nights::Blackout),
        lot("D", SMALL, Nights::Natural),
    ];
    let plan = plan(&lots);
    let habits = Habits { misread: 0.08, missed: 0.03, feed: (150.0, 15.0) };
    let book = Book::new(chrono_tz::America::New_York);
    // Each lot needs a little more or less than its group, and heat holds it back more or less.
    let colors = lots.iter().map(|_| Color::new(USUAL_C, 1.0 + 0.035 * rng.normal(), 0.15 * rng.unit())).collect();
    let short_days = date(9, 20);
    let drift = drift(fault, began);
    let mut g = Grower { lots, plots: Vec::new(), book, weather, rng, habits, short_days, colors, drift };
    for (code, house, _) in BENCHES {
        g.empty(code, house);
    }
    for (plot, (_, _, lot)) in BENCHES.iter().enumerate() {
        if plot != SPACED {
            g.pot(plot, *lot, pots(plot));
        }
    }
    if fault == Fault::Drench {
        for plot in &concerned {
            g.plots[*plot].forgets_supplements = true;
        }
    }
    let (mut loss, mut late, mut near) = (slow_loss(fault, began), Vec::new(), Vec::new());
    let mut day = date(FIRST.0, FIRST.1);
    while day < date(LAST.0, LAST.1) {
        day = after(day, 1);
        g.night(day);
        strike_home(&mut g, fault, began, &concerned, day);
        g.walk(day, 6);
        g.work(day);
        if day == after(date(FIRST.0, FIRST.1), 25) {
            g.space(0, SPACED, day);
        }
        g.measure(day);
        look_at_leaves(&mut g, (fault, began), &concerned, day);
        evening(&mut g, fault, began, day);
        for (before, behind) in [(ABOUT, &mut late), (NEAR, &mut near)] {
            if day == date(LAST.0, LAST.1 - before) {
                behind.extend(without_color(&g));
            }
        }
        if loss.is_none() && day >= began && is_lost(&g, fault, &concerned) {
            loss = Some(day);
        }
    }
    let benches = concerned.iter().map(|i| BENCHES[*i].0.to_owned()).collect();
    Lived { season: Season::new(plan, g.book.entries), fault, began, benches, loss, late, near }
}

/// The benches whose bracts are not fully colored.
fn without_color(g: &Grower) -> Vec<String> {
    g.plots.iter().filter(|p| !g.has_full_color(p.lot)).map(|p| p.code.clone()).collect()
}

/// What the fault does to the root zone of the first lot.
fn drift(fault: Fault, from: NaiveDate) -> Option<Drift> {
    let (ph_a_day, ec) = match fault {
        Fault::Potassium => (0.0, 1.6),
        Fault::PhDrift => (0.03, 0.0),
        _ => return None,
    };
    Some(Drift { lot: 0, from, ph_a_day, ec })
}

/// What the fault does to the weather and the houses.
fn spoil(weather: &mut Weather, fault: Fault, began: NaiveDate) {
    let end = date(LAST.0, LAST.1);
    match fault {
        Fault::Heat => weather.warm(began, after(began, 6), (5.5, 6.2)),
        Fault::CoolFinish => {
            weather.warm(began, end, (-5.5, -5.5));
            weather.dull(began, end, 0.6);
        }
        Fault::HeatYoung => weather.warm(began, after(began, 4), (9.0, 2.0)),
        Fault::SlowLate => weather.dull(began, end, 0.5),
        _ => {}
    }
}

/// Losses that only show weeks later (from memory: yellow between the veins about three weeks after the sixth week's dose was
/// due; color behind about three weeks after the nights went wrong).
fn slow_loss(fault: Fault, began: NaiveDate) -> Option<NaiveDate> {
    matches!(fault, Fault::Drench | Fault::Lamp | Fault::Heat | Fault::Night | Fault::CoolFinish)
        .then(|| after(began, 21))
}

/// Roots of class 3, three days without water (from memory: then leaves drop), or half of the plants with whitefly.
fn is_lost(g: &Grower, fault: Fault, concerned: &[usize]) -> bool {
    let mut stands = concerned.iter().filter_map(|i| g.plots[*i].stand.as_ref());
    match fault {
        Fault::Leak | Fault::LeakYoung | Fault::LeakLate | Fault::Puddle => stands.any(|s| s.roots() >= 3),
        Fault::Dry => stands.any(|s| s.dry_days >= 3),
        Fault::Whitefly => stands.any(|s| s.whitefly >= 0.5),
        _ => false,
    }
}

/// The fault does its work.
fn strike_home(g: &mut Grower, fault: Fault, began: NaiveDate, concerned: &[usize], day: NaiveDate) {
    match fault {
        Fault::Leak | Fault::LeakYoung | Fault::LeakLate if day == began => {
            if let Some(stand) = &mut g.plots[concerned[0]].stand {
                stand.trouble = Trouble { leaks: true, ..Trouble::default() };
                stand.left = 0.95;
            }
        }
        Fault::Puddle if day == began => {
            if let Some(stand) = &mut g.plots[concerned[0]].stand {
                stand.trouble = Trouble { base_stands: true, ..Trouble::default() };
            }
        }
        Fault::Dry if day == began => g.plots[concerned[0]].dry_by_neglect = true,
        Fault::Whitefly if day >= began => {
            let source = g.plots[0].stand.as_ref().map_or(0.0, |s| s.whitefly);
            for plot in concerned {
                if let Some(stand) = &mut g.plots[*plot].stand {
                    let arrives = if *plot == 0 && day == began { 0.02 } else { 0.012 * source };
                    stand.whitefly = (stand.whitefly + arrives).min(1.0);
                }
            }
        }
        _ => {}
    }
}

/// A look at the leaves of each bench a week, and on the day a sign first shows; only where a season has signs to be seen.
fn look_at_leaves(g: &mut Grower, (fault, began): (Fault, NaiveDate), concerned: &[usize], day: NaiveDate) {
    // The edges of old leaves turn yellow some weeks after the potassium ran short (from memory: about two).
    let shows = if fault == Fault::Potassium { after(began, 14) } else { began };
    for (plot, (code, ..)) in BENCHES.iter().enumerate() {
        let weekly = days(date(FIRST.0, FIRST.1), day) % 7 == i64::try_from(plot).unwrap();
        let is_hit = concerned.contains(&plot) && day >= shows;
        if g.plots[plot].stand.is_none() || !(weekly || is_hit && day == shows) {
            continue;
        }
        let young = days(date(FIRST.0, FIRST.1), day) <= 35;
        let (sign, part) = match fault {
            Fault::Cracked => (is_hit.then_some(LeafSign::Broken), None),
            Fault::Ethylene => (is_hit.then_some(LeafSign::BentDown), None),
            Fault::Potassium => (is_hit.then_some(LeafSign::EdgeYellow), Some(PlantPart::Old)),
            Fault::Trifles => {
                let trifles = [
                    (LeafSign::LowerYellow, PlantPart::Old),
                    (LeafSign::Chewed, PlantPart::Middle),
                    if young { (LeafSign::Crinkled, PlantPart::Young) } else { (LeafSign::RedOld, PlantPart::Old) },
                ];
                let pick = usize::try_from(g.rng.next() % 3).unwrap();
                let (sign, part) = trifles[pick];
                (g.rng.chance(0.4).then_some(sign), Some(part))
            }
            _ => return,
        };
        let plant_part = part.filter(|_| sign.is_some());
        // Of every second trifle the plants are counted.
        let counted = fault == Fault::Trifles && sign.is_some() && g.rng.chance(0.5);
        let plants = counted.then(|| 1 + u32::try_from(g.rng.next() % 3).unwrap());
        let kind = Kind::Leaves { signs: sign.into_iter().collect(), plant_part, plants };
        let at = g.book.at(day, 7, plot * 120);
        g.book.bench(at, code, kind);
    }
}

/// What is written after dark: light once a week, the cloth every night.
fn evening(g: &mut Grower, fault: Fault, began: NaiveDate, day: NaiveDate) {
    let short = days(date(9, 20), day);
    if short >= 0 && short % 7 == 3 {
        for (i, house) in ["East", "Cloth"].into_iter().enumerate() {
            let lamp = fault == Fault::Lamp && day >= began && house == "East";
            let lux = if lamp { 25.0 + 30.0 * g.rng.unit() } else { 0.4 + 0.8 * g.rng.unit() };
            let at = g.book.at(day, 21, i * 600);
            g.book.write(at, Place::House(house.into()), Kind::NightLight { lux: round(lux, 10.0) }, None);
        }
    }
    if day >= date(9, 14) && short <= 56 {
        let covered = !(fault == Fault::Night && day == began);
        let at = g.book.at(day, 18, 0);
        g.book.write(at, Place::Lot("C".into()), Kind::Blackout { night: day, covered }, None);
    }
}

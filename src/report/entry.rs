//! Entries in words: one line each, for the Bench page, the review and the sheets.

use crate::crop::feed::Alkalinity;
use crate::dates;
use crate::record::{Application, ClimateLog, Entry, JobOutcome, Kind, PestCount, Term};
use crate::units::{Illuminance, Length, Quantity, System, Temperature, Volume, plain};
use crate::warnings::WarningName;

/// What an entry is about: a plot by its code, else the place: `T1.7`, `M4`.
pub fn about(entry: &Entry) -> &str {
    entry.plot.as_deref().unwrap_or_else(|| entry.place.code())
}

/// The same with the word for it: `plot T1.7`, `bench M4`.
pub fn named(entry: &Entry) -> String {
    let word = if entry.plot.is_some() { "plot" } else { entry.place.field() };
    format!("{word} {}", about(entry))
}

/// The laptop of an entry behind its words, where it is another one: ` (on bob-2)`.
pub fn laptop(origin: Option<&str>) -> String {
    origin.map_or_else(String::new, |laptop| format!(" (on {laptop})"))
}

/// Kind, values and note in one line: `water 4, base 5 · note`.
pub fn line(entry: &Entry, system: System) -> String {
    let seen = seen(entry, system);
    match (&*entry.kind, &entry.note) {
        (Kind::Note {}, Some(note)) => format!("note: {note}"),
        (_, Some(note)) => format!("{seen} · {note}"),
        (_, None) => seen,
    }
}

/// Kind and values, without the note.
pub fn seen(entry: &Entry, system: System) -> String {
    of_kind(&entry.kind, system)
}

/// The same of what an entry says, wherever it stands.
pub fn of_kind(kind: &Kind, system: System) -> String {
    finding(kind, system).unwrap_or_else(|| work(kind, system))
}

fn finding(kind: &Kind, system: System) -> Option<String> {
    Some(match kind {
        Kind::Water { level, base } => format!("water {level}{}", opt(*base, |b| format!(", base {b}"))),
        Kind::Roots { score, pots, bad, signs, reach } => {
            let of = match (pots, bad) {
                (Some(p), Some(b)) => format!(" ({b} of {p} pots bad)"),
                (Some(p), None) => format!(" ({p} pots)"),
                _ => String::new(),
            };
            let reach = opt(*reach, |r| format!(", {}", r.text()));
            format!("roots {score}{of}{}{reach}", list(signs.iter().map(|s| s.text())))
        }
        Kind::Bracts { stage } => format!("bracts {stage}"),
        Kind::Height { cm } => format!("height {}", heights(cm, system)),
        Kind::Leaves { signs, plant_part, .. } if signs.is_empty() => {
            format!("leaves: no symptoms{}", opt(*plant_part, |w| format!(" on {}", w.text())))
        }
        Kind::Leaves { signs, plant_part, plants } => {
            let signs = signs.iter().map(|s| s.text()).collect::<Vec<_>>().join(", ");
            let plants = opt(*plants, |n| if n == 1 { ", 1 plant".to_owned() } else { format!(", {n} plants") });
            format!("leaves: {signs}{}{plants}", opt(*plant_part, |w| format!(" ({})", w.text())))
        }
        Kind::Pests { pest, count } => format!("{} {}", pest.text(), pests(count)),
        Kind::RootZone { method, ph, ec_ms_cm, pots } => format!(
            "root zone by {}{}{}{}",
            method.text(),
            opt(*ph, |v| format!(", pH {v:.1}")),
            opt(*ec_ms_cm, |v| format!(", EC {v:.2} mS/cm")),
            opt(*pots, |p| format!(", {p} pots"))
        ),
        Kind::FeedCheck { ph, ec_ms_cm, alkalinity_ppm, mg_ppm } => format!(
            "at the hose{}{}{}{}",
            opt(*ph, |v| format!(", pH {v:.1}")),
            opt(*ec_ms_cm, |v| format!(", EC {v:.2} mS/cm")),
            opt(*alkalinity_ppm, |v| format!(", alkalinity {} ppm{}", plain(v), meq(v))),
            opt(*mg_ppm, |v| format!(", {} ppm Mg", plain(v)))
        ),
        Kind::Climate { day_c, night_c, humidity_percent, log } => format!(
            "climate{}{}{}{}",
            opt(*day_c, |v| format!(", day {}", degrees(v, system))),
            opt(*night_c, |v| format!(", night {}", degrees(v, system))),
            opt(*humidity_percent, |v| format!(", humidity {v:.0}%")),
            logged(log, system)
        ),
        Kind::NightLight { lux } => format!("night light {}", Illuminance::from_lux(*lux).show(system)),
        Kind::Losses { pots, cause } => {
            format!("lost {}{}", pots_text(*pots), opt(cause.as_deref(), |c| format!(" ({c})")))
        }
        Kind::Counted { pots } => format!("counted {}", pots_text(*pots)),
        Kind::Grade { sell, second, dump } => format!("graded: {sell} salable, {second} seconds, {dump} dumped"),
        Kind::Note {} => "note".to_owned(),
        Kind::Greenness { class, spad } => {
            let meter = opt(*spad, |v| format!("{}meter {}", if class.is_some() { ", " } else { "" }, plain(v)));
            format!("greenness {}{meter}", opt(*class, |c| c.to_string()))
        }
        Kind::BractWidth { cm } => format!("bract width {}", heights(cm, system)),
        _ => return None,
    })
}

/// The same alkalinity as laboratories print it, too.
fn meq(caco3_ppm: f64) -> String {
    Alkalinity::from_caco3_ppm(caco3_ppm).map_or_else(|_| String::new(), |of| format!(" ({:.1} meq/L)", of.meq_l()))
}

fn work(kind: &Kind, system: System) -> String {
    match kind {
        Kind::Watered { ml_per_pot } => format!("watered{}", each(*ml_per_pot, system)),
        Kind::Fed { n_ppm, mg_ppm, mo_ppm, ml_per_pot } => format!(
            "fed {} ppm N{}{}{}",
            plain(*n_ppm),
            opt(*mg_ppm, |v| format!(", {} ppm Mg", plain(v))),
            opt(*mo_ppm, |v| format!(", {} ppm Mo", plain(v))),
            each(*ml_per_pot, system)
        ),
        Kind::Topdressed { g_per_pot, n_percent } => topdressed(*g_per_pot, *n_percent),
        Kind::Nutrient { material, ppm, how, ml_per_pot } => {
            format!("{} {} at {} ppm{}", material.text(), how.text(), plain(*ppm), each(*ml_per_pot, system))
        }
        Kind::GrowthRegulator { parts, how, rei_h, ml_per_pot, product, rate, application } => {
            let parts = parts.iter().map(|p| format!("{} {} ppm", p.ai, plain(p.ppm))).collect::<Vec<_>>().join(" + ");
            let label = label(product.as_deref(), rate.as_deref(), application);
            format!("{parts} {}{}{label}, closed {} h", how.text(), each(*ml_per_pot, system), plain(*rei_h))
        }
        Kind::Sprayed { ai, against, how, rei_h, product, rate, application } => {
            let label = label(product.as_deref(), rate.as_deref(), application);
            format!("{ai} {} against {against}{label}, closed {} h", how.text(), plain(*rei_h))
        }
        Kind::Released { species, count } => format!("released {count} {species}"),
        Kind::Pinched { how, nodes_left } => {
            format!("{}{}", how.text(), opt(*nodes_left, |n| format!(", {n} nodes left")))
        }
        Kind::Blackout { night, covered } => {
            format!("night of {} {}", dates::short(*night), if *covered { "covered" } else { "not covered" })
        }
        Kind::Lights { night, on } => {
            format!("lights {} on the night of {}", if *on { "on" } else { "off" }, dates::short(*night))
        }
        Kind::Spaced { centers_cm } => format!("spaced to {} centers", Length::from_cm(*centers_cm).show(system)),
        Kind::Moved { to, pots } => format!("moved {} to {to}", pots_text(*pots)),
        Kind::Sold { pots } => format!("sold {}", pots_text(*pots)),
        Kind::PutOff { warning, until, why } => {
            format!("postponed {} until {}: {why}", title(warning), dates::short(*until))
        }
        Kind::Job { step, outcome, why, .. } => job(step, *outcome, why.as_deref()),
        Kind::Strike { why, reopen: true, .. } => format!("voided an entry: {why} (reopens)"),
        Kind::Strike { why, .. } => format!("voided an entry: {why}"),
        // Findings are read above; named one by one, so that a new kind without its words does not compile.
        Kind::Water { .. }
        | Kind::Roots { .. }
        | Kind::Bracts { .. }
        | Kind::Height { .. }
        | Kind::Leaves { .. }
        | Kind::Pests { .. }
        | Kind::RootZone { .. }
        | Kind::FeedCheck { .. }
        | Kind::Climate { .. }
        | Kind::NightLight { .. }
        | Kind::Losses { .. }
        | Kind::Greenness { .. }
        | Kind::BractWidth { .. }
        | Kind::Counted { .. }
        | Kind::Grade { .. }
        | Kind::Note { .. } => String::new(),
    }
}

/// Slow-release on top: grams at every site, as they are typed and as labels give them.
fn topdressed(g_per_pot: f64, n_percent: Option<f64>) -> String {
    format!("topdressed {} g per pot{}", plain(g_per_pot), opt(n_percent, |n| format!(", {}% N", plain(n))))
}

/// A listed job and what became of it.
fn job(step: &str, outcome: JobOutcome, why: Option<&str>) -> String {
    format!("job {}: {}{}", outcome.text(), step.trim_end_matches('.'), opt(why, |why| format!(" ({why})")))
}

fn opt<T>(value: Option<T>, text: impl FnOnce(T) -> String) -> String {
    value.map_or_else(String::new, text)
}

fn list(words: impl Iterator<Item = &'static str>) -> String {
    words.fold(String::new(), |text, w| text + ", " + w)
}

fn each(ml: Option<f64>, system: System) -> String {
    // A pot's share of a drench reads in fl oz or mL, whatever the system calls large volumes in.
    opt(ml, |v| match system {
        System::Us => format!(", {} fl oz per pot", plain(Volume::from_ml(v).in_unit("fl oz").unwrap_or(v))),
        System::Metric => format!(", {} mL per pot", plain(v)),
    })
}

fn degrees(celsius: f64, system: System) -> String {
    let t = Temperature::from_c(celsius);
    format!("{:.0} {}", t.in_system(system), Temperature::unit_name(system))
}

fn heights(cm: &[f64], system: System) -> String {
    let each: Vec<String> = cm.iter().map(|v| format!("{:.1}", Length::from_cm(*v).in_system(system))).collect();
    let mean = cm.iter().sum::<f64>() / cm.len().max(1) as f64;
    format!("{} ({})", Length::from_cm(mean).show(system), each.join(" "))
}

fn pests(count: &PestCount) -> String {
    match count {
        PestCount::Plants { inspected, infested } => format!("on {infested} of {inspected} plants"),
        PestCount::Cards { cards, count, days } => format!("{count} on {cards} cards in {days} days"),
        PestCount::Wedge { larvae } => format!("{} larvae per wedge", plain(*larvae)),
    }
}

/// The title of the warning with this code; the code itself where no warning has it.
fn title(code: &str) -> String {
    WarningName::from_code(code).map_or_else(|| code.to_owned(), |name| name.title().to_owned())
}

/// Product, rate and what was used of it.
fn label(product: Option<&str>, rate: Option<&str>, application: &Application) -> String {
    let said: Vec<&str> = [product, rate, application.amount_used.as_deref()].into_iter().flatten().collect();
    if said.is_empty() { String::new() } else { format!(" ({})", said.join(", ")) }
}

/// What a data logger gives for a day besides the means.
fn logged(log: &ClimateLog, system: System) -> String {
    [
        opt(log.low_c, |v| format!(", low {}", degrees(v, system))),
        opt(log.high_c, |v| format!(", high {}", degrees(v, system))),
        opt(log.humid_hours.zip(log.humid_over), |(h, over)| format!(", {} h over {over:.0}%", plain(h))),
        opt(log.vpd_kpa, |v| format!(", VPD {v:.2} kPa")),
        opt(log.light_mol, |v| format!(", light {v:.1} mol/m2")),
    ]
    .concat()
}

fn pots_text(pots: u32) -> String {
    if pots == 1 { "1 pot".to_owned() } else { format!("{pots} pots") }
}

//! Laying a trial in words: which way the grower's own benches differ; why a layout cannot be laid, in the grower's units, and what would be right.

use crate::dates;
use crate::trials::{MOST_PLOTS, NotCompact, NotLaid, SQUARES, Wanted, WhichWay};
use crate::units::{Length, Quantity, System};

/// Why a layout cannot be laid.
pub fn not_laid(why: &NotLaid, wanted: &Wanted) -> String {
    match why {
        NotLaid::Places { plots, places, block } => of_places(wanted, (*plots, *places, *block)),
        NotLaid::Block(NotCompact::Benches { block, places }) => format!(
            "a block of {block} plots would lie over parts of two benches, for a bench has {places} places; give as many rows and \
             columns that whole blocks stand on each bench"
        ),
        NotLaid::Block(NotCompact::House { house, block, places }) => format!(
            "{house} has {places} places, and blocks of {block} plots would lie over two houses; give each house places for whole \
             blocks"
        ),
        NotLaid::Square(size) if SQUARES.contains(size) => format!(
            "a Latin square of {size} treatments needs {size} rows of {size} columns on one bench; give that, or randomized blocks"
        ),
        NotLaid::Square(size) => format!(
            "a Latin square of {size} treatments is not made; give {} to {} treatments, or randomized blocks",
            SQUARES.start(),
            SQUARES.end()
        ),
        NotLaid::Once => {
            "each treatment would stand once: that is a demonstration, which cannot separate treatment from position; \
                          give 2 blocks or more"
                .to_owned()
        }
        NotLaid::OwnBench => {
            "each treatment would have its own bench, and bench and treatment cannot be told apart; two benches for \
                              each treatment are the least, four are fair"
                .to_owned()
        }
        NotLaid::Shares => {
            "a treatment stands more often than another in randomized blocks only; give that design, or each once"
                .to_owned()
        }
        NotLaid::NotDrawn => {
            "a layout that somebody chose is not drawn; import its lines, or give another design".to_owned()
        }
        NotLaid::Many(plots) => {
            format!("that is {plots} plots, and a trial has at most {MOST_PLOTS}; give fewer blocks")
        }
    }
}

fn of_places(wanted: &Wanted, (plots, places, block): (usize, usize, usize)) -> String {
    let benches: Vec<&str> = wanted.benches.iter().map(|stand| stand.bench.as_str()).collect();
    let ground = match benches.as_slice() {
        [] => return "no bench is given; give one, such as M4".to_owned(),
        [bench] => (*bench).to_owned(),
        more => format!("{} benches", more.len()),
    };
    let each = if wanted.is_of_whole_benches() {
        format!("{ground}, each one plot,")
    } else {
        format!("{ground} with {} rows of {}", wanted.rows, wanted.columns)
    };
    let fits = places.checked_div(block).filter(|blocks| *blocks >= 2 && blocks.saturating_mul(block) == places);
    let other = fits.map_or_else(String::new, |blocks| format!(", or {blocks} blocks"));
    let have = if benches.len() == 1 { "has" } else { "have" };
    format!(
        "{block} plots a block, {} blocks: {plots} plots; {each} {have} {places} places; give {plots} places{other}",
        wanted.blocks
    )
}

/// What the grower's own heights say of a house, in the units of the site.
pub fn which_way(found: &WhichWay, system: System) -> String {
    let of = &found.gradient;
    let ends = found.benches.first().zip(found.benches.last());
    let Some(((first, _), (last, _))) = ends else { return String::new() };
    let (low, high) = of.whole_interval;
    let said = if of.is_found() {
        let way = if of.whole < 0.0 { "fall" } else { "rise" };
        let (near, far) = if of.whole < 0.0 { (-high, -low) } else { (low, high) };
        format!(
            "the pots {way} by {} ({} to {})",
            length(of.whole.abs(), system),
            plain(near, system),
            plain(far, system)
        )
    } else {
        format!("no slope is told apart from none ({} to {})", plain(low, system), length(high, system))
    };
    let spread = of.within.map_or_else(String::new, |sd| {
        format!("; on one bench they differ by {} (SD, {} df)", length(sd, system), of.df)
    });
    let so = if of.is_found() { "Make each bench a block." } else { "Blocks cost little and are still fair." };
    format!("{} on {}: from {first} to {last} {said}{spread}. {so}", found.house, dates::short(found.day))
}

/// What the same heights say along a bench, where its tags run from one side to the other; nothing where no bench has two.
pub fn over_tags(found: &WhichWay, system: System) -> Option<String> {
    let of = found.over_tags()?;
    let (low, high) = of.interval;
    Some(if low > 0.0 || high < 0.0 {
        let way = if of.slope < 0.0 { "fall" } else { "rise" };
        let (near, far) = if of.slope < 0.0 { (-high, -low) } else { (low, high) };
        format!(
            "From tag to tag the pots {way} by {} ({} to {}): lay blocks across that way.",
            length(of.slope.abs(), system),
            plain(near, system),
            plain(far, system)
        )
    } else {
        format!(
            "From tag to tag no slope is told apart from none ({} to {}).",
            plain(low, system),
            length(high, system)
        )
    })
}

fn plain(cm: f64, system: System) -> String {
    format!("{:.1}", Length::from_cm(cm).in_system(system))
}

/// A length or a difference of lengths, to a tenth.
fn length(cm: f64, system: System) -> String {
    format!("{} {}", plain(cm, system), if system == System::Us { "in" } else { "cm" })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::trials::gradient;

    #[test]
    fn a_slope_over_the_walk_is_said_with_its_interval_and_what_to_do() {
        let found = |step: f64| {
            let bench = |at: u32| {
                let odd = if at.is_multiple_of(2) { 0.5 } else { -0.5 };
                (format!("M{at}"), vec![45.0 + f64::from(at) * step + odd, 43.0 + f64::from(at) * step + odd])
            };
            let benches: Vec<(String, Vec<f64>)> = (1..=6).map(bench).collect();
            let heights: Vec<Vec<f64>> = benches.iter().map(|(_, cm)| cm.clone()).collect();
            WhichWay {
                house: "Mill".to_owned(),
                lot: "R6".to_owned(),
                day: "2026-10-13".parse().unwrap(),
                benches,
                gradient: gradient(&heights, 0.95).unwrap(),
            }
        };
        assert_eq!(
            which_way(&found(-1.0), System::Us),
            "Mill on Oct 13: from M1 to M6 the pots fall by 1.8 in (1.0 to 2.6); on one bench they differ by 0.6 in (SD, 6 df). \
             Make each bench a block."
        );
        let level = which_way(&found(0.0), System::Metric);
        assert!(level.contains("no slope is told apart from none (-") && level.ends_with("still fair."), "{level}");
        assert!(over_tags(&found(0.0), System::Us).unwrap().starts_with("From tag to tag the pots fall by 0.8 in"));
    }
}

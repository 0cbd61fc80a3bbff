//! The parts of a growth-regulator answer in words.

use super::growth_regulator::{LastDay, PartAnswer};
use super::words::range;
use crate::crop::growth_regulator::{DoseUnit, LastSafe, Measured, PackCheck, Strong, Usual};
use crate::terms::Region;
use crate::units::plain;

pub(super) fn region_word(region: Region) -> &'static str {
    match region {
        Region::Cool => "cool",
        Region::Warm => "warm",
    }
}

pub(super) fn formula(amount: &Measured, liters: f64) -> String {
    let (ppm, liters) = (plain(amount.part.ppm.ppm()), plain(liters));
    let (strength, comes) = (amount.part.strength, plain(amount.exact.base()));
    match (strength.g_per_g(), strength.g_per_l()) {
        (Some(share), _) => {
            format!("g = ppm x liters / (1000 x share) = {ppm} x {liters} / (1000 x {}) = {comes}", plain(share))
        }
        (_, Some(grams)) => format!("mL = ppm x liters / g a liter = {ppm} x {liters} / {} = {comes}", plain(grams)),
        (None, None) => String::new(),
    }
}

pub(super) fn usual_words(usual: &Usual) -> String {
    let range = range(usual.low_ppm, usual.high_ppm);
    let place = usual.region.map_or_else(String::new, |r| format!("{} region, ", region_word(r)));
    format!("{range} ppm: {place}{} ({})", usual.when, usual.basis)
}

pub(super) fn strong_words(strong: &Strong) -> String {
    let unit = match strong.unit {
        DoseUnit::Ppm => "ppm",
        DoseUnit::MgPerPot => "mg a pot",
    };
    let (given, top) = (plain(strong.given), plain(strong.top));
    if strong.limit.own {
        return format!("{given} {unit} is above your limit of {top}");
    }
    format!("{given} {unit} is above the usual top of {top} ({})", strong.basis)
}

/// What to say when the strength typed is not the usual one.
pub(super) fn pack_words(part: &PartAnswer) -> Option<String> {
    let (typed, ppm) = (part.amount.part.strength.show(), part.amount.part.ppm.ppm());
    match part.pack {
        PackCheck::Usual | PackCheck::NoFigure => None,
        PackCheck::OtherForm { usual } => Some(format!(
            "the usual pack is {} ({}), you typed {typed}: is it a solid or a liquid?",
            usual.words, usual.basis
        )),
        PackCheck::Unusual { times, usual } if times > 1.0 => Some(format!(
            "{typed} is {} times as strong as the usual pack, {} ({}). As much as a table for the usual pack says would make \
             {} ppm",
            plain(times),
            usual.words,
            usual.basis,
            plain(ppm * times)
        )),
        PackCheck::Unusual { times, usual } => Some(format!(
            "{typed} is {} of the strength of the usual pack, {} ({}). If yours is that one, the amount above makes {} ppm",
            plain(times),
            usual.words,
            usual.basis,
            plain(ppm / times)
        )),
    }
}

pub(super) fn last_words(last: &LastDay) -> String {
    let lot = if last.lot.is_empty() { String::new() } else { format!("{}: ", last.lot) };
    match last.last {
        LastSafe::Day { day, why } => {
            let late = if last.late { "the last safe day was " } else { "" };
            format!("{lot}{late}{day}: {why}")
        }
        LastSafe::NoCutOff { why } => format!("{lot}none: {why}"),
        LastSafe::NoFigure => format!("{lot}no published figure was found; the label decides"),
    }
}

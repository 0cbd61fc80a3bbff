//! How a reading is asked, the entry that an answer becomes, and what was read in words.

use super::Ways;
use crate::record::schema::kind_table;
use crate::record::{FieldFault, Kind, KindName, Plot, Term, TestMethod, TrialReading, Value, typed};
use crate::report::scales;
use crate::units::{Length, Quantity, System, plain};

/// What the digits of a reading mean; `None` where a line is typed.
pub(super) const fn digits(reading: TrialReading, plot: &Plot, ways: Ways) -> Option<&'static [(u8, &'static str)]> {
    match reading {
        TrialReading::Greenness if !ways.meter => Some(scales::GREENNESS),
        TrialReading::Bracts => Some(scales::BRACTS),
        TrialReading::Roots => Some(scales::ROOTS),
        TrialReading::Water => Some(scales::WATER),
        TrialReading::Grade if plot.pots == 1 => Some(scales::GRADES),
        TrialReading::Greenness
        | TrialReading::Grade
        | TrialReading::Height
        | TrialReading::BractWidth
        | TrialReading::RootZone => None,
    }
}

/// What to look at, or what to type.
pub(super) fn how(reading: TrialReading, plot: &Plot, ways: Ways, system: System) -> String {
    let (unit, one, several) = match system {
        System::Us => ("inches", "12.5", "12.5 13"),
        System::Metric => ("cm", "32", "32 33.5"),
    };
    let (each, example) = if plot.pots == 1 { ("", one) } else { (", each pot, with spaces between", several) };
    match reading {
        TrialReading::Height => format!("Height in {unit}, bench top to growing tip{each}, such as {example}."),
        TrialReading::BractWidth => format!("Bract width in {unit}, across the bracts of one head{each}."),
        TrialReading::Greenness if ways.meter => "Meter; of several numbers the mean is kept. m: by class.".to_owned(),
        TrialReading::Greenness => "Greenness: beside the kept leaves or the card. m: by meter.".to_owned(),
        TrialReading::RootZone => {
            format!("EC in mS/cm by {}; of several numbers the mean is kept. m: another test.", ways.method.text())
        }
        TrialReading::Grade if plot.pots == 1 => "Grade of the pot.".to_owned(),
        TrialReading::Grade => "Pots salable, seconds, and to dump, such as 2 1 0.".to_owned(),
        TrialReading::Bracts => "Bracts: the stage most of the plant has reached.".to_owned(),
        TrialReading::Roots => "Roots: knock out the pot; score the worst.".to_owned(),
        TrialReading::Water => "Water: lift the pot and look at the surface.".to_owned(),
    }
}

/// What a digit says; `None` where the reading has no such digit.
pub(super) fn of_digit(reading: TrialReading, plot: &Plot, ways: Ways, digit: u8) -> Option<Kind> {
    digits(reading, plot, ways)?.iter().find(|(known, _)| *known == digit)?;
    Some(match reading {
        TrialReading::Greenness => Kind::Greenness { class: Some(digit), spad: None },
        TrialReading::Bracts => Kind::Bracts { stage: digit },
        TrialReading::Roots => Kind::Roots { score: digit, pots: None, bad: None, signs: Vec::new(), reach: None },
        TrialReading::Water => Kind::Water { level: digit, base: None },
        TrialReading::Grade => {
            Kind::Grade { sell: u32::from(digit == 1), second: u32::from(digit == 2), dump: u32::from(digit == 3) }
        }
        TrialReading::Height | TrialReading::BractWidth | TrialReading::RootZone => return None,
    })
}

/// What a line says.
///
/// # Errors
/// Where it is no such reading; the text says what would be right.
pub(super) fn of_line(
    reading: TrialReading,
    (plot, left): (&Plot, u32),
    ways: Ways,
    (text, system): (&str, System),
) -> Result<Kind, Vec<FieldFault>> {
    match reading {
        TrialReading::Height => typed::lengths(KindName::Height, text, system),
        TrialReading::BractWidth => typed::lengths(KindName::BractWidth, text, system),
        TrialReading::RootZone => {
            let (ec, many) = mean_of(KindName::RootZone, "ec_ms_cm", (text, system))?;
            let pots = (many > 1).then_some(many);
            Ok(Kind::RootZone { method: ways.method, ph: None, ec_ms_cm: Some(ec), pots })
        }
        TrialReading::Grade => grade(text, left),
        TrialReading::Greenness => {
            let (meter, _) = mean_of(KindName::Greenness, "spad", (text, system))?;
            Ok(Kind::Greenness { class: None, spad: Some(meter) })
        }
        TrialReading::Bracts | TrialReading::Roots | TrialReading::Water => {
            Err(vec![FieldFault::new("", format!("{} of plot {} is a digit", reading.text(), plot.number()))])
        }
    }
}

/// The mean of the numbers of a line, each read as a field of this kind, and how many they are.
fn mean_of(kind: KindName, name: &str, (text, system): (&str, System)) -> Result<(f64, u32), Vec<FieldFault>> {
    let none = || vec![FieldFault::new(name, "type a number".to_owned())];
    let field = kind_table(kind).field(name).ok_or_else(none)?;
    let (mut sum, mut many) = (0.0, 0_u32);
    for word in text.split([' ', ',', ';']).filter(|word| !word.is_empty()) {
        if let Some(Value::Number(one)) = typed::read(field, word, system).map_err(|fault| vec![fault])? {
            sum += one;
            many = many.saturating_add(1);
        }
    }
    if many == 0 { Err(none()) } else { Ok((sum / f64::from(many), many)) }
}

/// Three counts of the pots that are left.
fn grade(text: &str, left: u32) -> Result<Kind, Vec<FieldFault>> {
    let counts: Option<Vec<u32>> = text.split_whitespace().map(|word| word.parse().ok()).collect();
    let sum = |counts: &[u32]| counts.iter().fold(0_u32, |sum, count| sum.saturating_add(*count));
    match counts.as_deref() {
        Some(&[sell, second, dump]) if sum(&[sell, second, dump]) == left => Ok(Kind::Grade { sell, second, dump }),
        _ => {
            let text =
                format!("type three counts, salable, seconds and to dump, that add up to {left}, such as {left} 0 0");
            Err(vec![FieldFault::new("", text)])
        }
    }
}

/// The next of the ways a root zone is tested.
pub(super) const fn next_method(method: TestMethod) -> TestMethod {
    match method {
        TestMethod::PourThrough => TestMethod::Sme,
        TestMethod::Sme => TestMethod::OneToTwo,
        TestMethod::OneToTwo => TestMethod::PourThrough,
    }
}

/// A new reading together with what an older one of the same day says beside it: the class beside the meter, the pH beside the EC.
pub(super) fn completed(new: Kind, old: Option<&Kind>) -> Kind {
    match (new, old) {
        (Kind::Greenness { class, spad }, Some(Kind::Greenness { class: was, spad: read })) => {
            Kind::Greenness { class: class.or(*was), spad: spad.or(*read) }
        }
        (Kind::RootZone { method, ph: None, ec_ms_cm, pots }, Some(Kind::RootZone { ph, method: was, .. })) => {
            Kind::RootZone { method, ph: ph.filter(|_| *was == method), ec_ms_cm, pots }
        }
        (new, _) => new,
    }
}

/// What was read, short; `bare` leaves the unit out.
pub(super) fn shown(kind: &Kind, system: System, bare: bool) -> String {
    match kind {
        Kind::Height { cm } | Kind::BractWidth { cm } => lengths(cm, system, bare),
        Kind::Greenness { class, spad } => {
            let meter = spad.map(|spad| format!("meter {}", plain(spad)));
            class.map(|class| class.to_string()).into_iter().chain(meter).collect::<Vec<_>>().join(", ")
        }
        Kind::Bracts { stage } => stage.to_string(),
        Kind::Roots { score, .. } => score.to_string(),
        Kind::Water { level, .. } => level.to_string(),
        Kind::RootZone { ec_ms_cm, .. } => {
            let ec = ec_ms_cm.map_or_else(String::new, |ec| format!("{ec:.2}"));
            if bare { ec } else { format!("{ec} mS/cm") }
        }
        Kind::Grade { sell: 1, second: 0, dump: 0 } => "salable".to_owned(),
        Kind::Grade { sell: 0, second: 1, dump: 0 } => "second".to_owned(),
        Kind::Grade { sell: 0, second: 0, dump: 1 } => "dump".to_owned(),
        Kind::Grade { sell, second, dump } => format!("{sell} {second} {dump}"),
        _ => String::new(),
    }
}

/// The mean of lengths with one decimal, and each of several.
fn lengths(cm: &[f64], system: System, bare: bool) -> String {
    let each: Vec<f64> = cm.iter().map(|cm| Length::from_cm(*cm).in_system(system)).collect();
    let mean = each.iter().sum::<f64>() / each.len().max(1) as f64;
    let unit = if bare { String::new() } else { format!(" {}", Length::unit_name(system)) };
    let several: Vec<String> = each.iter().filter(|_| each.len() > 1 && !bare).map(|one| format!("{one:.1}")).collect();
    let several = if several.is_empty() { String::new() } else { format!(" ({})", several.join(" ")) };
    format!("{mean:.1}{unit}{several}")
}

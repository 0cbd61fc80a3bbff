//! Several measurements on one line: lengths, each with or without a unit of its own.

use super::read_all;
use crate::record::{FieldFault, Kind, KindName, codec, schema};
use crate::units::System;

/// Reads lengths of a kind, heights or bract widths, as its form does, but for a unit behind one reading, which holds for that
/// reading alone.
///
/// # Errors
/// Where a reading is none, or is out of range; the text says what would be right.
///
/// ```
/// use benchwalk::record::{Kind, KindName, typed};
/// use benchwalk::units::System;
///
/// let read = |text| typed::lengths(KindName::Height, text, System::Us).unwrap();
/// assert_eq!(read("10 30cm"), Kind::Height { cm: vec![25.4, 30.0] });
/// assert!(typed::lengths(KindName::Height, "x", System::Us).is_err());
/// ```
pub fn lengths(kind: KindName, text: &str, system: System) -> Result<Kind, Vec<FieldFault>> {
    let readings: Vec<&str> = text.split([' ', ',', ';']).filter(|word| !word.is_empty()).collect();
    let digit = |c: char| c.is_ascii_digit() || c == '.';
    let text = if readings.iter().all(|reading| reading.starts_with(digit)) {
        let bare = match system {
            System::Us => "in",
            System::Metric => "cm",
        };
        let with_unit = |reading: &&str| format!("{reading}{}", if reading.ends_with(digit) { bare } else { "" });
        readings.iter().map(with_unit).collect::<Vec<_>>().join(" ")
    } else {
        text.to_owned()
    };
    let fields = schema::kind_table(kind).fields;
    let values = read_all(fields.iter().map(|field| (field, text.as_str())), system)?;
    codec::kind_from_values(kind, &values)
}

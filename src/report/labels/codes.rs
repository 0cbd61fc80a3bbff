//! One label as a picture: the code large, its QR code and its Code 128 drawn from the patterns that the libraries give.

use super::Label;
use crate::report::html::escape;
use barcoders::sym::code128::Code128;
use qrcode::{Color, EcLevel, QrCode};

/// The label in tenths of a millimeter, within its margins: what fits the smaller of the two papers.
const SIZE: (usize, usize) = (900, 460);
/// The side of the QR code with its quiet zone.
const QR: usize = 330;
/// Light modules around a QR code and at each end of a Code 128, as their standards (ISO/IEC 18004 and 15417) ask for.
const QUIET: (usize, usize) = (4, 10);
/// The widest module of a Code 128, and the height of its bars.
const MODULE: usize = 5;
const BARS: usize = 90;
/// The narrowest module that hand scanners read with ease: 0.19 mm (7.5 mil), common practice for printed labels.
const NARROWEST: f64 = 1.9;
/// What stands in the place of a Code 128 that there is none of.
const NO_BARS: &str = "no bar code: the code is too long for one, or not ASCII";
/// The set of Code 128 with letters in both cases, as the library wants it begun.
const SET_B: char = '\u{0181}';

/// Modules of a row, true where dark.
fn bars(text: &str) -> Option<Vec<bool>> {
    let printable = text.bytes().all(|byte| (b' '..=b'~').contains(&byte));
    let code = Code128::new(format!("{SET_B}{text}")).ok().filter(|_| printable)?;
    Some(code.encode().into_iter().map(|module| module == 1).collect())
}

/// The side of a QR code in modules, and its modules row by row, true where dark.
fn squares(text: &str) -> Option<(usize, Vec<bool>)> {
    // A quarter of it may be dirty or torn.
    let code = QrCode::with_error_correction_level(text, EcLevel::Q).ok()?;
    Some((code.width(), code.to_colors().into_iter().map(|color| color == Color::Dark).collect()))
}

/// Runs of dark modules in a row: where each begins, and how many.
fn runs(row: &[bool]) -> Vec<(usize, usize)> {
    let mut runs: Vec<(usize, usize)> = Vec::new();
    for (at, _) in row.iter().enumerate().filter(|(_, dark)| **dark) {
        match runs.last_mut() {
            Some((start, length)) if start.saturating_add(*length) == at => *length = length.saturating_add(1),
            _ => runs.push((at, 1)),
        }
    }
    runs
}

/// A QR code in the upper right corner.
fn qr(text: &str) -> Option<String> {
    let (side, modules) = squares(text)?;
    let module = QR as f64 / side.saturating_add(QUIET.0.saturating_mul(2)) as f64;
    let mut path = String::new();
    for (y, row) in modules.chunks(side).enumerate() {
        for (x, length) in runs(row) {
            path.push_str(&format!("M{x} {y}h{length}v1h-{length}z"));
        }
    }
    let quiet = module * QUIET.0 as f64;
    let left = SIZE.0.saturating_sub(QR) as f64 + quiet;
    Some(format!("<path class=\"qr\" transform=\"translate({left:.2} {quiet:.2}) scale({module:.4})\" d=\"{path}\"/>"))
}

/// A Code 128 along the lower edge; `None` where the code has other than ASCII characters or would be too fine to read.
fn code128(text: &str) -> Option<String> {
    let modules = bars(text)?;
    let all = modules.len().saturating_add(QUIET.1.saturating_mul(2));
    let module = (SIZE.0 as f64 / all as f64).min(MODULE as f64);
    if module < NARROWEST {
        return None;
    }
    let path: String = runs(&modules)
        .into_iter()
        .fold(String::new(), |path, (x, length)| format!("{path}M{x} 0h{length}v{BARS}h-{length}z"));
    let (left, top) = (module * QUIET.1 as f64, SIZE.1.saturating_sub(BARS));
    Some(format!("<path class=\"bars\" transform=\"translate({left:.2} {top}) scale({module:.4} 1)\" d=\"{path}\"/>"))
}

/// A line of text, made as small as its place needs.
fn line(text: &str, (y, most, room): (usize, usize, usize), weight: &str) -> String {
    // Capitals of a bold sans-serif are about seven tenths as wide as high, from memory.
    let wide = text.chars().count().max(1);
    let size = (room as f64 / (wide as f64 * 0.7)).min(most as f64);
    format!(
        "<text x=\"0\" y=\"{y}\" font-size=\"{size:.1}\" font-weight=\"{weight}\" font-family=\"sans-serif\">{}</text>",
        escape(text)
    )
}

/// A label as a picture.
pub(super) fn drawn(label: &Label, site: &str) -> String {
    let text = label.scanned();
    let left = SIZE.0.saturating_sub(QR);
    let bars = code128(&text).unwrap_or_else(|| line(NO_BARS, (445, 24, SIZE.0), "normal"));
    let words = escape(&format!("{}, {}, code {text}", label.large, label.place));
    format!(
        "<svg viewBox=\"0 0 {} {}\" role=\"img\" aria-label=\"{words}\"><desc>{words}</desc>{}{}{}{}{bars}</svg>",
        SIZE.0,
        SIZE.1,
        line(&label.large, (190, 220, left), "bold"),
        line(&label.place, (260, 36, left), "normal"),
        line(site, (310, 30, left), "normal"),
        qr(&text).unwrap_or_default(),
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Bars and gaps by their widths, the first a bar.
    fn widths(modules: &[bool]) -> String {
        modules.chunk_by(|a, b| a == b).map(|run| run.len().to_string()).collect()
    }

    /// Values of set B are the ASCII code less 32; the check is the start (104) and each value times its place, modulo 103. The
    /// patterns are those of the standard: start B 211214, `=` (29) 322211, `E` (37) 132113, `3` (19) 221132, 58 312311,
    /// stop 2331112.
    #[test]
    fn a_code_128_has_the_patterns_of_the_standard() {
        let check = (104 + 29 + 2 * 37 + 3 * 19) % 103;
        assert_eq!(check, 58);
        let found = widths(&bars("=E3").unwrap());
        assert_eq!(found, ["211214", "322211", "132113", "221132", "312311", "2331112"].concat());
    }

    #[test]
    fn what_code_128_cannot_hold_is_left_to_the_qr_code() {
        assert!(bars("=Größe").is_none() && squares("=Größe").is_some());
        assert!(code128(&"=".repeat(60)).is_none(), "too fine to read");
        let label = Label { code: "Ü1".into(), large: "Ü1".into(), place: "house East".into() };
        assert!(drawn(&label, "Site").contains("no bar code"));
    }

    /// The finder patterns stand in three corners, and the quiet zone is free.
    #[test]
    fn a_qr_code_has_its_three_finders() {
        let (side, modules) = squares("=M7").unwrap();
        assert_eq!((side, modules.len()), (21, 441));
        let finder = |x: usize, y: usize| (0..7).all(|n| modules[(y + n) * side + x] && modules[y * side + x + n]);
        assert!(finder(0, 0) && finder(side - 7, 0) && finder(0, side - 7));
    }
}

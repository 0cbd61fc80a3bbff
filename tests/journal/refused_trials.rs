//! What is refused in the lines of a trial and its plots, by field, and what is said of it.

use crate::refused::{entry, refused, snapshot};

/// A trial, some of its fields as they stand replaced, and more.
fn trial(change: (&str, &str), more: &str) -> String {
    let whole = r#"{"type":"trial","trial":"T1","lot":"L1","question":"rate","treatments":["0 g","4 g","8 g"],"rates":[0,4,8],"rate_unit":"g per pot","control":"0 g","design":"randomized-blocks","seed":"48213907","reads":["height"],"from":"2026-10-05","until":"2026-11-20""#;
    assert!(whole.contains(change.0), "{}", change.0);
    format!("{}{more}}}", whole.replace(change.0, change.1))
}

fn wrong_trials() -> Vec<(&'static str, String)> {
    vec![
        ("trial without its fields", r#"{"type":"trial","trial":"T1"}"#.to_owned()),
        ("trial code with a point", trial((r#""T1""#, r#""T1.2""#), "")),
        ("trial code too long", trial((r#""T1""#, r#""slow-release-2""#), "")),
        ("one treatment", trial((r#"["0 g","4 g","8 g"],"rates":[0,4,8],"rate_unit":"g per pot""#, r#"["0 g"]"#), "")),
        ("treatment twice", trial((r#""8 g"]"#, r#""4 g"]"#), "")),
        ("treatment too long", trial((r#""8 g"]"#, r#""eight grams on top of the mix"]"#), "")),
        ("control that is no treatment", trial((r#""control":"0 g""#, r#""control":"none""#), "")),
        ("rates without their unit", trial((r#","rate_unit":"g per pot""#, ""), "")),
        ("a unit without rates", trial((r#""rates":[0,4,8],"#, ""), "")),
        ("fewer rates than treatments", trial(("[0,4,8]", "[0,4]"), "")),
        ("rates not ascending", trial(("[0,4,8]", "[0,8,4]"), "")),
        ("unknown design", trial(("randomized-blocks", "split-plot"), "")),
        ("drawn without its seed", trial((r#","seed":"48213907""#, ""), "")),
        ("seed of seven digits", trial(("48213907", "4821390"), "")),
        ("seed with a letter", trial(("48213907", "4821390x"), "")),
        ("seed of a layout that was not drawn", trial(("randomized-blocks", "as-laid"), "")),
        (
            "drawn often, and not drawn",
            trial((r#""randomized-blocks","seed":"48213907""#, r#""as-laid""#), r#","drawn":3"#),
        ),
        ("nothing is read", trial((r#"["height"]"#, "[]"), "")),
        ("unknown reading", trial((r#"["height"]"#, r#"["color"]"#), "")),
        ("the same reading twice", trial((r#"["height"]"#, r#"["height","height"]"#), "")),
        ("last reading before the first", trial(("2026-11-20", "2026-10-01"), "")),
        ("ended without its last day", trial((r#","until":"2026-11-20""#, ""), r#","ended_because":"pots sold""#)),
        ("read every 0 days", trial((r#""lot":"L1""#, r#""lot":"L1","every_days":0"#), "")),
    ]
}

fn wrong_plots() -> Vec<(&'static str, String)> {
    let plot = |code: &str, rest: &str| {
        format!(
            r#"{{"type":"plot","plot":"{code}","trial":"T1","bench":"E1","row":1,"column":2,"treatment":"8 g"{rest}}}"#
        )
    };
    let water = r#""kind":"water","level":4"#;
    vec![
        ("plot without its pots", plot("T1.7", "")),
        ("plot of no pots", plot("T1.7", r#","pots":0"#)),
        ("plot of another trial", plot("T2.7", r#","pots":1"#)),
        ("plot without its number", plot("T1", r#","pots":1"#)),
        ("plot number 0", plot("T1.0", r#","pots":1"#)),
        ("plot in row 0", plot("T1.7", r#","pots":1"#).replace(r#""row":1"#, r#""row":0"#)),
        ("plot in block 0", plot("T1.7", r#","pots":1,"block":0"#)),
        ("entry of a plot that is no code", entry(&format!(r#""plot":"seven",{water}"#))),
        (
            "entry of a plot without its bench",
            entry(&format!(r#""plot":"T1.7",{water}"#)).replace(r#""bench""#, r#""house""#),
        ),
        ("greenness without class or meter", entry(r#""kind":"greenness""#)),
        ("greenness off the scale", entry(r#""kind":"greenness","class":6"#)),
        ("bract width of nothing", entry(r#""kind":"bract-width","cm":[]"#)),
    ]
}

#[test]
fn each_wrong_line_of_a_trial_is_refused_by_its_field() {
    snapshot("journal_refused_trials", &refused(&[wrong_trials(), wrong_plots()].concat()));
}

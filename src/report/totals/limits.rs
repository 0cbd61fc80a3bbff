//! The limits file of the next season: what was changed from the defaults, and what the trials found as comments.

use super::SeasonEnd;
use super::sections::rate_words;
use crate::dates;
use crate::limits::{Limits, changed};

/// The file. Without a change and without a trial it holds comments only, which is a good limits file too.
pub fn limits_file(end: &SeasonEnd, limits: &Limits) -> String {
    let mut out = format!(
        "# Benchwalk limits for the season after the one of {}, {}.\n\
         # Kept as limits.toml in the config folder, or named with --limits FILE.\n",
        one_line(&end.totals.site),
        dates::long(end.totals.on)
    );
    let own = changed(limits);
    out.push_str(if own.is_empty() {
        "# No limit was changed from its default.\n"
    } else {
        "# What was changed from the defaults; all other limits keep them.\n"
    });
    out.push_str(&own);
    if !end.trials.is_empty() {
        out.push_str("\n# What the trials found\n");
    }
    for report in &end.trials {
        let trial = report.found.trial();
        comment(&format!("{}: {}", trial.trial, report.words().subject()), &mut out);
        for sentence in SeasonEnd::result(report) {
            comment(&format!("  {sentence}"), &mut out);
        }
    }
    if !end.rates.is_empty() {
        out.push_str("\n# Rates kept; the plan beside this file has them in its lots\n");
    }
    for rate in &end.rates {
        comment(&rate_words(rate), &mut out);
    }
    out
}

fn one_line(text: &str) -> String {
    text.chars().map(|c| if c.is_control() { ' ' } else { c }).collect()
}

fn comment(text: &str, out: &mut String) {
    out.push_str(&format!("# {}\n", one_line(text)));
}

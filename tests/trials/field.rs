//! A season with a trial, written line by line as a journal.

use benchwalk::journal;
use benchwalk::record::{Line, Plan, TrialReading};
use benchwalk::season::Season;
use benchwalk::trials::{Analysis, Data, Over, Readings, Refused, Rules, analyze};
use chrono::NaiveDate;
use serde_json::Value;
use std::collections::HashMap;

/// A day of 2026.
pub(crate) fn date(month: u32, day: u32) -> NaiveDate {
    NaiveDate::from_ymd_opt(2026, month, day).unwrap()
}

/// One set of numbers whose answers were published or computed by other programs.
pub(crate) fn outside(id: &str) -> Value {
    let all: Value = serde_json::from_str(include_str!("../outside/trial-sets.json")).unwrap();
    all["sets"].as_array().unwrap().iter().find(|set| set["id"] == id).unwrap().clone()
}

pub(crate) fn near(got: f64, expected: f64, tolerance: f64) {
    assert!((got - expected).abs() <= tolerance, "{got}, not {expected}");
}

/// The lines of a season, as they are written.
#[derive(Debug, Clone, Default)]
pub(crate) struct Field {
    lines: Vec<String>,
    /// The bench of each plot.
    benches: HashMap<u32, String>,
    written: u32,
}

impl Field {
    /// Two houses of six benches, 60 pots of R6 on each.
    pub(crate) fn new() -> Self {
        let mut field = Self::default();
        field.line(r#"{"type":"journal","version":2}"#);
        field.line(
            r#"{"type":"site","name":"Thistlecot","latitude":44.1,"longitude":-70.21,"time_zone":"America/New_York","units":"us"}"#,
        );
        field.line(
            r#"{"type":"lot","lot":"R6","cultivar":"mid red","container":"6.5 in","cuttings_per_pot":1,"pots":720,"planted":"2026-08-17","pinch":"soft","response_weeks":9.5,"nights":"natural","ready_by":"2026-11-27"}"#,
        );
        for n in 1..=12 {
            let (house, code) = if n < 7 { ("Mill", format!("M{n}")) } else { ("East", format!("E{}", n - 6)) };
            field.line(&format!(r#"{{"type":"bench","bench":"{code}","house":"{house}","order":{n}}}"#));
            field.line(&format!(r#"{{"type":"placement","bench":"{code}","lot":"R6","pots":60,"from":"2026-08-17"}}"#));
        }
        field
    }

    pub(crate) fn line(&mut self, line: &str) {
        self.lines.push(line.to_owned());
    }

    /// T1, from October 5 on; `more` are fields that have no usual value here.
    pub(crate) fn trial(&mut self, design: &str, treatments: &[&str], more: &str) {
        let seed = if design == "as-laid" { "" } else { r#""seed":"48213907","# };
        let treatments = serde_json::to_string(treatments).unwrap();
        self.line(&format!(
            r#"{{"type":"trial","trial":"T1","lot":"R6","question":"slow-release rate","treatments":{treatments},"design":"{design}",{seed}"from":"2026-10-05"{more}}}"#
        ));
    }

    pub(crate) fn plot(&mut self, n: u32, (bench, row, column): (&str, u32, u32), block: Option<u32>, treatment: &str) {
        self.plot_of(n, (bench, row, column), block, treatment, 1);
    }

    /// A plot of several pots.
    pub(crate) fn plot_of(
        &mut self,
        n: u32,
        (bench, row, column): (&str, u32, u32),
        block: Option<u32>,
        treatment: &str,
        pots: u32,
    ) {
        self.benches.insert(n, bench.to_owned());
        let block = block.map_or_else(String::new, |block| format!(r#""block":{block},"#));
        self.line(&format!(
            r#"{{"type":"plot","plot":"T1.{n}","trial":"T1","bench":"{bench}","row":{row},"column":{column},{block}"treatment":"{treatment}","pots":{pots}}}"#
        ));
    }

    /// A plot is moved to another bench in the evening of a day.
    pub(crate) fn moved(&mut self, n: u32, (bench, row, column): (&str, u32, u32), treatment: &str, on: NaiveDate) {
        self.benches.insert(n, bench.to_owned());
        self.line(&format!(
            r#"{{"type":"plot","plot":"T1.{n}","trial":"T1","bench":"{bench}","row":{row},"column":{column},"treatment":"{treatment}","pots":1,"at":"{on}T19:00:00-04:00","by":"kt"}}"#
        ));
    }

    /// An entry of a plot, each a second after the one before it.
    pub(crate) fn entry(&mut self, on: NaiveDate, n: u32, rest: &str) {
        self.written += 1;
        let (minute, second) = (self.written / 60 % 60, self.written % 60);
        let (hour, bench) = (7 + self.written / 3600, &self.benches[&n]);
        self.lines.push(format!(
            r#"{{"type":"entry","at":"{on}T{hour:02}:{minute:02}:{second:02}-04:00","by":"kt","bench":"{bench}","plot":"T1.{n}",{rest}}}"#
        ));
    }

    pub(crate) fn height(&mut self, on: NaiveDate, n: u32, cm: &[f64]) {
        let cm = serde_json::to_string(cm).unwrap();
        self.entry(on, n, &format!(r#""kind":"height","cm":{cm}"#));
    }

    pub(crate) fn lines(&self) -> Vec<Line> {
        journal::read(&format!("{}\n", self.lines.join("\n"))).unwrap()
    }

    /// The season, whose lines keep the rules across lines.
    pub(crate) fn season(&self) -> Season {
        let lines = self.lines();
        assert_eq!(Season::new(Plan::default(), vec![]).check(&lines), vec![]);
        Season::of(lines)
    }

    pub(crate) fn readings(&self, on: NaiveDate) -> Readings {
        Readings::of(&self.season(), "T1", on).unwrap()
    }

    /// The heights of a day.
    pub(crate) fn data(&self, on: NaiveDate) -> Data {
        self.readings(on).data(TrialReading::Height, Over::Day(on), false).unwrap()
    }

    pub(crate) fn analysis(&self, on: NaiveDate) -> Result<Analysis, Refused> {
        analyze(&self.data(on), Rules::default())
    }
}

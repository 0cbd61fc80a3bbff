//! The arithmetic of trials held against other programs' answers and published tables: `trial-sets.json` names the source of each set.

use super::basis::{Basis, Row};
use benchwalk::stats::{
    Draw, Dunnett, Fit, Sides, Squares, Test, beta_share, brown_forsythe, chi_square_tail, f_tail, friedman,
    kruskal_wallis, least_seen, nonadditivity, odd_one, plateau, range_quantile, shapiro_francia, t_two_sided,
};
use benchwalk::terms::Design;
use benchwalk::trials::{Against, Analysis, Comparisons, Data, Plot, Reading, Rules, across, analyze, seen as shown};
use serde_json::Value;

const RULES: Rules = Rules { alpha: 0.05, power: 0.8, least_df: 4, good_df: 10, shuffles: 9999 };

const SETS: &str = include_str!("trial-sets.json");

/// A set by its name.
fn set(id: &str) -> Value {
    let all: Value = serde_json::from_str(SETS).unwrap();
    let found = all["sets"].as_array().unwrap().iter().find(|s| s["id"] == id);
    found.unwrap_or_else(|| panic!("no set {id}")).clone()
}

/// A row against a number of a set.
struct Rows {
    id: &'static str,
    source: &'static str,
    all: Vec<Row>,
}

impl Rows {
    fn of(id: &'static str) -> (Self, Value) {
        let set = set(id);
        let source: &'static str = set["source"].as_str().unwrap().to_owned().leak();
        (Self { id, source, all: Vec::new() }, set)
    }

    fn absolute(&mut self, name: &str, expected: &Value, tolerance: f64, got: f64) {
        let expected = expected.as_f64().unwrap_or_else(|| panic!("{}: {name} has no number", self.id));
        let basis = Basis::Published(self.source);
        self.all.push(Row::new(format!("{} {name}", self.id), basis, expected, tolerance, got));
    }

    fn relative(&mut self, name: &str, expected: &Value, tolerance: f64, got: f64) {
        let size = expected.as_f64().unwrap_or_default().abs();
        self.absolute(name, expected, tolerance * size, got);
    }

    /// An analysis of variance: sums of squares, F and its tail.
    fn squares(&mut self, name: &str, expected: &Value, tolerance: f64, (part, rest): (Squares, Squares)) {
        self.absolute(&format!("{name} df"), &expected["df"], 0.0, part.df as f64);
        self.relative(&format!("{name} sum of squares"), &expected["ss"], tolerance, part.ss);
        if let Some(f) = expected.get("f") {
            let got = part.mean().unwrap() / rest.mean().unwrap();
            self.relative(&format!("{name} F"), f, tolerance, got);
            if let Some(p) = expected.get("p") {
                let got = f_tail(got, part.df as f64, rest.df as f64);
                self.relative(&format!("{name} p"), p, tolerance.max(1e-8), got);
            }
        }
    }

    fn test(&mut self, name: &str, expected: (&Value, &Value), tolerance: f64, got: Test) {
        self.relative(name, expected.0, tolerance, got.statistic);
        self.relative(&format!("{name} p"), expected.1, tolerance, got.p);
    }
}

fn text(value: &Value) -> String {
    value.as_str().map_or_else(|| value.to_string(), str::to_owned)
}

/// A column of a set's data.
fn column(set: &Value, name: &str) -> Vec<Value> {
    let at = set["columns"].as_array().unwrap().iter().position(|c| c == name).unwrap();
    set["data"].as_array().unwrap().iter().map(|row| row[at].clone()).collect()
}

fn numbers(set: &Value, name: &str) -> Vec<f64> {
    column(set, name).iter().map(|v| v.as_f64().unwrap()).collect()
}

/// Columns of ones and zeros for all levels but the first.
fn levels(set: &Value, name: &str) -> Vec<Vec<f64>> {
    let values: Vec<String> = column(set, name).iter().map(text).collect();
    let mut levels = values.clone();
    levels.sort();
    levels.dedup();
    levels.iter().skip(1).map(|l| values.iter().map(|v| f64::from(u8::from(v == l))).collect()).collect()
}

/// The columns of a model, and where each term's begin and end.
fn model(set: &Value, terms: &[&str]) -> (Vec<Vec<f64>>, Vec<std::ops::Range<usize>>) {
    let n = set["data"].as_array().unwrap().len();
    let (mut columns, mut ranges) = (vec![vec![1.0; n]], Vec::new());
    for term in terms {
        let start = columns.len();
        columns.extend(levels(set, term));
        ranges.push(start..columns.len());
    }
    (columns, ranges)
}

/// The readings of each level.
fn groups(set: &Value, by: &str) -> Vec<Vec<f64>> {
    let keys: Vec<String> = column(set, by).iter().map(text).collect();
    let mut levels = keys.clone();
    levels.sort();
    levels.dedup();
    let readings = numbers(set, "y");
    let of = |level: &String| keys.iter().zip(&readings).filter(|(k, _)| *k == level).map(|(_, y)| *y).collect();
    levels.iter().map(of).collect()
}

fn nist(id: &'static str) -> Vec<Row> {
    let (mut rows, set) = Rows::of(id);
    let (columns, ranges) = model(&set, &["treatment"]);
    let fit = Fit::of(&columns, &numbers(&set, "y")).unwrap();
    let (tolerance, rest) = (set["relative_tolerance"].as_f64().unwrap(), fit.rest());
    rows.squares("treatment", &set["expect"]["treatment"], tolerance, (fit.squares(ranges[0].clone()), rest));
    rows.squares("rest", &set["expect"]["rest"], tolerance, (rest, rest));
    rows.all
}

/// Designs with position: what position takes, what treatment takes after it, and the checks of the residuals.
fn designed(id: &'static str, terms: &[&str]) -> Vec<Row> {
    let (mut rows, set) = Rows::of(id);
    let (columns, ranges) = model(&set, terms);
    let readings = numbers(&set, "y");
    let fit = Fit::of(&columns, &readings).unwrap();
    let tolerance = set["tolerance"]["anova_relative"].as_f64().unwrap();
    let expect = &set["expect"];
    let rest = fit.rest();
    for (term, range) in terms.iter().zip(&ranges) {
        rows.squares(term, &expect["anova"][*term], tolerance, (fit.squares(range.clone()), rest));
    }
    rows.squares("rest", &expect["anova"]["rest"], tolerance, (rest, rest));
    let francia = shapiro_francia(&fit.residuals()).unwrap();
    let wanted = &expect["shapiro_francia"];
    rows.test("Shapiro-Francia", (&wanted["w"], &wanted["p"]), 1e-6, francia);
    let (at, odd) = odd_one(&fit).unwrap();
    let wanted = &expect["outlier"];
    rows.test("odd plot", (&wanted["t"], &wanted["p_bonferroni"]), 1e-8, odd);
    rows.absolute("odd plot's place", &wanted["plot"], 0.0, (at + 1) as f64);
    rows.all
}

fn strawberry() -> Vec<Row> {
    let (mut rows, set) = Rows::of("strawberry-blocks");
    let (columns, _) = model(&set, &["block", "treatment"]);
    let wanted = &set["expect"]["nonadditivity"];
    let got = nonadditivity(&columns, &numbers(&set, "y")).unwrap();
    rows.test("nonadditivity", (&wanted["f"], &wanted["p"]), 1e-8, got);
    let blocks = in_blocks(&set);
    let q = friedman(&blocks).unwrap();
    rows.relative("Friedman", &set["expect"]["friedman"]["statistic"], 1e-9, q);
    rows.relative("Friedman p", &set["expect"]["friedman"]["p.value"], 1e-9, chi_square_tail(q, 7.0));
    let got = Dunnett::of_correlations(&vec![vec![0.5; 7]; 7]).quantile(0.05, 21.0, Sides::Two).unwrap();
    rows.absolute("Dunnett's critical value", &set["expect"]["dunnett_critical"], 1e-6, got);
    rows.all
}

/// The readings of each block, its treatments in order.
fn in_blocks(set: &Value) -> Vec<Vec<f64>> {
    let (blocks, treatments) = (column(set, "block"), column(set, "treatment"));
    let mut all: Vec<(String, String, f64)> =
        blocks.iter().zip(&treatments).zip(numbers(set, "y")).map(|((b, t), y)| (text(b), text(t), y)).collect();
    all.sort_by(|a, b| (&a.0, &a.1).cmp(&(&b.0, &b.1)));
    all.chunk_by(|a, b| a.0 == b.0).map(|block| block.iter().map(|(_, _, y)| *y).collect()).collect()
}

fn critical() -> Vec<Row> {
    let mut all = Vec::new();
    let (mut rows, set) = Rows::of("tukey-critical");
    for row in set["data"].as_array().unwrap() {
        let (means, df) = (usize::try_from(row[0].as_u64().unwrap()).unwrap(), row[1].as_f64().unwrap());
        let got = range_quantile(0.05, means, df).unwrap();
        rows.absolute(&format!("{means} means, {df} df, scipy"), &row[2], 1e-7, got);
        rows.absolute(&format!("{means} means, {df} df, R"), &row[3], 2e-4, got);
    }
    all.append(&mut rows.all);
    for (id, sides) in [("dunnett-critical", Sides::Two), ("dunnett-one-sided-1955", Sides::One)] {
        let (mut rows, set) = Rows::of(id);
        let tolerance = set["absolute_tolerance"].as_f64().unwrap();
        for row in set["data"].as_array().unwrap() {
            let (count, df) = (usize::try_from(row[0].as_u64().unwrap()).unwrap(), row[1].as_f64().unwrap());
            let got = Dunnett::of_counts(&vec![5; count], 5).quantile(0.05, df, sides).unwrap();
            rows.absolute(&format!("{count} beside the control, {df} df"), &row[2], tolerance, got);
        }
        all.append(&mut rows.all);
    }
    all
}

fn rates_and_checks() -> Vec<Row> {
    let (mut rows, set) = Rows::of("plateau-16");
    let (x, y) = (numbers(&set, "x"), numbers(&set, "y"));
    let f = |df: usize| t_two_sided(0.95, df as f64).map(|t| t * t);
    let got = plateau(&[vec![1.0; x.len()]], &x, &y, f).unwrap();
    let wanted = &set["expect"]["linear_plateau"];
    rows.absolute("join", &wanted["join"], 0.001, got.join);
    rows.absolute("join at least", &wanted["join_lower"], 0.002, got.low);
    rows.absolute("join at most", &wanted["join_upper"], 0.002, got.high);
    rows.relative("slope", &wanted["slope"], 1e-6, got.slope);
    rows.relative("rest", &wanted["rss"], 1e-6, got.rest);
    let mut all = rows.all;

    let (mut rows, set) = Rows::of("insect-sprays");
    let (columns, ranges) = model(&set, &["treatment"]);
    let fit = Fit::of(&columns, &numbers(&set, "y")).unwrap();
    let expect = &set["expect"];
    let parts = (fit.squares(ranges[0].clone()), fit.rest());
    rows.squares("treatment", &expect["anova"]["treatment"], 1e-9, parts);
    let groups = groups(&set, "treatment");
    let wanted = &expect["brown_forsythe"];
    rows.test("Brown-Forsythe", (&wanted["f"], &wanted["p"]), 1e-9, brown_forsythe(&groups).unwrap());
    let roots: Vec<Vec<f64>> = groups.iter().map(|g| g.iter().map(|y| y.sqrt()).collect()).collect();
    let wanted = &expect["brown_forsythe_of_square_roots"];
    rows.test("Brown-Forsythe of roots", (&wanted["f"], &wanted["p"]), 1e-9, brown_forsythe(&roots).unwrap());
    let wanted = &expect["shapiro_francia"];
    let got = shapiro_francia(&fit.residuals()).unwrap();
    rows.test("Shapiro-Francia", (&wanted["w"], &wanted["p"]), 1e-6, got);
    all.append(&mut rows.all);
    all
}

fn by_rank() -> Vec<Row> {
    let (mut rows, set) = Rows::of("kruskal-14");
    let groups: Vec<Vec<f64>> = serde_json::from_value(set["data"].clone()).unwrap();
    let got = kruskal_wallis(&groups).unwrap();
    rows.relative("statistic", &set["expect"]["statistic"], 1e-9, got);
    rows.relative("p", &set["expect"]["p.value"], 1e-9, chi_square_tail(got, 2.0));
    let mut all = rows.all;
    let (mut rows, set) = Rows::of("friedman-exact");
    for row in set["data"].as_array().unwrap() {
        let [treatments, blocks] = [0, 1].map(|at| usize::try_from(row[at].as_u64().unwrap()).unwrap());
        let got = exact_friedman(treatments, blocks, row[2].as_f64().unwrap());
        rows.absolute(&format!("{treatments} treatments, {blocks} blocks, Q {}", row[2]), &row[3], 1e-5, got);
    }
    all.append(&mut rows.all);
    all
}

/// How many of all ways to rank the treatments in the blocks give at least `q`; the first block's order can stay.
fn exact_friedman(treatments: usize, blocks: usize, q: f64) -> f64 {
    let orders = orders((1..=treatments).map(|r| r as f64).collect());
    let ways = orders.len().pow(u32::try_from(blocks - 1).unwrap());
    let reached = (0..ways).filter(|way| {
        let mut code = *way;
        let mut all = vec![orders[0].clone()];
        for _ in 1..blocks {
            all.push(orders[code % orders.len()].clone());
            code /= orders.len();
        }
        // The published table holds statistics rounded to a digit.
        friedman(&all).unwrap() >= q - 0.05
    });
    reached.count() as f64 / ways as f64
}

/// All orders of some values.
fn orders(values: Vec<f64>) -> Vec<Vec<f64>> {
    if values.len() < 2 {
        return vec![values];
    }
    let mut all = Vec::new();
    for at in 0..values.len() {
        let mut rest = values.clone();
        let first = rest.remove(at);
        all.extend(orders(rest).into_iter().map(|mut order| {
            order.insert(0, first);
            order
        }));
    }
    all
}

fn seen() -> Vec<Row> {
    let (mut rows, set) = Rows::of("seen");
    let value = |at: usize| &set["data"][at][1];
    let blocks_sed = (2.0_f64 / 6.0).sqrt();
    let t = t_two_sided(0.95, 15.0).unwrap();
    rows.absolute("one pair at t", value(2), 1e-5, least_seen(0.8, t, 15.0).unwrap() * blocks_sed);
    let tukey = range_quantile(0.05, 4, 15.0).unwrap() / std::f64::consts::SQRT_2;
    rows.absolute("at Tukey's value", value(3), 1e-5, least_seen(0.8, tukey, 15.0).unwrap() * blocks_sed);
    // The power that 20 a group give for one SD: the least difference at that power is one SD.
    let power = value(0).as_f64().unwrap();
    let found = least_seen(power, t_two_sided(0.95, 38.0).unwrap(), 38.0).unwrap() * (2.0_f64 / 20.0).sqrt();
    rows.absolute("20 a group, in SD", &Value::from(1.0), 1e-5, found);
    // Four groups, variance 1 between and 3 within: the number a group at which F is found in 80 of 100.
    let count = value(1).as_f64().unwrap();
    rows.absolute("F of four groups, power", &Value::from(0.8), 1e-5, power_of_f(count));
    rows.all
}

/// The power of F at 0.05 for four groups of `count` each, variance 1 between and 3 within: noncentral F as a sum of beta shares weighted
/// by Poisson's distribution (Abramowitz and Stegun, 26.6.20).
fn power_of_f(count: f64) -> f64 {
    let (above, rest) = (3.0, 4.0 * (count - 1.0));
    let (mut low, mut high) = (0.0, 100.0);
    for _ in 0..200 {
        let middle = f64::midpoint(low, high);
        if f_tail(middle, above, rest) > 0.05 { low = middle } else { high = middle }
    }
    let half = count * 3.0 / 3.0 / 2.0;
    let x = above * low / (above * low + rest);
    let (mut weight, mut below) = ((-half).exp(), 0.0);
    for j in 0..200_u32 {
        let j = f64::from(j);
        below += weight * beta_share(x, above / 2.0 + j, rest / 2.0);
        weight *= half / (j + 1.0);
    }
    1.0 - below
}

/// One slope a plot from its readings, then the analysis of the slopes.
fn several_days() -> Vec<Row> {
    let (mut rows, set) = Rows::of("several-days");
    let slopes: Vec<f64> = column(&set, "days")
        .into_iter()
        .zip(column(&set, "weights"))
        .map(|(days, weights)| {
            let days: Vec<f64> = serde_json::from_value(days).unwrap();
            let weights: Vec<f64> = serde_json::from_value(weights).unwrap();
            Fit::of(&[vec![1.0; days.len()], days], &weights).unwrap().estimate(&[0.0, 1.0]).unwrap().0
        })
        .collect();
    for (at, expected) in set["expect"]["slopes_first_five"].as_array().unwrap().iter().enumerate() {
        rows.relative(&format!("slope {}", at + 1), expected, 1e-9, slopes[at]);
    }
    let (columns, ranges) = model(&set, &["diet"]);
    let fit = Fit::of(&columns, &slopes).unwrap();
    let (wanted, rest) = (&set["expect"]["anova_of_slopes"], fit.rest());
    rows.squares("slopes", &wanted["treatment"], 1e-9, (fit.squares(ranges[0].clone()), rest));
    rows.squares("rest of slopes", &wanted["rest"], 1e-9, (rest, rest));
    rows.all
}

/// A set as a trial: a plot a row of data.
fn trial(set: &Value, (design, treatment, value): (Design, &str, &str), control: Option<&str>) -> Data {
    let named: Vec<String> = column(set, treatment).iter().map(text).collect();
    let mut treatments = named.clone();
    let number = |t: &String| t.parse::<f64>().ok();
    treatments.sort_by(|a, b| number(a).partial_cmp(&number(b)).unwrap().then(a.cmp(b)));
    treatments.dedup();
    let has = |name: &str| set["columns"].as_array().unwrap().iter().any(|c| c == name);
    let place = |name: &str| -> Vec<u32> {
        if !has(name) {
            return (1..).take(named.len()).collect();
        }
        let all: Vec<String> = column(set, name).iter().map(text).collect();
        let mut levels = all.clone();
        levels.sort();
        levels.dedup();
        all.iter().map(|v| u32::try_from(levels.iter().position(|l| l == v).unwrap()).unwrap() + 1).collect()
    };
    let (blocks, rows, columns) = (place("block"), place("row"), place("column"));
    let plots = numbers(set, value)
        .into_iter()
        .enumerate()
        .map(|(at, value)| Plot {
            number: u32::try_from(at).unwrap() + 1,
            treatment: treatments.iter().position(|t| *t == named[at]).unwrap(),
            block: has("block").then_some(blocks[at]),
            bench: "M4".to_owned(),
            row: rows[at],
            column: columns[at],
            value: Some(value),
            before: None,
            lost: false,
        })
        .collect();
    let rates = treatments.iter().map(number).collect::<Option<Vec<f64>>>();
    let control = control.map(|c| treatments.iter().position(|t| t == c).unwrap());
    Data { treatments, rates, control, design, reading: Reading::Measured, plots }
}

impl Rows {
    fn means(&mut self, expected: &Value, tolerance: f64, analysis: &Analysis) {
        for row in expected.as_array().unwrap() {
            let level = row["level"].as_str().unwrap();
            let got = analysis.means.iter().find(|m| analysis.data().treatments[m.treatment] == level).unwrap();
            let (low, high) = got.interval.unwrap();
            for (name, expected, got) in
                [("mean", "mean", got.mean), ("error", "se", got.error), ("low", "lower", low), ("high", "upper", high)]
            {
                self.relative(&format!("{level} {name}"), &row[expected], tolerance, got);
            }
        }
    }

    /// The differences; a pair of the set may stand the other way round.
    fn differences(&mut self, expected: &Value, (se, p): (f64, f64), (data, got): (&Data, &Comparisons)) {
        for row in expected.as_array().unwrap() {
            let (one, other) = row["pair"].as_str().unwrap().split_once(" - ").unwrap();
            let name = |at: usize| data.treatments[at].as_str();
            let found = got.differences.iter().find_map(|d| match (name(d.pair.0), name(d.pair.1)) {
                (a, b) if (a, b) == (one, other) => Some((d, 1.0)),
                (a, b) if (b, a) == (one, other) => Some((d, -1.0)),
                _ => None,
            });
            let (d, sign) = found.unwrap();
            let (low, high) = if sign > 0.0 { d.interval } else { (-d.interval.1, -d.interval.0) };
            let pair = format!("{one} - {other}");
            self.absolute(&format!("{pair} difference"), &row["diff"], 1e-9, sign * d.difference);
            self.absolute(&format!("{pair} low"), &row["lower"], se * d.error, low);
            self.absolute(&format!("{pair} high"), &row["upper"], se * d.error, high);
            self.absolute(&format!("{pair} p"), &row["p"], p, d.p);
        }
    }

    fn analysis(&mut self, set: &Value, analysis: &Analysis) {
        let expect = &set["expect"];
        let tolerance = |name: &str| set["tolerance"][name].as_f64().unwrap();
        self.means(&expect["means"], tolerance("means_relative"), analysis);
        let interval = tolerance("interval_in_standard_errors");
        let all = analysis.compare(Against::All, RULES).unwrap();
        self.differences(&expect["tukey"], (interval, tolerance("tukey_p_absolute")), (analysis.data(), &all));
        if let Some(control) = analysis.compare(Against::Control, RULES) {
            let critical = tolerance("critical_absolute");
            self.absolute("Dunnett's critical value", &expect["dunnett_critical"], critical, control.critical);
            let within = (interval, tolerance("dunnett_p_absolute"));
            self.differences(&expect["dunnett"], within, (analysis.data(), &control));
        }
    }
}

/// Whole analyses.
fn analyses() -> Vec<Row> {
    let mut all = Vec::new();
    let (mut rows, set) = Rows::of("strawberry-blocks");
    let mut data = trial(&set, (Design::RandomizedBlocks, "treatment", "y"), Some("G"));
    let analysis = analyze(&data, RULES).unwrap();
    rows.analysis(&set, &analysis);
    rows.relative("efficiency of blocks", &set["expect"]["relative_efficiency"], 1e-9, analysis.efficiency.unwrap());
    rows.relative("share of blocks", &set["expect"]["share"]["block"], 1e-9, analysis.position.share);
    let reshuffled = |analysis: &Analysis| {
        let mut deal = analysis.reshuffle(Draw::new("T2", "00000001", "reshuffle height")).unwrap();
        deal.step(9999);
        deal.found().p
    };
    let wanted = &set["expect"]["randomization_p"];
    rows.absolute(
        "reshuffled p",
        &wanted["value"],
        wanted["absolute_tolerance"].as_f64().unwrap(),
        reshuffled(&analysis),
    );
    data.reading = Reading::Scored;
    let wanted = &set["expect"]["randomization_p_of_ranks"];
    let got = reshuffled(&analyze(&data, RULES).unwrap());
    rows.absolute("reshuffled p of ranks", &wanted["value"], wanted["absolute_tolerance"].as_f64().unwrap(), got);
    all.append(&mut rows.all);

    let (mut rows, set) = Rows::of("latin-5");
    let analysis = analyze(&trial(&set, (Design::LatinSquare, "treatment", "y"), Some("E")), RULES).unwrap();
    rows.analysis(&set, &analysis);
    all.append(&mut rows.all);
    all.append(&mut subsamples());
    all.append(&mut rates_in_blocks());
    all.append(&mut uniformity());
    all
}

/// Three readings of each plot: the plot's mean is one value.
fn subsamples() -> Vec<Row> {
    let (mut rows, set) = Rows::of("machines-subsamples");
    let mut plots: Vec<(String, String, f64, f64)> = Vec::new();
    for ((block, treatment), y) in column(&set, "block").iter().zip(column(&set, "treatment")).zip(numbers(&set, "y")) {
        let key = (text(block), text(&treatment));
        match plots.iter_mut().find(|p| (&p.0, &p.1) == (&key.0, &key.1)) {
            Some(plot) => (plot.2, plot.3) = (plot.2 + y, plot.3 + 1.0),
            None => plots.push((key.0, key.1, y, 1.0)),
        }
    }
    let data: Vec<Value> = plots.iter().map(|(b, t, sum, n)| serde_json::json!([b, t, sum / n])).collect();
    let means = serde_json::json!({ "columns": ["block", "treatment", "y"], "data": data });
    let analysis = analyze(&trial(&means, (Design::RandomizedBlocks, "treatment", "y"), None), RULES).unwrap();
    let expect = &set["expect"]["anova_of_unit_means"];
    let rest = analysis.rest.squares;
    rows.squares("block", &expect["block"], 1e-9, (analysis.position.squares, rest));
    rows.squares("treatment", &expect["treatment"], 1e-9, (analysis.treatment.squares, rest));
    rows.analysis(&set, &analysis);
    let untold = analysis.verdict().iter().find(|d| d.pair == (2, 1)).unwrap();
    assert!(!untold.is_found(), "B and C must not be told apart by their subsamples");
    rows.all
}

/// Rates in blocks: contrasts, the plateau that is not found, what would have been seen.
fn rates_in_blocks() -> Vec<Row> {
    let (mut rows, set) = Rows::of("trial-t1");
    let data = trial(&set, (Design::RandomizedBlocks, "rate", "cm"), Some("0"));
    let analysis = analyze(&data, RULES).unwrap();
    let expect = &set["expect"];
    rows.absolute("share of blocks", &expect["share"]["block"], 1e-6, analysis.position.share);
    rows.absolute("share of treatment", &expect["share"]["treatment"], 1e-6, analysis.treatment.share);
    for row in expect["means"].as_array().unwrap() {
        let rate = row[0].as_str().unwrap();
        let mean = analysis.means.iter().find(|m| data.treatments[m.treatment] == rate).unwrap();
        rows.absolute(&format!("mean at {rate}"), &row[1], 1e-4, mean.mean);
        rows.absolute(&format!("mean at {rate}, low"), &row[2], 1e-4, mean.interval.unwrap().0);
    }
    let control = analysis.compare(Against::Control, RULES).unwrap();
    for (name, compared) in [("tukey", analysis.comparisons.as_ref().unwrap()), ("dunnett", &control)] {
        for row in expect[name].as_array().unwrap() {
            let (one, other) = row[0].as_str().unwrap().split_once('-').unwrap();
            let at = |name: &str| data.treatments.iter().position(|t| t == name).unwrap();
            let got = compared.differences.iter().find(|d| d.pair == (at(one), at(other))).unwrap();
            rows.absolute(&format!("{name} {one}-{other} low"), &row[2], 0.002, got.interval.0);
            rows.absolute(&format!("{name} {one}-{other} high"), &row[3], 0.002, got.interval.1);
            rows.absolute(&format!("{name} {one}-{other} p"), &row[4], 0.001, got.p);
        }
    }
    let response = analysis.response.as_ref().unwrap();
    let contrasts = [("linear", Some(response.linear)), ("quadratic", response.quadratic), ("cubic", response.more)];
    for (name, contrast) in contrasts {
        rows.relative(&format!("{name} p"), &expect["contrasts_p"][name], 1e-6, contrast.unwrap().p);
    }
    let plateau = response.plateau.unwrap();
    let wanted = &expect["linear_plateau"];
    rows.absolute("join", &wanted["join"], 0.001, plateau.join);
    rows.absolute("join at least", &wanted["lower"], 0.002, plateau.low);
    rows.relative("plateau's rest", &wanted["rss"], 1e-6, plateau.rest);
    let rates = data.rates.as_ref().unwrap();
    assert_eq!(response.said_plateau(rates, 0.05), None, "no plateau below the highest rate");
    let seen = analysis.comparisons.as_ref().unwrap().seen.unwrap();
    rows.absolute("least seen", &expect["least_seen_80_tukey"], 1e-5, seen);
    rows.relative("efficiency", &expect["relative_efficiency"], 1e-6, analysis.efficiency.unwrap());
    let left = analysis.checks.left_over.as_ref().unwrap();
    rows.absolute("left over F", &expect["left_over_column"]["f"], 1e-4, left.f);
    rows.absolute("left over p", &expect["left_over_column"]["p"], 1e-4, left.p);
    let mut deal = analysis.reshuffle(Draw::new("T1", "48213907", "reshuffle height")).unwrap();
    deal.step(9999);
    let most = expect["randomization_p"]["at_most"].as_f64().unwrap();
    rows.absolute("reshuffled p", &expect["randomization_p"]["value"], most, deal.found().p);
    rows.all
}

/// A crop without treatments: its gradients.
fn uniformity() -> Vec<Row> {
    let (mut rows, set) = Rows::of("tomato-uniformity");
    let field: Vec<Vec<f64>> = serde_json::from_value(set["data"].clone()).unwrap();
    let pots: Vec<(f64, f64, f64)> = field
        .iter()
        .zip(0..)
        .flat_map(|(row, r)| row.iter().zip(0..).map(move |(y, c)| (f64::from(r), f64::from(c), *y)))
        .collect();
    let values: Vec<f64> = pots.iter().map(|p| p.2).collect();
    let columns =
        [vec![1.0; values.len()], pots.iter().map(|p| p.0).collect(), pots.iter().map(|p| p.1).collect::<Vec<f64>>()];
    let fit = Fit::of(&columns, &values).unwrap();
    let t = t_two_sided(0.95, fit.rest().df as f64).unwrap();
    for (name, weights) in [("along_30", [0.0, 0.0, 1.0]), ("across_6", [0.0, 1.0, 0.0])] {
        let (slope, variance) = fit.estimate(&weights).unwrap();
        let half = t * (fit.rest().mean().unwrap() * variance).sqrt();
        rows.relative(name, &set["expect"][format!("slope_{name}")], 1e-9, slope);
        rows.relative(&format!("{name} low"), &set["expect"][format!("slope_{name}_ci")][0], 1e-9, slope - half);
        rows.relative(&format!("{name} high"), &set["expect"][format!("slope_{name}_ci")][1], 1e-9, slope + half);
    }
    // Each of the six rows taken as a bench: the same slope.
    let benches: Vec<Vec<(f64, f64)>> =
        field.iter().map(|row| row.iter().zip(0..).map(|(y, c)| (f64::from(c), *y)).collect()).collect();
    rows.relative("across the benches", &set["expect"]["slope_along_30"], 1e-9, across(&benches, 0.95).unwrap().slope);
    rows.all
}

/// What so many blocks would show, in standard deviations: four treatments, all pairs and with a control.
fn planning() -> Vec<Row> {
    let source = "quadrature and R's noncentral t, to two digits";
    let rows = [(3, 3.67, 3.34), (4, 2.88, 2.64), (6, 2.18, 2.02), (8, 1.83, 1.70), (10, 1.61, 1.50), (12, 1.46, 1.36)];
    let of = |blocks, against| shown((Design::RandomizedBlocks, 4, blocks), 1.0, against, (0.05, 0.8)).seen.unwrap();
    rows.iter()
        .flat_map(|(blocks, all, control)| {
            [(Against::All, *all), (Against::Control, *control)].map(|(against, expected)| {
                let name = format!("{blocks} blocks of 4, {against:?}");
                Row::new(name, Basis::Computed(source), expected, 0.006, of(*blocks, against))
            })
        })
        .collect()
}

pub(crate) fn rows() -> Vec<Row> {
    [
        analyses(),
        planning(),
        nist("nist-sirstv"),
        nist("nist-atmwtag"),
        nist("nist-smls04"),
        designed("strawberry-blocks", &["block", "treatment"]),
        designed("latin-5", &["row", "column", "treatment"]),
        strawberry(),
        critical(),
        rates_and_checks(),
        by_rank(),
        seen(),
        several_days(),
    ]
    .concat()
}

#[test]
fn draws_can_be_repeated_by_anybody() {
    let set = set("draws");
    let draw = || Draw::new("T1", "48213907", "layout");
    let expected = |at: usize| set["data"][at][1].clone();
    let mut stream = draw();
    let first: Vec<String> = (0..3).map(|_| stream.number().to_string()).collect();
    assert_eq!(serde_json::json!(first), expected(0));
    let mut places: Vec<usize> = (0..12).map(|i| i % 4).collect();
    draw().shuffle(&mut places);
    assert_eq!(serde_json::json!(places), expected(1));
    let mut stream = draw();
    let blocks: Vec<[usize; 4]> = (0..6)
        .map(|_| {
            let mut block = [0, 1, 2, 3];
            stream.shuffle(&mut block);
            block
        })
        .collect();
    assert_eq!(serde_json::json!(blocks), expected(2));
}

#[test]
fn a_draw_favors_no_order() {
    // 24,000 seeds, 24 orders of four: chi-square with 23 degrees of freedom.
    let mut counts = std::collections::BTreeMap::new();
    for seed in 0..24_000_u32 {
        let mut order = [0, 1, 2, 3];
        Draw::new("T1", &format!("{seed:08}"), "layout").shuffle(&mut order);
        *counts.entry(order).or_insert(0_u32) += 1;
    }
    assert_eq!(counts.len(), 24);
    let statistic: f64 = counts.values().map(|n| (f64::from(*n) - 1000.0).powi(2) / 1000.0).sum();
    assert!(chi_square_tail(statistic, 23.0) > 0.01, "{statistic}");
}

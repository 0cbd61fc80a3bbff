//! The HTML reports in a real browser: Debian's chromium, where it is installed; without it the test says so and is passed
//! over, but fails where `BENCHWALK_BROWSER=required` says that there must be one (the gate says so).
//!
//! The pages hold no script. To be measured a report is put into a frame of a page beside it, which writes what it finds into
//! its own text; nothing is fetched from anywhere.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::print_stderr,
    reason = "a test that cannot go on stops there, and says when it is passed over"
)]

use benchwalk::compare;
use benchwalk::journal;
use benchwalk::limits::Limits;
use benchwalk::report::compare::{Comparison, html as html_of_two};
use benchwalk::report::labels::{self, Label, Paper, care};
use benchwalk::report::season::Charted;
use benchwalk::report::sites::html as html_of_sites;
use benchwalk::report::totals::{self, SeasonEnd};
use benchwalk::report::{applications, html, season as season_report};
use benchwalk::review;
use benchwalk::season::Season;
use benchwalk::warnings::assess_all;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};
use tempfile::TempDir;

/// Paper less its margins of 14 mm, in CSS pixels (96 to the inch): width and height.
const A4: (u32, u32) = (687, 1016);
const LETTER: (u32, u32) = (710, 950);

/// The demo season.
fn demo() -> Season {
    Season::of(journal::read(include_str!("../demo-data/demo.jsonl")).unwrap())
}

/// The labels of the demo's benches, and cards with as many words as fit, by name, for a paper.
fn sheets(paper: Paper) -> [(&'static str, String, usize); 2] {
    let season = demo();
    let benches = season.benches().iter().filter_map(|bench| Label::of_bench(&season, &bench.bench));
    let labels: Vec<Label> = benches.collect();
    let words =
        format!("Reds and whites of the house\n{}", "Let it dry well between waterings, then water. \n".repeat(9));
    let long = care::Card::read(&words).unwrap();
    [("labels", labels::html(&labels, "Site", paper), 3), ("cards", care::html(&long, (9, "Site"), paper), 2)]
}

/// The reports of the demo's last day, by name.
fn reports() -> [(&'static str, String); 7] {
    let (season, limits) = (demo(), Limits::default());
    let on = season.entries().iter().map(benchwalk::record::Entry::day).max().unwrap();
    let warned = |day| assess_all(&season, day, &limits).all().cloned().collect::<Vec<_>>();
    let review = review::build(&season, on, warned(on), &warned(on.pred_opt().unwrap()), "defaults".into()).unwrap();
    let report = |charted| season_report::build(&season, on, (&limits, "defaults".into()), charted).unwrap();
    let applied = applications::whole(&season, on).unwrap();
    assert_eq!(applied.lines.len(), 1, "{applied:?}");
    let end = SeasonEnd::of(&season, on, &limits).unwrap();
    [
        ("review", html::review(&review)),
        ("season", html::season(&report(Charted::None))),
        ("charts", html::season(&report(Charted::All))),
        ("applications", applications::html(&applied)),
        ("compare", comparison()),
        ("close", totals::html(&end)),
        ("sites", many_sites()),
    ]
}

/// The demo and its last year as two sites, one of them silent since then, and a file that could not be reviewed.
fn many_sites() -> String {
    let limits = Limits::default();
    let last = Season::of(journal::read(include_str!("../demo-data/last-year.jsonl")).unwrap());
    let on = demo().entries().iter().map(benchwalk::record::Entry::day).max().unwrap();
    let of = |season: &Season, file: &str| {
        let warned = |day| assess_all(season, day, &limits).all().cloned().collect::<Vec<_>>();
        let review = review::build(season, on, warned(on), &warned(on.pred_opt().unwrap()), "defaults".into()).unwrap();
        let now = on.succ_opt().unwrap().and_hms_opt(0, 0, 0).unwrap().and_utc();
        let instants = season.entries().iter().map(|entry| entry.at);
        let heard = review::Heard::of(instants, [], review.site.time_zone, now);
        review::SiteReview { name: review.site.name.clone(), file: file.to_owned(), review, heard }
    };
    let sites = vec![of(&demo(), "seasons/quillby-2026.db"), of(&last, "seasons/quillby-2025.db")];
    let mut sites = review::Sites::of(on, sites, "defaults".into());
    let (file, why) = ("seasons/birch-flat.db".to_owned(), "holds no data (0 bytes)".to_owned());
    sites.not_reviewed.push(review::NotReviewed { file, why });
    html_of_sites(&sites)
}

/// The demo's last year beside it.
fn comparison() -> String {
    let (season, limits) = (demo(), Limits::default());
    let last = Season::of(journal::read(include_str!("../demo-data/last-year.jsonl")).unwrap());
    let on = season.entries().iter().map(benchwalk::record::Entry::day).max().unwrap();
    let whole = |season: &Season| {
        let until = compare::last_day(season).unwrap();
        let mut courses = compare::Courses::new(season, until, &limits);
        while courses.step() {}
        let mut judge = compare::Judge::new(season, until, &limits);
        while judge.step_day() {}
        (courses.read(), judge.into_judged())
    };
    let ((old, before), (new, now)) = (whole(&last), whole(&season));
    let beside = compare::LastYear {
        file: "last-year.db".into(),
        chosen: compare::Chosen::Demo,
        season: last,
        courses: old,
        judged: Some(before),
        by_hand: Vec::new(),
    };
    html_of_two(&Comparison::of(&beside, (&season, "demo.db"), on, (&new, Some(&now))).unwrap())
}

/// The browser, or none.
fn browser() -> Option<PathBuf> {
    let path = std::env::var_os("PATH").unwrap_or_default();
    let found = std::env::split_paths(&path).map(|dir| dir.join("chromium")).find(|p| p.is_file());
    if found.is_none() {
        let required = std::env::var_os("BENCHWALK_BROWSER").is_some_and(|said| said == "required");
        assert!(!required, "BENCHWALK_BROWSER=required, but there is no chromium in {}", path.display());
        eprintln!("SKIPPED: no chromium is installed here; the HTML reports were not looked at in a browser.");
    }
    found
}

/// Runs the browser without a window on a file, in a folder of its own, two minutes at most.
fn run(browser: &Path, folder: &TempDir, options: &[&str], page: &Path) -> Output {
    let profile = tempfile::tempdir_in(folder.path()).unwrap();
    Command::new("timeout")
        .arg("120")
        .arg(browser)
        .args(["--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run"])
        .args(["--disable-background-networking", "--disable-component-update", "--disable-sync"])
        .args(["--hide-scrollbars", "--enable-logging=stderr", "--virtual-time-budget=20000"])
        .arg(format!("--user-data-dir={}", profile.path().display()))
        .args(options)
        .arg(format!("file://{}", page.display()))
        .env("HOME", folder.path())
        .output()
        .unwrap()
}

/// What the page around a report measures: width needed and there, charts, charts and labels that stick out, tallest block. A table
/// that has to be scrolled sticks out everywhere but on a phone.
const MEASURE: &str = r#"
const frame = document.getElementById("frame"), said = document.getElementById("said");
frame.onload = () => {
  const page = frame.contentDocument, root = page.documentElement, wide = root.clientWidth;
  const charts = [...page.querySelectorAll("svg.chart")];
  const box = e => e.getBoundingClientRect();
  const out = charts.filter(c => box(c).left < -0.5 || box(c).right > wide + 0.5 || box(c).width < 100 || box(c).height < 50)
    .concat(wide < 600 ? [] : [...page.querySelectorAll(".wide")].filter(t => !t.closest("details") && t.scrollWidth > t.clientWidth + 1));
  const cut = charts.flatMap(c => [...c.querySelectorAll("text")].filter(t =>
    box(t).right > box(c).right + 1 || box(t).left < box(c).left - 1 || box(t).bottom > box(c).bottom + 1));
  const cells = [...page.querySelectorAll(".cell")].filter(c =>
    c.scrollHeight > c.clientHeight + 1 || c.scrollWidth > c.clientWidth + 1);
  out.push(...cells);
  const blocks = [...page.querySelectorAll("figure, article, tr")].map(e => box(e).height);
  said.textContent = "[" + [root.scrollWidth, wide, charts.length, out.length, cut.length,
    Math.ceil(Math.max(0, ...blocks))].join(",") + "]" + cut.slice(0, 3).map(t => t.textContent).join("|");
};
frame.srcdoc = JSON.parse(document.getElementById("report").textContent);
"#;

/// What was measured of a report in a frame so wide: see [`MEASURE`].
fn measured(browser: &Path, folder: &TempDir, report: &str, wide: u32) -> (Vec<u32>, String) {
    let text = serde_json::to_string(report).unwrap().replace('<', "\\u003c");
    let page = format!(
        "<!DOCTYPE html><meta charset=\"utf-8\"><link rel=\"icon\" href=\"data:,\"><body style=\"margin:0\">\
         <iframe id=\"frame\" style=\"border:0;width:{wide}px;height:900px\"></iframe><pre id=\"said\"></pre>\
         <script id=\"report\" type=\"application/json\">{text}</script><script>{MEASURE}</script></body>"
    );
    let path = folder.path().join("around.html");
    std::fs::write(&path, page).unwrap();
    let output = run(browser, folder, &["--dump-dom", "--window-size=1400,1000"], &path);
    let (dom, log) = (String::from_utf8_lossy(&output.stdout), String::from_utf8_lossy(&output.stderr));
    assert!(!log.contains("CONSOLE"), "the page complains:\n{log}");
    let said = dom.split("<pre id=\"said\">").nth(1).and_then(|t| t.split("</pre>").next()).unwrap_or_default();
    let numbers = said.trim_start_matches('[').split(']').next().unwrap();
    (numbers.split(',').filter_map(|n| n.parse().ok()).collect(), said.to_owned())
}

/// A report whose policy lets another style sheet than its own in, so that a test can change it.
fn any_style(report: &str) -> String {
    let (before, rest) = report.split_once("style-src '").unwrap();
    let (_hash, after) = rest.split_once('\'').unwrap();
    format!("{before}style-src 'unsafe-inline'{after}")
}

#[test]
fn nothing_is_fetched_from_anywhere() {
    let sheets = sheets(Paper::A4).map(|(name, page, _)| (name, page));
    for (name, report) in reports().into_iter().chain(sheets) {
        for word in ["http:", "https:", "url(", "@import", "<script", "<img", " src="] {
            assert!(!report.contains(word), "{name} holds {word}");
        }
        assert!(report.contains("lang=\"en-US\"") && report.contains("name=\"viewport\""), "{name}");
        let (charts, titles) = (report.matches("<svg").count(), report.matches("<svg viewBox").count());
        // In a figure the words stand below the chart, else in it.
        let words = report.matches("<desc>").count() + report.matches("</svg>\n<p>").count();
        assert_eq!((charts, words), (titles, charts), "{name}: every chart has words");
        assert_eq!(report.matches("aria-label=\"").count(), charts + report.matches("<nav").count(), "{name}");
    }
}

#[test]
fn on_a_phone_and_a_desk_nothing_sticks_out() {
    let Some(browser) = browser() else { return };
    let folder = tempfile::tempdir().unwrap();
    for (name, report) in reports() {
        for wide in [390, 1280] {
            let (numbers, said) = measured(&browser, &folder, &report, wide);
            assert_eq!(numbers.len(), 6, "{name} at {wide} was not measured: {said}");
            assert!(numbers[0] <= numbers[1], "{name} at {wide} needs {} pixels: {said}", numbers[0]);
            assert!(name != "charts" || numbers[2] > 100, "{name} at {wide}: {said}");
            assert_eq!((numbers[3], numbers[4]), (0, 0), "{name} at {wide}: charts or labels stick out: {said}");
        }
    }
}

#[test]
fn on_paper_every_block_fits_a_page() {
    let Some(browser) = browser() else { return };
    let folder = tempfile::tempdir().unwrap();
    for (name, report) in reports() {
        let printed = any_style(&report).replace("@media print", "@media all");
        for (paper, (wide, high)) in [("A4", A4), ("Letter", LETTER)] {
            let (numbers, said) = measured(&browser, &folder, &printed, wide);
            assert_eq!(numbers.len(), 6, "{name} on {paper} was not measured: {said}");
            assert!(numbers[0] <= numbers[1] && (numbers[3], numbers[4]) == (0, 0), "{name} on {paper}: {said}");
            assert!(numbers[5] <= high, "{name} on {paper}: a block of {} pixels, {high} are there", numbers[5]);
        }
    }
}

/// What the pages need of their tables on paper: where a table is wider, its right columns are lost.
#[test]
fn on_paper_no_column_of_the_application_record_is_cut_off() {
    let Some(browser) = browser() else { return };
    let folder = tempfile::tempdir().unwrap();
    let [.., (_, report)] = reports();
    // A table that may not scroll makes the page itself too wide.
    let printed = any_style(&report).replace("@media print", "@media all").replace("overflow-x:auto", "");
    let (numbers, said) = measured(&browser, &folder, &printed, A4.0);
    assert!(numbers[0] <= numbers[1], "{said}");
}

#[test]
fn labels_and_cards_fill_their_paper_and_a_phone() {
    let Some(browser) = browser() else { return };
    let folder = tempfile::tempdir().unwrap();
    for (paper, wide, size) in [(Paper::A4, 748, "594."), (Paper::Letter, 768, "612 ")] {
        for (name, page, pages) in sheets(paper) {
            let printed = any_style(&page).replace("@media print", "@media all");
            for (wide, page) in [(390, &page), (wide, &printed)] {
                let (numbers, said) = measured(&browser, &folder, page, wide);
                assert!(numbers[0] <= numbers[1] && numbers[3] == 0, "{name} at {wide}: cut off or too wide: {said}");
            }
            let (path, pdf) = (folder.path().join("print.html"), folder.path().join("print.pdf"));
            std::fs::write(&path, &page).unwrap();
            run(&browser, &folder, &[&format!("--print-to-pdf={}", pdf.display()), "--no-pdf-header-footer"], &path);
            let text = String::from_utf8_lossy(&std::fs::read(&pdf).unwrap()).into_owned();
            let boxes: Vec<&str> = text.split("/MediaBox [0 0 ").skip(1).collect();
            assert_eq!(boxes.len(), pages, "{name}: sheets of {paper:?}");
            assert!(boxes.iter().all(|b| b.starts_with(size)), "{name} on {paper:?}");
        }
    }
}

#[test]
fn it_prints_on_both_papers() {
    let Some(browser) = browser() else { return };
    let folder = tempfile::tempdir().unwrap();
    for (name, report) in reports() {
        for (paper, size) in [("A4", "594."), ("letter", "612 ")] {
            let page = folder.path().join("print.html");
            let style = format!("<style>@page{{size:{paper}}}</style></head>");
            std::fs::write(&page, any_style(&report).replace("</head>", &style)).unwrap();
            let pdf = folder.path().join("print.pdf");
            run(&browser, &folder, &[&format!("--print-to-pdf={}", pdf.display()), "--no-pdf-header-footer"], &page);
            let text = String::from_utf8_lossy(&std::fs::read(&pdf).unwrap()).into_owned();
            let boxes: Vec<&str> = text.split("/MediaBox [0 0 ").skip(1).collect();
            assert!(!boxes.is_empty() && boxes.len() < 100, "{name}: {} pages", boxes.len());
            assert!(boxes.iter().all(|b| b.starts_with(size)), "{name} on {paper}");
        }
    }
}

//! Amounts of chemicals never stand without the cautions of their kind: every mixing answer as text and JSON, the Mixing page,
//! every form of a treatment, and tomorrow's work as text, HTML and screen. What is tried comes from the program's own tables,
//! and no `match` here has a `_`: a new ingredient, salt, kind of entry or page is tried too, or does not compile.

use crate::answered::{cases, journal};
use crate::desk::{COLOR, Desk, PLAIN};
use crate::season;
use benchwalk::crop::feed::{Given, Injector};
use benchwalk::crop::growth_regulator::{Caution, CutoffDays, Ingredient, Part, Strength, cautions as of_ingredients};
use benchwalk::input::{Code, Event, Key};
use benchwalk::limits::Limits;
use benchwalk::mix::cautions::{APPLICATION_RECORD, Work, cautions};
use benchwalk::mix::{
    BESIDE, FeedRequest, GrowthRegulatorRequest, Into, MixAnswer, MixRequest, NutrientRequest, Solution,
    TopdressRequest, is_acid,
};
use benchwalk::model::{FormRequest, MixTab, MixingField as F, MixingRequest};
use benchwalk::popups::{Popup, form};
use benchwalk::record::{How, KindName, Material, Method, Place, Region, Term};
use benchwalk::report::mix::{json, page};
use benchwalk::report::{html, review};
use benchwalk::review::build;
use benchwalk::screens::{Screen, mixing};
use benchwalk::ui::wrap;
use benchwalk::units::{Area, Concentration, Mass, System, Volume};
use benchwalk::warnings::{RULES, Severity, Warning};

const SMALL: (u16, u16) = (80, 24);
const LEAST: (u16, u16) = (40, 12);

fn works(works: &[Work]) -> Vec<Caution> {
    works.iter().flat_map(|work| cautions(*work)).copied().collect()
}

// What must stand with which chemical.

fn of_growth_regulator(ingredient: Ingredient, method: Method) -> Vec<Caution> {
    let general = match method {
        Method::Spray => works(&[Work::Treatment, Work::Spraying, Work::LateTreatment]),
        Method::Drench => works(&[Work::Treatment]),
    };
    let own = of_ingredients(&[Some(ingredient)], method);
    [general, own].concat()
}

fn of_fertilizer(injector: bool, beside: Option<&str>) -> Vec<Caution> {
    let mut wanted = works(&[Work::Fertilizer]);
    wanted.extend(works(&[Work::Injector]).into_iter().filter(|_| injector));
    wanted.extend(works(&[Work::LimeOrAcid]).into_iter().filter(|_| beside.is_some_and(is_acid)));
    wanted
}

fn of_salt(how: Option<Given>, injector: bool, beside: Option<&str>) -> Vec<Caution> {
    let mut wanted = [of_fertilizer(injector, beside), works(&[Work::Salt])].concat();
    wanted.extend(works(&[Work::LeafSpray]).into_iter().filter(|_| how == Some(Given::Apart(Method::Spray))));
    wanted
}

/// Blanks and line ends made one.
fn flat(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// The cautions a text lacks.
fn lacks(text: &str, wanted: &[Caution]) -> Vec<&'static str> {
    let text = flat(text);
    wanted.iter().filter(|caution| !text.contains(caution.text)).map(|caution| caution.id).collect()
}

/// That a text has its cautions, and that each of them would be missed.
fn has(name: &str, text: &str, wanted: &[Caution]) {
    assert!(!wanted.is_empty(), "{name}");
    assert_eq!(lacks(text, wanted), [""; 0], "{name}:\n{text}");
    let text = flat(text);
    for caution in wanted {
        assert_eq!(lacks(&text.replace(caution.text, ""), wanted), [caution.id], "{name}");
    }
}

// Every mixing answer.

fn ppm(ppm: f64) -> Concentration {
    Concentration::from_ppm(ppm)
}

type Mix = (String, MixRequest, Vec<Caution>);

/// Every growth regulator in every way, with what must stand with it.
fn growth_regulators() -> Vec<Mix> {
    let mut all = Vec::new();
    for ingredient in Ingredient::ALL {
        for method in Method::ALL {
            let solution = match method {
                Method::Spray => Solution::spray(Area::from_m2(46.0), None, Some(100)).unwrap(),
                Method::Drench => Solution::drench(100, Some(Volume::from_ml(118.0)), None, 0.0).unwrap(),
            };
            for strength in ["12 g/L", "60% solid"] {
                let part = Part { ingredient, ppm: ppm(3.0), strength: Strength::parse(strength).unwrap() };
                let request = GrowthRegulatorRequest {
                    method: *method,
                    solution,
                    parts: vec![part],
                    measured: false,
                    lots: Vec::new(),
                    region: Region::Cool,
                    rules: CutoffDays::default(),
                    limits: Limits::default(),
                    on: None,
                };
                let name = format!("{} {} of {strength}", ingredient.name(), method.code());
                let wanted = of_growth_regulator(ingredient, *method);
                all.push((name, MixRequest::GrowthRegulator(Box::new(request)), wanted));
            }
        }
    }
    all
}

/// Everything that can be mixed, with what must stand with it.
fn mixes() -> Vec<Mix> {
    let liters = |l: f64| Volume::from_ml(l * 1000.0);
    let injector = Injector::one_to(100.0).unwrap();
    let tanks = [
        (Into::Tank(liters(400.0)), false),
        (Into::Feed(injector, liters(4000.0)), true),
        (Into::Stock(injector, liters(20.0)), true),
    ];
    let beside = BESIDE.iter().copied().map(Some).chain([None]).collect::<Vec<_>>();
    let mut all = growth_regulators();
    for ((into, through), other) in tanks.iter().flat_map(|tank| beside.iter().map(move |other| (*tank, *other))) {
        let (named, also) = (other.map(|(name, _)| name), other.into_iter().collect::<Vec<_>>());
        for material in Material::ALL {
            let apart = Method::ALL.iter().map(|method| Some(Given::Apart(*method)));
            for how in apart.chain([Some(Given::InFeed), None]) {
                let request = NutrientRequest {
                    material: *material,
                    ppm: ppm(100.0),
                    how,
                    share: None,
                    into,
                    scale: Mass::from_g(1.0),
                    first: liters(1.0),
                    measure: Volume::from_ml(1.0),
                    per_pot: None,
                    beside: also.clone(),
                };
                let name = format!("{} {how:?} with {named:?}", material.code());
                all.push((name, MixRequest::Nutrient(request), of_salt(how, through, named)));
            }
        }
        let request = FeedRequest {
            analysis: [15.0, 5.0, 15.0],
            n: ppm(200.0),
            into,
            scale: Mass::from_g(1.0),
            per_pot: None,
            chart: None,
            beside: also,
        };
        all.push((format!("feed with {named:?}"), MixRequest::Feed(request), of_fertilizer(through, named)));
    }
    let request = TopdressRequest { per_pot: Mass::from_g(5.0), pots: 80, nitrogen: None, scale: Mass::from_g(1.0) };
    all.push(("topdress".to_owned(), MixRequest::Topdress(request), works(&[Work::Fertilizer])));
    all
}

#[test]
fn every_mixing_answer_has_the_cautions_of_its_kind() {
    let mut kinds = [0; 4];
    for (name, request, wanted) in mixes() {
        let answer = request.calculate().unwrap_or_else(|refused| panic!("{name}: {refused:?}"));
        let kind = match &answer {
            MixAnswer::GrowthRegulator(_) => 0,
            MixAnswer::Nutrient(_) => 1,
            MixAnswer::Feed(_) => 2,
            MixAnswer::Topdress(_) => 3,
        };
        kinds[kind] += 1;
        for units in System::ALL {
            has(&name, &page(&answer, *units).text(), &wanted);
        }
        let told = json(&answer)["cautions"].to_string();
        assert!(wanted.iter().all(|c| told.contains(&format!("\"caution\":\"{}\"", c.id))), "{name}: {told}");
    }
    assert!(kinds.iter().all(|count| *count > 0), "{kinds:?}");
}

// Windows.

fn press(desk: &mut Desk, code: Code) {
    desk.ms += 500;
    desk.event(Event::Key(Key::new(code)));
}

/// The rows of every screen down to the last, and those of the first.
fn rows_of_all_pages(desk: &mut Desk) -> (Vec<String>, Vec<String>) {
    let rows = |desk: &Desk| desk.text().lines().map(|l| l.trim_end().to_owned()).collect::<Vec<_>>();
    let first = rows(desk);
    let mut all = first.clone();
    for _ in 0..80 {
        let before = desk.text();
        press(desk, Code::PageDown);
        if desk.text() == before {
            return (first, all);
        }
        all.extend(rows(desk));
    }
    panic!("no end of\n{}", desk.text());
}

/// The cautions that are not all among some rows; `lead` and `hang` stand before the first and the other lines of each.
fn unseen(rows: &[String], wanted: &[Caution], (lead, hang): (&str, &str), width: usize) -> Vec<&'static str> {
    let seen = |caution: &Caution| {
        let lines = wrap(caution.text, width - hang.len());
        let (first, rest) = lines.split_first().unwrap();
        let of = |start: &str, line: &str| rows.contains(&format!("{start}{line}").trim_end().to_owned());
        of(lead, first) && rest.iter().all(|line| of(hang, line))
    };
    wanted.iter().filter(|caution| !seen(caution)).map(|caution| caution.id).collect()
}

/// That all cautions can be read page by page, and that the first page says how many lines follow and by which key.
fn can_be_read(name: &str, desk: &mut Desk, wanted: &[Caution], shape: (&str, &str), width: usize) {
    let (first, all) = rows_of_all_pages(desk);
    let text = || format!("{name}:\n{}\n--\n{}", first.join("\n"), all.join("\n"));
    assert_eq!(unseen(&all, wanted, shape, width), [""; 0], "{}", text());
    let left = unseen(&first, wanted, shape, width).len();
    let told = first.iter().any(|row| row.contains("PgDn: ") && row.contains("more lines") && row.contains("caution"));
    assert_eq!(told, left > 0, "{left} below\n{}", text());
    // With one of its rows gone a caution would be missed.
    let caution = wanted.last().unwrap();
    let of_it = |row: &String| caution.text.contains(row.trim_start_matches([' ', '-'])) && row.len() > 12;
    let fewer: Vec<String> = all.iter().filter(|row| !of_it(row)).cloned().collect();
    assert!(fewer.len() < all.len() && unseen(&fewer, wanted, shape, width).contains(&caution.id), "{}", text());
}

/// What is typed on a page of the Mixing page, and what must stand with it.
type Typed<'a> = (String, MixTab, Vec<(F, &'a str)>, Vec<Caution>);

#[test]
fn the_mixing_page_shows_the_cautions_of_what_is_typed_or_says_how_many_lines_are_below() {
    let mut tried: Vec<Typed<'_>> = Vec::new();
    for tab in MixTab::ALL {
        match tab {
            MixTab::GrowthRegulator => {
                for ingredient in Ingredient::ALL {
                    for method in Method::ALL {
                        let name = ingredient.name();
                        let wanted = of_growth_regulator(ingredient, *method);
                        let typed =
                            vec![(F::Method(tab), method.code()), (F::Volume, "10gal"), (F::Ingredient(0), name)];
                        // Usual ranges stand there before there is an answer.
                        tried.push((name.to_owned(), tab, typed.clone(), wanted.clone()));
                        let whole = [typed, vec![(F::Strength(0), "12 g/L"), (F::PartPpm(0), "3")]].concat();
                        tried.push((format!("{name} whole"), tab, whole, wanted));
                    }
                }
            }
            MixTab::Nutrient => {
                for (material, method) in Material::ALL.iter().flat_map(|m| Method::ALL.iter().map(move |how| (m, how)))
                {
                    for (beside, _) in BESIDE {
                        let wanted = of_salt(Some(Given::Apart(*method)), false, Some(beside));
                        let typed = vec![
                            (F::Material, material.code()),
                            (F::Method(tab), method.code()),
                            (F::Volume, "100gal"),
                            (F::Beside, beside),
                        ];
                        tried.push((material.code().to_owned(), tab, typed.clone(), wanted.clone()));
                        let whole = [typed, vec![(F::Ppm(tab), "100")]].concat();
                        tried.push((format!("{} whole", material.code()), tab, whole, wanted));
                    }
                }
            }
            MixTab::Feed => {
                for (beside, _) in BESIDE {
                    let typed = vec![
                        (F::Analysis, "15-5-15"),
                        (F::Ppm(tab), "200"),
                        (F::Volume, "1000gal"),
                        (F::Injector, "1:100"),
                        (F::Beside, beside),
                    ];
                    tried.push(("feed".to_owned(), tab, typed, of_fertilizer(true, Some(beside))));
                }
            }
            MixTab::Topdress => {
                let typed = vec![(F::Grams, "5"), (F::Pots, "80")];
                tried.push(("topdress".to_owned(), tab, typed, works(&[Work::Fertilizer])));
            }
        }
    }
    let mut desk = Desk::with(&season::journal(), PLAIN, SMALL);
    for (name, tab, typed, wanted) in tried {
        let fill = typed.into_iter().map(|(field, text)| (field, text.to_owned())).collect();
        let asked = MixingRequest { tab: Some(tab), benches: Vec::new(), fill };
        desk.app.screen = Screen::Mixing(mixing::State::open(&asked, &desk.app.model));
        can_be_read(&name, &mut desk, &wanted, ("  - ", "    "), 80);
    }
}

// Every form.

type Filled = (Vec<(&'static str, String)>, Vec<Caution>);

fn fill(fields: &[(&'static str, &str)]) -> Vec<(&'static str, String)> {
    fields.iter().map(|(name, text)| (*name, (*text).to_owned())).collect()
}

fn growth_regulator_forms() -> Vec<Filled> {
    let each = Ingredient::ALL.into_iter().flat_map(|i| Method::ALL.iter().map(move |how| (i, *how)));
    let of = |(ingredient, how): (Ingredient, Method)| {
        let parts = format!("{} 3", ingredient.name());
        let fields = [("parts", parts.as_str()), ("how", how.code()), ("ml_per_pot", "4"), ("rei_h", "13")];
        (fill(&fields), of_growth_regulator(ingredient, how))
    };
    each.map(of).collect()
}

/// A form filled in, in every way that matters for its cautions; nothing for a form that handles no chemical.
fn filled(kind: KindName) -> Vec<Filled> {
    match kind {
        KindName::GrowthRegulator => growth_regulator_forms(),
        KindName::Sprayed => {
            let of = |how: &How| {
                let wanted = match how {
                    How::Fog => works(&[Work::Fog, Work::Treatment, Work::LateTreatment]),
                    How::Spray => works(&[Work::Treatment, Work::Spraying, Work::LateTreatment]),
                    How::Drench => works(&[Work::Treatment]),
                };
                (
                    fill(&[("ai", "demo soap"), ("against", "thrips"), ("how", how.code()), ("rate", "2 oz in 5 gal")]),
                    wanted,
                )
            };
            How::ALL.iter().map(of).collect()
        }
        KindName::Nutrient => {
            let each = Material::ALL.iter().flat_map(|m| Method::ALL.iter().map(move |how| (*m, *how)));
            let of = |(material, how): (Material, Method)| {
                let fields = [("material", material.code()), ("how", how.code()), ("ppm", "100"), ("ml_per_pot", "8")];
                (fill(&fields), of_salt(Some(Given::Apart(how)), false, None))
            };
            each.map(of).collect()
        }
        KindName::Fed => vec![(fill(&[("n_ppm", "200"), ("ml_per_pot", "8")]), of_fertilizer(false, None))],
        KindName::Topdressed => vec![(fill(&[("g_per_pot", "5")]), works(&[Work::Fertilizer]))],
        KindName::FeedCheck => vec![(fill(&[("alkalinity_ppm", "180")]), works(&[Work::LimeOrAcid]))],
        KindName::Water
        | KindName::Roots
        | KindName::Bracts
        | KindName::Height
        | KindName::Leaves
        | KindName::Pests
        | KindName::RootZone
        | KindName::Climate
        | KindName::NightLight
        | KindName::Losses
        | KindName::Counted
        | KindName::Grade
        | KindName::Note
        | KindName::Greenness
        | KindName::BractWidth
        | KindName::Watered
        | KindName::Released
        | KindName::Pinched
        | KindName::Blackout
        | KindName::Lights
        | KindName::Spaced
        | KindName::Moved
        | KindName::Sold
        | KindName::PutOff
        | KindName::Job
        | KindName::Strike => Vec::new(),
    }
}

fn open(desk: &mut Desk, fill: &[(&'static str, String)], kind: KindName) {
    let ask = FormRequest { fill: fill.to_vec(), ..FormRequest::new(kind, Place::Bench("E1".into())) };
    let state = form::State::new(ask, &desk.app.model);
    desk.app.popups = vec![Popup::Form(Box::new(state))];
}

#[test]
fn every_form_of_a_treatment_shows_its_cautions_or_says_how_many_are_below() {
    let mut tried = 0;
    for size in [SMALL, LEAST] {
        let mut desk = Desk::with(&season::journal(), PLAIN, size);
        for kind in KindName::offered() {
            for (fill, wanted) in filled(kind) {
                open(&mut desk, &fill, kind);
                let width = usize::from(size.0);
                // A caution is wrapped with its dash.
                let wanted_rows = |rows: &[String], caution: &Caution| {
                    wrap(&format!("- {}", caution.text), width)
                        .iter()
                        .all(|line| rows.contains(&line.trim_end().to_owned()))
                };
                let (first, all) = rows_of_all_pages(&mut desk);
                let left: Vec<&str> = wanted.iter().filter(|c| !wanted_rows(&first, c)).map(|c| c.id).collect();
                let never: Vec<&str> = wanted.iter().filter(|c| !wanted_rows(&all, c)).map(|c| c.id).collect();
                let name = format!("{kind:?} {fill:?} {size:?}\n{}\n--\n{}", first.join("\n"), all.join("\n"));
                assert_eq!(never, [""; 0], "{name}");
                let told = first.iter().any(|row| row.starts_with("PgDn: ") && row.contains("caution"));
                assert!(told || left.is_empty(), "{left:?} below\n{name}");
                tried += 1;
            }
        }
    }
    assert!(tried > 50, "{tried}");
}

#[test]
fn treatments_say_that_the_log_is_not_the_record_the_law_asks_for() {
    for kind in [KindName::Sprayed, KindName::GrowthRegulator] {
        for (_, wanted) in filled(kind) {
            assert!(wanted.iter().any(|caution| caution.text == APPLICATION_RECORD), "{kind:?}");
        }
    }
    let desk = Desk::with(&season::journal(), PLAIN, SMALL);
    let model = &desk.app.model;
    let report = benchwalk::report::season::build(
        &model.season,
        model.day,
        (&model.limits, String::new()),
        benchwalk::report::season::Charted::None,
    )
    .unwrap();
    assert!(report.treated, "the season holds a treatment");
    assert!(flat(&benchwalk::report::season::text(&report)).contains(APPLICATION_RECORD));
    assert!(html::season(&report).contains(APPLICATION_RECORD));
}

// Cautions of what is found.

#[test]
fn sick_plants_and_acids_are_cautioned_where_they_are_typed() {
    let sick = works(&[Work::SickPlants]);
    let mut desk = Desk::with(&season::journal(), PLAIN, (80, 60));
    let mut seen = |kind, fill: &[(&'static str, &str)]| {
        let fill: Vec<(&'static str, String)> = fill.iter().map(|(name, text)| (*name, (*text).to_owned())).collect();
        open(&mut desk, &fill, kind);
        lacks(&desk.text(), &sick).is_empty()
    };
    for (kind, fill, wanted) in [
        (KindName::Roots, [("score", "3")], true),
        (KindName::Roots, [("score", "2")], false),
        (KindName::Roots, [("signs", "canker")], true),
        (KindName::Losses, [("cause", "root rot")], true),
        (KindName::Losses, [("cause", "dropped")], false),
        (KindName::Leaves, [("signs", "gray-fuzz")], true),
        (KindName::Leaves, [("signs", "stipple")], false),
    ] {
        assert_eq!(seen(kind, &fill), wanted, "{kind:?} {fill:?}");
    }
}

// Tomorrow's work.

#[test]
fn tomorrows_work_has_the_cautions_of_what_is_to_be_weighed() {
    let desk = Desk::with(&season::journal(), COLOR, SMALL);
    let model = &desk.app.model;
    let mut tried = 0;
    for rule in RULES {
        let Some((material, method)) = rule.answers.iter().find_map(|answer| answer.remedy.nutrient_apart()) else {
            continue;
        };
        let warning = Warning { level: Severity::Act, ..crate::answered::made(rule.name) };
        let review_of = build(&model.season, model.day, vec![warning], &[], String::new()).unwrap();
        let weighed = review_of.jobs.iter().any(|job| job.what.contains(material.element()));
        assert!(weighed, "{}: {:?}", rule.code, review_of.jobs);
        let wanted = of_salt(Some(Given::Apart(method)), false, None);
        has(rule.code, &review::text(&review_of).replace("caution  ", ""), &wanted);
        let page = html::review(&review_of).replace("&#39;", "'").replace("&quot;", "\"");
        has(rule.code, &page, &wanted);
        tried += 1;
    }
    assert!(tried >= 5, "{tried}");
}

#[test]
fn the_evening_review_says_how_many_cautions_are_below() {
    let case = &cases()[0];
    let mut desk = Desk::with(&journal(case), PLAIN, SMALL);
    desk.keys("e");
    assert!(desk.text().contains(" ppm Mg"), "{}", desk.text());
    let wanted = of_salt(Some(Given::Apart(Method::Drench)), false, None);
    for size in [SMALL, LEAST] {
        let mut desk_of = Desk::with(&journal(case), PLAIN, size);
        desk_of.app.screen = desk.app.screen.clone();
        can_be_read("review", &mut desk_of, &wanted, ("      caution ", "              "), usize::from(size.0));
    }
}

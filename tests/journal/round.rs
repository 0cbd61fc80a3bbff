//! What goes out comes back: properties over made-up records and seasons.

use crate::strategies;
use benchwalk::journal;
use benchwalk::record::{KindName, Line, Plan, Revision, Term, codec, derived_id, rules};
use benchwalk::season::Season;
use proptest::prelude::*;

fn lines_of(plan: &Plan, entries: &[benchwalk::record::Entry]) -> Vec<Line> {
    plan.lines().into_iter().chain(entries.iter().cloned().map(Line::Entry)).collect()
}

pub(crate) fn plan_of(lines: &[Line]) -> (Plan, Vec<benchwalk::record::Entry>) {
    let mut plan = Plan::default();
    let entries = lines.iter().cloned().filter_map(|line| plan.keep(line)).collect();
    (plan, entries)
}

/// Drops the id of an entry's line.
fn without_id(line: &str) -> String {
    let mut json: serde_json::Map<String, serde_json::Value> = serde_json::from_str(line).unwrap();
    json.shift_remove("id");
    serde_json::Value::Object(json).to_string()
}

/// The chains of all streams there are were made of texts spelled like these.
#[test]
fn the_spelling_of_lines_in_streams_never_changes() {
    for text in [
        r#"{"at":"2026-10-12T07:10:00-04:00","base":2,"bench":"E1","by":"kt","id":"0199a000-0000-7000-8000-000000000001","kind":"water","level":4,"note":"dry \"corner\", 3 µS","type":"entry"}"#,
        r#"{"at":"2026-10-12T07:10:00+05:30","by":"kt","house":"East","how":"spray","id":"0199a000-0000-7000-8000-000000000002","kind":"growth-regulator","ml_per_pot":44.1,"parts":[{"ai":"daminozide","ppm":2500},{"ai":"chlormequat","ppm":1250.5}],"rei_h":24,"type":"entry"}"#,
        r#"{"at":"2026-10-12T08:00:00-04:00","by":"ab","calcium":true,"container":"5 in","corrects":true,"cultivar":"white","cuttings_per_pot":1,"id":"0199a000-0000-7000-8000-000000000003","lot":"L1","nights":"natural","pinch":"none","planted":"2026-08-20","pots":10,"ready_by":"2026-12-01","replaces":[],"response_weeks":8.5,"type":"lot"}"#,
        r#"{"bench":"E1","from":"2026-08-17","lot":"L1","pots":80,"rev":2,"type":"placement"}"#,
        r#"{"latitude":44.1,"longitude":-70,"low_light_houses":["East"],"name":"Wrenby Hill","region":"cool","time_zone":"America/New_York","type":"site","units":"us"}"#,
    ] {
        assert_eq!(codec::line_text(&codec::decode(text, codec::VERSION).unwrap()), text);
    }
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(300) })]

    #[test]
    fn a_line_comes_back_as_it_was(line in strategies::line()) {
        prop_assert_eq!(rules::check_line(&line), vec![]);
        let text = codec::encode(&line);
        prop_assert!(!text.contains('\n'));
        prop_assert_eq!(codec::decode(&text, codec::VERSION), Ok(line));
    }

    #[test]
    fn a_line_of_a_stream_has_one_spelling_with_its_id_and_sorted_fields(
        line in strategies::line(), at in strategies::instant(0..150), id in any::<u128>(), older in prop::collection::btree_set(any::<u128>(), 0..3),
        written in 0_u8..4,
    ) {
        let mut line = line;
        if let (Some(revision), 1..) = (line.revision_mut(), written) {
            // Made from the content where none was given, as a form leaves it.
            let id = (written > 1).then(|| uuid::Uuid::from_u128(id));
            let replaces = (written > 2).then(|| older.into_iter().map(uuid::Uuid::from_u128).collect());
            *revision = Revision { rev: 1, id, at: Some(at), by: Some("kt".to_owned()), replaces, corrects: written == 2 };
        }
        prop_assert_eq!(rules::check_line(&line), vec![]);
        let text = codec::line_text(&line);
        let json: serde_json::Map<String, serde_json::Value> = serde_json::from_str(&text).unwrap();
        prop_assert!(json.keys().is_sorted(), "{}", text);
        prop_assert!(!text.contains('\n'));
        let read = codec::decode(&text, codec::VERSION).unwrap();
        prop_assert_eq!(read.id(), line.id());
        prop_assert_eq!(json.contains_key("id"), read.revision().is_none_or(|r| r.at.is_some()));
        prop_assert_eq!(codec::line_text(&read), text);
        if let Some(revision) = line.revision_mut() {
            revision.id = revision.at.map(|_| read.id());
        }
        prop_assert_eq!(read, line);
    }

    #[test]
    fn a_body_comes_back_as_it_was(entry in strategies::entry()) {
        let body = codec::decode_body(entry.name(), &codec::encode_body(&entry));
        prop_assert_eq!(body, Ok(codec::Body { kind: entry.kind, plot: entry.plot, note: entry.note }));
    }

    #[test]
    fn an_id_is_made_of_the_content_alone(entry in strategies::entry(), seed in any::<u64>()) {
        let id = derived_id(&entry);
        prop_assert_eq!((id.get_version_num(), id.get_variant()), (8, uuid::Variant::RFC4122));
        let line = without_id(&codec::encode(&Line::Entry(entry.clone())));
        // The same object with its fields in another order, and spaces: the same entry.
        let json: serde_json::Map<String, serde_json::Value> = serde_json::from_str(&line).unwrap();
        let mut pairs: Vec<_> = json.into_iter().collect();
        let by = usize::try_from(seed % pairs.len() as u64).unwrap();
        pairs.rotate_left(by);
        let other = serde_json::to_string_pretty(&pairs.into_iter().collect::<serde_json::Map<_, _>>()).unwrap();
        for text in [line, other.replace('\n', " ")] {
            let Ok(Line::Entry(read)) = codec::decode(&text, codec::VERSION) else { panic!("{text}") };
            prop_assert_eq!(read.id, id);
        }
        let mut later = entry;
        later.by = "zz".into();
        prop_assert_ne!(derived_id(&later), id);
    }

    #[test]
    fn any_text_is_answered(text in "\\PC{0,80}", head in any::<bool>()) {
        let text = if head { format!("{}\n{text}", codec::header()) } else { text };
        if let Err(faults) = journal::read(&text) {
            prop_assert!(faults.iter().all(|f| f.line >= 1 && !f.text.is_empty()));
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(60) })]

    #[test]
    fn made_up_seasons_agree_with_themselves((plan, entries) in strategies::season()) {
        let lines = lines_of(&plan, &entries);
        prop_assert_eq!(Season::new(Plan::default(), Vec::new()).check(&lines), vec![]);
    }

    #[test]
    fn out_in_and_out_again_is_the_same_bytes((plan, entries) in strategies::season()) {
        let out = journal::write(None, &plan, &entries);
        let lines = journal::read(&out).unwrap();
        let (back, entries_back) = plan_of(&lines);
        prop_assert_eq!(&entries_back, &entries);
        prop_assert_eq!(journal::write(None, &back, &entries_back), out);
    }

    #[test]
    fn neither_order_nor_repeats_nor_line_ends_matter((plan, entries) in strategies::season(), by in any::<u32>()) {
        let out = journal::write(None, &plan, &entries);
        let mut lines = lines_of(&plan, &entries);
        let turn = by as usize % lines.len();
        lines.rotate_left(turn);
        lines.extend(lines.clone());
        let text = format!("\u{feff}# a season\r\n\r\n{}", journal::write_lines(None, &lines).replace('\n', "\r\n"));
        let (plan, entries) = plan_of(&journal::read(&text).unwrap());
        prop_assert_eq!(journal::write(None, &plan, &entries), out);
    }
}

#[test]
fn every_kind_is_made_up_in_season_and_alone() {
    use proptest::strategy::ValueTree;
    let mut runner = proptest::test_runner::TestRunner::deterministic();
    for name in KindName::ALL {
        for _ in 0..20 {
            let kind = strategies::kind(*name).new_tree(&mut runner).unwrap().current();
            assert_eq!(kind.name(), *name);
        }
    }
}

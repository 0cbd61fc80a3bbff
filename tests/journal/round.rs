//! What goes out comes back: properties over made-up records and seasons.

use crate::strategies;
use benchwalk::journal;
use benchwalk::record::{KindName, Line, Plan, Term, codec, derived_id, rules};
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
        later.by = "zz".to_owned();
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

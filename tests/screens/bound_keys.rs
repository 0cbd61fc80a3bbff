//! Every key of the table does something where the table offers it: on each page and popup of the demo season.

use crate::desk::{COLOR, Desk};
use benchwalk::keys::{Context, look_up, rows_of};

const DEMO: &str = include_str!("../../demo-data/demo.jsonl");

/// A state of every context by the keys that lead to it; popups that share a context one by one.
const WAYS: [(&str, Context); 30] = [
    ("", Context::Round),
    ("w", Context::Walk),
    ("wmn", Context::WalkLine),
    ("wafsoap{Tab}mites{Tab}a{Tab}12{Tab}now{Enter}", Context::WalkShut),
    ("e", Context::Review),
    ("{Enter}", Context::Bench),
    ("{Enter}c", Context::Charts),
    ("s", Context::Season),
    ("t", Context::Trial),
    ("@", Context::Share),
    ("i", Context::Mixing),
    ("g", Context::SetUp),
    ("a", Context::List),
    ("v", Context::List),
    ("o", Context::List),
    ("/", Context::Find),
    ("=", Context::Code),
    ("wl", Context::List),
    ("wm", Context::List),
    ("{Enter}x", Context::List),
    ("wn", Context::Line),
    ("wmc", Context::Line),
    ("aa", Context::Form),
    ("ga", Context::List),
    ("gal", Context::PlanForm),
    ("gat", Context::TrialForm),
    ("g{Enter}", Context::PlanForm),
    ("?", Context::Reading),
    ("w?", Context::Reading),
    ("w33uu", Context::Question),
];

/// Presses every key bound in the context of a desk; gives those that mean nothing there.
fn unheard(desk: &Desk) -> Vec<String> {
    let context = desk.app.context();
    let bound = rows_of(context).flat_map(benchwalk::keys::Row::bindings);
    let heard = bound.filter(|(key, command)| look_up(context, *key) == Some(*command));
    let silent = heard.filter(|(key, _)| desk.app.clone().key(*key).is_none());
    silent.map(|(key, command)| format!("{context:?}: {key} ({command:?})")).collect()
}

#[test]
fn every_bound_key_is_handled_where_the_table_offers_it() {
    let first = Desk::empty(COLOR, (80, 24));
    assert_eq!(first.app.context(), Context::First);
    let mut silent = unheard(&first);
    let mut seen = vec![Context::First];
    let mut path = Desk::empty(COLOR, (80, 24));
    path.keys("i");
    silent.extend(unheard(&path));
    let mut rescued = Desk::new();
    rescued.app.offer(crate::unsaved::left_behind());
    assert_eq!(rescued.app.context(), Context::Rescued);
    silent.extend(unheard(&rescued));
    seen.push(Context::Rescued);
    for desk in crate::plots::every_state() {
        silent.extend(unheard(&desk));
        seen.push(desk.app.context());
    }
    for desk in crate::settle::every_state() {
        assert_eq!(desk.app.context(), Context::Settle);
        silent.extend(unheard(&desk));
        seen.push(desk.app.context());
    }
    let mut none = Desk::new();
    none.keys("t");
    assert_eq!(none.app.context(), Context::Trials);
    silent.extend(unheard(&none));
    seen.push(Context::Trials);
    let mut trial = crate::trial::read();
    for (keys, context) in [("", Context::Trial), ("d", Context::List), ("{Esc}w", Context::Giving)] {
        trial.keys(keys);
        assert_eq!(trial.app.context(), context);
        silent.extend(unheard(&trial));
        seen.push(context);
    }
    let mut desk = Desk::with(DEMO, COLOR, (80, 24));
    // The morning of the demo's last day, the round not walked yet.
    desk.pass(chrono::Duration::days(2));
    let morning = desk.app.clone();
    for (keys, context) in WAYS {
        desk.app = morning.clone();
        desk.keys(keys);
        assert_eq!(desk.app.context(), context, "after {keys:?}\n{}", desk.text());
        silent.extend(unheard(&desk));
        seen.push(context);
    }
    assert!(silent.is_empty(), "bound and not handled:\n{}", silent.join("\n"));
    let own = Context::ALL.iter().filter(|c| !matches!(c, Context::Pages | Context::Everywhere));
    let missed: Vec<_> = own.filter(|c| !seen.contains(c)).collect();
    assert!(missed.is_empty(), "no state of {missed:?}");
}

#[test]
fn a_key_without_a_use_says_so_and_where_the_keys_are() {
    let mut desk = Desk::new();
    let key = benchwalk::input::Key::row("h").unwrap()[0];
    assert!(desk.app.key(key).is_none());
    assert!(desk.text().contains("h has no use here; ? lists the keys."), "{}", desk.text());
    desk.keys("{F9}");
    assert!(desk.text().contains("F9 has no use here; ? lists the keys."), "{}", desk.text());
    // In a list by letter `?` is a character.
    desk.keys("wmz");
    assert!(desk.text().contains("z has no use here; F1 lists the keys."), "{}", desk.text());
    assert_eq!(desk.written(), [""; 0]);
}

/// The same morning with Caps Lock on: walking, a list by letter, the evening.
#[test]
fn caps_lock_changes_no_key() {
    let mut desk = Desk::new();
    desk.keys("W3D");
    assert_eq!(desk.written(), ["E1 water 3", "E1 watered"]);
    desk.keys("ME");
    assert!(desk.text().contains("Pots lost on E1"), "{}", desk.text());
    desk.keys("{Esc}E");
    assert!(desk.text().starts_with("Evening review"), "{}", desk.text());
    desk.keys("R");
    assert!(desk.text().starts_with("Round"), "{}", desk.text());
}

/// A slow line delivers Left after Esc in pieces: `[` and `D`, which with Caps Lock would be "watered".
#[test]
fn half_an_arrow_key_logs_nothing_on_the_card() {
    let mut desk = Desk::new();
    desk.keys("wc{Esc}");
    assert!(desk.text().starts_with("Walk  E1"), "{}", desk.text());
    desk.keys_every("[D", 300);
    desk.keys("c").keys("{Esc}").keys_every("[5~", 300);
    assert_eq!(desk.written(), [""; 0], "{}", desk.text());
    desk.keys("D");
    assert_eq!(desk.written(), ["E1 watered"]);
}

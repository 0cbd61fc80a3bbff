//! Any row of keys, pastes, sizes and delays: no end of the program, and everything shown as saved was kept.

use crate::desk::{COLOR, Desk, Keeping, cases};
use crate::season;
use benchwalk::characters::hidden;
use benchwalk::input::{Code, Event, Key};
use benchwalk::record::Line;
use chrono::Duration;
use proptest::prelude::*;
use ratatui::style::Color;

#[derive(Debug, Clone)]
enum Doing {
    Key(Key),
    Paste(String),
    Resize(u16, u16),
    Pass(i64),
    Keep(Keeping),
}

fn key() -> impl Strategy<Value = Key> {
    let codes = prop_oneof![
        6 => prop::char::range('0', '9').prop_map(Code::Char),
        6 => prop::char::range('a', 'z').prop_map(Code::Char),
        1 => any::<char>().prop_map(Code::Char),
        6 => prop::sample::select(vec![
            Code::Enter, Code::Esc, Code::Backspace, Code::Delete, Code::Tab, Code::BackTab, Code::Up, Code::Down,
            Code::Left, Code::Right, Code::Home, Code::End, Code::PageUp, Code::PageDown, Code::F(1), Code::Char('?'),
        ]),
    ];
    (codes, prop::bool::weighted(0.05), prop::bool::weighted(0.05), prop::bool::weighted(0.05))
        .prop_map(|(code, ctrl, alt, repeat)| Key { code, ctrl, alt, repeat })
}

fn doing() -> impl Strategy<Value = Doing> {
    prop_oneof![
        30 => key().prop_map(Doing::Key),
        1 => ".{0,40}".prop_map(Doing::Paste),
        2 => (0u16..140, 0u16..50).prop_map(|(w, h)| Doing::Resize(w, h)),
        1 => (-90_000i64..200_000).prop_map(Doing::Pass),
        1 => prop::sample::select(vec![Keeping::Well, Keeping::Busy, Keeping::Refusing]).prop_map(Doing::Keep),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig { cases: cases(20), ..ProptestConfig::default() })]

    #[test]
    fn any_row_of_keys_is_survived(doings in prop::collection::vec(doing(), 1..120)) {
        let mut desk = Desk::with(&season::journal(), COLOR, (80, 24));
        for doing in doings {
            match doing {
                Doing::Key(key) => { desk.ms += 350; desk.event(Event::Key(key)); }
                Doing::Paste(text) => { desk.event(Event::Paste(text)); }
                Doing::Resize(w, h) => { desk.resize(w, h); }
                Doing::Pass(seconds) => { desk.pass(Duration::seconds(seconds)); }
                Doing::Keep(keeping) => desk.keeping = keeping,
            }
            let (buffer, cursor) = desk.draw();
            if let Some(at) = cursor { prop_assert!(buffer.area.contains(at)); }
            for cell in &buffer.content {
                prop_assert!(!cell.symbol().chars().any(hidden), "{:?}", cell.symbol());
                for color in [cell.fg, cell.bg] {
                    prop_assert!(!matches!(color, Color::Rgb(..) | Color::Indexed(_)), "{color:?}");
                }
            }
        }
        // Whatever stands in the season and is not pending was kept.
        let kept: Vec<_> = desk.kept.iter().filter_map(|l| match l { Line::Entry(e) => Some(e.id), _ => None }).collect();
        let before = Desk::with(&season::journal(), COLOR, (80, 24)).app.model.season.entries().len();
        let shown = desk.app.model.season.entries().iter().filter(|e| e.id.get_version_num() == 7);
        for entry in shown.filter(|e| !desk.app.model.pending.contains(&e.id)) {
            prop_assert!(kept.contains(&entry.id), "{entry:?}");
        }
        let made = desk.app.model.season.entries().len() - before;
        // Lines of the plan wait among the pending too.
        let waiting = desk.app.model.pending.iter().filter(|id| desk.app.model.season.entry(**id).is_some()).count();
        prop_assert_eq!(made, kept.len() + waiting);
    }
}

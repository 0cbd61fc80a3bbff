//! Any bytes as what a terminal sends to the screens: keys with what is held beside them, pastes, sizes, time that passes, and how
//! saving goes. No end of the program; every frame has its cursor inside and no hidden character; what is shown as saved was kept.
#![no_main]

use benchwalk::characters::hidden;
use benchwalk::input::{Code, Event, Key};
use benchwalk::record::Line;
use chrono::Duration;
use desk::{COLOR, Desk, Keeping};
use libfuzzer_sys::fuzz_target;

#[path = "../../common/desk/mod.rs"]
#[allow(dead_code, unused_imports)]
mod desk;
#[path = "../../common/rng.rs"]
#[allow(dead_code)]
mod rng;
#[path = "../../common/season/mod.rs"]
#[allow(dead_code)]
mod season;

const NAMED: [Code; 16] = [
    Code::Enter,
    Code::Esc,
    Code::Backspace,
    Code::Delete,
    Code::Tab,
    Code::BackTab,
    Code::Up,
    Code::Down,
    Code::Left,
    Code::Right,
    Code::Home,
    Code::End,
    Code::PageUp,
    Code::PageDown,
    Code::F(1),
    Code::F(12),
];

/// The next event. A byte of ASCII is that character; a control character or one above is another key or event.
fn event(data: &mut &[u8], desk: &mut Desk) -> Option<()> {
    let (first, rest) = data.split_first()?;
    *data = rest;
    let mut byte = || {
        let (first, rest) = data.split_first()?;
        *data = rest;
        Some(*first)
    };
    let key = |code| Key { code, ctrl: false, alt: false, repeat: false };
    let key = match *first {
        b'\n' => key(Code::Enter),
        0x1b => key(Code::Esc),
        c @ 0x20..=0x7e => key(Code::Char(char::from(c))),
        n @ 0x80..0x90 => key(NAMED[usize::from(n - 0x80)]),
        // Ctrl, Alt, both, or held down.
        n @ 0x90..0x98 => {
            let code = match byte()? {
                n @ 0x80..0x90 => NAMED[usize::from(n - 0x80)],
                c => Code::Char(char::from(c)),
            };
            Key { code, ctrl: n & 1 != 0, alt: n & 2 != 0, repeat: n & 4 != 0 }
        }
        // Any character.
        0x98 => {
            let number = u32::from_le_bytes([byte()?, byte()?, byte()?, 0]);
            key(Code::Char(char::from_u32(number)?))
        }
        0x99 => {
            let length = usize::from(byte()?).min(data.len());
            let (text, rest) = data.split_at(length);
            *data = rest;
            desk.event(Event::Paste(String::from_utf8_lossy(text).into_owned()));
            return Some(());
        }
        0x9a => {
            desk.resize(u16::from(byte()?), u16::from(byte()?) / 4);
            return Some(());
        }
        0x9b => {
            let minutes = i16::from_le_bytes([byte()?, byte()?]);
            desk.pass(Duration::minutes(i64::from(minutes)));
            return Some(());
        }
        0x9c => {
            desk.keeping = [Keeping::Well, Keeping::Busy, Keeping::Refusing][usize::from(byte()? % 3)];
            return Some(());
        }
        0x9d => {
            desk.event(Event::Quit);
            return Some(());
        }
        n => key(Code::Char(char::from(n))),
    };
    desk.ms += 350;
    desk.event(Event::Key(key));
    Some(())
}

fuzz_target!(|data: &[u8]| {
    let mut desk = Desk::with(&season::journal(), COLOR, (80, 24));
    let before = desk.app.model.season.entries().len();
    let mut rest = data;
    for _ in 0..150 {
        if event(&mut rest, &mut desk).is_none() {
            break;
        }
        let (buffer, cursor) = desk.draw();
        if let Some(at) = cursor {
            assert!(buffer.area.contains(at), "the cursor stands outside: {at:?}");
        }
        for cell in &buffer.content {
            assert!(!cell.symbol().chars().any(hidden), "a hidden character: {:?}", cell.symbol());
        }
    }
    let kept: Vec<_> = desk.kept.iter().filter_map(|l| if let Line::Entry(e) = l { Some(e.id) } else { None }).collect();
    let shown = desk.app.model.season.entries().iter().filter(|e| e.id.get_version_num() == 7);
    for entry in shown.filter(|e| !desk.app.model.pending.contains(&e.id)) {
        assert!(kept.contains(&entry.id), "shown as saved and not kept: {entry:?}");
    }
    let made = desk.app.model.season.entries().len() - before;
    let waiting = desk.app.model.pending.iter().filter(|id| desk.app.model.season.entry(**id).is_some()).count();
    assert_eq!(made, kept.len() + waiting);
});

//! Conversion of the terminal library's events.

use crate::input::{Code, Event, Key};
use crossterm::event::{Event as Theirs, KeyCode, KeyEvent, KeyEventKind, KeyModifiers};

/// Converts an event; `None` for those that are not used (key releases, mouse, focus).
pub(super) fn translate(event: Theirs) -> Option<Event> {
    match event {
        Theirs::Key(key) => translate_key(key).map(Event::Key),
        Theirs::Paste(text) => Some(Event::Paste(text.replace("\r\n", "\n").replace('\r', "\n"))),
        Theirs::Resize(columns, rows) => Some(Event::Resize(columns, rows)),
        Theirs::FocusGained | Theirs::FocusLost | Theirs::Mouse(_) => None,
    }
}

fn translate_key(key: KeyEvent) -> Option<Key> {
    if key.kind == KeyEventKind::Release {
        return None;
    }
    let shift = key.modifiers.contains(KeyModifiers::SHIFT);
    let ctrl = key.modifiers.contains(KeyModifiers::CONTROL);
    let code = match key.code {
        KeyCode::Char(c) if ctrl && !key.modifiers.contains(KeyModifiers::ALT) => Code::Char(c.to_ascii_lowercase()),
        KeyCode::Char(c) if shift => Code::Char(c.to_ascii_uppercase()),
        KeyCode::Char(c) => Code::Char(c),
        KeyCode::Enter => Code::Enter,
        KeyCode::Esc => Code::Esc,
        KeyCode::Backspace => Code::Backspace,
        KeyCode::Delete => Code::Delete,
        KeyCode::Tab if shift => Code::BackTab,
        KeyCode::Tab => Code::Tab,
        KeyCode::BackTab => Code::BackTab,
        KeyCode::Up => Code::Up,
        KeyCode::Down => Code::Down,
        KeyCode::Left => Code::Left,
        KeyCode::Right => Code::Right,
        KeyCode::Home => Code::Home,
        KeyCode::End => Code::End,
        KeyCode::PageUp => Code::PageUp,
        KeyCode::PageDown => Code::PageDown,
        KeyCode::F(n) => Code::F(n),
        _ => return None,
    };
    // Esc and the key after it, sent close together, read as that key with Alt; two Esc as one with Alt.
    let alt = key.modifiers.contains(KeyModifiers::ALT) && code != Code::Esc;
    Some(Key { code, ctrl, alt, repeat: key.kind == KeyEventKind::Repeat })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn key(code: KeyCode, modifiers: KeyModifiers, kind: KeyEventKind) -> Option<Key> {
        translate_key(KeyEvent::new_with_kind(code, modifiers, kind))
    }

    #[test]
    fn presses_and_repeats_come_through_and_releases_do_not() {
        let three = KeyCode::Char('3');
        let none = KeyModifiers::NONE;
        assert_eq!(key(three, none, KeyEventKind::Press), Some(Key::new(Code::Char('3'))));
        assert_eq!(key(three, none, KeyEventKind::Release), None);
        assert!(key(three, none, KeyEventKind::Repeat).unwrap().repeat);
    }

    #[test]
    fn the_digits_of_the_keypad_and_shifted_letters_are_characters() {
        let mut five = KeyEvent::new(KeyCode::Char('5'), KeyModifiers::NONE);
        five.state = crossterm::event::KeyEventState::KEYPAD;
        assert_eq!(translate_key(five), Some(Key::new(Code::Char('5'))));
        assert_eq!(key(KeyCode::Char('q'), KeyModifiers::SHIFT, KeyEventKind::Press), Some(Key::new(Code::Char('Q'))));
        assert_eq!(key(KeyCode::Char('L'), KeyModifiers::CONTROL, KeyEventKind::Press), Some(Key::ctrl('l')));
    }

    #[test]
    fn characters_of_other_keyboards_arrive_as_typed() {
        let both = KeyModifiers::CONTROL.union(KeyModifiers::ALT);
        assert_eq!(key(KeyCode::Char('\\'), both, KeyEventKind::Press).unwrap().typed(), Some('\\'));
        let three = both.union(KeyModifiers::SHIFT);
        assert_eq!(key(KeyCode::Char('}'), three, KeyEventKind::Press).unwrap().typed(), Some('}'));
    }

    #[test]
    fn pasted_line_ends_are_one_kind() {
        assert_eq!(translate(Theirs::Paste("a\r\nb\rc".into())), Some(Event::Paste("a\nb\nc".into())));
    }
}

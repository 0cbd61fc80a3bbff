//! Codes of labels: a scan that arrives as a paste or among the keys of a text, and going to what a code names.

use super::App;
use super::scan::Scan;
use crate::controls::Repeats;
use crate::input::{Code, Key};
use crate::keys::{Command, Context};
use crate::model::go::{self, Label};
use crate::model::{Effect, Go, Msg};
use crate::popups::{Popup, code};
use crate::screens::Screen;

/// What takes a text: the topmost popup, or the page.
#[derive(Debug, Clone)]
pub(super) enum Text {
    Popup(Box<Popup>),
    Screen(Box<Screen>),
}

impl App {
    /// Takes note of a key that goes into a text. Where it ends a scan of a known code, the text is as it was before the scan and
    /// the code is gone to: the Enter of a scanner saves no form.
    pub(super) fn scanned_into_text(&mut self, context: Context, key: Key) -> Option<Vec<Effect>> {
        if context.takes_codes() || context == Context::Code {
            self.scan = Scan::default();
            return None;
        }
        let (popups, screen) = (&self.popups, &self.screen);
        let before = || match popups.last() {
            Some(popup) => Text::Popup(Box::new(popup.clone())),
            None => Text::Screen(Box::new(screen.clone())),
        };
        let (before, scanned) = self.scan.takes(key, self.model.now.ms, before)?;
        let label = code::named(&scanned, &self.model)?;
        match (before, self.popups.last_mut()) {
            (Text::Popup(before), Some(popup)) => *popup = *before,
            (Text::Screen(before), None) => self.screen = *before,
            _ => return None,
        }
        Some(vec![Effect::Go(Go::Label(label))])
    }

    /// True for the line feed of a scanner that ends its codes with Enter and a line feed: the Enter went there already.
    pub(super) fn is_second_end(&self, key: Key) -> bool {
        key == Key::ctrl('j') && self.repeats.last() == Some(Key::new(Code::Enter))
    }

    /// Handles a pasted text. Some terminals deliver a scan so, with its Enter or without it.
    pub(super) fn pasted(&mut self, text: String) -> Vec<Effect> {
        // The Enter after it is no repeat of the one before it.
        self.repeats = Repeats::default();
        let has_site = self.model.season.site().is_some();
        let entered = text.ends_with('\n');
        let scanned = code::scanned(&text).filter(|code| has_site && self.takes_scan(code, entered));
        let Some(scanned) = scanned else {
            return self.tell(&Msg::Paste(text)).unwrap_or_default();
        };
        self.popups.pop_if(|popup| matches!(popup, Popup::Code(_)));
        let context = self.context();
        self.popups.extend(Popup::open(go::Popup::Code(scanned.to_owned()), &self.model, context));
        if entered { self.tell(&Msg::Do(Command::Accept)).unwrap_or_default() } else { Vec::new() }
    }

    /// True where a pasted text is a scan: wherever `=` begins a code, and in text where it is a known code with its Enter.
    fn takes_scan(&self, scanned: &str, entered: bool) -> bool {
        let context = self.context();
        let known = || entered && code::named(scanned, &self.model).is_some();
        context.takes_codes() || context == Context::Code || known()
    }

    /// Goes to what a label names: while walking to the card of a bench, else to its page; of a plot to its readings. What is typed
    /// in popups is kept, as when they are left.
    pub(super) fn go_to_label(&mut self, label: Label) {
        while let Some(mut popup) = self.popups.pop() {
            // Where it leads back to is left as well.
            popup.update(&mut self.model, &Msg::Do(Command::Back));
        }
        self.model.forget_status();
        match label {
            Label::Bench(code) => self.go_to_bench(code),
            Label::Plot(trial, plot) => {
                if !matches!(&self.screen, Screen::Plots(state) if state.takes(&plot, &self.model)) {
                    self.turn_to(go::Page::Plots(trial, None));
                }
                if matches!(self.screen, Screen::Plots(_)) {
                    self.screen.update(&mut self.model, &Msg::Found(plot));
                }
            }
        }
    }

    fn go_to_bench(&mut self, code: String) {
        let own = matches!(self.screen, Screen::Walk(_) | Screen::Bench(_));
        if !own || self.screen.update(&mut self.model, &Msg::Found(code.clone())).is_none() {
            self.turn_to(go::Page::Bench(code));
        }
    }
}

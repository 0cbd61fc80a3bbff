//! Taking the terminal over and giving it back, whatever happens in between.

use ratatui::crossterm::cursor::Show;
use ratatui::crossterm::event::{
    DisableBracketedPaste, EnableBracketedPaste, KeyboardEnhancementFlags, PopKeyboardEnhancementFlags,
    PushKeyboardEnhancementFlags,
};
use ratatui::crossterm::execute;
use ratatui::crossterm::terminal::{EnterAlternateScreen, LeaveAlternateScreen, disable_raw_mode, enable_raw_mode};
use std::io::{self, IsTerminal};
use std::sync::Once;
use std::sync::atomic::{AtomicBool, Ordering};

/// True while the terminal is ours.
static OURS: AtomicBool = AtomicBool::new(false);
/// True while the keyboard was asked to tell repeats and a plain Esc.
static TELLING: AtomicBool = AtomicBool::new(false);
static HOOK: Once = Once::new();

/// Gives the terminal back when dropped.
#[derive(Debug)]
pub(super) struct Guard(());

impl Guard {
    /// Takes the terminal over.
    pub(super) fn enter() -> io::Result<Self> {
        HOOK.call_once(hook);
        let guard = Self(());
        guard.enter_again()?;
        Ok(guard)
    }

    /// Takes it over again after [`Guard::leave`].
    #[expect(clippy::unused_self, reason = "only who holds the guard may")]
    pub(super) fn enter_again(&self) -> io::Result<()> {
        if !io::stdout().is_terminal() {
            return Err(io::Error::other("standard output is no terminal"));
        }
        // Until this has worked there is nothing to give back.
        enable_raw_mode()?;
        OURS.store(true, Ordering::SeqCst);
        execute!(io::stdout(), EnterAlternateScreen, EnableBracketedPaste)?;
        if knows_repeats() {
            let flags =
                KeyboardEnhancementFlags::DISAMBIGUATE_ESCAPE_CODES.union(KeyboardEnhancementFlags::REPORT_EVENT_TYPES);
            execute!(io::stdout(), PushKeyboardEnhancementFlags(flags))?;
            TELLING.store(true, Ordering::SeqCst);
        }
        Ok(())
    }

    /// Gives it back for a while.
    #[expect(clippy::unused_self, reason = "only who holds the guard may")]
    pub(super) fn leave(&self) {
        leave();
    }
}

impl Drop for Guard {
    fn drop(&mut self) {
        leave();
    }
}

/// Gives the terminal back: all four steps, whatever fails, and never a word about it, for there may be nobody to read it.
pub(super) fn leave() {
    if !OURS.swap(false, Ordering::SeqCst) {
        return;
    }
    let mut out = io::stdout();
    if TELLING.swap(false, Ordering::SeqCst) {
        execute!(out, PopKeyboardEnhancementFlags).ok();
    }
    execute!(out, DisableBracketedPaste).ok();
    execute!(out, LeaveAlternateScreen).ok();
    execute!(out, Show).ok();
    disable_raw_mode().ok();
}

/// Terminals that tell when a key repeats. They are known by name, for a question may go unanswered for seconds.
fn knows_repeats() -> bool {
    let named = |variable: &str, names: &[&str]| {
        std::env::var(variable).is_ok_and(|value| names.iter().any(|name| value.to_lowercase().contains(name)))
    };
    cfg!(unix)
        && (named("TERM", &["kitty", "foot", "ghostty", "alacritty", "wezterm"])
            || named("TERM_PROGRAM", &["ghostty", "wezterm"]))
}

/// A panic first gives the terminal back, so that its message can be read; one outside the main thread then ends the program,
/// which has lost its screen.
fn hook() {
    let before = std::panic::take_hook();
    std::panic::set_hook(Box::new(move |info| {
        leave();
        before(info);
        if std::thread::current().name() != Some("main") {
            end(101);
        }
    }));
}

/// Ends the program at once. What was said to be saved is on the disk.
#[expect(clippy::exit, reason = "a panic outside the main thread, or a signal that the main thread does not answer")]
pub(super) fn end(code: i32) -> ! {
    std::process::exit(code)
}

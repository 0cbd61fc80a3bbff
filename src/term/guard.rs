//! Terminal set-up and restoration, also after errors and panics.

use crossterm::cursor::Show;
use crossterm::event::{
    DisableBracketedPaste, EnableBracketedPaste, KeyboardEnhancementFlags, PopKeyboardEnhancementFlags,
    PushKeyboardEnhancementFlags,
};
use crossterm::execute;
use crossterm::terminal::{
    Clear, ClearType, EnterAlternateScreen, LeaveAlternateScreen, disable_raw_mode, enable_raw_mode,
};
use std::io::{self, IsTerminal};
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, Mutex, Once, PoisonError, mpsc};
use std::time::Duration;

/// What is to be done where the program ends without its main thread, or in a panic.
pub type LastAct = Arc<dyn Fn() + Send + Sync>;

/// The longest that [`LastAct`] is waited for: its disk may be the one that holds everything up.
const MOST_OF_LAST_ACT: Duration = Duration::from_secs(2);

/// It is done once.
static LAST_ACT: Mutex<Option<LastAct>> = Mutex::new(None);

/// True while the terminal is set up.
static OURS: AtomicBool = AtomicBool::new(false);
/// True while the enhanced keyboard protocol (repeats, unambiguous Esc) is on.
static TELLING: AtomicBool = AtomicBool::new(false);
static HOOK: Once = Once::new();

/// What is said of a console that shows escape sequences instead of obeying them.
#[cfg(windows)]
const NO_ESCAPES: &str = "this console takes no escape sequences, which the screens are drawn with: start it in Windows Terminal, or \
                          leave 'Use legacy console' unticked in the properties of the window";

/// Restores the terminal when dropped.
#[derive(Debug)]
pub(super) struct Guard(());

impl Guard {
    /// Sets the terminal up: raw mode, alternate screen.
    pub(super) fn enter() -> io::Result<Self> {
        HOOK.call_once(hook);
        let guard = Self(());
        guard.enter_again()?;
        Ok(guard)
    }

    /// Sets it up again after [`Guard::leave`].
    #[expect(clippy::unused_self, reason = "only who holds the guard may")]
    pub(super) fn enter_again(&self) -> io::Result<()> {
        if !io::stdout().is_terminal() {
            return Err(io::Error::other("standard output is no terminal"));
        }
        // The terminal library would draw by calls of the console there, which come before what was written into its buffer.
        #[cfg(windows)]
        if !crossterm::ansi_support::supports_ansi() {
            return Err(io::Error::other(NO_ESCAPES));
        }
        // Until this has worked there is nothing to restore.
        enable_raw_mode()?;
        OURS.store(true, Ordering::SeqCst);
        // A program that was killed leaves its page on the alternate screen, and entering that screen again clears nothing.
        execute!(io::stdout(), EnterAlternateScreen, Clear(ClearType::All), EnableBracketedPaste)?;
        if knows_repeats() {
            let flags =
                KeyboardEnhancementFlags::DISAMBIGUATE_ESCAPE_CODES.union(KeyboardEnhancementFlags::REPORT_EVENT_TYPES);
            execute!(io::stdout(), PushKeyboardEnhancementFlags(flags))?;
            TELLING.store(true, Ordering::SeqCst);
        }
        Ok(())
    }

    /// Restores the terminal for a while.
    #[expect(clippy::unused_self, reason = "only who holds the guard may")]
    pub(super) fn leave(&self) {
        leave();
    }
}

impl Drop for Guard {
    fn drop(&mut self) {
        before_end(None);
        leave();
    }
}

/// Restores the terminal. Runs all four steps even if one fails, and reports nothing, because nothing may be reading.
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

/// Terminals that report key repeats. They are recognized by name, because a query may go unanswered for seconds.
fn knows_repeats() -> bool {
    let named = |variable: &str, names: &[&str]| {
        std::env::var(variable).is_ok_and(|value| names.iter().any(|name| value.to_lowercase().contains(name)))
    };
    cfg!(unix)
        && (named("TERM", &["kitty", "foot", "ghostty", "alacritty", "wezterm"])
            || named("TERM_PROGRAM", &["ghostty", "wezterm"]))
}

/// A panic first restores the terminal, so that its message can be read; one outside the main thread then ends the program,
/// which has lost its screen.
fn hook() {
    let before = std::panic::take_hook();
    std::panic::set_hook(Box::new(move |info| {
        leave();
        before(info);
        last_act();
        if std::thread::current().name() != Some("main") {
            end(101);
        }
    }));
}

/// Sets what is done before the program ends without its main thread, or in a panic; nothing where it is `None`.
pub(super) fn before_end(act: Option<LastAct>) {
    *LAST_ACT.lock().unwrap_or_else(PoisonError::into_inner) = act;
}

/// Does what is to be done before the end, in a thread of its own, which is not waited for for ever.
pub(super) fn last_act() {
    let Some(act) = LAST_ACT.lock().unwrap_or_else(PoisonError::into_inner).take() else { return };
    let (done, waits) = mpsc::channel();
    let started = std::thread::Builder::new().name("last act".to_owned()).spawn(move || {
        act();
        done.send(()).ok();
    });
    if started.is_ok() {
        waits.recv_timeout(MOST_OF_LAST_ACT).ok();
    }
}

/// Ends the program at once. Whatever was shown as saved is on the disk.
#[expect(clippy::exit, reason = "a panic outside the main thread, or a signal that the main thread does not answer")]
pub(super) fn end(code: i32) -> ! {
    std::process::exit(code)
}

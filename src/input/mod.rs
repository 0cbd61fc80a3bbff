//! Input events: keys, pastes, resizes, idle time. Closed enums, no terminal library.
//!
//! `term` makes these; everything above reads only these, so that every key can be tested without a terminal.

mod key;

pub use key::{Code, Key};

/// An input event.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Event {
    /// A key was pressed (or repeats while held down: see [`Key::repeat`]). Releases are dropped before.
    Key(Key),
    /// Text was pasted; line ends are `\n`, nothing else is cleaned yet.
    Paste(String),
    /// The window has a new size, in columns and rows.
    Resize(u16, u16),
    /// No input for a while: time to check the clock.
    Idle,
    /// The program was asked to end from outside, or its terminal is gone.
    Quit,
}

/// What the terminal can show.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Look {
    /// The 16 colors are used; without them only bold, underline and reverse.
    pub color: bool,
    /// Only ASCII signs.
    pub ascii: bool,
    /// How bright it is around the screen.
    pub palette: Palette,
}

/// How the weights of text are drawn, for the light around the screen.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub enum Palette {
    /// The terminal's own background, bold, plain and dim text, 16 colors.
    #[default]
    Usual,
    /// Black on white alone: bold, plain and reversed text.
    Sunlight,
    /// For greenhouses with the lamps off: dim text on black, one red accent.
    Night,
}

impl Palette {
    /// Every palette, in the order its key goes through them.
    pub const ALL: [Self; 3] = [Self::Usual, Self::Sunlight, Self::Night];

    /// Its name in `config.toml` and on the screen.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Usual => "usual",
            Self::Sunlight => "sunlight",
            Self::Night => "night",
        }
    }

    /// The palette of that name.
    pub fn named(name: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|palette| palette.name() == name)
    }

    /// The one after it, round and round.
    #[must_use]
    pub const fn next(self) -> Self {
        match self {
            Self::Usual => Self::Sunlight,
            Self::Sunlight => Self::Night,
            Self::Night => Self::Usual,
        }
    }
}

//! What keys can ask for: a closed list.

/// What a key asks for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Command {
    /// Show the keys.
    Help,
    /// Redraw everything.
    Redraw,
    /// Suspend the program.
    Suspend,
    /// Quit.
    Quit,
    /// Back one level; keeps what was typed.
    Back,
    /// To the Round.
    Round,
    /// To the Evening review.
    Review,
    /// To the Season page.
    Season,
    /// To the Share page.
    Share,
    /// To the trials.
    Trials,
    /// Write the report of a trial, or of a part of the season, to a file.
    Paper,
    /// From the card to the page of its bench; there to its charts, or back from them.
    Charts,
    /// The next bench, part or chart of a page.
    ViewAfter,
    /// The bench, part or chart before.
    ViewBefore,
    /// Between the last three weeks and the season.
    Span,
    /// Back in time.
    Earlier,
    /// On in time.
    Later,
    /// One up.
    Up,
    /// One down.
    Down,
    /// A page up.
    PageUp,
    /// A page down.
    PageDown,
    /// To the first.
    First,
    /// To the last.
    Last,
    /// To the bench before.
    BenchBefore,
    /// To the bench after.
    BenchAfter,
    /// What Enter does: open the selected bench, change the selected line, save.
    Accept,
    /// The work of the page: the walk, from the first bench not walked; the form that answers the selected problem.
    Work,
    /// Walk on from the chosen bench.
    WalkHere,
    /// A score.
    Digit(u8),
    /// Done: on the card, that the bench was watered; of the evening, the job; of a plot, that it is lost.
    Done,
    /// Not now: on a card, skip this check or reading; of the evening, the job is not needed.
    NotNow,
    /// Back to the check or reading before.
    CheckBefore,
    /// Void the last entry.
    Undo,
    /// Log again what was voided last by undo.
    Redo,
    /// Write a note.
    Note,
    /// Score the leaves.
    Leaves,
    /// More: further checks and work of a bench; what the warnings of the review rest on; the other way a plot is read.
    More,
    /// Log work, or an observation, by a form; add to the plan.
    Add,
    /// Put the program on another day, or back.
    OtherDay,
    /// Change who scouts.
    Writer,
    /// Go on to the next palette.
    Palette,
    /// Find a bench by a part of its code, house or lot.
    Find,
    /// Begin the code of a bench or plot, as its label has it.
    Code,
    /// Choose which benches are listed.
    View,
    /// Choose in which order they are listed.
    Order,
    /// Select the bench under the cursor, or deselect it.
    Mark,
    /// Postpone the selected problem.
    PutOff,
    /// The log of a bench, to void an entry.
    Strikes,
    /// To the next field.
    FieldAfter,
    /// To the field before.
    FieldBefore,
    /// To the Mixing page, for what is chosen.
    Mix,
    /// To another page of the Mixing page, by its number.
    Tab(u8),
    /// Open the demo season.
    Demo,
    /// Import a journal.
    Import,
    /// How to start a season of one's own.
    HowToStart,
    /// To the plan: site, lots, benches, placements, orders.
    SetUp,
    /// Save, and open the same form for another.
    Another,
    /// Draw the layout of a trial once more.
    DrawAgain,
    /// To the first that is to settle.
    Settle,
}

impl Command {
    /// True where holding the key down is sensible.
    pub const fn moves(self) -> bool {
        matches!(
            self,
            Self::Up
                | Self::Down
                | Self::PageUp
                | Self::PageDown
                | Self::First
                | Self::Last
                | Self::Earlier
                | Self::Later
                | Self::BenchBefore
                | Self::BenchAfter
        )
    }
}

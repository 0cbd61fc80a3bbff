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
    /// To the page of the chosen bench.
    BenchPage,
    /// To the Season page.
    Season,
    /// To the charts of a bench, or back from them.
    Charts,
    /// The next part or chart of a page.
    ViewAfter,
    /// The part or chart before.
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
    /// Select, save, open: what Enter does.
    Accept,
    /// Start the walk at the first bench not walked.
    Walk,
    /// Walk on from the chosen bench.
    WalkHere,
    /// A score.
    Digit(u8),
    /// Log that the bench was watered.
    Watered,
    /// Skip this check.
    Skip,
    /// Back to the check before.
    CheckBefore,
    /// Void the last entry.
    Undo,
    /// Write a note.
    Note,
    /// Score the leaves.
    Leaves,
    /// More checks and work.
    More,
    /// Log work, or an observation, by a form.
    Add,
    /// Select the bench under the cursor, or deselect it.
    Mark,
    /// Open the form that answers the selected problem.
    Answer,
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
    /// Show what a warning rests on.
    Basis,
    /// Open the demo season.
    Demo,
    /// Import a journal.
    Import,
    /// How to start a season of one's own.
    HowToStart,
    /// To the plan: site, lots, benches, placements, orders.
    SetUp,
    /// The site by form.
    EditSite,
    /// A new lot by form.
    NewLot,
    /// Benches in a row by form.
    NewBenches,
    /// Place a lot on benches.
    SetDown,
    /// Pots committed for a date.
    NewOrder,
    /// Change the selected line of the plan.
    Change,
    /// Move pots to another bench.
    MovePots,
    /// Log that pots were spaced.
    SpacePots,
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

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
    /// Leave the program.
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
    /// Take, save, open: what Enter does.
    Accept,
    /// Start the walk at the first bench not walked.
    Walk,
    /// Walk on from the chosen bench.
    WalkHere,
    /// A score.
    Digit(u8),
    /// Written down: watered.
    Watered,
    /// Pass this check over.
    Skip,
    /// Back to the check before.
    CheckBefore,
    /// Strike out the last entry.
    Undo,
    /// Write a note.
    Note,
    /// Score the leaves.
    Leaves,
    /// More checks and work.
    More,
    /// Write down work done, or what was seen, by a form.
    Add,
    /// Select the bench under the cursor, or deselect it.
    Mark,
    /// Open the form that answers the chosen trouble.
    Answer,
    /// Put the chosen trouble off.
    PutOff,
    /// The list of what was written, to strike something out.
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
    /// Set a lot down on benches.
    SetDown,
    /// Pots promised for a day.
    NewOrder,
    /// Change the marked line of the plan.
    Change,
    /// Move pots to another bench.
    MovePots,
    /// Write down that pots were spaced.
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

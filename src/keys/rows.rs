//! The rows of the key table, a block for each context.

use super::{Command as C, Context as X, Keys, Row};

/// Every block, in the order of the help page.
pub(super) const ALL: &[&[Row]] = &[
    ROUND, WALK, WALK_LINE, WALK_SHUT, REVIEW, BENCH, CHARTS, SEASON, MIXING, FIRST, SET_UP, LIST, LINE, FORM, READING,
    RESCUED, PAGES, EVERYWHERE,
];

const fn row(context: X, keys: &'static [&'static str], command: C, hint: &'static str, help: &'static str) -> Row {
    Row { context, keys: Keys::These(keys), command, hint, help }
}

const ROUND: &[Row] = &[
    row(X::Round, &["w"], C::Walk, "walk", "Start the walk at the first bench not walked."),
    row(X::Round, &["f"], C::WalkHere, "walk from here", "Walk on from the bench marked."),
    row(X::Round, &["<ret>"], C::BenchPage, "bench page", "Show everything known of the bench marked."),
    row(
        X::Round,
        &["<space>"],
        C::Mark,
        "mark",
        "Mark this bench, to write to several at once; again takes the mark off.",
    ),
    row(X::Round, &["a"], C::Add, "add", "Write down work or a finding, for the benches marked or for this one."),
    row(X::Round, &["u"], C::Undo, "undo", "Strike out the last thing written, with all that was written with it."),
    row(X::Round, &["s"], C::Season, "season", "The Season page: calendar, nights, pots."),
    row(X::Round, &["<down>", "j"], C::Down, "", "Next bench."),
    row(X::Round, &["<up>", "k"], C::Up, "", "Bench before."),
    row(X::Round, &["<pgdn>"], C::PageDown, "", "A screen of benches on."),
    row(X::Round, &["<pgup>"], C::PageUp, "", "A screen of benches back."),
    row(X::Round, &["<home>"], C::First, "", "First bench."),
    row(X::Round, &["<end>"], C::Last, "", "Last bench."),
];

const WALK: &[Row] = &[
    Row {
        context: X::Walk,
        keys: Keys::Digits(0, 9),
        command: C::Digit(0),
        hint: "score",
        help: "Score the check asked for; it is saved at once and the next one comes.",
    },
    row(X::Walk, &["w"], C::Watered, "watered", "Write down that the bench was watered."),
    row(X::Walk, &["s"], C::Skip, "skip", "Pass this check over; nothing is written."),
    row(X::Walk, &["b"], C::CheckBefore, "back", "Back to the check before."),
    row(X::Walk, &["u"], C::Undo, "undo", "Strike out the last thing written; it stays in the record, struck."),
    row(X::Walk, &["n"], C::Note, "note", "Write a note to this bench."),
    row(X::Walk, &["l"], C::Leaves, "leaves", "Write down what the leaves show."),
    row(X::Walk, &["a"], C::Add, "add", "Write down work or a finding for this bench, by a form."),
    row(X::Walk, &["m"], C::More, "more", "More checks and work for this bench."),
    row(
        X::Walk,
        &["<right>", "<tab>"],
        C::BenchAfter,
        "next bench",
        "On to the next bench; checks left open stay due.",
    ),
    row(X::Walk, &["<left>", "<s-tab>"], C::BenchBefore, "", "Back to the bench before."),
    row(X::Walk, &["p"], C::BenchPage, "", "Show everything known of this bench."),
    row(X::Walk, &["<esc>", "r"], C::Back, "Round", "Back to the Round."),
];

const WALK_LINE: &[Row] = &[
    row(X::WalkLine, &["<ret>"], C::Accept, "save", "Save the line and go on; an empty line passes the check over."),
    row(X::WalkLine, &["<tab>"], C::BenchAfter, "next bench", "On to the next bench; what was typed is kept."),
    row(X::WalkLine, &["<s-tab>"], C::CheckBefore, "back", "Back to the check before; what was typed is kept."),
    row(X::WalkLine, &["<esc>"], C::Back, "Round", "Back to the Round; what was typed is kept."),
];

const WALK_SHUT: &[Row] = &[
    row(
        X::WalkShut,
        &["<ret>", "<right>", "<tab>"],
        C::BenchAfter,
        "next open bench",
        "On to the next bench that is open.",
    ),
    row(X::WalkShut, &["b", "<left>", "<s-tab>"], C::BenchBefore, "back", "Back to the bench before that is open."),
    row(X::WalkShut, &["u"], C::Undo, "undo", "Strike out the treatment, if it was the last thing written."),
    row(X::WalkShut, &["p"], C::BenchPage, "", "Show everything known of this bench."),
    row(X::WalkShut, &["<esc>", "r"], C::Back, "Round", "Back to the Round."),
];

const REVIEW: &[Row] = &[
    row(X::Review, &["<down>", "j"], C::Down, "", "Next trouble."),
    row(X::Review, &["<up>", "k"], C::Up, "", "Trouble before."),
    row(X::Review, &["<pgdn>"], C::PageDown, "page", "A screen on."),
    row(X::Review, &["<pgup>"], C::PageUp, "", "A screen back."),
    row(X::Review, &["<home>"], C::First, "", "To the top."),
    row(X::Review, &["<end>"], C::Last, "", "To the end."),
    row(X::Review, &["<ret>"], C::BenchPage, "bench page", "Show everything known of the bench marked."),
    row(
        X::Review,
        &["w"],
        C::Answer,
        "work",
        "Open the form that answers this trouble, filled in for all its benches.",
    ),
    row(X::Review, &["p"], C::PutOff, "put off", "Put this trouble off until a day, with a reason."),
    row(X::Review, &["u"], C::Undo, "undo", "Strike out the last thing written, with all that was written with it."),
    row(X::Review, &["b"], C::Basis, "basis", "Show or hide what each warning rests on."),
    row(X::Review, &["<esc>"], C::Back, "", "Back."),
];

const BENCH: &[Row] = &[
    row(X::Bench, &["c"], C::Charts, "charts", "Show this bench as charts."),
    row(X::Bench, &["<right>"], C::BenchAfter, "next bench", "The next bench in walking order."),
    row(X::Bench, &["<left>"], C::BenchBefore, "", "The bench before in walking order."),
    row(X::Bench, &["f"], C::WalkHere, "walk", "Walk on from this bench."),
    row(X::Bench, &["n"], C::Note, "note", "Write a note to this bench."),
    row(X::Bench, &["m"], C::More, "more", "More checks and work for this bench."),
    row(X::Bench, &["a"], C::Add, "add", "Write down work or a finding for this bench, by a form."),
    row(X::Bench, &["x"], C::Strikes, "strike", "Choose something written of this bench and strike it out."),
    row(X::Bench, &["p"], C::PutOff, "put off", "Put a warning of this bench off until a day, with a reason."),
    row(X::Bench, &["u"], C::Undo, "undo", "Strike out the last thing written, with all that was written with it."),
    row(X::Bench, &["<down>", "j"], C::Down, "", "Scroll on."),
    row(X::Bench, &["<up>", "k"], C::Up, "", "Scroll back."),
    row(X::Bench, &["<pgdn>"], C::PageDown, "", "A screen on."),
    row(X::Bench, &["<pgup>"], C::PageUp, "", "A screen back."),
    row(X::Bench, &["<home>"], C::First, "", "To the top."),
    row(X::Bench, &["<end>"], C::Last, "", "To the end."),
    row(X::Bench, &["<esc>"], C::Back, "back", "Back."),
];

const MIXING: &[Row] = &[
    row(
        X::Mixing,
        &["<ret>"],
        C::Accept,
        "write down",
        "Write the work down for the benches; what is missing is told.",
    ),
    row(X::Mixing, &["<tab>", "<down>"], C::FieldAfter, "next field", "To the next field."),
    row(X::Mixing, &["<s-tab>", "<up>"], C::FieldBefore, "", "To the field before."),
    row(X::Mixing, &["<pgdn>"], C::PageDown, "more", "A screen of the answer on."),
    row(X::Mixing, &["<pgup>"], C::PageUp, "", "A screen of the answer back."),
    row(X::Mixing, &["<f2>"], C::Tab(0), "", "Mix a growth regulator."),
    row(X::Mixing, &["<f3>"], C::Tab(1), "", "Mix magnesium, molybdenum or calcium."),
    row(X::Mixing, &["<f4>"], C::Tab(2), "", "Mix a liquid feed."),
    row(X::Mixing, &["<f5>"], C::Tab(3), "", "Weigh out a topdress."),
    row(X::Mixing, &["<esc>"], C::Back, "back", "Back; what was typed is kept for next time."),
];

const CHARTS: &[Row] = &[
    row(X::Charts, &["<tab>", "<down>", "j"], C::ViewAfter, "next chart", "The next chart."),
    row(X::Charts, &["<s-tab>", "<up>", "k"], C::ViewBefore, "", "The chart before."),
    row(X::Charts, &["z"], C::Span, "3 weeks or season", "Between the last 3 weeks and the season."),
    row(X::Charts, &[","], C::Earlier, "a week back", "A week back: what was known then."),
    row(X::Charts, &["."], C::Later, "a week on", "A week on, up to the day of the round."),
    row(X::Charts, &["<end>"], C::Last, "", "To the day of the round."),
    row(X::Charts, &["<right>"], C::BenchAfter, "next bench", "The next bench in walking order."),
    row(X::Charts, &["<left>"], C::BenchBefore, "", "The bench before in walking order."),
    row(X::Charts, &["c", "<esc>"], C::Charts, "record", "Back to what is written of this bench."),
];

const SEASON: &[Row] = &[
    row(X::Season, &["<tab>"], C::ViewAfter, "next part", "Calendar, nights, pots: the next."),
    row(X::Season, &["<s-tab>"], C::ViewBefore, "part before", "Calendar, nights, pots: the one before."),
    row(X::Season, &["<down>", "j"], C::Down, "on", "Scroll on."),
    row(X::Season, &["<up>", "k"], C::Up, "back", "Scroll back."),
    row(X::Season, &["<pgdn>"], C::PageDown, "", "A screen on."),
    row(X::Season, &["<pgup>"], C::PageUp, "", "A screen back."),
    row(X::Season, &["<home>"], C::First, "", "To the top."),
    row(X::Season, &["<end>"], C::Last, "", "To the end."),
    row(X::Season, &["<esc>"], C::Back, "", "Back."),
];

const FIRST: &[Row] = &[
    row(X::First, &["s"], C::SetUp, "set up", "Set up a season of your own by form: site, lots, benches."),
    row(X::First, &["d"], C::Demo, "demo", "Open a demo season to try everything on."),
    row(X::First, &["i"], C::Import, "import", "Import a journal by its path."),
    row(X::First, &["h"], C::HowToStart, "how to start", "Read how to start a season of your own."),
    row(X::First, &["q"], C::Quit, "leave", "Leave the program."),
];

const SET_UP: &[Row] = &[
    row(X::SetUp, &["s"], C::EditSite, "site", "The site: place, time zone, units."),
    row(X::SetUp, &["l"], C::NewLot, "lot", "A new lot."),
    row(X::SetUp, &["b"], C::NewBenches, "benches", "New benches, in a row."),
    row(X::SetUp, &["d"], C::SetDown, "set down", "Set a lot down on benches."),
    row(X::SetUp, &["o"], C::NewOrder, "order", "Pots promised for a day."),
    row(X::SetUp, &["<ret>"], C::Change, "change", "Change the line marked; it is written as a new revision."),
    row(X::SetUp, &["m"], C::MovePots, "move", "Move pots of the bench marked to another bench."),
    row(X::SetUp, &["c"], C::SpacePots, "space", "Write down the centers the pots were spaced to."),
    row(X::SetUp, &["w"], C::Walk, "walk", "Start the walk at the first bench not walked."),
    row(X::SetUp, &["<down>", "j"], C::Down, "", "Next line."),
    row(X::SetUp, &["<up>", "k"], C::Up, "", "Line before."),
    row(X::SetUp, &["<pgdn>"], C::PageDown, "", "A screen on."),
    row(X::SetUp, &["<pgup>"], C::PageUp, "", "A screen back."),
    row(X::SetUp, &["<home>"], C::First, "", "To the top."),
    row(X::SetUp, &["<end>"], C::Last, "", "To the end."),
    row(X::SetUp, &["<esc>"], C::Back, "", "Back."),
];

const LIST: &[Row] = &[
    row(X::List, &["<ret>"], C::Accept, "take", "Save, or open what is marked."),
    row(X::List, &["<down>"], C::Down, "", "Next."),
    row(X::List, &["<up>"], C::Up, "", "Before."),
    row(X::List, &["<pgdn>"], C::PageDown, "", "A screen on."),
    row(X::List, &["<pgup>"], C::PageUp, "", "A screen back."),
    row(X::List, &["<esc>"], C::Back, "back", "Back; nothing is written."),
];

const LINE: &[Row] = &[
    row(X::Line, &["<ret>"], C::Accept, "save", "Save the line."),
    row(X::Line, &["<esc>"], C::Back, "back", "Back; what was typed is kept for next time."),
];

const FORM: &[Row] = &[
    row(X::Form, &["<ret>"], C::Accept, "save", "Save the form; where something is wrong or missing, to that field."),
    row(X::Form, &["<tab>", "<down>"], C::FieldAfter, "next field", "To the next field."),
    row(X::Form, &["<s-tab>", "<up>"], C::FieldBefore, "field before", "To the field before."),
    row(X::Form, &["<esc>"], C::Back, "back", "Back; what was filled in is kept for next time."),
];

const READING: &[Row] = &[
    row(X::Reading, &["<down>", "j"], C::Down, "", "Scroll on."),
    row(X::Reading, &["<up>", "k"], C::Up, "", "Scroll back."),
    row(X::Reading, &["<pgdn>", "<space>"], C::PageDown, "page", "A screen on."),
    row(X::Reading, &["<pgup>"], C::PageUp, "", "A screen back."),
    row(X::Reading, &["<home>"], C::First, "", "To the top."),
    row(X::Reading, &["<end>"], C::Last, "", "To the end."),
    row(X::Reading, &["<esc>", "q"], C::Back, "back", "Back."),
];

const RESCUED: &[Row] = &[
    row(X::Rescued, &["<ret>"], C::Accept, "save now", "Save what the program could not when it ended."),
    row(X::Rescued, &["<esc>"], C::Back, "later", "Leave it; it is offered again at the next start."),
];

const PAGES: &[Row] = &[
    row(X::Pages, &["r"], C::Round, "Round", "To the Round."),
    row(X::Pages, &["e"], C::Review, "evening", "To the Evening review."),
    row(X::Pages, &["i"], C::Mix, "mix", "Reckon what to mix, for what is marked here."),
    row(X::Pages, &["g"], C::SetUp, "set-up", "To the plan: site, lots, benches, what stands where, orders."),
    row(X::Pages, &["q"], C::Quit, "leave", "Leave the program; everything is saved already."),
];

const EVERYWHERE: &[Row] = &[
    row(X::Everywhere, &["?", "<f1>"], C::Help, "keys", "Show the keys of this screen."),
    row(X::Everywhere, &["<c-l>"], C::Redraw, "", "Draw the screen anew, should the terminal have garbled it."),
    row(X::Everywhere, &["<c-z>"], C::Suspend, "", "Give the shell back for a while; `fg` returns here."),
    row(X::Everywhere, &["<c-q>"], C::Quit, "", "Leave the program; everything is saved already."),
];

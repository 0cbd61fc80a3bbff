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
    row(X::Round, &["{Enter}"], C::BenchPage, "bench page", "Show everything known of the bench marked."),
    row(
        X::Round,
        &["{Space}"],
        C::Mark,
        "mark",
        "Mark this bench, to write to several at once; again takes the mark off.",
    ),
    row(X::Round, &["a"], C::Add, "add", "Write down work or a finding, for the benches marked or for this one."),
    row(X::Round, &["u"], C::Undo, "undo", "Strike out the last thing written, with all that was written with it."),
    row(X::Round, &["s"], C::Season, "season", "The Season page: calendar, nights, pots."),
    row(X::Round, &["{Down}", "j"], C::Down, "", "Next bench."),
    row(X::Round, &["{Up}", "k"], C::Up, "", "Bench before."),
    row(X::Round, &["{PgDn}"], C::PageDown, "", "A screen of benches on."),
    row(X::Round, &["{PgUp}"], C::PageUp, "", "A screen of benches back."),
    row(X::Round, &["{Home}"], C::First, "", "First bench."),
    row(X::Round, &["{End}"], C::Last, "", "Last bench."),
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
        &["{Right}", "{Tab}"],
        C::BenchAfter,
        "next bench",
        "On to the next bench; checks left open stay due.",
    ),
    row(X::Walk, &["{Left}", "{Shift-Tab}"], C::BenchBefore, "", "Back to the bench before."),
    row(X::Walk, &["p"], C::BenchPage, "", "Show everything known of this bench."),
    row(X::Walk, &["{Esc}", "r"], C::Back, "Round", "Back to the Round."),
];

const WALK_LINE: &[Row] = &[
    row(X::WalkLine, &["{Enter}"], C::Accept, "save", "Save the line and go on; an empty line passes the check over."),
    row(X::WalkLine, &["{Tab}"], C::BenchAfter, "next bench", "On to the next bench; what was typed is kept."),
    row(X::WalkLine, &["{Shift-Tab}"], C::CheckBefore, "back", "Back to the check before; what was typed is kept."),
    row(X::WalkLine, &["{Esc}"], C::Back, "Round", "Back to the Round; what was typed is kept."),
];

const WALK_SHUT: &[Row] = &[
    row(
        X::WalkShut,
        &["{Enter}", "{Right}", "{Tab}"],
        C::BenchAfter,
        "next open bench",
        "On to the next bench that is open.",
    ),
    row(X::WalkShut, &["b", "{Left}", "{Shift-Tab}"], C::BenchBefore, "back", "Back to the bench before that is open."),
    row(X::WalkShut, &["u"], C::Undo, "undo", "Strike out the treatment, if it was the last thing written."),
    row(X::WalkShut, &["p"], C::BenchPage, "", "Show everything known of this bench."),
    row(X::WalkShut, &["{Esc}", "r"], C::Back, "Round", "Back to the Round."),
];

const REVIEW: &[Row] = &[
    row(X::Review, &["{Down}", "j"], C::Down, "", "Next trouble."),
    row(X::Review, &["{Up}", "k"], C::Up, "", "Trouble before."),
    row(X::Review, &["{PgDn}"], C::PageDown, "page", "A screen on."),
    row(X::Review, &["{PgUp}"], C::PageUp, "", "A screen back."),
    row(X::Review, &["{Home}"], C::First, "", "To the top."),
    row(X::Review, &["{End}"], C::Last, "", "To the end."),
    row(X::Review, &["{Enter}"], C::BenchPage, "bench page", "Show everything known of the bench marked."),
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
    row(X::Review, &["{Esc}"], C::Back, "", "Back."),
];

const BENCH: &[Row] = &[
    row(X::Bench, &["c"], C::Charts, "charts", "Show this bench as charts."),
    row(X::Bench, &["{Right}"], C::BenchAfter, "next bench", "The next bench in walking order."),
    row(X::Bench, &["{Left}"], C::BenchBefore, "", "The bench before in walking order."),
    row(X::Bench, &["f"], C::WalkHere, "walk", "Walk on from this bench."),
    row(X::Bench, &["n"], C::Note, "note", "Write a note to this bench."),
    row(X::Bench, &["m"], C::More, "more", "More checks and work for this bench."),
    row(X::Bench, &["a"], C::Add, "add", "Write down work or a finding for this bench, by a form."),
    row(X::Bench, &["x"], C::Strikes, "strike", "Choose something written of this bench and strike it out."),
    row(X::Bench, &["p"], C::PutOff, "put off", "Put a warning of this bench off until a day, with a reason."),
    row(X::Bench, &["u"], C::Undo, "undo", "Strike out the last thing written, with all that was written with it."),
    row(X::Bench, &["{Down}", "j"], C::Down, "", "Scroll on."),
    row(X::Bench, &["{Up}", "k"], C::Up, "", "Scroll back."),
    row(X::Bench, &["{PgDn}"], C::PageDown, "", "A screen on."),
    row(X::Bench, &["{PgUp}"], C::PageUp, "", "A screen back."),
    row(X::Bench, &["{Home}"], C::First, "", "To the top."),
    row(X::Bench, &["{End}"], C::Last, "", "To the end."),
    row(X::Bench, &["{Esc}"], C::Back, "back", "Back."),
];

const MIXING: &[Row] = &[
    row(
        X::Mixing,
        &["{Enter}"],
        C::Accept,
        "write down",
        "Write the work down for the benches; what is missing is told.",
    ),
    row(X::Mixing, &["{Tab}", "{Down}"], C::FieldAfter, "next field", "To the next field."),
    row(X::Mixing, &["{Shift-Tab}", "{Up}"], C::FieldBefore, "", "To the field before."),
    row(X::Mixing, &["{PgDn}"], C::PageDown, "more", "A screen of the answer on."),
    row(X::Mixing, &["{PgUp}"], C::PageUp, "", "A screen of the answer back."),
    row(X::Mixing, &["{F2}"], C::Tab(0), "", "Mix a growth regulator."),
    row(X::Mixing, &["{F3}"], C::Tab(1), "", "Mix magnesium, molybdenum or calcium."),
    row(X::Mixing, &["{F4}"], C::Tab(2), "", "Mix a liquid feed."),
    row(X::Mixing, &["{F5}"], C::Tab(3), "", "Weigh out a topdress."),
    row(X::Mixing, &["{Esc}"], C::Back, "back", "Back; what was typed is kept for next time."),
];

const CHARTS: &[Row] = &[
    row(X::Charts, &["{Tab}", "{Down}", "j"], C::ViewAfter, "next chart", "The next chart."),
    row(X::Charts, &["{Shift-Tab}", "{Up}", "k"], C::ViewBefore, "", "The chart before."),
    row(X::Charts, &["z"], C::Span, "3 weeks or season", "Between the last 3 weeks and the season."),
    row(X::Charts, &[","], C::Earlier, "a week back", "A week back: what was known then."),
    row(X::Charts, &["."], C::Later, "a week on", "A week on, up to the day of the round."),
    row(X::Charts, &["{End}"], C::Last, "", "To the day of the round."),
    row(X::Charts, &["{Right}"], C::BenchAfter, "next bench", "The next bench in walking order."),
    row(X::Charts, &["{Left}"], C::BenchBefore, "", "The bench before in walking order."),
    row(X::Charts, &["c", "{Esc}"], C::Charts, "record", "Back to what is written of this bench."),
];

const SEASON: &[Row] = &[
    row(X::Season, &["{Tab}"], C::ViewAfter, "next part", "Calendar, nights, pots: the next."),
    row(X::Season, &["{Shift-Tab}"], C::ViewBefore, "part before", "Calendar, nights, pots: the one before."),
    row(X::Season, &["{Down}", "j"], C::Down, "on", "Scroll on."),
    row(X::Season, &["{Up}", "k"], C::Up, "back", "Scroll back."),
    row(X::Season, &["{PgDn}"], C::PageDown, "", "A screen on."),
    row(X::Season, &["{PgUp}"], C::PageUp, "", "A screen back."),
    row(X::Season, &["{Home}"], C::First, "", "To the top."),
    row(X::Season, &["{End}"], C::Last, "", "To the end."),
    row(X::Season, &["{Esc}"], C::Back, "", "Back."),
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
    row(X::SetUp, &["{Enter}"], C::Change, "change", "Change the line marked; it is written as a new revision."),
    row(X::SetUp, &["m"], C::MovePots, "move", "Move pots of the bench marked to another bench."),
    row(X::SetUp, &["c"], C::SpacePots, "space", "Write down the centers the pots were spaced to."),
    row(X::SetUp, &["w"], C::Walk, "walk", "Start the walk at the first bench not walked."),
    row(X::SetUp, &["{Down}", "j"], C::Down, "", "Next line."),
    row(X::SetUp, &["{Up}", "k"], C::Up, "", "Line before."),
    row(X::SetUp, &["{PgDn}"], C::PageDown, "", "A screen on."),
    row(X::SetUp, &["{PgUp}"], C::PageUp, "", "A screen back."),
    row(X::SetUp, &["{Home}"], C::First, "", "To the top."),
    row(X::SetUp, &["{End}"], C::Last, "", "To the end."),
    row(X::SetUp, &["{Esc}"], C::Back, "", "Back."),
];

const LIST: &[Row] = &[
    row(X::List, &["{Enter}"], C::Accept, "take", "Save, or open what is marked."),
    row(X::List, &["{Down}"], C::Down, "", "Next."),
    row(X::List, &["{Up}"], C::Up, "", "Before."),
    row(X::List, &["{PgDn}"], C::PageDown, "", "A screen on."),
    row(X::List, &["{PgUp}"], C::PageUp, "", "A screen back."),
    row(X::List, &["{Esc}"], C::Back, "back", "Back; nothing is written."),
];

const LINE: &[Row] = &[
    row(X::Line, &["{Enter}"], C::Accept, "save", "Save the line."),
    row(X::Line, &["{Esc}"], C::Back, "back", "Back; what was typed is kept for next time."),
];

const FORM: &[Row] = &[
    row(X::Form, &["{Enter}"], C::Accept, "save", "Save the form; where something is wrong or missing, to that field."),
    row(X::Form, &["{Tab}", "{Down}"], C::FieldAfter, "next field", "To the next field."),
    row(X::Form, &["{Shift-Tab}", "{Up}"], C::FieldBefore, "field before", "To the field before."),
    row(X::Form, &["{Esc}"], C::Back, "back", "Back; what was filled in is kept for next time."),
];

const READING: &[Row] = &[
    row(X::Reading, &["{Down}", "j"], C::Down, "", "Scroll on."),
    row(X::Reading, &["{Up}", "k"], C::Up, "", "Scroll back."),
    row(X::Reading, &["{PgDn}", "{Space}"], C::PageDown, "page", "A screen on."),
    row(X::Reading, &["{PgUp}"], C::PageUp, "", "A screen back."),
    row(X::Reading, &["{Home}"], C::First, "", "To the top."),
    row(X::Reading, &["{End}"], C::Last, "", "To the end."),
    row(X::Reading, &["{Esc}", "q"], C::Back, "back", "Back."),
];

const RESCUED: &[Row] = &[
    row(X::Rescued, &["{Enter}"], C::Accept, "save now", "Save what the program could not when it ended."),
    row(X::Rescued, &["{Esc}"], C::Back, "later", "Leave it; it is offered again at the next start."),
];

const PAGES: &[Row] = &[
    row(X::Pages, &["r"], C::Round, "Round", "To the Round."),
    row(X::Pages, &["e"], C::Review, "evening", "To the Evening review."),
    row(X::Pages, &["i"], C::Mix, "mix", "Reckon what to mix, for what is marked here."),
    row(X::Pages, &["g"], C::SetUp, "set-up", "To the plan: site, lots, benches, what stands where, orders."),
    row(X::Pages, &["q"], C::Quit, "leave", "Leave the program; everything is saved already."),
];

const EVERYWHERE: &[Row] = &[
    row(X::Everywhere, &["?", "{F1}"], C::Help, "keys", "Show the keys of this screen."),
    row(X::Everywhere, &["{Ctrl-L}"], C::Redraw, "", "Draw the screen anew, should the terminal have garbled it."),
    row(X::Everywhere, &["{Ctrl-Z}"], C::Suspend, "", "Give the shell back for a while; `fg` returns here."),
    row(X::Everywhere, &["{Ctrl-Q}"], C::Quit, "", "Leave the program; everything is saved already."),
];

//! The rows of the key table, a block for each context.

use super::{Command as C, Context as X, Keys, Row};

/// Every block, in the order of the help page.
pub(super) const ALL: &[&[Row]] = &[
    ROUND, WALK, WALK_LINE, WALK_SHUT, PLOTS, PLOTS_LINE, PLOTS_SHUT, REVIEW, BENCH, CHARTS, SEASON, TRIALS, TRIAL,
    MIXING, SHARE, FIRST, SET_UP, LIST, FIND, CODE, LINE, FORM, PLAN_FORM, TRIAL_FORM, READING, RESCUED, SETTLE,
    QUESTION, GIVING, PAGES, EVERYWHERE,
];

const fn row(context: X, keys: &'static [&'static str], command: C, hint: &'static str, help: &'static str) -> Row {
    Row { context, keys: Keys::These(keys), command, hint, help }
}

const ROUND: &[Row] = &[
    row(X::Round, &["w"], C::Work, "walk", "Start at the first bench not yet walked."),
    row(X::Round, &["f"], C::WalkHere, "walk from here", "Start the walk at the selected bench."),
    row(X::Round, &["{Enter}"], C::Accept, "bench page", "Open the page of the selected bench."),
    row(X::Round, &["v"], C::View, "view", "View: all, not walked, flagged, closed, due today, one house, one lot."),
    row(X::Round, &["o"], C::Order, "order", "Order: walking, most severe, wettest, longest not seen."),
    row(X::Round, &["{Space}"], C::Mark, "mark", "Mark or unmark this bench, to log to several at once."),
    row(X::Round, &["a"], C::Add, "add", "Log work or an observation, for the marked benches or this one."),
    row(X::Round, &["t"], C::Trials, "", "The trials: layout, means, what is told apart."),
    row(X::Round, &["!"], C::Settle, "", "Settle the first contradiction between the laptops."),
    row(X::Round, &["{Down}", "j"], C::Down, "", "Next bench."),
    row(X::Round, &["{Up}", "k"], C::Up, "", "Previous bench."),
    row(X::Round, &["{PgDn}"], C::PageDown, "", "Page down."),
    row(X::Round, &["{PgUp}"], C::PageUp, "", "Page up."),
    row(X::Round, &["{Home}"], C::First, "", "First bench."),
    row(X::Round, &["{End}"], C::Last, "", "Last bench."),
];

const WALK: &[Row] = &[
    Row {
        context: X::Walk,
        keys: Keys::Digits(0, 9),
        command: C::Digit(0),
        hint: "score",
        help: "Score the current check; saved at once, then the next check.",
    },
    row(X::Walk, &["d"], C::Done, "watered", "Done: log that the bench was watered."),
    row(X::Walk, &["-"], C::NotNow, "skip", "Not now: skip this check; nothing is logged."),
    row(X::Walk, &["b"], C::CheckBefore, "back", "Back to the previous check."),
    row(X::Walk, &["n"], C::Note, "note", "Add a note to this bench."),
    row(X::Walk, &["l"], C::Leaves, "leaves", "Log leaf symptoms."),
    row(X::Walk, &["a"], C::Add, "add", "Log work or an observation for this bench, by form."),
    row(X::Walk, &["m"], C::More, "more", "More checks and work for this bench."),
    row(X::Walk, &["{Tab}"], C::ViewAfter, "next bench", "Go to the next bench; checks left open stay due."),
    row(X::Walk, &["{Shift-Tab}"], C::ViewBefore, "", "Back to the previous bench."),
    row(X::Walk, &["{Right}"], C::BenchAfter, "", "Next bench, as Tab."),
    row(X::Walk, &["{Left}"], C::BenchBefore, "", "Previous bench, as Shift-Tab."),
    row(X::Walk, &["c"], C::Charts, "", "Open the page of this bench: log and charts; Esc comes back."),
    row(X::Walk, &["{Enter}"], C::Accept, "", "Read the plots of a trial that are due on this bench."),
    row(X::Walk, &["{Esc}"], C::Back, "", "Back to the Round."),
];

const WALK_LINE: &[Row] = &[
    row(X::WalkLine, &["{Enter}"], C::Accept, "save", "Save the line and go on; an empty line skips the check."),
    row(X::WalkLine, &["{Tab}"], C::BenchAfter, "next bench", "Go to the next bench; what was typed is kept."),
    row(X::WalkLine, &["{Shift-Tab}"], C::CheckBefore, "back", "Back to the previous check; what was typed is kept."),
    row(X::WalkLine, &["{Esc}"], C::Back, "Round", "Back to the Round; what was typed is kept."),
];

const WALK_SHUT: &[Row] = &[
    row(X::WalkShut, &["{Enter}"], C::Accept, "next open bench", "Go to the next open bench."),
    row(X::WalkShut, &["{Tab}"], C::ViewAfter, "", "Next open bench, as Enter."),
    row(X::WalkShut, &["{Right}"], C::BenchAfter, "", "Next open bench, as Enter."),
    row(X::WalkShut, &["b"], C::CheckBefore, "back", "Back to the previous open bench."),
    row(X::WalkShut, &["{Shift-Tab}"], C::ViewBefore, "", "Previous open bench, as b."),
    row(X::WalkShut, &["{Left}"], C::BenchBefore, "", "Previous open bench, as b."),
    row(X::WalkShut, &["c"], C::Charts, "", "Open the page of this bench: log and charts; Esc comes back."),
    row(X::WalkShut, &["{Esc}"], C::Back, "", "Back to the Round."),
];

const PLOTS: &[Row] = &[
    Row {
        context: X::Plots,
        keys: Keys::Digits(0, 9),
        command: C::Digit(0),
        hint: "score",
        help: "Score the reading, saved at once; where a number is asked, begin it.",
    },
    row(X::Plots, &["-"], C::NotNow, "skip", "Skip this reading; it stays due."),
    row(X::Plots, &["b"], C::CheckBefore, "back", "Back to the previous reading."),
    row(X::Plots, &["d"], C::Done, "lost", "The plot is lost: asked once, then its pots leave the count."),
    row(X::Plots, &["n"], C::Note, "note", "Add a note to this plot."),
    row(X::Plots, &["x"], C::Strikes, "void", "Choose a reading of this plot and void it, or write it right."),
    row(X::Plots, &["m"], C::More, "", "Another way to read it: greenness by meter or class, how the EC is tested."),
    row(X::Plots, &["{Right}"], C::BenchAfter, "next plot", "Next plot, read or not."),
    row(X::Plots, &["{Left}"], C::BenchBefore, "", "Previous plot, read or not."),
    row(X::Plots, &["{Tab}"], C::ViewAfter, "", "Next plot, as the right arrow."),
    row(X::Plots, &["{Shift-Tab}"], C::ViewBefore, "", "Previous plot, as the left arrow."),
    row(X::Plots, &["{Enter}"], C::Accept, "", "Return once every plot is read."),
    row(X::Plots, &["{Esc}"], C::Back, "return", "Back to the walk or the trial; what is left stays due."),
];

const PLOTS_LINE: &[Row] = &[
    row(X::PlotsLine, &["{Enter}"], C::Accept, "save", "Save the line and go on."),
    row(X::PlotsLine, &["{Tab}"], C::BenchAfter, "next plot", "Next plot; what was typed is kept."),
    row(
        X::PlotsLine,
        &["{Shift-Tab}"],
        C::CheckBefore,
        "back",
        "Back to the previous reading; what was typed is kept.",
    ),
    row(X::PlotsLine, &["{Esc}"], C::Back, "return", "Back to the walk or the trial; what was typed is kept."),
];

const PLOTS_SHUT: &[Row] = &[
    row(X::PlotsShut, &["{Enter}"], C::Accept, "return", "Back to the walk or the trial."),
    row(X::PlotsShut, &["{Esc}"], C::Back, "", "Back to the walk or the trial, as Enter."),
];

const REVIEW: &[Row] = &[
    row(X::Review, &["{Down}", "j"], C::Down, "", "Next item."),
    row(X::Review, &["{Up}", "k"], C::Up, "", "Previous item."),
    row(X::Review, &["{PgDn}"], C::PageDown, "page", "Page down."),
    row(X::Review, &["{PgUp}"], C::PageUp, "", "Page up."),
    row(X::Review, &["{Home}"], C::First, "", "To the top."),
    row(X::Review, &["{End}"], C::Last, "", "To the end."),
    row(X::Review, &["{Enter}"], C::Accept, "bench", "Open the page of the selected item's bench."),
    row(X::Review, &["f"], C::WalkHere, "", "Start the walk at the selected item's bench."),
    row(X::Review, &["d"], C::Done, "done", "Done: tick the job; where figures go with it, its form is saved first."),
    row(X::Review, &["w"], C::Work, "by form", "Done otherwise: the form that responds to this job or warning."),
    row(X::Review, &["-"], C::NotNow, "not needed", "Not needed: tick the job, with the reason."),
    row(
        X::Review,
        &["p"],
        C::PutOff,
        "postpone",
        "Postpone: a job to the next day, a warning until a day with a reason.",
    ),
    row(X::Review, &["!"], C::Settle, "", "Settle the first contradiction between the laptops."),
    row(X::Review, &["m"], C::More, "basis", "More: show or hide the basis of each warning, its sources."),
    row(X::Review, &["{Esc}"], C::Back, "", "Back."),
];

const BENCH: &[Row] = &[
    row(X::Bench, &["c"], C::Charts, "charts", "Show this bench as charts."),
    row(X::Bench, &["z"], C::Span, "", "Charts: switch between the last 3 weeks and the full season."),
    row(X::Bench, &["{Right}"], C::BenchAfter, "next bench", "Next bench in walking order."),
    row(X::Bench, &["{Left}"], C::BenchBefore, "", "Previous bench in walking order."),
    row(X::Bench, &["f"], C::WalkHere, "walk", "Start the walk at this bench."),
    row(X::Bench, &["n"], C::Note, "note", "Add a note to this bench."),
    row(X::Bench, &["m"], C::More, "more", "More checks and work for this bench."),
    row(X::Bench, &["a"], C::Add, "add", "Log work or an observation for this bench, by form."),
    row(X::Bench, &["x"], C::Strikes, "void", "Choose an entry of this bench and void it."),
    row(X::Bench, &["p"], C::PutOff, "postpone", "Postpone a warning of this bench until a day, with a reason."),
    row(X::Bench, &["{Down}", "j"], C::Down, "", "Scroll down."),
    row(X::Bench, &["{Up}", "k"], C::Up, "", "Scroll up."),
    row(X::Bench, &["{PgDn}"], C::PageDown, "", "Page down."),
    row(X::Bench, &["{PgUp}"], C::PageUp, "", "Page up."),
    row(X::Bench, &["{Home}"], C::First, "", "To the top."),
    row(X::Bench, &["{End}"], C::Last, "", "To the end."),
    row(X::Bench, &["{Esc}"], C::Back, "back", "Back."),
];

const MIXING: &[Row] = &[
    row(X::Mixing, &["{Enter}"], C::Accept, "log it", "Log the work for the benches; missing fields are pointed out."),
    row(X::Mixing, &["{Tab}", "{Down}"], C::FieldAfter, "next field", "Next field."),
    row(X::Mixing, &["{Shift-Tab}", "{Up}"], C::FieldBefore, "", "Previous field."),
    row(X::Mixing, &["{PgDn}"], C::PageDown, "more", "Page down in the answer."),
    row(X::Mixing, &["{PgUp}"], C::PageUp, "", "Page up in the answer."),
    row(X::Mixing, &["{F2}"], C::Tab(0), "", "Mix a growth regulator."),
    row(X::Mixing, &["{F3}"], C::Tab(1), "", "Mix magnesium, molybdenum or calcium."),
    row(X::Mixing, &["{F4}"], C::Tab(2), "", "Mix a liquid feed."),
    row(X::Mixing, &["{F5}"], C::Tab(3), "", "Weigh out a topdress."),
    row(X::Mixing, &["{Esc}"], C::Back, "back", "Back; what was typed is kept for next time."),
];

const CHARTS: &[Row] = &[
    row(X::Charts, &["{Tab}"], C::ViewAfter, "next chart", "Next chart."),
    row(X::Charts, &["{Shift-Tab}"], C::ViewBefore, "", "Previous chart."),
    row(X::Charts, &["{Down}", "j"], C::Down, "", "Next chart, as Tab."),
    row(X::Charts, &["{Up}", "k"], C::Up, "", "Previous chart, as Shift-Tab."),
    row(X::Charts, &["z"], C::Span, "3 weeks or season", "Switch between the last 3 weeks and the full season."),
    row(X::Charts, &[","], C::Earlier, "a week back", "A week back: what was known then."),
    row(X::Charts, &["."], C::Later, "a week forward", "A week forward, up to the working day."),
    row(X::Charts, &["{End}"], C::Last, "", "To the working day."),
    row(X::Charts, &["c"], C::Charts, "log", "Back to the log of this bench."),
    row(X::Charts, &["{Esc}"], C::Back, "", "Back to the log of this bench, as c."),
    row(X::Charts, &["f"], C::WalkHere, "", "Start the walk at this bench."),
    row(X::Charts, &["{Right}"], C::BenchAfter, "next bench", "Next bench in walking order."),
    row(X::Charts, &["{Left}"], C::BenchBefore, "", "Previous bench in walking order."),
];

const SEASON: &[Row] = &[
    row(
        X::Season,
        &["{Tab}"],
        C::ViewAfter,
        "next part",
        "Next part: calendar, nights, pots, applications, last year, end.",
    ),
    row(
        X::Season,
        &["{Shift-Tab}"],
        C::ViewBefore,
        "previous part",
        "Previous part: calendar, nights, pots, applications, last year, end.",
    ),
    row(X::Season, &["h"], C::Paper, "file", "Write the part as an HTML file; asks for its path."),
    row(X::Season, &["t"], C::Trials, "trials", "The trials: layout, means, what is told apart."),
    row(X::Season, &["{Down}", "j"], C::Down, "scroll", "Scroll down; in a wide window, the next lot."),
    row(X::Season, &["{Up}", "k"], C::Up, "", "Scroll up; in a wide window, the previous lot."),
    row(X::Season, &["{PgDn}"], C::PageDown, "", "Page down."),
    row(X::Season, &["{PgUp}"], C::PageUp, "", "Page up."),
    row(X::Season, &["{Home}"], C::First, "", "To the top."),
    row(X::Season, &["{End}"], C::Last, "", "To the end."),
    row(X::Season, &["{Esc}"], C::Back, "", "Back."),
];

const TRIALS: &[Row] = &[
    row(X::Trials, &["{Enter}"], C::Accept, "open", "Open the page of the selected trial."),
    row(X::Trials, &["a"], C::Add, "new trial", "Set up a new trial by its form."),
    row(X::Trials, &["{Down}", "j"], C::Down, "", "Next trial."),
    row(X::Trials, &["{Up}", "k"], C::Up, "", "Previous trial."),
    row(X::Trials, &["{PgDn}"], C::PageDown, "", "Page down."),
    row(X::Trials, &["{PgUp}"], C::PageUp, "", "Page up."),
    row(X::Trials, &["{Home}"], C::First, "", "To the top."),
    row(X::Trials, &["{End}"], C::Last, "", "To the end."),
    row(X::Trials, &["{Esc}"], C::Back, "back", "Back."),
];

const TRIAL: &[Row] = &[
    row(
        X::Trial,
        &["{Tab}"],
        C::ViewAfter,
        "next part",
        "Next part: layout, means, response, position, checks, readings.",
    ),
    row(X::Trial, &["a"], C::Add, "", "Set up a new trial by its form."),
    row(X::Trial, &["{Shift-Tab}"], C::ViewBefore, "", "Previous part."),
    row(X::Trial, &["v"], C::View, "reading", "Next reading of the trial."),
    row(X::Trial, &[","], C::Earlier, "day before", "The day read before; of the entries, an earlier day."),
    row(X::Trial, &["."], C::Later, "", "The day read after; of the entries, a later day."),
    row(X::Trial, &["z"], C::Span, "", "Switch between one day and the growth over all days."),
    row(X::Trial, &["o"], C::Order, "compare", "Other comparisons: all pairs, or each with the control."),
    row(X::Trial, &["m"], C::More, "", "With or without what was read before the treatment."),
    row(X::Trial, &["{Enter}"], C::Accept, "read plots", "Read the plots that are due, by number, one key each."),
    row(X::Trial, &["w"], C::Work, "given", "Log the treatments as given, all at once; the weigh-out is shown first."),
    row(X::Trial, &["d"], C::Done, "use rate", "Done with it: keep a rate as the lot's slow-release of next season."),
    row(X::Trial, &["-"], C::NotNow, "", "End the trial early, with the reason; its readings stay."),
    row(X::Trial, &["x"], C::Strikes, "", "Void an entry of a plot: choose it among the readings."),
    row(X::Trial, &["h"], C::Paper, "file", "Write the report as an HTML file; asks for its path."),
    row(X::Trial, &["{Right}"], C::BenchAfter, "", "Next trial."),
    row(X::Trial, &["{Left}"], C::BenchBefore, "", "Previous trial."),
    row(X::Trial, &["{Down}", "j"], C::Down, "", "Scroll down; of the readings, the next entry."),
    row(X::Trial, &["{Up}", "k"], C::Up, "", "Scroll up; of the readings, the previous entry."),
    row(X::Trial, &["{PgDn}"], C::PageDown, "", "Page down."),
    row(X::Trial, &["{PgUp}"], C::PageUp, "", "Page up."),
    row(X::Trial, &["{Home}"], C::First, "", "To the top."),
    row(X::Trial, &["{End}"], C::Last, "", "To the end."),
    row(X::Trial, &["{Esc}"], C::Back, "back", "Back."),
];

const SHARE: &[Row] = &[
    row(
        X::Share,
        &["{Enter}"],
        C::Accept,
        "exchange now",
        "Exchange with every folder and hub now; nothing waits for it.",
    ),
    row(X::Share, &["!"], C::Settle, "settle", "Settle the first contradiction between the laptops."),
    row(X::Share, &["{Down}", "j"], C::Down, "", "Scroll down."),
    row(X::Share, &["{Up}", "k"], C::Up, "", "Scroll up."),
    row(X::Share, &["{PgDn}"], C::PageDown, "", "Page down."),
    row(X::Share, &["{PgUp}"], C::PageUp, "", "Page up."),
    row(X::Share, &["{Home}"], C::First, "", "To the top."),
    row(X::Share, &["{End}"], C::Last, "", "To the end."),
    row(X::Share, &["{Esc}"], C::Back, "back", "Back."),
];

const FIRST: &[Row] = &[
    row(X::First, &["s"], C::SetUp, "set up", "Set up your own season by form: site, lots, benches."),
    row(X::First, &["d"], C::Demo, "demo", "Open a demo season to try things out."),
    row(X::First, &["i"], C::Import, "import", "Import a journal by its path."),
    row(X::First, &["h"], C::HowToStart, "how to start", "Read how to start your own season."),
    row(X::First, &["q"], C::Quit, "quit", "Quit."),
];

const SET_UP: &[Row] = &[
    row(X::SetUp, &["a"], C::Add, "add", "Add to the plan: site, lot, benches, placement, order; move or space pots."),
    row(X::SetUp, &["{Enter}"], C::Accept, "change", "Change the selected line; it is saved as a new revision."),
    row(X::SetUp, &["w"], C::Work, "walk", "Start at the first bench not yet walked."),
    row(X::SetUp, &["t"], C::Trials, "", "The trials: layout, means, what is told apart."),
    row(X::SetUp, &["{Down}", "j"], C::Down, "", "Next line."),
    row(X::SetUp, &["{Up}", "k"], C::Up, "", "Previous line."),
    row(X::SetUp, &["{PgDn}"], C::PageDown, "", "Page down."),
    row(X::SetUp, &["{PgUp}"], C::PageUp, "", "Page up."),
    row(X::SetUp, &["{Home}"], C::First, "", "To the top."),
    row(X::SetUp, &["{End}"], C::Last, "", "To the end."),
    row(X::SetUp, &["{Esc}"], C::Back, "", "Back."),
];

const LIST: &[Row] = &[
    row(X::List, &["{Enter}"], C::Accept, "select", "Save, or open the selected line."),
    row(X::List, &["{Down}"], C::Down, "", "Next."),
    row(X::List, &["{Up}"], C::Up, "", "Previous."),
    row(X::List, &["{PgDn}"], C::PageDown, "", "Page down."),
    row(X::List, &["{PgUp}"], C::PageUp, "", "Page up."),
    row(X::List, &["{Esc}"], C::Back, "back", "Back; nothing is logged."),
];

const FIND: &[Row] = &[
    row(X::Find, &["{Enter}"], C::Accept, "go there", "Go to the selected bench."),
    row(X::Find, &["{Down}"], C::Down, "next", "Next bench found."),
    row(X::Find, &["{Up}"], C::Up, "", "Previous bench found."),
    row(X::Find, &["{PgDn}"], C::PageDown, "", "Page down."),
    row(X::Find, &["{PgUp}"], C::PageUp, "", "Page up."),
    row(X::Find, &["{Esc}"], C::Back, "back", "Back; everything as it was."),
];

const CODE: &[Row] = &[
    row(X::Code, &["{Enter}", "{Ctrl-J}"], C::Accept, "go there", "Go to the bench or plot of this code."),
    row(X::Code, &["{Esc}"], C::Back, "back", "Back; everything as it was."),
];

const LINE: &[Row] = &[
    row(X::Line, &["{Enter}"], C::Accept, "save", "Save the line."),
    row(X::Line, &["{Esc}"], C::Back, "back", "Back; what was typed is kept for next time."),
];

const FORM: &[Row] = &[
    row(X::Form, &["{Enter}"], C::Accept, "save", "Save the form, or go to the first field that is wrong or missing."),
    row(X::Form, &["{Tab}", "{Down}"], C::FieldAfter, "next field", "Next field."),
    row(X::Form, &["{Shift-Tab}", "{Up}"], C::FieldBefore, "previous field", "Previous field."),
    row(X::Form, &["{PgDn}"], C::PageDown, "", "More of the text below the fields: amounts and cautions."),
    row(X::Form, &["{PgUp}"], C::PageUp, "", "Back in the text below the fields."),
    row(X::Form, &["{Esc}"], C::Back, "back", "Back; what was filled in is kept for next time."),
];

const PLAN_FORM: &[Row] = &[row(
    X::PlanForm,
    &["{F2}"],
    C::Another,
    "",
    "Save the form and open it again for another: lot, benches, placement, order.",
)];

const TRIAL_FORM: &[Row] = &[row(
    X::TrialForm,
    &["{F3}"],
    C::DrawAgain,
    "draw again",
    "Draw the layout again before it is saved; how often is kept with it.",
)];

const READING: &[Row] = &[
    row(X::Reading, &["{Down}", "j"], C::Down, "", "Scroll down."),
    row(X::Reading, &["{Up}", "k"], C::Up, "", "Scroll up."),
    row(X::Reading, &["{PgDn}"], C::PageDown, "page", "Page down."),
    row(X::Reading, &["{PgUp}"], C::PageUp, "", "Page up."),
    row(X::Reading, &["{Home}"], C::First, "", "To the top."),
    row(X::Reading, &["{End}"], C::Last, "", "To the end."),
    row(X::Reading, &["{Esc}"], C::Back, "back", "Back."),
];

const RESCUED: &[Row] = &[
    row(X::Rescued, &["{Enter}"], C::Accept, "save now", "Save what was not saved when the program ended."),
    row(X::Rescued, &["{Esc}"], C::Back, "later", "Later: it is offered again at the next start."),
];

const SETTLE: &[Row] = &[
    row(X::Settle, &["{Enter}"], C::Accept, "settle", "Settle it as chosen; then comes the next."),
    row(X::Settle, &["{Tab}", "{Down}"], C::FieldAfter, "next line", "Next field, or next thing to do."),
    row(X::Settle, &["{Shift-Tab}", "{Up}"], C::FieldBefore, "", "Previous field, or previous thing to do."),
    row(X::Settle, &["{PgDn}"], C::PageDown, "next to settle", "The next to settle; this one stays for later."),
    row(X::Settle, &["{PgUp}"], C::PageUp, "", "The one before."),
    row(X::Settle, &["{Esc}"], C::Back, "later", "Later; nothing changes."),
];

const QUESTION: &[Row] = &[
    row(X::Question, &["{Enter}"], C::Accept, "void it too", "Void what is named."),
    row(X::Question, &["{Esc}"], C::Back, "keep it", "Keep it; nothing is voided."),
];

const GIVING: &[Row] = &[
    row(X::Giving, &["{Enter}"], C::Accept, "log as given", "Log the treatments of all plots named as given."),
    row(X::Giving, &["{Esc}"], C::Back, "back", "Back; nothing is logged."),
];

const PAGES: &[Row] = &[
    row(X::Pages, &["/"], C::Find, "find", "Find a bench: type part of its code, house or lot; Enter goes there."),
    row(
        X::Pages,
        &["u"],
        C::Undo,
        "undo",
        "Void the last entry and everything logged with it; it stays in the record.",
    ),
    row(X::Pages, &["y"], C::Redo, "", "Redo: bring back what was voided last, as a new entry."),
    row(X::Pages, &["r"], C::Round, "Round", "Go to the Round."),
    row(X::Pages, &["e"], C::Review, "evening", "Go to the Evening review."),
    row(X::Pages, &["i"], C::Mix, "mix", "Work out a mix for the selected benches."),
    row(X::Pages, &["s"], C::Season, "season", "The Season page: calendar, nights, pots."),
    row(X::Pages, &["g"], C::SetUp, "setup", "Setup: site, lots, benches, placements, orders."),
    row(
        X::Pages,
        &["@"],
        C::Share,
        "",
        "The Share page: the laptops that keep this season, and the folders and hubs between.",
    ),
    row(X::Pages, &["q"], C::Quit, "quit", "Quit; everything is already saved."),
];

const EVERYWHERE: &[Row] = &[
    row(X::Everywhere, &["?", "{F1}"], C::Help, "keys", "Show the keys of this screen."),
    row(X::Everywhere, &["="], C::Code, "", "Code of a bench or plot label, typed or scanned; Enter goes there."),
    row(X::Everywhere, &["{F6}"], C::OtherDay, "", "Log for another day, until F6 goes back to today."),
    row(X::Everywhere, &["{F7}"], C::Writer, "", "Change who is scouting: the last names as 1, 2, 3, or typed."),
    row(X::Everywhere, &["{F8}"], C::Palette, "", "Next palette: usual, sunlight, night; kept for the next start."),
    row(X::Everywhere, &["{Ctrl-L}"], C::Redraw, "", "Redraw the screen."),
    row(X::Everywhere, &["{Ctrl-Z}"], C::Suspend, "", "Suspend to the shell; `fg` comes back."),
    row(X::Everywhere, &["{Ctrl-Q}"], C::Quit, "", "Quit; everything is already saved."),
];

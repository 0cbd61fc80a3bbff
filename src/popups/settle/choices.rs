//! What is settled by one of several things to do: an entry voided, a note that both are right, a count; or by nothing that is
//! done here.

use crate::controls::List;
use crate::dates;
use crate::model::{Effect, FormRequest, Model, go};
use crate::record::{Entry, KindName, Place};
use crate::report::{entry, words};
use crate::season::{PotsLeft, Twins, Unsettled, Writer};
use uuid::Uuid;

/// Why an entry is voided that two laptops logged.
const TWICE: &str = "logged twice";
/// Why an entry is voided that does not go together with another.
const POTS: &str = "pots did not add up";

/// Something to do.
#[derive(Debug, Clone)]
pub(super) struct Choice {
    /// The key that names it.
    pub(super) key: char,
    /// What it does.
    pub(super) text: String,
    act: Act,
}

/// What is done.
#[derive(Debug, Clone)]
enum Act {
    /// These entries are voided, for the reason.
    Void(Vec<Uuid>, &'static str),
    /// A note at each place says that all of its entries are right.
    Right(Vec<Vec<Uuid>>),
    /// The form that counts a bench opens.
    Count(String),
}

/// The things to do, the one that is marked, and why the last try was refused.
#[derive(Debug, Clone)]
pub(super) struct Choices {
    pub(super) all: Vec<Choice>,
    pub(super) list: List,
    pub(super) fault: Option<String>,
}

/// What came of it.
pub(super) enum Done {
    /// New entries settle it.
    Written(Effect),
    /// A form goes on with it.
    Goes(Effect),
    /// Nothing: there is nothing to choose, or it was refused.
    Nothing,
}

impl Choices {
    pub(super) fn new(unsettled: &Unsettled, model: &Model) -> Self {
        let acts = match unsettled {
            Unsettled::Twins(twins) => of_twins(twins, model),
            Unsettled::Pots(pots) => of_pots(pots, model),
            Unsettled::Plan(_) | Unsettled::NotThere(_) | Unsettled::Clock(_) | Unsettled::Held(_) => Vec::new(),
        };
        let digits = ('1'..='9').chain('a'..='z');
        let all = acts.into_iter().zip(digits).map(|((text, act), key)| Choice { key, text, act }).collect();
        Self { all, list: List::default(), fault: None }
    }

    /// Marks the one that a character names; false where it names none.
    pub(super) fn mark(&mut self, typed: char) -> bool {
        let Some(at) = self.all.iter().position(|choice| choice.key == typed.to_ascii_lowercase()) else {
            return false;
        };
        self.list.set(at);
        true
    }

    /// Does what is marked.
    pub(super) fn act(&mut self, model: &mut Model) -> Done {
        let Some(choice) = self.all.get(self.list.cursor()) else { return Done::Nothing };
        let done = match &choice.act {
            Act::Count(bench) => {
                let form = FormRequest::new(KindName::Counted, Place::Bench(bench.as_str().into()));
                return Done::Goes(Effect::popup(go::Popup::Form(Box::new(form))));
            }
            Act::Void(ids, why) => model.settle_void(ids, why),
            Act::Right(places) => model.settle_right(places),
        };
        match done {
            Ok(effect) => Done::Written(effect),
            Err(faults) => {
                self.fault = faults.first().map(crate::model::fault_text);
                Done::Nothing
            }
        }
    }
}

/// Each one's entries to be voided, or all of them to stay.
fn of_twins(twins: &Twins, model: &Model) -> Vec<(String, Act)> {
    let voids = twins.writers.iter().map(|writer| {
        let of = twins.of(&model.season, writer);
        let many = if of.len() > 1 { format!(": {} entries", of.len()) } else { String::new() };
        (format!("void what {}{many}", logged(writer, &twins.writers)), Act::Void(of, TWICE))
    });
    let all = if twins.writers.len() > 2 { "all of them are right" } else { "both are right: it was done by each" };
    let places = twins.places.iter().map(|(_, ids)| ids.clone()).collect();
    voids.chain([(all.to_owned(), Act::Right(places))]).collect()
}

/// One of the two entries to be voided, or the bench to be counted.
fn of_pots(pots: &PotsLeft, model: &Model) -> Vec<(String, Act)> {
    let both: Vec<Writer> = pots.writer.iter().chain(&pots.other_writer).cloned().collect();
    let ids = pots.entry.iter().chain(&pots.other);
    let voids = ids.filter_map(|id| model.season.entry(*id)).map(|of| {
        let who = logged(&model.season.writer(of), &both);
        (format!("void what {who}: {}", said(of, model)), Act::Void(vec![of.id], POTS))
    });
    voids.chain([(format!("count the pots on {} now", pots.bench), Act::Count(pots.bench.clone()))]).collect()
}

/// `bob (bob-2) logged at 06:45`.
fn logged(writer: &Writer, beside: &[Writer]) -> String {
    let at = writer.at.map_or_else(String::new, |at| format!(" at {}", dates::time(&at)));
    format!("{} logged{at}", words::who(writer, beside))
}

/// `M1: moved 80 pots to M4`.
fn said(of: &Entry, model: &Model) -> String {
    format!("{}: {}", entry::about(of), entry::seen(of, model.system()))
}

/// What only another laptop, a clock or a newer program mends; nothing where something can be done here.
pub(super) fn elsewhere(unsettled: &Unsettled, model: &Model) -> Option<String> {
    let today = dates::weekday(model.day);
    match unsettled {
        Unsettled::NotThere(_) => {
            Some("Nothing is lost: it counts as soon as the line it names is here. Esc leaves it for later.".to_owned())
        }
        Unsettled::Clock(of) if of.writer.laptop.is_some() => Some(format!(
            "This laptop reads {today} {}. If that is right, set the other clock; if it is wrong, set this one. Then void \
             what has the wrong time on the page of its bench (x) and log it again.",
            dates::time(&model.now.at)
        )),
        Unsettled::Clock(_) => Some(format!(
            "This laptop reads {today} {}. It was ahead before: void what has the wrong time on the page of its bench (x) \
             and log it again.",
            dates::time(&model.now.at)
        )),
        Unsettled::Held(_) => Some(
            "They are kept and sent to the other laptops; they count here once this program is the newer one."
                .to_owned(),
        ),
        Unsettled::Plan(_) | Unsettled::Pots(_) | Unsettled::Twins(_) => None,
    }
}

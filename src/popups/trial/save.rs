//! The form of a trial into lines: the trial and all its plots, or a new revision of the trial.

use super::rows::F;
use super::{State, read};
use crate::model::Model;
use crate::record::{FieldFault, Line, Trial};
use crate::terms::Design;
use crate::trials::question_of;

/// The lines the form writes; none where a change changes nothing.
///
/// # Errors
/// What is missing or wrong, by field.
pub(super) fn lines(state: &State, model: &Model) -> Result<Vec<Line>, Vec<(F, String)>> {
    let missing: Vec<(F, String)> = state
        .fields
        .shown()
        .filter(|row| row.required && row.is_empty())
        .map(|row| (row.name, "is missing".to_owned()))
        .collect();
    if !missing.is_empty() {
        return Err(missing);
    }
    let one = |fault| vec![fault];
    let mut lines = if let Some(kept) = &state.kept {
        vec![Line::Trial(changed(state, model, kept).map_err(one)?)]
    } else {
        let plots = state.laid.clone().map_err(one)?;
        let trial = trial(state, model).map_err(one)?;
        if model.season.trial(&trial.trial).is_some() {
            return Err(vec![(F::Code, format!("{} is a trial already; give another code", trial.trial))]);
        }
        std::iter::once(Line::Trial(trial)).chain(plots.into_iter().map(Line::Plot)).collect()
    };
    if let (Some(kept), [Line::Trial(new)]) = (&state.kept, lines.as_slice())
        && Line::Trial(new.clone()).content() == Line::Trial(kept.clone()).content()
    {
        return Ok(Vec::new());
    }
    for (line, number) in lines.iter_mut().zip(0_u32..) {
        let replaces = model.season.heads(&line.key()).iter().map(Line::id).collect();
        if let Some(revision) = line.revision_mut() {
            *revision = model.revision(number, replaces, false);
        }
    }
    model.admit(&lines).map(|()| lines).map_err(|faults| faults.iter().map(by_field).collect())
}

/// A fault of a line, with the field of the form that it belongs to.
fn by_field(fault: &FieldFault) -> (F, String) {
    let field = match fault.field.as_str() {
        "trial" => F::Code,
        "lot" => F::Lot,
        "question" => F::Question,
        "rate_unit" => F::RateUnit,
        "control" => F::Control,
        "reads" => F::Also,
        "every_days" => F::Every,
        "from" => F::From,
        "until" => F::Until,
        "matters" => F::Matters,
        "near_side" => F::Near,
        "far_side" => F::Far,
        "ended_because" => F::Ended,
        "bench" | "row" | "column" => F::Benches,
        "pots" => F::Pots,
        "block" => F::Blocks,
        _ => F::Treatments,
    };
    (field, fault.text.clone())
}

fn some(text: &str) -> Option<String> {
    Some(text.trim().to_owned()).filter(|text| !text.is_empty())
}

fn every(state: &State) -> Result<Option<u32>, read::Fault> {
    let days = read::whole(state, F::Every, 0)?;
    Ok(u32::try_from(days).ok().filter(|days| *days > 0))
}

/// The trial of a new form.
fn trial(state: &State, model: &Model) -> Result<Trial, read::Fault> {
    let treatments = read::treatments(state)?;
    let rate_unit = treatments.rates.is_some().then(|| state.text(F::RateUnit).trim().to_owned());
    let question = some(&state.text(F::Question));
    let question = question.unwrap_or_else(|| question_of(treatments.names.len(), rate_unit.as_deref()));
    Ok(Trial {
        trial: state.text(F::Code).trim().to_owned(),
        lot: state.text(F::Lot).trim().to_owned(),
        question,
        treatments: treatments.names,
        rates: treatments.rates,
        rate_unit,
        control: some(&state.text(F::Control)),
        design: super::propose::design(state).unwrap_or(Design::RandomizedBlocks),
        seed: Some(state.seed.clone()),
        drawn: Some(state.drawn).filter(|drawn| *drawn > 1),
        reads: read::reads(state),
        every_days: every(state)?,
        from: read::day(state, model, F::From)?.unwrap_or(model.day),
        until: read::day(state, model, F::Until)?,
        matters: read::amount(state, model, F::Matters)?,
        // Whole benches have no ring around their plots.
        guard: state.text(F::Guard) == "yes" && read::grid(state)? != (1, 1),
        near_side: some(&state.text(F::Near)),
        far_side: some(&state.text(F::Far)),
        shared_feed: state.text(F::SharedFeed) == "yes",
        ended_because: None,
        revision: model.revision(0, Vec::new(), false),
    })
}

/// A trial as the form changes it.
fn changed(state: &State, model: &Model, kept: &Trial) -> Result<Trial, read::Fault> {
    let untouched = state.row(F::Matters).is_some_and(|row| !state.fields.changed().contains(&row.label));
    Ok(Trial {
        question: some(&state.text(F::Question)).unwrap_or_else(|| kept.question.clone()),
        reads: read::reads(state),
        every_days: every(state)?,
        from: read::day(state, model, F::From)?.unwrap_or(kept.from),
        until: read::day(state, model, F::Until)?,
        matters: if untouched { kept.matters } else { read::amount(state, model, F::Matters)? },
        ended_because: some(&state.text(F::Ended)),
        ..kept.clone()
    })
}

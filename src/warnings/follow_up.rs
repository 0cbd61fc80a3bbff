//! What was done about a warning since it was last looked at.
//!
//! **Sees** a growth regulator written after the height that was too tall; a spray against a pest or a mold, or beneficials
//! released, written after the look that found it. **Why** the work was done: to tell the grower every evening to do it again
//! would be a false alarm, and twice the dose. The warning is watched, with the work beside it, until the next look tells.
//! **Numbers** none; house rule. **Ends** with the next finding of its kind.

use super::bench_day::BenchDay;
use super::{Evidence, Group, Severity, Warning};
use crate::record::{Entry, Kind};

/// The latest work on a bench that answers a warning and came after what it saw.
fn answer<'a>(bench: &BenchDay<'a>, warning: &Warning) -> Option<&'a Entry> {
    let wanted = warning.name.rule().follow_up.as_ref()?;
    let finding = |s: &Evidence| if let Evidence::Entry(e) = s { Some(e.instant()) } else { None };
    let seen = warning.evidence.iter().filter_map(finding).max()?;
    // A spray answers where it was put on against one of the words of the rule; other work answers as it is.
    let fits = |e: &&&Entry| {
        let Kind::Sprayed { against, .. } = &*e.kind else { return true };
        let against = against.to_lowercase();
        wanted.against.iter().any(|word| against.contains(word))
    };
    let all = wanted.kinds.iter().flat_map(|kind| bench.of(*kind));
    all.filter(|e| e.instant() > seen).filter(fits).max_by_key(|e| e.order()).copied()
}

/// Watches what was answered on a bench.
pub(super) fn of_bench(bench: &BenchDay<'_>, warnings: &mut [Warning]) {
    for warning in warnings.iter_mut().filter(|w| w.level > Severity::Watch) {
        if let Some(work) = answer(bench, warning) {
            watch(warning, work);
        }
    }
}

/// Watches what was answered on every bench of a lot or house that it concerns.
pub(super) fn of_group(group: &Group<'_, '_>, mut warning: Warning) -> Warning {
    if warning.level == Severity::Watch {
        return warning;
    }
    let concerned = || group.benches.iter().filter(|s| warning.benches.iter().any(|b| b == s.code()));
    let works: Vec<&Entry> = concerned().filter_map(|s| answer(s, &warning)).collect();
    if works.len() == concerned().count()
        && let Some(work) = works.into_iter().max_by_key(|e| e.order())
    {
        watch(&mut warning, work);
    }
    warning
}

fn watch(warning: &mut Warning, work: &Entry) {
    warning.level = Severity::Watch;
    warning.evidence.push(Evidence::Entry(work.clone()));
}

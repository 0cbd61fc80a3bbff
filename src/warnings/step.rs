//! Next steps: what the grower should do, and how the steps of one warning affect each other.
//!
//! The usual steps of a warning stand in its rule. A step that depends on what was seen is a constant of [`Step`] beside the rule
//! that gives it.
#![deny(clippy::wildcard_enum_match_arm)]

/// What a step is to the other steps of its warning.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum StepKind {
    /// Something to do.
    Do,
    /// To leach: left out where another step says why not.
    Leach,
    /// Why not to leach now.
    NoLeaching,
    /// How to give it to a wet bench: follows what is to be given.
    WhenDry,
    /// A remark, nothing to do: stands last.
    Remark,
}

/// A next step in the grower's words.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Step {
    /// What it is to the other steps.
    pub kind: StepKind,
    /// The words: a sentence or two.
    pub text: &'static str,
}

impl Step {
    /// Something to do.
    pub(super) const fn todo(text: &'static str) -> Self {
        Self { kind: StepKind::Do, text }
    }

    /// Something to do by leaching.
    pub(super) const fn leach(text: &'static str) -> Self {
        Self { kind: StepKind::Leach, text }
    }

    /// The steps of a warning in the order shown: those that depend on the evidence first, then the usual ones.
    pub(super) fn in_order(seen: &[Self], usual: &[Self]) -> Vec<Self> {
        let is = |kind: StepKind| seen.iter().any(|s| s.kind == kind);
        let mut all = seen.to_vec();
        all.extend(usual.iter().filter(|s| !(is(StepKind::NoLeaching) && s.kind == StepKind::Leach)));
        if is(StepKind::WhenDry) && all.len() > 1 {
            // What to give comes first, then how to give it to a wet bench.
            all.swap(0, 1);
        }
        if seen.first().is_some_and(|s| s.kind == StepKind::Remark) {
            all.rotate_left(1);
        }
        all
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn texts(seen: &[Step], usual: &[Step]) -> Vec<&'static str> {
        Step::in_order(seen, usual).iter().map(|s| s.text).collect()
    }

    #[test]
    fn leaching_is_left_out_where_a_step_says_why_not() {
        let usual = [Step::leach("Leach."), Step::todo("Feed less.")];
        let no = Step { kind: StepKind::NoLeaching, text: "It is wet." };
        assert_eq!(texts(&[], &usual), ["Leach.", "Feed less."]);
        assert_eq!(texts(&[no], &usual), ["It is wet.", "Feed less."]);
    }

    #[test]
    fn what_to_give_comes_before_how_and_a_remark_last() {
        let usual = [Step::todo("Give it."), Step::todo("Look again.")];
        let when = Step { kind: StepKind::WhenDry, text: "Once it reads 2." };
        assert_eq!(texts(&[when], &usual), ["Give it.", "Once it reads 2.", "Look again."]);
        let remark = Step { kind: StepKind::Remark, text: "Not measured." };
        assert_eq!(texts(&[remark], &usual), ["Give it.", "Look again.", "Not measured."]);
    }
}

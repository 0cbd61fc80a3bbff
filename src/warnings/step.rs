//! Next steps: what the grower should do, and how the steps of one warning affect each other.
//!
//! The usual steps of a warning stand in its rule. A step that depends on what was seen is a constant of [`Step`] beside the rule
//! that gives it.
#![deny(clippy::wildcard_enum_match_arm)]

use crate::record::KindName;

/// What a step does to its benches, in the order of the day. It decides where the step stands on the list of jobs, and which
/// other jobs of the same bench it rules out.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Act {
    /// A check of plants, pots or equipment, before anything is watered.
    Check,
    /// No water until the mix has dried down.
    Hold(Dry),
    /// Clear water.
    Water,
    /// Clear water in excess, to wash salts out.
    Leach,
    /// An extra nutrient, as a drench of its own.
    Nutrient,
    /// Liquid feed at the next watering.
    Feed,
    /// Anything else.
    Work,
    /// A spray: neither on dry nor on wilting plants.
    Spray,
}

impl Act {
    /// True for what wets the mix.
    pub const fn wets(self) -> bool {
        matches!(self, Self::Water | Self::Leach | Self::Nutrient | Self::Feed)
    }
}

/// What has to be dry before a bench may be watered again.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Dry {
    /// The surface, by the weight of the pot.
    Top,
    /// The base of the pot.
    Base,
    /// The roots decide.
    Roots,
}

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
    /// Takes the place of the usual steps.
    Instead,
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
    /// What it does to its benches.
    pub act: Act,
    /// An entry of this kind since the warning began shows it as done.
    pub done_by: Option<KindName>,
}

impl Step {
    /// To look at the roots of a bench.
    pub(super) const KNOCK_OUT: Self = Self::check_logged("Knock out three pots and score the roots.", KindName::Roots);

    const fn new(kind: StepKind, act: Act, text: &'static str) -> Self {
        Self { kind, text, act, done_by: None }
    }

    /// Something to do.
    pub(super) const fn todo(text: &'static str) -> Self {
        Self::new(StepKind::Do, Act::Work, text)
    }

    /// Something to check.
    pub(super) const fn check(text: &'static str) -> Self {
        Self::new(StepKind::Do, Act::Check, text)
    }

    /// Something to check that an entry of this kind shows as done.
    pub(super) const fn check_logged(text: &'static str, done_by: KindName) -> Self {
        Self { done_by: Some(done_by), ..Self::check(text) }
    }

    /// To keep the water off.
    pub(super) const fn hold(text: &'static str, until: Dry) -> Self {
        Self::new(StepKind::Do, Act::Hold(until), text)
    }

    /// To water.
    pub(super) const fn water(text: &'static str) -> Self {
        Self::new(StepKind::Do, Act::Water, text)
    }

    /// To leach.
    pub(super) const fn leach(text: &'static str) -> Self {
        Self::new(StepKind::Leach, Act::Leach, text)
    }

    /// To drench with an extra nutrient.
    pub(super) const fn nutrient(text: &'static str) -> Self {
        Self::new(StepKind::Do, Act::Nutrient, text)
    }

    /// To feed.
    pub(super) const fn feed(text: &'static str) -> Self {
        Self::new(StepKind::Do, Act::Feed, text)
    }

    /// To spray.
    pub(super) const fn spray(text: &'static str) -> Self {
        Self::new(StepKind::Do, Act::Spray, text)
    }

    /// Why the usual leaching has to wait.
    pub(super) const fn no_leaching(text: &'static str) -> Self {
        Self::new(StepKind::NoLeaching, Act::Work, text)
    }

    /// How to give it to a wet bench.
    pub(super) const fn when_dry(text: &'static str) -> Self {
        Self::new(StepKind::WhenDry, Act::Work, text)
    }

    /// A remark, nothing to do.
    pub(super) const fn remark(text: &'static str) -> Self {
        Self::new(StepKind::Remark, Act::Work, text)
    }

    /// Something to check, in the place of the usual steps.
    pub(super) const fn check_instead(text: &'static str) -> Self {
        Self::new(StepKind::Instead, Act::Check, text)
    }

    /// The steps of a warning in the order shown: those that depend on the evidence first, then the usual ones.
    pub(super) fn in_order(seen: &[Self], usual: &[Self]) -> Vec<Self> {
        let is = |kind: StepKind| seen.iter().any(|s| s.kind == kind);
        let mut all = seen.to_vec();
        let usual = usual.iter().filter(|_| !is(StepKind::Instead));
        all.extend(usual.filter(|s| !(is(StepKind::NoLeaching) && s.kind == StepKind::Leach)));
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
        let no = Step::no_leaching("It is wet.");
        assert_eq!(texts(&[], &usual), ["Leach.", "Feed less."]);
        assert_eq!(texts(&[no], &usual), ["It is wet.", "Feed less."]);
    }

    #[test]
    fn a_step_instead_leaves_the_usual_ones_out() {
        let usual = [Step::todo("Stop."), Step::check("Look.")];
        assert_eq!(texts(&[Step::check_instead("Feel the branch.")], &usual), ["Feel the branch."]);
    }

    #[test]
    fn what_to_give_comes_before_how_and_a_remark_last() {
        let usual = [Step::todo("Give it."), Step::todo("Look again.")];
        let when = Step::when_dry("Once it reads 2.");
        assert_eq!(texts(&[when], &usual), ["Give it.", "Once it reads 2.", "Look again."]);
        let remark = Step::remark("Not measured.");
        assert_eq!(texts(&[remark], &usual), ["Give it.", "Look again.", "Not measured."]);
    }
}

//! What `benchwalk --version` says: the version, the commit it was built from, the formats it reads and writes, and what was left
//! out of the build.

use crate::hub::HUBS;
use crate::record::codec;
use crate::store::NEWEST;
use std::sync::LazyLock;

/// The commit, by the build script: some of its digits, with `+` behind them where sources were changed since; empty where it is not
/// known.
const COMMIT: &str = env!("BENCHWALK_BUILT_FROM");

/// In one line: version and commit.
pub(super) fn line() -> &'static str {
    static LINE: LazyLock<String> = LazyLock::new(|| match COMMIT {
        "" => env!("CARGO_PKG_VERSION").to_owned(),
        commit => format!("{} ({commit})", env!("CARGO_PKG_VERSION")),
    });
    &LINE
}

/// In full.
pub(super) fn full() -> &'static str {
    static FULL: LazyLock<String> = LazyLock::new(|| text(COMMIT, HUBS));
    &FULL
}

fn text(commit: &str, hubs: bool) -> String {
    let built_from = match commit.strip_suffix('+') {
        Some(commit) => format!("commit {commit}, with changed files"),
        None if commit.is_empty() => "commit not known".to_owned(),
        None => format!("commit {commit}"),
    };
    let hubs = if hubs { "built in" } else { "left out of this build; folders and sticks only" };
    format!(
        "{}\n{built_from}\nseason file format {NEWEST}, journal format {}\nhubs: {hubs}",
        env!("CARGO_PKG_VERSION"),
        codec::VERSION,
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_commit_is_named_changed_or_said_to_be_unknown() {
        let second = |commit| text(commit, true).lines().nth(1).map(str::to_owned);
        assert_eq!(second("0123abc").as_deref(), Some("commit 0123abc"));
        assert_eq!(second("0123abc+").as_deref(), Some("commit 0123abc, with changed files"));
        assert_eq!(second("").as_deref(), Some("commit not known"));
    }

    #[test]
    fn a_build_without_hubs_says_so() {
        assert!(text("", true).ends_with("hubs: built in"));
        assert!(text("", false).ends_with("hubs: left out of this build; folders and sticks only"));
    }
}

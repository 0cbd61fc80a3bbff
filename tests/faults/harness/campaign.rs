//! A campaign: its cases, how many are tried, and its end with every failure listed.

use crate::rng::Rng;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::sync::Mutex;
use std::sync::atomic::{AtomicUsize, Ordering};

/// Failures shown in full at the end; the rest is counted.
const SHOWN: usize = 20;

/// All cases are tried, not only the short form's.
pub(crate) fn is_full() -> bool {
    std::env::var_os("BENCHWALK_CAMPAIGN").is_some_and(|value| value == "full")
}

/// How many cases are tried: the short form's number, or the full one.
pub(crate) fn count(short: usize, full: usize) -> usize {
    if is_full() { full } else { short }
}

/// True where `there`; else says what cannot be had and that this is passed over, which is a failure where the campaigns are
/// required (`BENCHWALK_FAULTS=required`).
pub(crate) fn have(what: &str, there: bool) -> bool {
    if !there {
        let required = std::env::var_os("BENCHWALK_FAULTS").is_some_and(|value| value == "required");
        assert!(!required, "{what} cannot be had here");
        println!("passed over: {what} cannot be had here");
    }
    there
}

/// A campaign under way.
pub(crate) struct Campaign {
    name: &'static str,
    seed: u64,
    tried: usize,
    failed: usize,
    failures: Vec<String>,
}

impl Campaign {
    /// Starts. The seed is fixed; `BENCHWALK_SEED` sets another.
    pub(crate) fn new(name: &'static str) -> Self {
        let seed = std::env::var("BENCHWALK_SEED").ok().and_then(|seed| seed.parse().ok()).unwrap_or(1);
        Self { name, seed, tried: 0, failed: 0, failures: Vec::new() }
    }

    /// The random numbers of a case.
    pub(crate) fn rng(&self, case: usize) -> Rng {
        let name = self.name.bytes().fold(self.seed, |hash, byte| hash.wrapping_mul(0x100_0000_01b3) ^ u64::from(byte));
        Rng::new(name ^ ((case as u64 + 1) << 32))
    }

    /// One case, with what did not hold in it.
    pub(crate) fn case(&mut self, what: &str, why: &[String]) {
        self.tried += 1;
        if !why.is_empty() {
            self.failed += 1;
            self.failures.push(format!("{what}: {}", why.join("; ")));
        }
    }

    /// A failure that is no case's: of the campaign itself.
    pub(crate) fn fail(&mut self, why: impl Into<String>) {
        self.failures.push(why.into());
    }

    /// Tries every item, two at a time at full count. `try_one` gives what did not hold; one that panics did not hold either.
    pub(crate) fn each<T: Sync>(
        &mut self,
        items: &[T],
        name: impl Fn(&T) -> String + Sync,
        try_one: impl Fn(usize, &T) -> Vec<String> + Sync,
    ) {
        // The number of one case, to try it alone.
        let only: Option<usize> = std::env::var("BENCHWALK_CASE").ok().and_then(|number| number.parse().ok());
        let found = together(items, |n, item| {
            let tried = only.is_none_or(|only| only == n);
            tried.then(|| {
                catch_unwind(AssertUnwindSafe(|| try_one(n, item))).unwrap_or_else(|panic| vec![said(&*panic)])
            })
        });
        for (n, why) in found.into_iter().enumerate().filter_map(|(n, why)| Some((n, why?))) {
            self.case(&format!("{n}: {}", name(&items[n])), &why);
        }
    }

    /// Prints the figure and fails with what did not hold.
    pub(crate) fn end(self) {
        println!("{}: tried {}, survived {}", self.name, self.tried, self.tried - self.failed);
        let rest = self.failures.len().saturating_sub(SHOWN);
        let listed = self.failures.iter().take(SHOWN).map(String::as_str).collect::<Vec<_>>().join("\n");
        assert!(
            self.failures.is_empty(),
            "{}: {} did not hold (seed {}):\n{listed}\n{}",
            self.name,
            self.failures.len(),
            self.seed,
            if rest > 0 { format!("and {rest} more") } else { String::new() }
        );
        assert!(self.tried > 0, "{}: nothing was tried", self.name);
    }
}

/// What `work` makes of every item, in their order; two at a time at full count.
pub(crate) fn together<T: Sync, R: Send>(items: &[T], work: impl Fn(usize, &T) -> R + Sync) -> Vec<R> {
    let (next, made) = (AtomicUsize::new(0), Mutex::new(Vec::new()));
    let worker = || {
        loop {
            let n = next.fetch_add(1, Ordering::SeqCst);
            let Some(item) = items.get(n) else { return };
            let one = work(n, item);
            made.lock().unwrap().push((n, one));
        }
    };
    std::thread::scope(|scope| {
        for _ in 0..count(1, 2) {
            scope.spawn(worker);
        }
    });
    let mut made = made.into_inner().unwrap();
    made.sort_by_key(|(n, _)| *n);
    made.into_iter().map(|(_, one)| one).collect()
}

/// What a panic said.
fn said(panic: &(dyn std::any::Any + Send)) -> String {
    let text = panic.downcast_ref::<String>().map(String::as_str).or_else(|| panic.downcast_ref::<&str>().copied());
    format!("stopped: {}", text.unwrap_or("a panic without words"))
}

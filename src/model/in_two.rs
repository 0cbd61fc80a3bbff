//! Work on many that none of the others is needed for, on both cores of a small machine: what comes of it, and its order, are as
//! if one thread had done it.

use std::thread::{Builder, scope};

/// Fewest that a second thread is begun for: to begin one takes as long as a tenth of a bench.
const FEWEST: usize = 4;

/// What comes of all of them, in their order; the second half is worked on by a thread of its own.
pub(super) fn in_two<I: Sync, T: Send>(items: &[I], work: impl Fn(&[I]) -> Vec<T> + Sync) -> Vec<T> {
    if items.len() < FEWEST {
        return work(items);
    }
    let (here, there) = items.split_at(items.len() / 2);
    scope(|scope| {
        let Ok(other) = Builder::new().spawn_scoped(scope, || work(there)) else { return work(items) };
        let mut done = work(here);
        done.extend(other.join().unwrap_or_else(|panic| std::panic::resume_unwind(panic)));
        done
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;
    use std::sync::Mutex;
    use std::thread::{ThreadId, current};

    #[test]
    fn two_threads_do_what_one_does_and_in_its_order() {
        let threads: Mutex<BTreeSet<String>> = Mutex::default();
        let name = |id: ThreadId| format!("{id:?}");
        for many in 0..40_u32 {
            threads.lock().unwrap().clear();
            let items: Vec<u32> = (0..many).collect();
            let done = in_two(&items, |part| {
                threads.lock().unwrap().insert(name(current().id()));
                part.iter().map(|n| n * n).collect()
            });
            assert_eq!(done, items.iter().map(|n| n * n).collect::<Vec<_>>());
            let used = threads.lock().unwrap().len();
            assert_eq!(used, 1 + usize::from(many >= 4), "{many}");
        }
    }
}

//! How long a save of the screens waits while a hundred thousand lines arrive beside it. Run by hand in a release build:
//! `cargo test --release --test exchange -- --ignored --nocapture waits`.

use crate::hub::Hub;
use crate::lines::{Laptop, SEASON, chained, on_bench, plan, water};
use benchwalk::exchange::{Batches, Exchanged, Gate, Gated, Stream, exchange};
use benchwalk::record::codec;
use benchwalk::store::Store;
use std::sync::atomic::{AtomicBool, Ordering};
use std::time::{Duration, Instant};
use uuid::Uuid;

/// The lines of another laptop, chained.
fn arriving(many: u32) -> Hub {
    let text = |n: u32| {
        let bench = format!("B{}", n % 500);
        let id = Uuid::from_u64_pair(
            0x0199_a000_0000_7000 | u64::from(n) << 20,
            u64::from(n).wrapping_mul(0x9E37_79B9_7F4A_7C15),
        );
        codec::line_text(&on_bench(&bench, id.as_u128(), n, 1 + n % 5))
    };
    let lines = chained(&(0..many).map(text).collect::<Vec<_>>());
    let mut hub = Hub::default();
    hub.log.insert(Stream(Uuid::from_u128(77)), (Some("bob".to_owned()), lines));
    hub
}

/// Ends the loop of saves, also where the exchange stopped with an error: then the test says so instead of going on without end.
struct Ends<'a>(&'a AtomicBool);

impl Drop for Ends<'_> {
    fn drop(&mut self) {
        self.0.store(true, Ordering::SeqCst);
    }
}

#[expect(clippy::print_stdout, reason = "what was measured")]
fn of(times: &mut [Duration], what: &str) {
    times.sort();
    let at = |hundredth: usize| times[(times.len() - 1) * hundredth / 100];
    println!("{what}: {} saves, median {:?}, p99 {:?}, max {:?}", times.len(), at(50), at(99), at(100));
}

#[test]
#[expect(
    clippy::disallowed_methods,
    reason = "keys come apart from one another, as from a hand; nothing waits for that"
)]
#[ignore = "measures; by hand in a release build"]
fn waits_of_a_save_while_lines_arrive() {
    let many = std::env::var("LINES").ok().and_then(|n| n.parse().ok()).unwrap_or(100_000);
    let take = std::env::var("TAKE").ok().and_then(|n| n.parse().ok()).unwrap_or(200);
    let mut ann = Laptop::new(1, "ann", &plan());
    let mut hub = arriving(many);
    let (path, seat, gate, done) = (ann.path(), ann.seat, Gate::default(), AtomicBool::new(false));
    let (mut quiet, mut busy) = (Vec::new(), Vec::new());
    let mut n = 0;
    let mut save = |ann: &mut Laptop, times: &mut Vec<Duration>| {
        n += 1;
        let line = [water(1_000_000 + u128::from(n), n, 1 + n % 5)];
        let start = Instant::now();
        let guard = gate.save();
        ann.store().append(&line).unwrap();
        drop(guard);
        times.push(start.elapsed());
    };
    for _ in 0..200 {
        save(&mut ann, &mut quiet);
        std::thread::sleep(Duration::from_millis(5));
    }
    std::thread::scope(|threads| {
        let (gate, done) = (&gate, &done);
        threads.spawn(move || {
            let _ends = Ends(done);
            let mut store = Store::open_beside(&path).unwrap();
            store.sit(seat, "ann");
            let start = Instant::now();
            let mut did = Exchanged::default();
            exchange(&mut Gated { replica: &mut store, gate }, &mut hub, SEASON, Batches { take, give: 500 }, &mut did)
                .unwrap();
            println!("{} lines arrived in {:?}", did.taken, start.elapsed());
            store.close().unwrap();
        });
        while !done.load(Ordering::SeqCst) {
            save(&mut ann, &mut busy);
            std::thread::sleep(Duration::from_millis(20));
        }
    });
    of(&mut quiet, "alone");
    of(&mut busy, "while lines arrive");
    let length = |suffix: &str| {
        std::fs::metadata(ann.path().with_file_name(format!("season.db{suffix}"))).map_or(0, |f| f.len())
    };
    println!("file {} KB, log {} KB", length("") / 1024, length("-wal") / 1024);
    asked(&mut ann);
}

/// How long it takes to ask what screens and commands ask.
#[expect(clippy::print_stdout, reason = "what was measured")]
fn asked(ann: &mut Laptop) {
    let start = Instant::now();
    ann.store().own_lines().unwrap();
    let laptops = ann.store().laptops().unwrap();
    println!("{} laptops in {:?}", laptops.len(), start.elapsed());
    let start = Instant::now();
    let mut heard = benchwalk::store::Heard::default();
    let came = ann.store().origins(&mut heard, usize::MAX).unwrap().len();
    println!("{came} origins in {:?}", start.elapsed());
    let start = Instant::now();
    assert!(ann.store().origins(&mut heard, usize::MAX).unwrap().is_empty());
    println!("none new in {:?}", start.elapsed());
    let start = Instant::now();
    println!(
        "{} held, {} to send, in {:?}",
        ann.store().held().unwrap(),
        ann.store().to_send(&[]).unwrap(),
        start.elapsed()
    );
    let start = Instant::now();
    ann.quit();
    println!("quit in {:?}", start.elapsed());
    let start = Instant::now();
    ann.store();
    println!("opened in {:?}", start.elapsed());
}

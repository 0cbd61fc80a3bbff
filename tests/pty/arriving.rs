//! How long a key waits on the screens while a hundred thousand lines of another laptop arrive. Run on a release build by `.ci/load`.

#![allow(clippy::print_stdout, reason = "what was measured")]

use crate::laptops::Two;
use crate::large::large;
use crate::terminal::{Pty, query};
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::mpsc::channel;
use std::time::{Duration, Instant};

/// Benches, and days written of each: a hundred thousand entries.
const BENCHES: u32 = 700;
const DAYS: u32 = 100;
/// Benches walked meanwhile, at most: some are left for afterwards.
const MOST: usize = 600;

/// Scores bench after bench by the card until it is done: from each digit to the frame that says it is saved, and from Tab to the next
/// card.
fn walk(pty: &mut Pty, most: usize, done: &AtomicBool) -> [Vec<Duration>; 2] {
    let (mut saves, mut cards) = (Vec::new(), Vec::new());
    let bench = |text: &str| text.split_whitespace().nth(1).unwrap_or_default().to_owned();
    let mut on = bench(&pty.text());
    for digit in ["3", "4", "2"].into_iter().cycle().take(most) {
        let start = Instant::now();
        pty.send(digit);
        pty.wait("the save", |text| text.contains(&format!("saved: {on} water {digit}")));
        saves.push(start.elapsed());
        if done.load(Ordering::SeqCst) {
            break;
        }
        let start = Instant::now();
        pty.send("\t");
        let text = pty.wait("the next card", |text| text.starts_with("Walk") && bench(text) != on);
        cards.push(start.elapsed());
        on = bench(&text);
    }
    [saves, cards]
}

fn print(what: &str, mut times: Vec<Duration>) {
    times.sort_unstable();
    let at = |hundredth: usize| times[(times.len() - 1) * hundredth / 100];
    println!("  {what:<46} median {:>9.3?}  p99 {:>9.3?}  most {:>9.3?}  n {}", at(50), at(99), at(100), times.len());
}

#[test]
#[ignore = "a measurement: .ci/load"]
fn keys_while_a_hundred_thousand_lines_arrive() {
    let root = tempfile::tempdir().unwrap();
    let between = root.path().join("between");
    std::fs::create_dir(&between).unwrap();
    let folder = between.to_str().unwrap().to_owned();
    let option = |_: &str| ["--folder".to_owned(), folder.clone()];
    let Two { ann, bob, .. } = &Two::keeping(&large(BENCHES, 0, 1).journal(), "barn", option, |_| Vec::new());
    ann.import(&large(BENCHES, DAYS, 1).journal());
    ann.done(&["share"]);
    let mut pty = bob.open();
    pty.send("w");
    pty.wait("the card", |text| text.starts_with("Walk") && text.contains("[water _]"));
    let (arrived, file) = (AtomicBool::new(false), bob.file());
    let (begun, many) = (Instant::now(), "SELECT count(*) > 100000 FROM entry");
    let [saves, cards] = std::thread::scope(|scope| {
        scope.spawn(|| {
            while query(&file, many) != ["1"] {
                pause();
            }
            println!("a hundred thousand lines arrived within {:.1?}", begun.elapsed());
            arrived.store(true, Ordering::SeqCst);
        });
        walk(&mut pty, MOST, &arrived)
    });
    print("a score saved while lines arrive", saves);
    print("the next card while lines arrive", cards);
    pty.settle(Duration::from_millis(500));
    let [saves, cards] = walk(&mut pty, 50, &AtomicBool::new(false));
    print("a score saved after that", saves);
    print("the next card after that", cards);
    pty.send("\u{11}");
    pty.ended();
}

/// Between two looks at what comes by itself.
fn pause() {
    let (_never, wait) = channel::<()>();
    assert!(wait.recv_timeout(Duration::from_millis(200)).is_err());
}

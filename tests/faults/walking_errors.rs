//! Errors, short writes, a file system without locks and slow syncs while walking: strace takes hold of the running program
//! and lets its calls fail. Nothing shown as saved is gone; what could not be saved is saved once the fault is over.

use crate::harness::{
    Attached, Campaign, Saves, Scores, entries, have_strace, is_full, judge, leave, lines, rescued, walk_demo,
};
use crate::terminal::Pty;
use std::time::Duration;

/// What goes wrong.
enum Fault {
    /// strace's words for it, and what the trace then says.
    Call(&'static str),
    /// No file may grow beyond so many bytes: the write that would is short, the next one fails.
    Short(&'static str),
}

/// Every fault, each with how often it strikes: once at a call of a save, or at every one until it is over.
const FAULTS: &[Fault] = &[
    Fault::Call("pwrite64:error=EIO:when=1"),
    Fault::Call("pwrite64:error=EIO:when=2"),
    Fault::Call("pwrite64:error=EIO:when=1+"),
    Fault::Call("pwrite64:error=ENOSPC:when=1"),
    Fault::Call("pwrite64:error=ENOSPC:when=3"),
    Fault::Call("pwrite64:error=ENOSPC:when=1+"),
    Fault::Call("pwrite64:error=EDQUOT:when=1+"),
    Fault::Call("pwrite64:error=EROFS:when=1+"),
    Fault::Call("pwrite64:retval=0:when=1"),
    Fault::Call("pwrite64:retval=0:when=1+"),
    Fault::Call("fsync,fdatasync:error=EIO:when=1"),
    Fault::Call("fsync,fdatasync:error=EIO:when=2"),
    Fault::Call("fsync,fdatasync:error=EIO:when=1+"),
    Fault::Call("fsync,fdatasync:error=ENOSPC:when=1+"),
    Fault::Call("fcntl:error=ENOLCK:when=1"),
    Fault::Call("fcntl:error=ENOLCK:when=1+"),
    Fault::Call("fcntl:error=EIO:when=1+"),
    Fault::Call("fsync,fdatasync:delay_enter=700000:when=1+"),
    Fault::Call("fsync,fdatasync:delay_exit=3000000:when=1"),
    Fault::Call("pwrite64:delay_enter=50000:when=1+"),
    Fault::Short("9000"),
    Fault::Short("20001"),
    Fault::Short("50003"),
];

impl Fault {
    fn name(&self) -> String {
        match self {
            Self::Call(inject) => (*inject).to_owned(),
            Self::Short(bytes) => format!("no file beyond {bytes} bytes"),
        }
    }
}

fn tried(fault: &Fault) -> Vec<String> {
    let (folder, file, mut pty) = walk_demo();
    let saves = Saves::watch(&pty);
    let mut scores = Scores::default();
    pty.send("w");
    scores.score(&mut pty);
    pty.wait("a save", |text| text.contains("saved: ") && !text.contains("NOT YET"));
    let mut why = Vec::new();
    match fault {
        Fault::Call(inject) => {
            let attached = Attached::to(&mut pty, inject);
            score_some(&mut pty, &mut scores);
            // It has struck once the program made the call.
            if !pty.until(Duration::from_secs(20), || attached.struck()) {
                why.push(format!("it struck no save:\n{}", attached.trace()));
            }
            attached.end();
        }
        Fault::Short(bytes) => {
            limit(&pty, bytes);
            score_some(&mut pty, &mut scores);
            pty.wait("a save that is not made", |text| text.contains("NOT YET SAVED"));
            limit(&pty, "unlimited");
        }
    }
    let kept = || [lines(&judge(&file).rows, "zz"), rescued(&folder.path().join("state"), "zz")].concat();
    pty.wait("saved by itself once it is over", |text| !text.contains("NOT YET SAVED"));
    let code = leave(&mut pty);
    let judged = judge(&file);
    let in_file = scores.nowhere(&lines(&judged.rows, "zz"));
    if code != u32::from(!in_file.is_empty()) {
        why.push(format!("left with {code}, {} of {} not in the file", in_file.len(), scores.typed.len()));
    }
    why.extend(judged.bad);
    why.extend(saves.missing(&judged.rows, "zz"));
    why.extend(scores.nowhere(&[kept(), entries(&pty.raw(), "zz")].concat()));
    why
}

/// Types three scores, the third once the first two may be tried again.
fn score_some(pty: &mut Pty, scores: &mut Scores) {
    for _ in 0..3 {
        scores.score(pty);
        pty.settle(Duration::from_millis(100));
    }
}

/// Sets how far files of the running program may grow.
fn limit(pty: &Pty, bytes: &str) {
    let pid = pty.child.process_id().unwrap().to_string();
    let limit = format!("--fsize={bytes}:unlimited");
    let done = std::process::Command::new("prlimit").args(["--pid", &pid, &limit]).output().unwrap();
    assert!(done.status.success(), "prlimit: {}", String::from_utf8_lossy(&done.stderr));
}

#[test]
fn faults_while_walking_lose_nothing() {
    if !have_strace() {
        return;
    }
    let mut campaign = Campaign::new("errors while walking");
    // The short form ends with a file that may not grow.
    let every = if is_full() { 1 } else { 11 };
    let chosen: Vec<&Fault> = FAULTS.iter().step_by(every).collect();
    campaign.each(&chosen, |fault| fault.name(), |_, fault| tried(fault));
    campaign.end();
}

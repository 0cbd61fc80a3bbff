//! Any text as a journal: it is read or refused in clean words; what is read is written and read again as the same; the rules
//! assess it, also where the rules across lines would refuse it.
#![no_main]

use benchwalk::characters::hidden;
use benchwalk::journal;
use benchwalk::limits::Limits;
use benchwalk::season::Season;
use benchwalk::units::System;
use benchwalk::warnings::assess_all;
use libfuzzer_sys::fuzz_target;

fuzz_target!(|data: &[u8]| {
    let Ok(text) = std::str::from_utf8(data) else { return };
    let read = journal::read_all(text);
    for fault in read.faults.iter() {
        let said = fault.to_string();
        assert!(!said.chars().any(hidden), "not clean: {said:?}");
    }
    if !read.faults.is_empty() {
        return;
    }
    let lines: Vec<_> = read.lines.into_iter().map(|numbered| numbered.line).collect();
    let again = journal::read(&journal::write_lines(None, &lines)).expect("what was written is read");
    assert_eq!(again, lines);
    for fault in Season::of([]).admit(&lines, System::Us).err().into_iter().flatten() {
        assert!(!fault.text.chars().any(hidden), "not clean: {:?}", fault.text);
    }
    let season = Season::of(lines);
    if let Some(last) = season.entries().iter().map(benchwalk::record::Entry::day).max() {
        drop(assess_all(&season, last, &Limits::default()));
    }
});

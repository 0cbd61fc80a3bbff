//! Every kept case reads, and comes back as it went out.

use benchwalk::journal;
use std::fs;

#[test]
fn every_case_reads_and_comes_back() {
    let mut seen = 0;
    for file in fs::read_dir("tests/cases").unwrap() {
        let path = file.unwrap().path();
        if path.extension().is_none_or(|e| e != "jsonl") {
            continue;
        }
        seen += 1;
        let lines = journal::read(&fs::read_to_string(&path).unwrap()).unwrap_or_else(|f| panic!("{path:?}: {f:?}"));
        let text = journal::write_lines(None, &lines);
        assert_eq!(journal::read(&text).unwrap(), lines, "{path:?}");
        assert_eq!(journal::write_lines(None, &journal::read(&text).unwrap()), text, "{path:?}");
    }
    assert!(seen >= 19, "{seen} cases");
}

//! The build script: the commit, and the journals of the demo, packed.

mod commit;

use miniz_oxide::deflate::compress_to_vec;
use std::env;
use std::error::Error;
use std::fs;
use std::path::PathBuf;

/// The journals of the demo: 590 kB of text, and a fifth of it in the program.
const DEMO: [&str; 2] = ["demo.jsonl", "last-year.jsonl"];

fn main() -> Result<(), Box<dyn Error>> {
    commit::tell()?;
    let (from, to) = (PathBuf::from("demo-data"), PathBuf::from(env::var("OUT_DIR")?));
    for journal in DEMO {
        let packed = compress_to_vec(&fs::read(from.join(journal))?, 9);
        fs::write(to.join(format!("{journal}.deflate")), packed)?;
    }
    Ok(())
}

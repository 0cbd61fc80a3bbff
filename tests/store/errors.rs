//! Every error in the words the user reads.

use benchwalk::store::{Gone, StoreError};
use std::path::PathBuf;

#[test]
fn each_error_says_what_to_do() {
    let path = || PathBuf::from("/home/kt/season.db");
    let all = [
        StoreError::NotThere { path: path() },
        StoreError::Exists { path: path() },
        StoreError::NotASeason { path: path(), why: "a database of another program".to_owned() },
        StoreError::Empty { path: path() },
        StoreError::Newer { path: path(), found: 3, known: 1 },
        StoreError::ReadOnly { path: path() },
        StoreError::Busy { path: path() },
        StoreError::Full { path: path() },
        StoreError::Damaged { path: path(), detail: "database disk image is malformed".to_owned() },
        StoreError::Conflict { what: "lot R1 rev 1".to_owned() },
        StoreError::Refused { detail: "FOREIGN KEY constraint failed".to_owned() },
        StoreError::File {
            path: path(),
            doing: "a season file cannot be begun",
            error: std::io::Error::from(std::io::ErrorKind::PermissionDenied),
        },
        StoreError::Database { path: path(), detail: "disk I/O error".to_owned() },
        StoreError::Replaced { path: path(), what: Gone::Removed },
        StoreError::Replaced { path: path(), what: Gone::OtherFile },
        StoreError::Replaced { path: path(), what: Gone::LogRemoved },
        StoreError::Replaced { path: path(), what: Gone::Overwritten },
        StoreError::OtherLog { path: path() },
        StoreError::Changed { path: path(), what: "the trigger entry_no_update is missing".to_owned() },
        StoreError::NoRoom { path: path() },
    ];
    let texts: Vec<String> = all.iter().map(ToString::to_string).collect();
    insta::assert_snapshot!(texts.join("\n\n"));
}

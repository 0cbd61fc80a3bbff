//! Two laptops that keep one season over a folder between them.

use crate::laptops::{self, Two};
use std::path::Path;

/// Two laptops with this folder between them.
fn two(between: &Path) -> Two {
    std::fs::create_dir(between).unwrap();
    let folder = between.to_str().unwrap().to_owned();
    Two::over("barn", |_| ["--folder".to_owned(), folder.clone()], |_| Vec::new())
}

#[test]
fn both_walk_the_same_morning() {
    let root = tempfile::tempdir().unwrap();
    laptops::both_walk_the_same_morning(&two(&root.path().join("between")));
}

#[test]
fn both_revise_one_lot_and_one_settles_it() {
    let root = tempfile::tempdir().unwrap();
    laptops::both_revise_one_lot_and_one_settles_it(&two(&root.path().join("between")));
}

#[test]
fn one_sprays_a_house_while_the_other_walks_it() {
    let root = tempfile::tempdir().unwrap();
    laptops::one_sprays_a_house_while_the_other_walks_it(&two(&root.path().join("between")));
}

#[test]
fn with_the_folder_away_one_walks_on_and_what_waits_goes_out_when_it_is_back() {
    let root = tempfile::tempdir().unwrap();
    let (between, away) = (root.path().join("between"), root.path().join("away"));
    let carry = |from: &Path, to: &Path| std::fs::rename(from, to).unwrap();
    laptops::one_walks_while_it_is_away(&two(&between), || carry(&between, &away), || carry(&away, &between));
}

//! Draws by lot that anybody can repeat: a stream of numbers made of the seed with SHA-256.
//!
//! A generator of a library may change its numbers with a version; a hash does not. Block `i` of a stream is the SHA-256 of a fixed
//! heading, the trial, the seed, the use and `i`, a line each; it gives four numbers of 64 bits, big end first.

use sha2::{Digest, Sha256};

/// What the text that is hashed opens with.
const HEADING: &str = "benchwalk trial draw 1";

/// A stream of numbers drawn by lot.
#[derive(Debug, Clone)]
pub struct Draw {
    text: String,
    block: u64,
    waiting: Vec<u64>,
}

impl Draw {
    /// The stream of a trial's seed for one use, such as `layout`.
    pub fn new(trial: &str, seed: &str, purpose: &str) -> Self {
        Self { text: format!("{HEADING}\n{trial}\n{seed}\n{purpose}\n"), block: 0, waiting: Vec::new() }
    }

    /// The next number.
    pub fn number(&mut self) -> u64 {
        if self.waiting.is_empty() {
            let hash = Sha256::digest(format!("{}{}", self.text, self.block).as_bytes());
            self.block = self.block.wrapping_add(1);
            let number = |bytes: &[u8]| bytes.iter().fold(0_u64, |number, byte| number << 8 | u64::from(*byte));
            self.waiting = hash.chunks(8).rev().map(number).collect();
        }
        self.waiting.pop().unwrap_or_default()
    }

    /// A number from 0 to one below `n`, each as likely; 0 where `n` is 0.
    pub fn below(&mut self, n: usize) -> usize {
        let Some(n) = u64::try_from(n).ok().filter(|n| *n > 0) else {
            return 0;
        };
        // Numbers of the last incomplete run of n would make its first ones more likely.
        let over = (u64::MAX % n + 1) % n;
        loop {
            let number = self.number();
            if number <= u64::MAX - over {
                return usize::try_from(number % n).unwrap_or_default();
            }
        }
    }

    /// Puts the items into an order drawn by lot (Fisher and Yates; Durstenfeld's form).
    pub fn shuffle<T>(&mut self, items: &mut [T]) {
        for i in (1..items.len()).rev() {
            let j = self.below(i + 1);
            items.swap(i, j);
        }
    }
}

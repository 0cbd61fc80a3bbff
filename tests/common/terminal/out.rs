//! What came out of a program: its bytes, its screen, and each frame as it was complete.

use std::num::NonZero;

/// The end of a frame: the terminal is told to show what was drawn since the frame began.
const FRAME_END: &[u8] = b"\x1b[?2026l";

/// Looks at a frame.
type Look = Box<dyn FnMut(&vt100::Screen) + Send>;

/// What came out of the program.
pub(crate) struct Out {
    pub screen: vt100::Parser,
    pub raw: Vec<u8>,
    /// Frames so far.
    pub frames: usize,
    /// Nothing more can come.
    pub ended: bool,
    looks: Vec<Look>,
}

impl Out {
    pub(crate) fn new(rows: NonZero<u16>, columns: NonZero<u16>) -> Self {
        let screen = vt100::Parser::new(rows, columns, 0);
        Self { screen, raw: Vec::new(), frames: 0, ended: false, looks: Vec::new() }
    }

    /// Gives every frame from now on to `look`.
    pub(crate) fn observe(&mut self, look: impl FnMut(&vt100::Screen) + Send + 'static) {
        self.looks.push(Box::new(look));
    }

    /// Takes bytes in as they came; a frame may end anywhere in them, its mark may be cut in two.
    pub(crate) fn feed(&mut self, bytes: &[u8]) {
        let mut from = self.raw.len();
        self.raw.extend_from_slice(bytes);
        let mut search = from.saturating_sub(FRAME_END.len() - 1);
        while let Some(at) = self.raw[search..].windows(FRAME_END.len()).position(|window| window == FRAME_END) {
            let end = search + at + FRAME_END.len();
            search = end;
            if end <= from {
                continue;
            }
            self.screen.process(&self.raw[from..end]);
            from = end;
            self.frames += 1;
            for look in &mut self.looks {
                look(self.screen.screen());
            }
        }
        self.screen.process(&self.raw[from..]);
    }
}

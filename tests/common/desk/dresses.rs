//! The three dresses of a page: color, no color, ASCII. What each must keep is held here for every page, so that only a few
//! pages need a picture in each.

use super::{ASCII, COLOR, Desk, PLAIN};
use benchwalk::input::Look;
use ratatui::style::Color;

/// The words of each row; a blank may be a colored cell or none.
fn words(text: &str) -> Vec<Vec<&str>> {
    text.lines().map(|line| line.split_whitespace().collect()).collect()
}

/// Holds a page in all dresses: what it says is the same in color and without, no cell has a color where color is off, and
/// where only ASCII is wanted every sign is ASCII and every row stays one row.
///
/// `open` makes the page in a dress; it is drawn in windows of both usual sizes.
pub(crate) fn same_in_every_dress(page: &str, open: impl Fn(Look) -> Desk) {
    let [mut color, mut plain, mut ascii] = [COLOR, PLAIN, ASCII].map(open);
    for (columns, rows) in [(80, 24), (120, 40)] {
        let [colored, uncolored, signs] = [&mut color, &mut plain, &mut ascii].map(|desk| {
            desk.resize(columns, rows);
            desk.text()
        });
        assert_eq!(words(&colored), words(&uncolored), "{page}: said by color alone");
        let (buffer, _) = plain.draw();
        let bare = buffer.content.iter().all(|cell| cell.fg == Color::Reset && cell.bg == Color::Reset);
        assert!(bare, "{page}: a color where color is off\n{uncolored}");
        assert!(signs.is_ascii(), "{page}: a sign that is not ASCII\n{signs}");
        assert_eq!(signs.lines().count(), uncolored.lines().count(), "{page}");
    }
}

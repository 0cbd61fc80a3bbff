//! The map of a trial as a page: benches drawn to a grid, plots as boxes, guard pots around them.

use super::{Purpose, blocks, head, lines, weigh_out};
use crate::report::html::{escape, page};
use crate::report::trial::grid::{Grid, Laid};

/// Width and height of a plot.
const PLOT: (usize, usize) = (96, 56);
/// Room beside and above the plots: for guard pots, row and column numbers, sides.
const SIDE: usize = 60;

/// The map for the printer of the office.
pub fn html(laid: &Laid<'_>, purpose: Purpose) -> String {
    let mut all = head(laid, purpose);
    let title = if all.is_empty() { String::new() } else { all.remove(0) };
    let mut body = format!("<h1>{}</h1>\n", escape(&title));
    for line in all {
        body.push_str(&format!("<p>{}</p>\n", escape(&line)));
    }
    if laid.is_of_whole_benches() {
        let items: Vec<String> =
            lines(laid, purpose, 80).iter().skip(1).map(|l| format!("<li>{}</li>", escape(l.trim()))).collect();
        body.push_str(&format!("<ul>{}</ul>\n", items.concat()));
    } else {
        for grid in laid.grids() {
            body.push_str(&bench(laid, &grid, purpose));
        }
    }
    if laid.guards() > 0 {
        body.push_str(&format!("<p>o guard pot, not read: {} in all</p>\n", laid.guards()));
    }
    if purpose == Purpose::Giving {
        let items: Vec<String> = weigh_out(laid).iter().map(|l| format!("<li>{}</li>", escape(l))).collect();
        body.push_str(&format!("<h2>What each treatment needs</h2>\n<ul>{}</ul>\n", items.concat()));
        if let Some(blocks) = blocks(laid) {
            body.push_str(&format!("<p class=\"soft\">{}</p>\n", escape(&blocks)));
        }
    }
    page(&title, &body)
}

fn said((x, y): (usize, usize), (size, anchor): (usize, &str), text: &str) -> String {
    format!(
        "<text x=\"{x}\" y=\"{y}\" font-size=\"{size}\" text-anchor=\"{anchor}\" fill=\"currentColor\" \
         font-family=\"sans-serif\">{}</text>",
        escape(text)
    )
}

/// One bench as a drawing.
fn bench(laid: &Laid<'_>, grid: &Grid<'_>, purpose: Purpose) -> String {
    let (wide, high) = (grid.columns.len().saturating_mul(PLOT.0), grid.rows.len().saturating_mul(PLOT.1));
    let (width, height) = (wide.saturating_add(2 * SIDE), high.saturating_add(2 * SIDE));
    let (near, far) = laid.sides();
    let mut svg = format!(
        "<figure><figcaption>{0}</figcaption>\n<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {width} {height}\" width=\"100%\" \
         role=\"img\" aria-label=\"the plots on bench {0}\">\n",
        escape(grid.bench)
    );
    let edge = format!(
        "<rect x=\"{SIDE}\" y=\"{SIDE}\" width=\"{wide}\" height=\"{high}\" fill=\"none\" stroke=\"currentColor\" stroke-width=\"3\"/>\n"
    );
    svg.push_str(&edge);
    svg.push_str(&said((SIDE, 14), (14, "start"), near));
    svg.push_str(&said((SIDE + wide, 14), (14, "end"), far));
    for (at, column) in grid.columns.iter().enumerate() {
        let x = SIDE + at * PLOT.0 + PLOT.0 / 2;
        svg.push_str(&said((x, 32), (12, "middle"), &column.to_string()));
        svg.push_str(&guard(laid, (x, SIDE - 14)));
        svg.push_str(&guard(laid, (x, SIDE + high + 14)));
    }
    for x in [SIDE - 14, SIDE + wide + 14] {
        svg.push_str(&guard(laid, (x, SIDE - 14)));
        svg.push_str(&guard(laid, (x, SIDE + high + 14)));
    }
    for (at, row) in grid.rows.iter().enumerate() {
        let y = SIDE + at * PLOT.1;
        let middle = y + PLOT.1 / 2;
        svg.push_str(&said((2, middle + 4), (12, "start"), &format!("row {row}")));
        svg.push_str(&guard(laid, (SIDE - 14, middle)));
        svg.push_str(&guard(laid, (SIDE + wide + 14, middle)));
        svg.push_str(&row_of_plots(grid, (at, *row), purpose));
    }
    svg.push_str("</svg></figure>\n");
    svg
}

fn row_of_plots(grid: &Grid<'_>, (at, row): (usize, u32), purpose: Purpose) -> String {
    let mut out = String::new();
    for (along, column) in grid.columns.iter().enumerate() {
        let Some(plot) = grid.plots.get(&(row, *column)) else { continue };
        let (x, y) = (SIDE + along * PLOT.0, SIDE + at * PLOT.1);
        out.push_str(&format!(
            "<rect x=\"{x}\" y=\"{y}\" width=\"{}\" height=\"{}\" fill=\"none\" stroke=\"currentColor\"/>",
            PLOT.0, PLOT.1
        ));
        let middle = x + PLOT.0 / 2;
        out.push_str(&said((middle, y + 25), (20, "middle"), &plot.number().to_string()));
        if purpose == Purpose::Giving {
            out.push_str(&said((middle, y + 45), (13, "middle"), &plot.treatment));
        }
        out.push('\n');
    }
    out
}

fn guard(laid: &Laid<'_>, (x, y): (usize, usize)) -> String {
    if !laid.trial.guard {
        return String::new();
    }
    format!("<circle cx=\"{x}\" cy=\"{y}\" r=\"5\" fill=\"none\" stroke=\"currentColor\"/>")
}

//! Labels for the plots of a trial: the number large, the place small, never the treatment.

use super::grid::Laid;
use crate::record::Plot;
use crate::report::html::{escape, page};

/// Labels beside one another on a page of 80 columns.
const BESIDE: usize = 3;
/// Columns of a label between its edges.
const INSIDE: usize = 23;

/// The digits in five lines of three cells.
const DIGITS: [[&str; 5]; 10] = [
    ["###", "# #", "# #", "# #", "###"],
    [" # ", "## ", " # ", " # ", "###"],
    ["###", "  #", "###", "#  ", "###"],
    ["###", "  #", " ##", "  #", "###"],
    ["# #", "# #", "###", "  #", "  #"],
    ["###", "#  ", "###", "  #", "###"],
    ["###", "#  ", "###", "# #", "###"],
    ["###", "  #", " # ", " # ", " # "],
    ["###", "# #", "###", "# #", "###"],
    ["###", "# #", "###", "  #", "###"],
];

/// Where a plot stands.
fn place(plot: &Plot) -> String {
    format!("{} row {} col {}", plot.bench, plot.row, plot.column)
}

/// The labels for an 80-column printer, to be cut out.
pub fn text(laid: &Laid<'_>) -> String {
    let mut out = String::new();
    for row in laid.plots.chunks(BESIDE) {
        let labels: Vec<Vec<String>> = row.iter().map(|plot| label(plot)).collect();
        let high = labels.first().map_or(0, Vec::len);
        for line in 0..high {
            let parts: Vec<&str> = labels.iter().filter_map(|label| label.get(line)).map(String::as_str).collect();
            out.push_str(parts.join(" ").trim_end());
            out.push('\n');
        }
    }
    out
}

fn label(plot: &Plot) -> Vec<String> {
    let edge = format!("+{}+", "-".repeat(INSIDE));
    let line = |text: &str| format!("|{:<INSIDE$}|", format!("  {text}").chars().take(INSIDE).collect::<String>());
    let mut all = vec![edge.clone()];
    let digits: Vec<usize> = plot
        .number()
        .to_string()
        .chars()
        .filter_map(|c| c.to_digit(10))
        .filter_map(|d| usize::try_from(d).ok())
        .collect();
    for at in 0..5 {
        let parts: Vec<&str> =
            digits.iter().filter_map(|digit| DIGITS.get(*digit)).filter_map(|lines| lines.get(at)).copied().collect();
        all.push(line(&parts.join(" ")));
    }
    all.push(line(&plot.plot));
    all.push(line(&place(plot)));
    all.push(edge);
    all
}

/// The labels as a page.
pub fn html(laid: &Laid<'_>) -> String {
    let title = format!("Trial {}, labels", laid.trial.trial);
    let mut body = format!("<h1>{}</h1>\n<div class=\"charts\">\n", escape(&title));
    for plot in &laid.plots {
        body.push_str(&format!(
            "<figure><svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 240 130\" width=\"100%\" role=\"img\" aria-label=\"plot {0}\">\
             <rect x=\"1\" y=\"1\" width=\"238\" height=\"128\" fill=\"none\" stroke=\"currentColor\"/>\
             <text x=\"120\" y=\"82\" font-size=\"84\" font-weight=\"bold\" text-anchor=\"middle\" fill=\"currentColor\" \
             font-family=\"sans-serif\">{0}</text>\
             <text x=\"120\" y=\"114\" font-size=\"15\" text-anchor=\"middle\" fill=\"currentColor\" \
             font-family=\"sans-serif\">{1}, {2}</text></svg></figure>\n",
            plot.number(),
            escape(&plot.trial),
            escape(&place(plot))
        ));
    }
    body.push_str("</div>\n");
    page(&title, &body)
}

//! The page template of every report, and its tables.

use crate::report::chart::Table;

/// One style sheet for screen and paper. Levels are shown by words and rules, not by color.
const STYLE: &str = "
:root{color-scheme:light dark;--ink:#1b1f1b;--paper:#fff;--soft:#5d675d;--rule:#c9d0c9;--band:#9db89d55;--mark:#8a2b2b}
@media(prefers-color-scheme:dark){:root{--ink:#e9ede9;--paper:#161916;--soft:#a3ada3;--rule:#3a423a;--band:#7fa07f44;--mark:#e08a8a}}
*{box-sizing:border-box}
body{margin:0 auto;max-width:60rem;padding:1rem;font:1rem/1.45 system-ui,sans-serif;color:var(--ink);background:var(--paper)}
h1{font-size:1.35rem;margin:.2rem 0}h2{font-size:1.1rem;margin:1.4rem 0 .4rem;border-bottom:1px solid var(--rule)}
h3{font-size:1rem;margin:.2rem 0}p{margin:.3rem 0}.soft{color:var(--soft)}
ul{margin:.2rem 0;padding-left:1.2rem}ul.tasks{list-style:none;padding-left:0}
article{border:1px solid var(--rule);border-left:.35rem solid var(--rule);border-radius:.3rem;padding:.5rem .8rem;margin:.6rem 0;break-inside:avoid}
article.act{border-left-color:var(--ink)}article.urgent{border:2px solid var(--mark);border-left-width:.5rem}
.level{font-weight:700;text-transform:uppercase;letter-spacing:.04em}
table{border-collapse:collapse;width:100%;margin:.4rem 0}caption{text-align:left;font-weight:600}
th,td{border-bottom:1px solid var(--rule);padding:.25rem .4rem;text-align:left;vertical-align:top}
.wide{overflow-x:auto}td.n,th.n{text-align:right;font-variant-numeric:tabular-nums}
.box{display:inline-block;width:1.05em;height:1.05em;border:1.5px solid currentColor;vertical-align:-.15em;margin-right:.3em;text-align:center;line-height:1}
.large{font-size:1.35rem}.large h2{font-size:1.5rem}.large li{margin:.5rem 0;break-inside:avoid}
figure{margin:.6rem 0;break-inside:avoid}figcaption{font-weight:600}
svg.chart{width:100%;height:auto;max-width:100%;display:block}
.chart text{font:12px system-ui,sans-serif;fill:currentColor}.chart .tick{font-size:11px;fill:var(--soft)}
.grid{stroke:var(--rule);stroke-width:.6;fill:none}.axis{stroke:currentColor;stroke-width:1;fill:none}
.band{fill:var(--band);stroke:none}.fan{fill:none;stroke:currentColor;stroke-width:1;stroke-dasharray:1.5 3}.line{fill:none;stroke:currentColor;stroke-width:1.6}
.dashed{stroke-dasharray:7 4}.dotted{stroke-dasharray:1.5 4;stroke-linecap:round}
.dot{fill:currentColor}.dots{fill:none;stroke:currentColor;stroke-width:7;stroke-linecap:round}.last{stroke-dasharray:10 3 2 3}.end{text-anchor:end}.mid{text-anchor:middle}.mark{fill:var(--mark);stroke:var(--paper);stroke-width:.8}.full{fill:currentColor}.past{fill:var(--band);stroke:var(--soft);stroke-width:1}.open{fill:none;stroke:currentColor;stroke-width:1.6}
.charts{display:grid;gap:0 1.2rem;grid-template-columns:repeat(auto-fit,minmax(min(100%,20rem),1fr))}.charts figure{min-width:0}
section.site{border-top:2px solid var(--rule);margin-top:2rem}
details{margin:.2rem 0}summary{cursor:pointer;color:var(--soft)}nav a{color:inherit}
.charts .chart text{font-size:20px}.charts .chart .tick{font-size:18px}
@media(max-width:42rem){.chart text{font-size:20px}.chart .tick{font-size:18px}}
@media print{:root{--ink:#000;--paper:#fff;--soft:#333;--rule:#999}body{max-width:none;padding:0;font-size:10.5pt}.wide{font-size:9pt}.wide th,.wide td{padding:.2rem .25rem}.large{font-size:15pt}@page{margin:14mm}
.chart text,.charts .chart text{font-size:19px}.chart .tick,.charts .chart .tick{font-size:17px}details,nav{display:none}
section.site{break-before:page;border:0}article,figure,tr{break-inside:avoid}h2{break-after:avoid}}
";

/// What a browser may do with a page: use the style sheet above, which its SHA-256 names, and the empty icon; run nothing, fetch
/// nothing, send nothing. It holds even where a text were taken for markup.
const POLICY: &str = "default-src 'none'; style-src 'sha256-Q+uAR26f05DGb93T6axJV6oT+nQVrLLfLRV1WWqj7X8='; img-src data:; \
                      base-uri 'none'; form-action 'none'";

/// A whole document. `body` is HTML already.
pub fn page(title: &str, body: &str) -> String {
    document(title, (STYLE, POLICY), body)
}

/// A whole document with this style sheet, and the policy that names it.
pub(super) fn document(title: &str, (style, policy): (&str, &str), body: &str) -> String {
    format!(
        "<!DOCTYPE html>\n<html lang=\"en-US\">\n<head>\n<meta charset=\"utf-8\">\n\
         <meta http-equiv=\"Content-Security-Policy\" content=\"{policy}\">\n\
         <meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n<link rel=\"icon\" href=\"data:,\">\n\
         <title>{}</title>\n<style>{style}</style>\n</head>\n<body>\n<main>\n{body}</main>\n</body>\n</html>\n",
        escape(title)
    )
}

/// Text safe inside HTML and SVG.
pub fn escape(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    push(text, &mut out);
    out
}

/// Adds a text, safe inside HTML and SVG.
fn push(text: &str, out: &mut String) {
    for c in text.chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\'' => out.push_str("&#39;"),
            c => out.push(c),
        }
    }
}

/// A table with a head row; every cell is text still to be made safe.
pub fn table(caption: &str, table: &Table) -> String {
    table_of(Some(caption), &table.heads, &table.rows, push)
}

/// A table with a head row, whose cells are written in some way, such as HTML that is made already.
pub(in crate::report) fn table_of(
    caption: Option<&str>,
    heads: &[String],
    rows: &[Vec<String>],
    write: fn(&str, &mut String),
) -> String {
    type Write = fn(&str, &mut String);
    let cells = |(open, close): (&str, &str), (row, write): (&[String], Write), out: &mut String| {
        out.push_str("<tr>");
        for cell in row {
            out.push_str(open);
            write(cell, out);
            out.push_str(close);
        }
        out.push_str("</tr>");
    };
    let mut out = String::from("<div class=\"wide\"><table>");
    if let Some(caption) = caption {
        out.push_str("<caption>");
        push(caption, &mut out);
        out.push_str("</caption>");
    }
    out.push_str("\n<thead>");
    cells(("<th scope=\"col\">", "</th>"), (heads, push), &mut out);
    out.push_str("</thead>\n<tbody>\n");
    for row in rows {
        cells(("<td>", "</td>"), (row, write), &mut out);
        out.push('\n');
    }
    out.push_str("</tbody></table></div>\n");
    out
}

#[cfg(test)]
pub(super) mod tests {
    use super::*;
    use sha2::{Digest, Sha256};

    /// Base 64 of whole groups of three bytes and one of two, as 32 bytes are.
    pub(in crate::report::html) fn base64(bytes: &[u8]) -> String {
        const SIGNS: &[u8; 64] = b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
        let mut out = String::new();
        for group in bytes.chunks(3) {
            let mut three = [0; 3];
            three[..group.len()].copy_from_slice(group);
            let bits = u32::from_be_bytes([0, three[0], three[1], three[2]]);
            for place in 0..=group.len() {
                out.push(char::from(SIGNS[(bits >> (18 - 6 * place)) as usize & 63]));
            }
            out.push_str(&"="[..usize::from(group.len() == 2)]);
        }
        out
    }

    #[test]
    fn the_policy_names_the_style_sheet_and_nothing_else() {
        assert_eq!(base64(&Sha256::digest(b"")), "47DEQpj8HBSa+/TImW+5JCeuQeRkm5NMpJWZG3hSuFU=", "a known one");
        let page = page("<i>", "<p>text</p>\n");
        let style = page.split("<style>").nth(1).unwrap().split("</style>").next().unwrap();
        let hash = base64(&Sha256::digest(style.as_bytes()));
        assert!(POLICY.contains(&format!("style-src 'sha256-{hash}';")), "the style sheet changed: {hash}");
        assert_eq!(page.matches("http-equiv=\"Content-Security-Policy\"").count(), 1);
        let head = page.find("Content-Security-Policy").unwrap();
        assert!(
            head < page.find("<style>").unwrap() && head < page.find("<title>").unwrap(),
            "it holds from the start"
        );
        for allowed in ["unsafe", "script", "http:", "https:", "*"] {
            assert!(!POLICY.contains(allowed), "{allowed}");
        }
    }
}

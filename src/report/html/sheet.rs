//! The page template of sheets that are cut up: labels and cards, two columns to a page of Letter or A4 paper.

use super::page::document;

/// One style sheet for screen and paper. On paper a cell has the size it is cut to; on a screen as many columns as fit.
const STYLE: &str = "
@page letter{size:8.5in 11in;margin:0.5in 0.25in}
@page a4{size:210mm 297mm;margin:6mm}
*{box-sizing:border-box}
body{margin:0;padding:1rem;font:1rem/1.35 system-ui,sans-serif;color:#000;background:#fff}
h1{font-size:1.2rem;margin:.2rem 0}p{margin:.25rem 0}
.sheet{display:grid;gap:.6rem;grid-template-columns:repeat(auto-fit,minmax(min(100%,20rem),1fr));max-width:60rem;margin:.6rem 0}
.cell{border:1px dashed #999;padding:4mm;overflow:hidden;min-width:0}
.cell svg{display:block;width:100%;height:auto;max-height:100%}
.cell h2{font-size:1.05rem;margin:0 0 .3rem}.site{color:#333;font-size:.85em}
@media print{
body{padding:0}header{display:none}
.letter{page:letter}.a4{page:a4}
.sheet{gap:0;margin:0;max-width:none;justify-content:center;break-after:page;break-inside:avoid}
.sheet:last-child{break-after:auto}
.labels.letter{grid-template-columns:4in 4in;grid-auto-rows:1.98in}
.labels.a4{grid-template-columns:99mm 99mm;grid-auto-rows:56mm}
.cards.letter{grid-template-columns:4in 4in;grid-auto-rows:2.48in}
.cards.a4{grid-template-columns:99mm 99mm;grid-auto-rows:71mm}
.cell{padding:3.5mm}.cards .cell{font-size:8.5pt;line-height:1.25}.cards .cell h2{font-size:11pt}
}
";

/// As that of every other page: this style sheet and the empty icon, nothing else.
const POLICY: &str = "default-src 'none'; style-src 'sha256-yThDlfUaJTcZlivdWD9dk8VqA6+9lHxDbIXouIG+e50='; img-src data:; \
                      base-uri 'none'; form-action 'none'";

/// A whole document of sheets. `body` is HTML already.
pub fn sheet(title: &str, body: &str) -> String {
    document(title, (STYLE, POLICY), body)
}

#[cfg(test)]
mod tests {
    use super::super::page::tests::base64;
    use super::*;
    use sha2::{Digest, Sha256};

    #[test]
    fn the_policy_names_the_style_sheet_and_nothing_else() {
        let hash = base64(&Sha256::digest(STYLE.as_bytes()));
        assert!(POLICY.contains(&format!("style-src 'sha256-{hash}';")), "the style sheet changed: {hash}");
        for allowed in ["unsafe", "script", "http:", "https:", "*"] {
            assert!(!POLICY.contains(allowed), "{allowed}");
        }
    }
}

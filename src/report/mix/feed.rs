//! A liquid feed in words.

use super::weighing::{a_pot_gets, lines, not_together, purpose};
use super::{Page, cautions_json, weighing};
use crate::mix::FeedAnswer;
use crate::units::{System, plain};
use serde_json::{Value, json};

pub(super) fn page(answer: &FeedAnswer, units: System) -> Page {
    let (weighing, carries) = (&answer.weighing, answer.carries);
    let mut page = Page::default();
    let target = plain(weighing.target.ppm());
    page.line(format!("{} at {target} ppm N {}", answer.request.bag(), purpose(weighing, units)));
    not_together(&mut page, &answer.clashes);
    lines(&mut page, weighing, units);
    if weighing.weighed.too_small {
        page.item("TOO LITTLE", "too little to weigh on this scale: mix a bigger batch or use a finer scale");
    }
    page.item("also supplies", format!("{} ppm P, {} ppm K (elements) with its N", plain(carries.p), plain(carries.k)));
    a_pot_gets(&mut page, answer.mg_per_pot, "N");
    if let Some((expected, read)) = &answer.check {
        page.item("EC should read", format!("{:.2} mS/cm, plain water included", expected.ms_cm()));
        if let Some(read) = read {
            let percent = read.of_wanted * 100.0;
            page.item("injector gives", format!("{} ppm N, {percent:.0}% of the target", plain(read.delivers.ppm())));
        }
    }
    if weighing.stock.is_some() {
        page.item(
            "keep apart",
            "calcium never in one stock tank with sulfates (North Carolina Agronomic Division) or phosphates (common practice, no \
             source); a one-bag fertilizer is formulated to stay dissolved",
        );
    }
    page.cautions(&answer.cautions);
    page
}

pub(super) fn json(answer: &FeedAnswer) -> Value {
    let mut all = weighing::json(&answer.weighing);
    if let Some(fields) = all.as_object_mut() {
        fields.insert("analysis".to_owned(), json!(answer.request.analysis));
        fields.insert("feed_p_ppm".to_owned(), json!(answer.carries.p));
        fields.insert("feed_k_ppm".to_owned(), json!(answer.carries.k));
        fields.insert("feed_ec_ms_cm".to_owned(), json!(answer.check.as_ref().map(|(expected, _)| expected.ms_cm())));
        let delivers = answer.check.and_then(|(_, read)| read);
        let delivers = delivers.map(|r| json!({ "n_ppm": r.delivers.ppm(), "of_wanted": r.of_wanted }));
        fields.insert("injector_delivers".to_owned(), json!(delivers));
        fields.insert("cautions".to_owned(), cautions_json(&answer.cautions));
    }
    all
}

//! A topdress in words.

use super::{Page, cautions_json, off};
use crate::mix::{TopdressAnswer, mass};
use crate::units::{System, plain};
use serde_json::{Value, json};

pub(super) fn page(answer: &TopdressAnswer, units: System) -> Page {
    let (request, comes_to) = (&answer.request, &answer.comes_to);
    let mut page = Page::default();
    page.line(format!("Topdress: {} pots at {} per pot", request.pots, mass(units, request.per_pot)));
    page.item("weigh", mass(units, comes_to.total));
    let step = plain(answer.weighed.weigh.g());
    let makes = plain(request.per_pot.g() * (1.0 + answer.weighed.off));
    page.item("rounded", format!("{step} g, which makes {makes} g per pot ({})", off(answer.weighed.off)));
    page.item(
        "math",
        format!(
            "g = g per pot x pots = {} x {} = {}",
            plain(request.per_pot.g()),
            request.pots,
            plain(comes_to.total.g())
        ),
    );
    match request.nitrogen {
        Some(share) => {
            let mg = comes_to.nitrogen_per_pot.g() * 1000.0;
            page.item("per pot", format!("{} mg of N ({}%)", plain(mg), plain(share.share() * 100.0)));
            page.item(
                "vs. crop need",
                format!(
                    "{} times what a plant takes up in 15 weeks (authors from memory: Whipker and Hammer 1997; the mean is \
                     Benchwalk's)",
                    plain(comes_to.times_uptake)
                ),
            );
        }
        None => page.item("per pot", "type the bag's percent of N to see the nitrogen"),
    }
    page.item("usual", "no published rate per pot was found for poinsettia; follow the bag's rate");
    page.cautions(&answer.cautions);
    page
}

pub(super) fn json(answer: &TopdressAnswer) -> Value {
    let (request, comes_to) = (&answer.request, &answer.comes_to);
    json!({
        "g_per_pot": request.per_pot.g(),
        "pots": request.pots,
        "exact_g": comes_to.total.g(),
        "weighed_g": answer.weighed.weigh.g(),
        "n_mg_per_pot": request.nitrogen.map(|_| comes_to.nitrogen_per_pot.g() * 1000.0),
        "cautions": cautions_json(&answer.cautions),
    })
}

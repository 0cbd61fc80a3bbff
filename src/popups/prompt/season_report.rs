//! The reports that the parts of the Season page write as files: what is asked for, and the text of the file.

use crate::model::Model;
use crate::model::go::SeasonReport;
use crate::report::season::Charted;
use crate::report::totals::{self, SeasonEnd};
use crate::report::{applications, compare, html as pages, season};

/// The title, and what to type with an example.
pub(super) fn words(report: SeasonReport) -> (String, String) {
    let (title, name) = match report {
        SeasonReport::Season => ("Report of the season", "season.html"),
        SeasonReport::Applications => ("Application record", "applications.html"),
        SeasonReport::LastYear => ("Last year beside this one", "compare.html"),
        SeasonReport::End => ("Report of the season's end", "season-end.html"),
    };
    (title.to_owned(), format!("The path of a new HTML file, such as {name}"))
}

/// The file's text.
///
/// # Errors
/// Why there is none, in words.
pub(super) fn html(report: SeasonReport, model: &Model) -> Result<String, String> {
    match report {
        // Without the charts of benches: of hundreds they take seconds, and the page says how they are got.
        SeasonReport::Season => {
            season::build(&model.season, model.day, (&model.limits, model.limits_name()), Charted::None)
                .map(|report| pages::season(&report))
                .ok_or_else(|| "a report needs a site and a lot; g adds them".to_owned())
        }
        SeasonReport::Applications => applications::whole(&model.season, model.day)
            .map(|record| applications::html(&record))
            .ok_or_else(|| "a record needs a site; g adds it".to_owned()),
        SeasonReport::LastYear => model.comparison().map(compare::html).ok_or_else(|| {
            "the comparison is not worked out yet, or there is no season of last year; the part says which".to_owned()
        }),
        SeasonReport::End => SeasonEnd::of(&model.season, model.day, &model.limits)
            .map(|end| totals::html(&end))
            .ok_or_else(|| "a report needs a site; g adds it".to_owned()),
    }
}

//! A small season to try the screens on: two houses, six benches, two lots, everything invented.

use std::fmt::Write;

/// The morning the desk opens on.
pub(crate) const NOW: &str = "2026-10-12T07:10:00-04:00";

const PLAN: &str = r#"{"type":"journal","version":1}
{"type":"site","name":"Alder Hollow","latitude":44.10,"longitude":-70.21,"time_zone":"America/New_York","units":"us"}
{"type":"lot","lot":"P6","cultivar":"mid red","container":"6 in","rim_cm":15.2,"pot_height_cm":11.4,"cuttings_per_pot":1,"pots":320,"planted":"2026-08-17","pinch":"soft","response_weeks":9,"nights":"natural","ready_by":"2026-11-27","height_low_cm":35.6,"height_high_cm":40.6,"slow_release_g":4}
{"type":"lot","lot":"P8","cultivar":"early white","container":"8 in","rim_cm":20.3,"cuttings_per_pot":7,"pots":60,"planted":"2026-08-24","pinch":"none","response_weeks":8.5,"nights":"natural","ready_by":"2026-12-04","slow_release_g":6}
{"type":"bench","bench":"N1","house":"North","order":1}
{"type":"bench","bench":"N2","house":"North","order":2}
{"type":"bench","bench":"N3","house":"North","order":3}
{"type":"bench","bench":"S1","house":"South","order":4}
{"type":"bench","bench":"S2","house":"South","order":5}
{"type":"bench","bench":"S3","house":"South","order":6}
{"type":"placement","bench":"N1","lot":"P6","pots":80,"from":"2026-08-17"}
{"type":"placement","bench":"N2","lot":"P6","pots":80,"from":"2026-08-17"}
{"type":"placement","bench":"N3","lot":"P6","pots":80,"from":"2026-08-17"}
{"type":"placement","bench":"S1","lot":"P8","pots":30,"from":"2026-08-24"}
{"type":"placement","bench":"S2","lot":"P8","pots":30,"from":"2026-08-24"}
"#;

/// Water of the days before the desk's day, the oldest first.
const WATER: [(&str, [u8; 10]); 5] = [
    ("N1", [3, 2, 5, 4, 3, 2, 5, 4, 3, 2]),
    ("N2", [3, 2, 4, 4, 5, 5, 5, 5, 4, 4]),
    ("N3", [2, 5, 4, 3, 2, 5, 4, 3, 2, 5]),
    ("S1", [4, 3, 2, 5, 4, 3, 2, 5, 4, 3]),
    ("S2", [3, 2, 5, 4, 3, 2, 5, 4, 3, 2]),
];

/// The season as a journal.
pub(crate) fn journal() -> String {
    let mut text = PLAN.to_owned();
    let mut line = |day: u32, time: &str, bench: &str, rest: &str| {
        let at = format!("2026-{:02}-{:02}T{time}:00-04:00", 9 + day / 100, day % 100);
        writeln!(text, r#"{{"type":"entry","at":"{at}","by":"ml","bench":"{bench}",{rest}}}"#).unwrap();
    };
    for (bench, digits) in WATER {
        for (i, digit) in (2..12_u32).zip(digits) {
            line(100 + i, "07:05", bench, &format!(r#""kind":"water","level":{digit}"#));
            if digit == 2 {
                line(100 + i, "08:30", bench, r#""kind":"watered","ml_per_pot":300"#);
            }
        }
        let roots = u8::from(bench == "N2");
        let day = if bench == "N1" || bench == "S1" { 105 } else { 108 };
        line(day, "07:06", bench, &format!(r#""kind":"roots","score":{roots}"#));
        line(day, "07:07", bench, r#""kind":"bracts","stage":1"#);
        line(109, "07:08", bench, r#""kind":"pests","pest":"whitefly","inspected":20,"infested":0"#);
        let material = r#""kind":"nutrient","material":"magnesium-sulfate","ppm":200,"how":"drench","ml_per_pot":200"#;
        line(1, "15:00", bench, material);
        line(
            1,
            "15:05",
            bench,
            r#""kind":"nutrient","material":"sodium-molybdate","ppm":0.5,"how":"drench","ml_per_pot":200"#,
        );
    }
    for bench in ["N1", "N2", "N3"] {
        line(1, "09:00", bench, r#""kind":"pinched","how":"soft","nodes_left":6"#);
        line(3, "09:00", bench, r#""kind":"height","cm":[19.1,19.4,18.8,19.0]"#);
        line(106, "09:00", bench, r#""kind":"height","cm":[24.1,24.9,23.8,24.4]"#);
    }
    line(
        111,
        "18:00",
        "N3",
        r#""kind":"sprayed","ai":"insecticidal soap","against":"whitefly","how":"spray","re_entry_h":14"#,
    );
    text
}

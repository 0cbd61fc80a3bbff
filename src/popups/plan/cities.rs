//! Cities to pick a site's place from: growing regions of both hemispheres.
//!
//! Public geographic facts, from memory, rounded to a tenth of a degree (about 11 km). A site farther from its city types its own
//! latitude and longitude.

/// A city.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct City {
    pub(super) name: &'static str,
    /// Degrees, north positive.
    pub(super) latitude: f64,
    /// Degrees, east positive.
    pub(super) longitude: f64,
    /// IANA time zone.
    pub(super) zone: &'static str,
    /// True where US units are customary.
    pub(super) us: bool,
}

const fn us(name: &'static str, latitude: f64, longitude: f64, zone: &'static str) -> City {
    City { name, latitude, longitude, zone, us: true }
}

const fn si(name: &'static str, latitude: f64, longitude: f64, zone: &'static str) -> City {
    City { name, latitude, longitude, zone, us: false }
}

/// By region; no more than there are letters.
pub(super) const CITIES: [City; 25] = [
    us("Boston", 42.4, -71.1, "America/New_York"),
    us("Raleigh", 35.8, -78.6, "America/New_York"),
    us("Orlando", 28.5, -81.4, "America/New_York"),
    us("Columbus", 40.0, -83.0, "America/New_York"),
    us("Grand Rapids", 43.0, -85.7, "America/Detroit"),
    us("Minneapolis", 45.0, -93.3, "America/Chicago"),
    us("Dallas", 32.8, -96.8, "America/Chicago"),
    us("Denver", 39.7, -105.0, "America/Denver"),
    us("San Diego", 32.7, -117.2, "America/Los_Angeles"),
    us("Portland OR", 45.5, -122.7, "America/Los_Angeles"),
    si("Toronto", 43.7, -79.4, "America/Toronto"),
    si("Mexico City", 19.4, -99.1, "America/Mexico_City"),
    si("Bogota", 4.7, -74.1, "America/Bogota"),
    si("London", 51.5, -0.1, "Europe/London"),
    si("Amsterdam", 52.4, 4.9, "Europe/Amsterdam"),
    si("Copenhagen", 55.7, 12.6, "Europe/Copenhagen"),
    si("Almeria", 36.8, -2.5, "Europe/Madrid"),
    si("Milan", 45.5, 9.2, "Europe/Rome"),
    si("Nairobi", -1.3, 36.8, "Africa/Nairobi"),
    si("Johannesburg", -26.2, 28.0, "Africa/Johannesburg"),
    si("Kunming", 25.0, 102.7, "Asia/Shanghai"),
    si("Tokyo", 35.7, 139.7, "Asia/Tokyo"),
    si("Sao Paulo", -23.6, -46.6, "America/Sao_Paulo"),
    si("Sydney", -33.9, 151.2, "Australia/Sydney"),
    si("Auckland", -36.8, 174.8, "Pacific/Auckland"),
];

/// A place farther from every city than this gets no time zone offered, km (house rule).
const FAR_KM: f64 = 600.0;
const EARTH_KM: f64 = 6_371.0;

/// The city nearest to a place, where one is near.
pub(super) fn nearest(latitude: f64, longitude: f64) -> Option<&'static City> {
    let away = |city: &City| km((latitude, longitude), (city.latitude, city.longitude));
    let near = CITIES.iter().min_by(|a, b| away(a).total_cmp(&away(b)))?;
    (away(near) <= FAR_KM).then_some(near)
}

/// The distance of two places on a globe (haversine formula).
fn km(a: (f64, f64), b: (f64, f64)) -> f64 {
    let half = |from: f64, to: f64| ((to - from).to_radians() / 2.0).sin().powi(2);
    let h = half(a.0, b.0) + a.0.to_radians().cos() * b.0.to_radians().cos() * half(a.1, b.1);
    2.0 * EARTH_KM * h.clamp(0.0, 1.0).sqrt().asin()
}

#[cfg(test)]
mod tests {
    use super::*;
    use chrono::{Offset, TimeZone};

    #[test]
    fn each_has_a_zone_that_fits_its_longitude() {
        // IANA time zones, checked against the sun: noon is nowhere more than three hours off.
        for city in CITIES {
            let zone: crate::dates::Tz = city.zone.parse().unwrap();
            let january = zone.with_ymd_and_hms(2026, 1, 15, 12, 0, 0).unwrap();
            let hours = f64::from(january.offset().fix().local_minus_utc()) / 3600.0;
            assert!((hours - city.longitude / 15.0).abs() < 3.0, "{}", city.name);
            assert!(city.name.is_ascii() && (-60.0..=70.0).contains(&city.latitude));
        }
    }

    #[test]
    fn the_nearest_is_found_across_the_globe() {
        assert_eq!(nearest(43.7, -70.3).map(|c| c.name), Some("Boston"));
        assert_eq!(nearest(-37.0, -179.9).map(|c| c.name), Some("Auckland"));
        assert_eq!(nearest(0.0, -150.0), None);
        assert_eq!(nearest(f64::NAN, 0.0), None);
    }

    #[test]
    fn a_known_way() {
        // Boston to Los Angeles is given as about 4170 km; San Diego lies about 4150 km from Boston (from memory).
        assert!((km((42.4, -71.1), (32.7, -117.2)) - 4150.0).abs() < 60.0);
    }
}

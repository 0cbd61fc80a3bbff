//! The quantities themselves: one type each, one table of accepted units each.

/// One way of writing a quantity: `base = typed * factor + offset`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Unit {
    /// Accepted spellings; the first is the one shown.
    pub names: &'static [&'static str],
    /// Multiplies the typed number.
    pub factor: f64,
    /// Added after multiplying (only temperatures need it).
    pub offset: f64,
}

impl Unit {
    const fn times(names: &'static [&'static str], factor: f64) -> Self {
        Self { names, factor, offset: 0.0 }
    }
}

/// The interface of every quantity.
pub trait Quantity: Copy {
    /// The quantity in words, for messages: "a length".
    const WHAT: &'static str;
    /// Every accepted unit. The first is the base unit (factor 1, offset 0).
    const UNITS: &'static [Unit];
    /// Index in `UNITS` of the unit a US site types and reads.
    const US: usize;
    /// Index in `UNITS` of the unit a metric site types and reads.
    const METRIC: usize;
    /// The least value that makes sense, in the base unit.
    const LEAST: f64;
    /// From the base unit.
    fn from_base(value: f64) -> Self;
    /// In the base unit.
    fn base(self) -> f64;

    /// In the unit of a system.
    fn in_system(self, system: super::System) -> f64 {
        let unit = Self::unit(system);
        (self.base() - unit.offset) / unit.factor
    }

    /// The unit of a system.
    fn unit(system: super::System) -> &'static Unit {
        const BASE: Unit = Unit::times(&[""], 1.0);
        let index = match system {
            super::System::Us => Self::US,
            super::System::Metric => Self::METRIC,
        };
        Self::UNITS.get(index).unwrap_or(&BASE)
    }

    /// The unit of a system by its shown name.
    fn unit_name(system: super::System) -> &'static str {
        Self::unit(system).names.first().copied().unwrap_or("")
    }

    /// In any of its units by name; `None` for a unit it does not have.
    fn in_unit(self, name: &str) -> Option<f64> {
        Self::UNITS.iter().find(|u| u.names.contains(&name)).map(|u| (self.base() - u.offset) / u.factor)
    }

    /// Number and unit as a site reads it: `14 in`, `35.6 cm`.
    fn show(self, system: super::System) -> String {
        format!("{} {}", super::plain(self.in_system(system)), Self::unit_name(system))
    }
}

macro_rules! quantity {
    ($(#[$doc:meta])* $name:ident, $make:ident, $get:ident, $what:literal, least $least:expr, us $us:literal, metric $metric:literal,
     [$($unit:expr),+ $(,)?]) => {
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Default)]
        pub struct $name(f64);

        impl $name {
            /// From the base unit named in this function.
            pub const fn $make(value: f64) -> Self { Self(value) }
            /// In the base unit named in this function.
            pub const fn $get(self) -> f64 { self.0 }
        }

        impl Quantity for $name {
            const WHAT: &'static str = $what;
            const UNITS: &'static [Unit] = &[$($unit),+];
            const US: usize = $us;
            const METRIC: usize = $metric;
            const LEAST: f64 = $least;
            fn from_base(value: f64) -> Self { Self(value) }
            fn base(self) -> f64 { self.0 }
        }
    };
}

// Factors: US customary units as fixed by NIST Handbook 44, appendix C (1 in = 2.54 cm, 1 gal = 3.785411784 L,
// 1 oz = 28.349523125 g, 1 ft2 = 0.09290304 m2); 1 fc = 10.7639 lx by definition (1 lm/ft2).
quantity!(
    /// A length in cm.
    Length, from_cm, cm, "a length", least 0.0, us 1, metric 0, [
        Unit::times(&["cm"], 1.0),
        Unit::times(&["in", "inch", "inches", "\""], 2.54),
        Unit::times(&["mm"], 0.1),
        Unit::times(&["m"], 100.0),
        Unit::times(&["ft", "foot", "feet", "'"], 30.48),
    ]
);
quantity!(
    /// An area in m2.
    Area, from_m2, m2, "an area", least 0.0, us 1, metric 0, [
        Unit::times(&["m2", "m²", "sqm"], 1.0),
        Unit::times(&["sq ft", "ft2", "ft²", "sqft"], 0.092_903_04),
    ]
);
quantity!(
    /// A volume in mL.
    Volume, from_ml, ml, "a volume", least 0.0, us 3, metric 1, [
        Unit::times(&["mL", "ml", "cc"], 1.0),
        Unit::times(&["L", "l", "liter", "liters"], 1000.0),
        Unit::times(&["fl oz", "floz", "fl.oz"], 29.573_529_562_5),
        Unit::times(&["gal", "gallon", "gallons"], 3_785.411_784),
        Unit::times(&["qt", "quart", "quarts"], 946.352_946),
        Unit::times(&["pt", "pint", "pints"], 473.176_473),
    ]
);
quantity!(
    /// A mass in g.
    Mass, from_g, g, "a weight", least 0.0, us 1, metric 0, [
        Unit::times(&["g", "gram", "grams"], 1.0),
        Unit::times(&["oz", "ounce", "ounces"], 28.349_523_125),
        Unit::times(&["lb", "lbs", "pound", "pounds"], 453.592_37),
        Unit::times(&["kg"], 1000.0),
        Unit::times(&["mg"], 0.001),
    ]
);
quantity!(
    /// A temperature in °C.
    Temperature, from_c, c, "a temperature", least -273.15, us 1, metric 0, [
        Unit::times(&["°C", "C", "c", "degC"], 1.0),
        Unit { names: &["°F", "F", "f", "degF"], factor: 5.0 / 9.0, offset: -160.0 / 9.0 },
    ]
);
quantity!(
    /// A concentration in ppm, that is mg/L of solution.
    Concentration, from_ppm, ppm, "a concentration", least 0.0, us 0, metric 0, [
        Unit::times(&["ppm", "mg/L", "mg/l"], 1.0),
        Unit::times(&["%"], 10_000.0),
        Unit::times(&["g/L", "g/l"], 1000.0),
    ]
);
quantity!(
    /// An electrical conductivity in mS/cm.
    Conductivity, from_ms_cm, ms_cm, "a conductivity", least 0.0, us 0, metric 0, [
        Unit::times(&["mS/cm", "mS", "dS/m", "mmho/cm"], 1.0),
        Unit::times(&["uS/cm", "µS/cm", "uS"], 0.001),
    ]
);
quantity!(
    /// Light as the eye sees it, in lux.
    Illuminance, from_lux, lux, "an illuminance", least 0.0, us 1, metric 0, [
        Unit::times(&["lux", "lx"], 1.0),
        Unit::times(&["fc", "foot-candle", "foot-candles"], 10.763_910_416_7),
    ]
);
quantity!(
    /// Photons of plant light in µmol/m2/s (PPFD).
    Irradiance, from_umol, umol, "a photon flux", least 0.0, us 0, metric 0, [
        Unit::times(&["umol/m2/s", "µmol/m²/s", "umol"], 1.0),
    ]
);

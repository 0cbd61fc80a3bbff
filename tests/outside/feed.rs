//! The salts given as extras, by drench and by spray; topdress and what the plant takes up.

use crate::basis::{Basis, Row};
use benchwalk::crop::feed::{Analysis, Fraction, Nutrient, Topdress, material_for, topdress, uptake_mg};
use benchwalk::terms::Material;
use benchwalk::units::{Concentration, Mass, System, Volume, parse};

const ATOMIC: Basis = Basis::Computed("IUPAC 2021 standard atomic weights, worked apart from the program");
const BY_HAND: Basis =
    Basis::Computed("by hand, 28.3495 g to the ounce and 3.785412 L to the gallon (NIST Handbook 44)");
const UPTAKE: Basis = Basis::Computed(
    "mean of first and last weekly uptake x 15 weeks, from Nutrient uptake in poinsettia during different stages (recalled as Whipker and Hammer 1997)",
);

fn ppm(value: f64) -> Concentration {
    Concentration::from_ppm(value)
}

fn ounces(value: f64) -> Mass {
    Mass::from_g(value * 28.349_523_125)
}

fn gallons(value: f64) -> Volume {
    Volume::from_ml(value * 3_785.411_784)
}

pub(crate) fn rows() -> Vec<Row> {
    [salts(), drenches(), molybdenum(), sprays(), dressed()].concat()
}

fn salts() -> Vec<Row> {
    let percent = |salt: Material| salt.fraction().share() * 100.0;
    let elements = Analysis::new(0.0, 50.0, 50.0).map(Analysis::elements);
    let part = |pick: fn(&benchwalk::crop::feed::Elements) -> f64| elements.as_ref().map_or(f64::NAN, pick) / 50.0;
    vec![
        Row::new("Mg in magnesium sulfate, %", ATOMIC, 9.861, 0.001, percent(Material::MagnesiumSulfate)),
        Row::new("Mo in sodium molybdate, %", ATOMIC, 39.66, 0.005, percent(Material::SodiumMolybdate)),
        Row::new("Mo in ammonium molybdate, %", ATOMIC, 54.34, 0.01, percent(Material::AmmoniumMolybdate)),
        Row::new("Ca in calcium chloride, %", ATOMIC, 27.26, 0.005, percent(Material::CalciumChloride)),
        // The water of crystallization counts: the dry salts' shares must not come out.
        Row::new("Mo in sodium molybdate without its water, %", ATOMIC, 46.59, 1.0, percent(Material::SodiumMolybdate))
            .refuted(),
        Row::new("Ca in calcium chloride without its water, %", ATOMIC, 36.11, 1.0, percent(Material::CalciumChloride))
            .refuted(),
        Row::new("magnesium sulfate, g/mol", Basis::FromMemory, 246.47, 0.02, Material::MagnesiumSulfate.molar_mass()),
        Row::new("sodium molybdate, g/mol", Basis::FromMemory, 241.95, 0.02, Material::SodiumMolybdate.molar_mass()),
        Row::new(
            "ammonium molybdate, g/mol",
            Basis::FromMemory,
            1235.86,
            0.1,
            Material::AmmoniumMolybdate.molar_mass(),
        ),
        Row::new("calcium chloride, g/mol", Basis::FromMemory, 147.01, 0.02, Material::CalciumChloride.molar_mass()),
        Row::new("P in P2O5", ATOMIC, 0.4364, 0.00005, part(|e| e.p)),
        Row::new("K in K2O", ATOMIC, 0.8301, 0.0001, part(|e| e.k)),
    ]
}

/// Salt, ounces in 100 gallons, the ppm they make.
const DRENCHES: [(Material, f64, f64, f64); 5] = [
    (Material::MagnesiumSulfate, 16.0, 118.2, 0.05),
    (Material::MagnesiumSulfate, 24.0, 177.2, 0.1),
    (Material::SodiumMolybdate, 2.0, 59.4, 0.05),
    (Material::AmmoniumMolybdate, 2.0, 81.4, 0.05),
    (Material::CalciumChloride, 16.0, 326.7, 0.05),
];

/// Salt, ppm wanted, ounces in 100 gallons.
const NEEDS: [(Material, f64, f64, f64); 6] = [
    (Material::MagnesiumSulfate, 30.0, 4.06, 0.005),
    (Material::MagnesiumSulfate, 40.0, 5.42, 0.005),
    (Material::SodiumMolybdate, 50.0, 1.68, 0.005),
    (Material::CalciumChloride, 200.0, 9.80, 0.01),
    (Material::CalciumChloride, 300.0, 14.69, 0.01),
    (Material::CalciumChloride, 400.0, 19.59, 0.01),
];

/// The ppm that a weight makes: how many times the weight that one ppm takes.
fn made(mass: Mass, share: Fraction, volume: Volume) -> f64 {
    material_for(ppm(1.0), share, volume).map_or(f64::NAN, |one| mass.g() / one.g())
}

fn drenches() -> Vec<Row> {
    const PAGE: Basis =
        Basis::Published("a gardening question page: 1.5 g a gallon for 40 ppm Mg (an arithmetic check only)");
    let of = |mass: Mass, salt: Material, volume: Volume| made(mass, salt.fraction(), volume);
    let mut rows = Vec::new();
    for (salt, oz, expected, off) in DRENCHES {
        let name = format!("{oz} oz {salt:?} in 100 gal, ppm {}", salt.element());
        rows.push(Row::new(name, BY_HAND, expected, off, of(ounces(oz), salt, gallons(100.0))));
    }
    for (salt, target, expected, off) in NEEDS {
        let name = format!("{target} ppm {}, oz {salt:?} in 100 gal", salt.element());
        let need = material_for(ppm(target), salt.fraction(), gallons(100.0));
        rows.push(Row::new(name, BY_HAND, expected, off, need.map_or(f64::NAN, |mass| mass.g() / 28.349_523_125)));
    }
    let spoon = of(Mass::from_g(1.5), Material::MagnesiumSulfate, gallons(1.0));
    rows.push(Row::new("1.5 g magnesium sulfate a gallon, ppm Mg", PAGE, 40.0, 1.0, spoon));
    rows.push(Row::new("1.5 g magnesium sulfate a gallon, ppm Mg", BY_HAND, 39.08, 0.01, spoon));
    rows
}

fn molybdenum() -> Vec<Row> {
    const RECIPE: Basis = Basis::Published(
        "Texas A&M, Common poinsettia disorders (1 lb in 5 gal, 1-1.5 fl oz per 1,000 gal) for the 0.1 ppm of MSU work (Owen)",
    );
    let of = |fluid_ounces: f64| {
        // A gallon is 128 fl oz: so much of the pound in five gallons.
        let taken = ounces(16.0 * fluid_ounces / (5.0 * 128.0));
        made(taken, Material::AmmoniumMolybdate.fraction(), gallons(1000.0))
    };
    vec![
        Row::new("1 fl oz of the stock in 1,000 gal, ppm Mo", RECIPE, 0.1, 0.005, of(1.0)),
        Row::new("1 fl oz of the stock in 1,000 gal, ppm Mo", BY_HAND, 0.102, 0.0005, of(1.0)),
        Row::new("1.5 fl oz of the stock in 1,000 gal, ppm Mo", BY_HAND, 0.153, 0.0005, of(1.5)),
    ]
}

fn sprays() -> Vec<Row> {
    const CORNELL: Basis = Basis::Published(
        "Chang, Grace-Martin and Miller (Cornell) 2004, HortScience 39:272: 5, 68, 204 mM as 0.07, 1 and 3%",
    );
    let percent = |mmol: f64| Material::CalciumChloride.g_per_l(mmol).map_or(f64::NAN, |g| g / 10.0);
    let lime = ["2.5gal", "2.5gal", "95gal"]
        .iter()
        .map(|part| parse::<Volume>(part, System::Metric).map_or(f64::NAN, Volume::ml));
    let lime: f64 = lime.sum();
    vec![
        Row::new("5 mM calcium chloride, %", CORNELL, 0.07, 0.005, percent(5.0)),
        Row::new("68 mM calcium chloride, %", CORNELL, 1.0, 0.005, percent(68.0)),
        Row::new("204 mM calcium chloride, %", CORNELL, 3.0, 0.005, percent(204.0)),
        Row::new(
            "5 mM calcium chloride, ppm Ca",
            CORNELL,
            200.0,
            1.0,
            Material::CalciumChloride
                .g_per_l(5.0)
                .map_or(f64::NAN, |g| g * 1000.0 * Material::CalciumChloride.fraction().share()),
        ),
        Row::new(
            "limestone drench, 2.5 + 2.5 + 95 gal",
            Basis::Published("University of Maryland report 2006, Raising media pH"),
            100.0,
            1e-6,
            lime / 3_785.411_784,
        ),
    ]
}

fn dressed() -> Vec<Row> {
    let dress = |grams: f64| {
        Fraction::from_percent(15.0)
            .and_then(|nitrogen| topdress(Topdress { per_pot: Mass::from_g(grams), pots: 240, nitrogen }))
            .map_or([f64::NAN; 3], |t| [t.total.g(), t.nitrogen_per_pot.g(), t.times_uptake])
    };
    let mut rows = vec![
        Row::new("10 g on 240 pots, g", BY_HAND, 2400.0, 1e-9, dress(10.0)[0]),
        Row::new("N in 10 g over what a plant takes up", UPTAKE, 2.5, 0.01, dress(10.0)[2]),
    ];
    for (grams, nitrogen) in [(5.0, 0.75), (10.0, 1.50), (15.0, 2.25)] {
        rows.push(Row::new(format!("N in {grams} g of 15-9-12"), BY_HAND, nitrogen, 1e-9, dress(grams)[1]));
    }
    for (nutrient, total) in
        [(Nutrient::N, 600.0), (Nutrient::P, 206.0), (Nutrient::K, 570.0), (Nutrient::Ca, 158.0), (Nutrient::Mg, 83.0)]
    {
        let got = uptake_mg(nutrient, 15.0).unwrap_or(f64::NAN);
        rows.push(Row::new(format!("{nutrient:?} taken up in 15 weeks, mg"), UPTAKE, total, 0.6, got));
    }
    for (strength, carried) in [(200.0, 60.0), (250.0, 75.0), (300.0, 90.0)] {
        let got =
            Fraction::from_percent(100.0).and_then(|pure| material_for(ppm(strength), pure, Volume::from_ml(300.0)));
        let got = got.map_or(f64::NAN, |mass| mass.g() * 1000.0);
        rows.push(Row::new(format!("N in 300 mL at {strength} ppm, mg"), BY_HAND, carried, 1e-9, got));
    }
    rows
}

//! Each rate in one spot, or on its own bench: pots taken for plots find what is not there, and more pots make it worse.
//!
//! What the help says of it, simulated elsewhere in R. The program refuses such trials; here it is made to take the pots
//! for plots.

use super::laid::{TREATMENTS, data, f_alone, normal, plot};
use super::{allowance, share};
use crate::rng::Rng;
use benchwalk::terms::Design;
use benchwalk::trials::{Data, Refused, analyze};

/// Gradients over the whole trial, SD of pots.
const GRADIENTS: [f64; 4] = [0.0, 1.0, 2.0, 3.0];

/// False findings for so many pots a rate, by gradient.
const SPOTS: [(usize, [f64; 4]); 3] =
    [(4, [0.05, 0.12, 0.36, 0.69]), (6, [0.05, 0.17, 0.55, 0.91]), (10, [0.05, 0.27, 0.82, 0.99])];

/// False findings for so many pots a rate, each rate on a bench of its own: by how benches spread, SD of pots.
const BENCHES: [(usize, [(f64, f64); 3]); 2] =
    [(10, [(0.25, 0.17), (0.5, 0.49), (1.0, 0.85)]), (20, [(0.25, 0.31), (0.5, 0.72), (1.0, 0.94)])];

/// A trial without effect, each treatment in one stretch of a gradient; benches spread by `benches` besides.
fn in_spots(n: usize, pots: usize, gradient: f64, benches: f64) -> Data {
    let mut rng = Rng::new(104_729 * n as u64 + 7);
    let last = (TREATMENTS * pots - 1) as f64;
    let mut plots = Vec::new();
    for treatment in 0..TREATMENTS {
        let bench = benches * normal(&mut rng);
        for _ in 0..pots {
            let place = plots.len();
            let value = gradient * place as f64 / last + bench + normal(&mut rng);
            plots.push(plot(place + 1, place, treatment, value));
        }
    }
    data(Design::CompletelyRandomized, TREATMENTS, plots)
}

fn is_told(data: &Data) -> bool {
    analyze(data, f_alone()).unwrap().treatment.p.unwrap() < 0.05
}

#[test]
fn each_rate_in_one_spot_finds_what_is_not_there() {
    let mut table = "each rate in one spot, no effect: told, by gradient (expected)\n".to_owned();
    for (pots, expected) in SPOTS {
        let mut line = format!("{pots:>3} pots a rate ");
        for (gradient, expected) in GRADIENTS.into_iter().zip(expected) {
            let told = share(|n| is_told(&in_spots(n, pots, gradient, 0.0)));
            line += &format!("  {gradient} SD {:>5.1} % ({:.0} %)", told * 100.0, expected * 100.0);
            assert!((told - expected).abs() <= allowance(), "{pots} pots at {gradient} SD: {told}, not {expected}");
        }
        table += &format!("{line}\n");
    }
    print!("{table}");
}

#[test]
fn each_rate_on_its_own_bench_finds_what_is_not_there() {
    let mut table = "each rate on its own bench, no effect: told, by how benches spread (expected)\n".to_owned();
    for (pots, expected) in BENCHES {
        let mut line = format!("{pots:>3} pots a rate ");
        for (spread, expected) in expected {
            let told = share(|n| is_told(&in_spots(n, pots, 0.0, spread)));
            line += &format!("  {spread} SD {:>5.1} % ({:.0} %)", told * 100.0, expected * 100.0);
            assert!((told - expected).abs() <= allowance(), "{pots} pots, benches {spread} SD: {told}, not {expected}");
        }
        table += &format!("{line}\n");
    }
    print!("{table}");
}

#[test]
fn the_program_itself_refuses_rates_on_benches_of_their_own() {
    let mut data = in_spots(1, 10, 0.0, 1.0);
    for plot in &mut data.plots {
        plot.bench = format!("M{}", plot.treatment + 1);
    }
    assert_eq!(analyze(&data, f_alone()).unwrap_err(), Refused::OwnBench);
}

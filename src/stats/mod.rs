//! Statistics as plain numbers: distributions, least squares, multiple comparisons, ranks, draws by lot.
//!
//! Nothing here knows what was measured. Every function says which book or table its arithmetic comes from; the results are held
//! against published tables and against other programs' answers in `tests/outside`.

mod check;
mod draw;
mod dunnett;
mod fit;
mod plateau;
mod quadrature;
mod range;
mod ranks;
mod sample;
mod seen;
mod special;
mod spread;

pub use check::{Test, brown_forsythe, nonadditivity, odd_one, shapiro_francia};
pub use draw::Draw;
pub use dunnett::{Dunnett, Sides};
pub use fit::{Fit, Squares};
pub use plateau::{Plateau, plateau};
pub use range::{range_quantile, range_tail};
pub use ranks::{friedman, kruskal_wallis, ranks};
pub use sample::{centered, marks, mean, median, variance};
pub use seen::least_seen;
pub use special::{beta_share, chi_square_tail, f_tail, normal, normal_quantile, t_tails, t_two_sided};

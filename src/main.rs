//! The `benchwalk` program: everything is in the library.

use benchwalk::clock::Real;
use benchwalk::commands::{Context, Folders, run_from};
use std::io;
use std::process::ExitCode;

fn main() -> color_eyre::Result<ExitCode> {
    color_eyre::install()?;
    let (mut out, mut err, mut input) = (io::stdout(), io::stderr(), io::stdin());
    let mut context = Context::new((&mut out, &mut err, &mut input), &Real, Folders::of_platform()?);
    Ok(ExitCode::from(run_from(std::env::args_os(), &mut context)))
}

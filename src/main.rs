//! The `benchwalk` program: everything is in the library.

use benchwalk::clock::Real;
use benchwalk::commands::{Context, Folders, ProgressLine, edge, run_from};
use std::io;
use std::process::ExitCode;
use std::rc::Rc;

fn main() -> color_eyre::Result<ExitCode> {
    edge::install()?;
    let (mut out, mut err, mut input) = (io::stdout(), io::stderr(), io::stdin());
    let code = match Folders::of_platform() {
        Ok(folders) => {
            let mut context = Context::new((&mut out, &mut err, &mut input), &Real, folders);
            context.line = Rc::new(ProgressLine::of_terminal());
            run_from(std::env::args_os(), &mut context)
        }
        Err(error) => edge::report(error, &mut err),
    };
    Ok(ExitCode::from(code))
}

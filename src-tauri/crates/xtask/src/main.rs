//! `cargo xtask …`: sets Provenohm up and runs it, tests it, proves what takes longer, measures it.

mod command;
mod debian;
mod display;
mod house;
mod licences;
mod mobile;
mod node;
mod pdf;
mod places;
mod prove;
mod run;
mod steps;
mod test;
mod trouble;

use std::process::ExitCode;

use trouble::Trouble;

const USAGE: &str = "name one of these
  cargo xtask run             set up what is missing, build, open the app with the invented demo job
  cargo xtask test            every check that must hold for each change
  cargo xtask prove [PART…]   the longer checks, all or by name; goes on where it stopped, with --again from the start; --long takes a night
  cargo xtask mobile-check    type-check the whole app for Android and iOS
  cargo xtask bench [PART…]   timed figures, each beside what it is compared with";

fn main() -> ExitCode {
    let words: Vec<String> = std::env::args().skip(1).collect();
    let words: Vec<&str> = words.iter().map(String::as_str).collect();
    let done = match words.as_slice() {
        ["run"] => run::run(),
        ["test"] => test::test(),
        ["prove", parts @ ..] => prove::prove(parts),
        ["mobile-check"] => mobile::check(),
        ["bench", parts @ ..] => run::bench(parts),
        _ => Err(Trouble::new("No such task.", USAGE)),
    };
    match done {
        Ok(()) => ExitCode::SUCCESS,
        Err(trouble) => {
            eprintln!("\n{trouble}");
            ExitCode::FAILURE
        }
    }
}

//! The front door: the headless report, or the window (`window.rs`).

mod command_line;

use std::process::ExitCode;

fn main() -> ExitCode {
    command_line::run()
}

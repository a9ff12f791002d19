//! The front door: opens the store, then the window or the headless report.

mod command_line;

use std::process::ExitCode;

fn main() -> ExitCode {
    command_line::run()
}

//! The `baybook` command: everything it does is in the library.

use std::process::ExitCode;

fn main() -> ExitCode {
    ExitCode::from(baybook::cli::run(std::env::args_os()) as u8)
}

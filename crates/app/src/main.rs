//! The binary: hands the command line to its command and turns the answer into output and exit code.

mod cli;
mod failure;
mod web;
mod world;

use std::process::ExitCode;

fn main() -> ExitCode {
    cli::main()
}

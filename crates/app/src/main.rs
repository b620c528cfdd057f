//! The binary: hands the command line to its command and turns the answer into output and exit code.

mod cli;
mod failure;
mod web;
mod world;

use std::process::ExitCode;

/// The typesetter makes and drops millions of small things on two threads; this allocator takes less
/// of the time for it than the system's (`docs/performance.md`).
#[global_allocator]
static ALLOCATOR: mimalloc::MiMalloc = mimalloc::MiMalloc;

fn main() -> ExitCode {
    cli::main()
}

//! Ctrl-C as a wish to hear what is known so far; a second one ends the program as always.

use std::io::Write;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};

/// Whether somebody wants to stop.
#[derive(Clone, Default)]
pub struct Stop(Arc<AtomicBool>);

impl Stop {
    /// Listens for Ctrl-C from now on. Where nobody can listen, Ctrl-C ends the program as always.
    pub fn listen() -> Self {
        let stop = Self::default();
        let heard = stop.clone();
        std::thread::spawn(move || {
            let runtime = tokio::runtime::Builder::new_current_thread()
                .enable_all()
                .build();
            let Ok(runtime) = runtime else { return };
            runtime.block_on(async {
                if tokio::signal::ctrl_c().await.is_ok() {
                    heard.0.store(true, Ordering::Relaxed);
                    let told =
                        b"\rStopping: what is known so far follows. Ctrl-C again ends at once.\n";
                    let _ = std::io::stderr().write_all(told);
                }
                if tokio::signal::ctrl_c().await.is_ok() {
                    std::process::exit(130);
                }
            });
        });
        stop
    }

    /// Somebody wants to stop.
    pub fn want(&self) {
        self.0.store(true, Ordering::Relaxed);
    }

    /// Whether somebody wants to stop.
    pub fn wanted(&self) -> bool {
        self.0.load(Ordering::Relaxed)
    }
}

//! The notebook as pages for a browser on this machine: plain forms and links; scripts only add
//! figures that follow.

mod bench;
mod contents;
mod desk;
mod digest;
mod drawing;
mod explain;
mod guard;
mod in_hand;
mod laid_out;
mod logged;
mod pasted;
mod recipe;
mod refusal;
mod router;
mod script;
mod share;
mod shell;
#[cfg(test)]
pub mod tests;
mod under_way;

use crate::failure::Failure;
use crate::world::clock;
use crate::world::log::Log;
use crate::world::notebook::Notebook;
use desk::Desk;
use share::Pairing;
use std::net::{IpAddr, Ipv4Addr, SocketAddr};
use std::path::Path;
use std::time::{Duration, Instant};
use tokio::net::TcpListener;

/// Threads that answer; they only hand work on.
const ANSWERING: usize = 2;
/// Threads that work recipes out and set pages.
const WORKING: usize = 4;
/// Whoever still reads when the program is told to stop has so long to finish.
const LAST_WORDS: Duration = Duration::from_secs(2);

/// Where the pages are.
pub struct Served {
    port: u16,
    shared: Option<IpAddr>,
}

impl Served {
    /// The address of the first page.
    pub fn address(&self) -> String {
        format!("http://127.0.0.1:{}/", self.port)
    }

    /// The address under which devices of the same network find it, when it is shared.
    pub fn shared(&self) -> Option<String> {
        self.shared
            .map(|own| format!("http://{own}:{}/", self.port))
    }
}

/// Serves a notebook until Ctrl-C; port 0 stands for any free one. `said` is called as soon as pages can be
/// asked for. On this machine alone, or with `share` in its network too, to devices that show the code which
/// `share` tells.
pub fn serve(
    notebook: Notebook,
    port: u16,
    share: Option<fn(&str)>,
    said: impl FnOnce(&Served),
) -> Result<(), Failure> {
    let own = match share {
        Some(_) => Some(share::own_address().ok_or_else(|| {
            Failure::Usage(
                "this machine is in no network, so nothing can be shared; leave --share out"
                    .to_owned(),
            )
        })?),
        None => None,
    };
    let bug = |error: std::io::Error| Failure::Bug(error.to_string());
    let runtime = tokio::runtime::Builder::new_multi_thread()
        .worker_threads(ANSWERING)
        .max_blocking_threads(WORKING)
        .enable_io()
        .enable_time()
        .build()
        .map_err(bug)?;
    let outcome = runtime.block_on(async {
        let from = if own.is_some() {
            Ipv4Addr::UNSPECIFIED
        } else {
            Ipv4Addr::LOCALHOST
        };
        let wished = SocketAddr::from((from, port));
        let listener = TcpListener::bind(wished).await.map_err(|error| {
            let place = wished.to_string();
            let fault = Failure::world("listen on", Path::new(&place), &error);
            match (fault, error.kind()) {
                (
                    Failure::World {
                        doing, path, said, ..
                    },
                    std::io::ErrorKind::AddrInUse | std::io::ErrorKind::PermissionDenied,
                ) => Failure::World {
                    doing,
                    path,
                    said,
                    hint: Some("Choose another port, or leave --port out.".to_owned()),
                },
                (fault, _) => fault,
            }
        })?;
        let port = listener.local_addr().map_err(bug)?.port();
        let told = async {
            // Without Ctrl-C to wait for, it is served until the process ends.
            if tokio::signal::ctrl_c().await.is_err() {
                std::future::pending::<()>().await;
            }
        };
        let (stop, stopping) = tokio::sync::oneshot::channel::<()>();
        let mut desk = Desk::new(notebook, port);
        if let (Some(own), Some(tell)) = (own, share) {
            desk.hosts.push(format!("{own}:{port}"));
            desk.pairing = Some(Pairing::begin(Instant::now(), tell));
        }
        desk.begin(clock::moment());
        said(&Served { port, shared: own });
        let log = Log::of(desk.notebook.folder());
        log.note(concat!("began ", env!("CARGO_PKG_VERSION")));
        log.note_faults();
        let ended = log.clone();
        let logged = axum::middleware::from_fn_with_state(log, logged::logged);
        let app = router::router(desk)
            .layer(logged)
            .into_make_service_with_connect_info::<SocketAddr>();
        let serving = axum::serve(listener, app).with_graceful_shutdown(async {
            let _ = stopping.await;
        });
        let serving = tokio::spawn(serving.into_future());
        told.await;
        ended.note("ended");
        let _ = stop.send(());
        match tokio::time::timeout(LAST_WORDS, serving).await {
            Ok(Ok(Err(error))) => Err(bug(error)),
            _ => Ok(()),
        }
    });
    runtime.shutdown_timeout(LAST_WORDS);
    outcome
}

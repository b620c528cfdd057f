//! What every page works from: the notebook, the names it may be asked under, and one lock for saving.

use super::bench::Shelf;
use super::in_hand::InHand;
use super::laid_out::LaidOut;
use super::refusal::{Answer, Refusal};
use super::share::Pairing;
use crate::failure::Failure;
use crate::world::clock;
use crate::world::notebook::{Kept, Name, Notebook};
use crate::world::record::revisions::{How, Sent};
use crate::world::record::{Record, Standing};
use crate::world::steady::Steady;
use jiff::Timestamp;
use press::address::relative;
use recipe::import::{Imported, LineKind};
use recipe::larder::Larder;
use recipe::measure::Market;
use serde::Deserialize;
use std::collections::BTreeMap;
use std::sync::atomic::{AtomicU64, Ordering};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};
use std::time::Duration;

/// A request that is not here whole by then is not waited for.
const PATIENCE: Duration = Duration::from_mins(1);

/// Reads a pasted text; the lines that the cook has named are what he says they are.
pub type Importer = fn(&str, &BTreeMap<usize, LineKind>, &Larder) -> Imported;

/// The state of the server.
pub struct Desk {
    /// The texts.
    pub notebook: Notebook,
    /// What happened to them, and at the bench.
    pub record: Record,
    /// What the bench keeps besides.
    pub bench: Shelf,
    /// Who may come in over the network; none when only this machine may.
    pub pairing: Option<Pairing>,
    /// The hosts under which pages may be asked for, in small letters.
    pub hosts: Vec<String>,
    /// The reader of pasted texts.
    pub importer: Importer,
    /// Recipes laid out ready.
    pub laid_out: LaidOut,
    /// Long work.
    pub in_hand: Arc<InHand>,
    /// How long a request may take until all of it is here.
    pub patience: Duration,
    saving: Mutex<()>,
    windows: AtomicU64,
}

/// From where a text comes that is saved.
#[derive(Clone, Debug)]
pub struct By {
    /// How it came to be.
    pub how: How,
    /// The open page that sent it.
    pub window: Option<String>,
    /// The version that it brings back.
    pub from: Option<i64>,
}

impl By {
    /// Made by the program at the cook's word.
    pub const fn made() -> Self {
        Self {
            how: How::Made,
            window: None,
            from: None,
        }
    }
}

impl Desk {
    /// A desk for a notebook whose pages are served at a port.
    pub fn new(notebook: Notebook, port: u16) -> Self {
        let mut hosts = vec![format!("127.0.0.1:{port}"), format!("localhost:{port}")];
        if port == 80 {
            hosts.extend(["127.0.0.1".to_owned(), "localhost".to_owned()]);
        }
        Self {
            record: Record::open(notebook.folder()),
            notebook,
            bench: Shelf::new(Steady::begin()),
            pairing: None,
            hosts,
            importer: recipe::import::import_with,
            laid_out: LaidOut::default(),
            in_hand: Arc::new(InHand::default()),
            patience: PATIENCE,
            saving: Mutex::new(()),
            windows: AtomicU64::new(0),
        }
    }

    /// Before the first page: what a stop left half done is cleared away, and what happened in the folder
    /// while no program looked is told to the record. Where none can be kept, pages say so themselves.
    pub fn begin(&self, at: Timestamp) {
        self.notebook.sweep();
        let _ = self.record.reconcile(&self.notebook, at);
    }

    /// A number for a page that is opened, to tell it from others.
    pub fn window(&self) -> String {
        (self.windows.fetch_add(1, Ordering::Relaxed) + 1).to_string()
    }

    /// Writes a text that has a history. It is in the record before it is in its file, so that a
    /// stop between the two loses no word. To be called while [`Self::saving`] is held. Gives the
    /// version's number; none when no record can be kept, and the file alone was written.
    pub fn save(
        &self,
        kept: Kept,
        name: &Name,
        bytes: &[u8],
        by: &By,
    ) -> Result<Option<i64>, Failure> {
        let file = kept.file(name);
        let at = clock::moment();
        let there = self.notebook.read(kept, name)?;
        let sent = Sent {
            file: &file,
            bytes,
            how: by.how,
            window: by.window.as_deref(),
            from: by.from,
            at,
        };
        let known = self
            .record
            .reconcile_file(&file, there.as_deref(), at)
            .and_then(|_| {
                if there.as_deref() == Some(bytes) {
                    return self.record.last_revision(&file);
                }
                self.record.announce_revision(&sent).map(|_| None)
            });
        if let Ok(Some(last)) = &known {
            return Ok(Some(last.number));
        }
        self.notebook.write(kept, name, bytes)?;
        Ok(known
            .and_then(|_| self.record.reconcile_file(&file, Some(bytes), at))
            .and_then(|_| self.record.last_revision(&file))
            .ok()
            .flatten()
            .map(|last| last.number))
    }

    /// Tells the record what a file holds this moment. Where none can be kept, pages say so
    /// themselves.
    pub fn look(&self, file: &str, bytes: Option<&[u8]>) {
        let _ = self.record.reconcile_file(file, bytes, clock::moment());
    }

    /// Why nothing is kept of what happens, as a sentence; none when it is kept.
    pub fn nothing_kept(&self) -> Option<String> {
        match self.record.standing() {
            Standing::Kept => None,
            Standing::NothingKept(why) => Some(format!(
                "Nothing of what happens here is kept: {}. Recipes can be read as always.",
                why.lines().next().unwrap_or_default()
            )),
        }
    }

    /// To be held from looking at a file until it is written: two tabs do not write over each other.
    pub fn saving(&self) -> MutexGuard<'_, ()> {
        self.saving.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// Bytes of a text that an address names.
    pub fn text(&self, kept: Kept, name: &str) -> Result<(Name, Vec<u8>), Refusal> {
        let gone = || Refusal::not_found("There is no text of that name in the notebook.");
        let name = Name::of(name).ok_or_else(gone)?;
        let bytes = self.notebook.read(kept, &name)?.ok_or_else(gone)?;
        Ok((name, bytes))
    }
}

/// Works out an answer away from the threads that take requests.
pub async fn aside<F>(desk: Arc<Desk>, make: F) -> Answer
where
    F: FnOnce(&Desk) -> Answer + Send + 'static,
{
    match tokio::task::spawn_blocking(move || make(&desk)).await {
        Ok(answer) => answer,
        Err(error) => Err(Refusal::bug(&error.to_string())),
    }
}

/// What the address asks for besides the text itself.
#[derive(Clone, Debug, Default, Deserialize)]
pub struct Asked {
    /// Name of a kitchen in the notebook.
    pub kitchen: Option<String>,
    /// Tag of the readers' English: en-GB.
    pub readers: Option<String>,
    /// What the last form did.
    pub said: Option<String>,
    /// The name of another text that is spoken of.
    pub other: Option<String>,
    /// The open page that sent the last form.
    pub window: Option<String>,
    /// Words to look for.
    pub find: Option<String>,
    /// The line to be written anew.
    pub line: Option<usize>,
}

impl Asked {
    /// The kitchen, when one is asked for and it can be a name.
    pub fn kitchen(&self) -> Option<Name> {
        self.kitchen.as_deref().and_then(Name::of)
    }

    /// For whose readers, when that is asked for.
    pub fn readers(&self) -> Option<Market> {
        self.readers.as_deref().and_then(Market::of_tag)
    }

    /// The same, where a form chose kitchen or readers in a field of its own.
    #[must_use]
    pub fn chosen(mut self, fields: &BTreeMap<String, String>) -> Self {
        let field = |name: &str| fields.get(name).map(|value| value.trim().to_owned());
        self.kitchen = field("kitchen").or(self.kitchen);
        self.readers = field("readers").or(self.readers);
        self
    }

    /// The part of it that stays while walking from page to page, as the end of an address.
    pub fn carried(&self) -> String {
        let kitchen = self.kitchen().map(|kitchen| relative(kitchen.text()));
        let parts = [
            kitchen.map(|kitchen| format!("kitchen={kitchen}")),
            self.readers()
                .map(|market| format!("readers={}", market.tag())),
        ];
        let parts: Vec<String> = parts.into_iter().flatten().collect();
        if parts.is_empty() {
            String::new()
        } else {
            format!("?{}", parts.join("&"))
        }
    }

    /// The same with one thing more to say.
    pub fn carried_and(&self, more: &str) -> String {
        let carried = self.carried();
        let join = if carried.is_empty() { '?' } else { '&' };
        format!("{carried}{join}{more}")
    }
}

/// A value as it stands in the query of an address (RFC 3986, 2.1).
pub fn in_query(value: &str) -> String {
    let mut out = String::new();
    for byte in value.bytes() {
        if byte.is_ascii_alphanumeric() || b"-._~".contains(&byte) {
            out.push(char::from(byte));
        } else {
            out += &format!("%{byte:02X}");
        }
    }
    out
}

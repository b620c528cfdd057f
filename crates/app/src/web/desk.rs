//! What every page works from: the notebook, the names it may be asked under, and one lock for saving.

use super::bench::Shelf;
use super::in_hand::InHand;
use super::laid_out::LaidOut;
use super::refusal::{Answer, Refusal};
use super::share::Pairing;
use crate::world::notebook::{Kept, Name, Notebook};
use crate::world::record::Record;
use crate::world::steady::Steady;
use press::address::relative;
use recipe::import::{Imported, LineKind};
use recipe::larder::Larder;
use recipe::measure::Market;
use serde::Deserialize;
use std::collections::BTreeMap;
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

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
    saving: Mutex<()>,
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
            saving: Mutex::new(()),
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

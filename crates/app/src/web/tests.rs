//! The pages asked for without a network: who may ask, what is kept, what a page says.

use super::desk::Desk;
use super::router::router;
use crate::world::notebook::Notebook;
use axum::Router;
use axum::body::{Body, to_bytes};
use axum::http::{HeaderMap, Request, StatusCode, header};
use recipe::import::{Imported, Line, LineKind, Mark};
use recipe::larder::Larder;
use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};
use tower::ServiceExt;

mod benching;
mod filling;
mod filming;
mod guarding;
mod in_hand;
mod pasting;
mod sharing;
mod starting;
mod trying;
mod writing;

/// The host under which the pages of these tests are asked for.
const HOST: &str = "127.0.0.1:4700";

/// So long a test waits for a request that never comes whole.
const PATIENCE: std::time::Duration = std::time::Duration::from_millis(400);

/// A fresh folder for one test.
pub fn folder(name: &str) -> PathBuf {
    let path = std::env::temp_dir().join(format!("everyoven-web-{name}-{}", std::process::id()));
    let _ = fs::remove_dir_all(&path);
    fs::create_dir_all(&path).expect("a folder for the test");
    path
}

/// A notebook with its pages.
struct Served {
    folder: PathBuf,
    app: Router,
}

/// An answer.
struct Told {
    status: StatusCode,
    headers: HeaderMap,
    bytes: Vec<u8>,
}

impl Told {
    fn text(&self) -> String {
        String::from_utf8_lossy(&self.bytes).into_owned()
    }

    fn to(&self) -> &str {
        assert_eq!(self.status, StatusCode::SEE_OTHER, "{}", self.text());
        self.header("location")
    }

    fn header(&self, name: &str) -> &str {
        let value = self
            .headers
            .get(name)
            .unwrap_or_else(|| panic!("no {name}"));
        value.to_str().expect("ASCII")
    }

    fn says(&self, words: &str) {
        assert!(
            self.text().contains(words),
            "no {words:?} in {}",
            self.text()
        );
    }
}

impl Served {
    fn new(name: &str) -> Self {
        let folder = folder(name).join("notebook");
        let mut desk = Desk::new(Notebook::at(folder.clone()), 4700);
        desk.importer = fake;
        desk.patience = PATIENCE;
        Self {
            folder,
            app: router(desk),
        }
    }

    /// With the built-in recipe in it.
    fn with_demo(name: &str) -> Self {
        let served = Self::new(name);
        let told = served.post("/demo", "");
        assert_eq!(told.to(), "/recipe/same-day-loaf?kitchen=studio&said=demo");
        served
    }

    fn ask(&self, request: Request<Body>) -> Told {
        let runtime = tokio::runtime::Builder::new_current_thread()
            .enable_time()
            .build()
            .expect("a runtime");
        runtime.block_on(async {
            let answer = self.app.clone().oneshot(request).await.expect("an answer");
            let (parts, body) = answer.into_parts();
            Told {
                status: parts.status,
                headers: parts.headers,
                bytes: to_bytes(body, usize::MAX).await.expect("a body").to_vec(),
            }
        })
    }

    fn get(&self, path: &str) -> Told {
        let request = Request::get(path).header(header::HOST, HOST);
        self.ask(request.body(Body::empty()).expect("a request"))
    }

    fn post(&self, path: &str, form: &str) -> Told {
        let request = Request::post(path)
            .header(header::HOST, HOST)
            .header(header::CONTENT_TYPE, "application/x-www-form-urlencoded")
            .body(Body::from(form.to_owned()));
        self.ask(request.expect("a request"))
    }

    /// Pastes a text as the form of the contents does.
    fn paste(&self, text: &str) -> Told {
        self.paste_bytes(text.as_bytes())
    }

    fn paste_bytes(&self, text: &[u8]) -> Told {
        const EDGE: &str = "----edge";
        let mut body = format!("--{EDGE}\r\ncontent-disposition: form-data; name=\"text\"\r\n\r\n")
            .into_bytes();
        body.extend(text);
        body.extend(
            format!(
                "\r\n--{EDGE}\r\ncontent-disposition: form-data; name=\"file\"; filename=\"\"\r\n\
                 content-type: application/octet-stream\r\n\r\n\r\n--{EDGE}--\r\n"
            )
            .into_bytes(),
        );
        let request = Request::post("/paste")
            .header(header::HOST, HOST)
            .header(
                header::CONTENT_TYPE,
                format!("multipart/form-data; boundary={EDGE}"),
            )
            .header(header::CONTENT_LENGTH, body.len())
            .body(Body::from(body));
        self.ask(request.expect("a request"))
    }

    /// Sends a form with a text as a file, and other fields.
    fn send(&self, path: &str, fields: &[(&str, &str)]) -> Told {
        const EDGE: &str = "----edge";
        let mut body = String::new();
        for (name, value) in fields {
            body += &format!(
                "--{EDGE}\r\ncontent-disposition: form-data; name=\"{name}\"\r\n\r\n{value}\r\n"
            );
        }
        body += &format!("--{EDGE}--\r\n");
        let request = Request::post(path)
            .header(header::HOST, HOST)
            .header(
                header::CONTENT_TYPE,
                format!("multipart/form-data; boundary={EDGE}"),
            )
            .header(header::CONTENT_LENGTH, body.len())
            .body(Body::from(body));
        self.ask(request.expect("a request"))
    }

    /// Waits for a piece of long work that a form has begun, and gives the page that comes of it.
    fn over(&self, begun: &Told) -> Told {
        loop {
            let told = self.get(begun.to());
            if told.status == StatusCode::SEE_OTHER {
                return self.get(told.to());
            }
            if !told.text().contains("Cancel") {
                return told;
            }
            std::thread::yield_now();
        }
    }

    fn write(&self, file: &str, bytes: impl AsRef<[u8]>) {
        fs::create_dir_all(&self.folder).expect("a folder");
        fs::write(self.folder.join(file), bytes).expect("written");
    }

    fn read(&self, file: &str) -> String {
        fs::read_to_string(self.folder.join(file)).expect("a file")
    }
}

/// Words as a form sends them.
fn sent(words: &str) -> String {
    words
        .bytes()
        .map(|byte| match byte {
            b'a'..=b'z' | b'A'..=b'Z' | b'0'..=b'9' => char::from(byte).to_string(),
            _ => format!("%{byte:02X}"),
        })
        .collect()
}

/// An importer that knows three things: the first line is the title, lines with "g " put something
/// in, and what the cook has named is what he says.
fn fake(text: &str, kinds: &BTreeMap<usize, LineKind>, _larder: &Larder) -> Imported {
    let mut document = String::new();
    let mut lines = Vec::new();
    for (index, line) in text.lines().enumerate() {
        let number = index + 1;
        let looks = match line {
            "" => LineKind::Blank,
            _ if number == 1 => LineKind::Title,
            line if line.contains("g ") => LineKind::Ingredient,
            _ => LineKind::Other,
        };
        let kind = kinds.get(&number).copied().unwrap_or(looks);
        document += &format!("# {kind:?}: {line}\n");
        lines.push(Line {
            number,
            span: (0..0).into(),
            text: line.to_owned(),
            kind,
            mark: if kind == LineKind::Other {
                Mark::NotUnderstood
            } else {
                Mark::Understood
            },
            reason: (kind == LineKind::Other).then(|| "No amount stands here.".to_owned()),
            readings: Vec::new(),
        });
    }
    Imported {
        lines,
        document,
        assumed: Vec::new(),
        title: text.lines().next().map(str::to_owned),
        makes: None,
        heats: Vec::new(),
        times: Vec::new(),
        left_out: Vec::new(),
    }
}

/// Every file in a folder, without the notebook's record.
fn files(folder: &Path) -> Vec<String> {
    let mut names: Vec<String> = fs::read_dir(folder)
        .expect("a folder")
        .map(|entry| {
            entry
                .expect("an entry")
                .file_name()
                .to_string_lossy()
                .into_owned()
        })
        .collect();
    names.retain(|name| !name.starts_with("record.sqlite"));
    names.sort();
    names
}

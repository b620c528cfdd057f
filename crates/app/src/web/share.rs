//! A telephone in the kitchen: who comes over the network shows a code once, and is known by a cookie from then on.
//!
//! A code is good for one device, ten minutes and five tries; a wrong guess is right once in 200 000. Whoever
//! asks from this machine itself needs none.

use super::desk::Desk;
use super::shell::{Shell, page};
use crate::world::chance;
use axum::body::to_bytes;
use axum::extract::{ConnectInfo, Request};
use axum::http::{HeaderMap, HeaderValue, Method, StatusCode, header};
use axum::response::{IntoResponse, Redirect, Response};
use maud::html;
use sha2::{Digest, Sha256};
use std::net::SocketAddr;
use std::sync::{Mutex, PoisonError};
use std::time::{Duration, Instant};

/// How long a code is good.
pub const GOOD_FOR: Duration = Duration::from_mins(10);
/// So often a wrong code may be typed.
pub const TRIES: u32 = 5;
/// How long a device is known, s: a baking day.
const KNOWN_S: u32 = 12 * 60 * 60;
/// Name of the cookie.
const COOKIE: &str = "everyoven-paired";
/// Where the code is sent.
const PLACE: &str = "/pair";
/// What the page of the code itself needs.
const OPEN: [&str; 3] = ["/style.css", "/bench.css", "/icon.svg"];
/// The longest form that is looked at, in bytes.
const LONGEST: usize = 256;

/// Who may come in over the network.
pub struct Pairing {
    token: String,
    code: Mutex<Code>,
    tell: fn(&str),
}

struct Code {
    digits: Option<String>,
    until: Instant,
    tries: u32,
}

/// What came of a code.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Tried {
    /// It was right: the cookie to be known by.
    Paired(String),
    /// It was wrong, and so many tries are left.
    Wrong(u32),
    /// No code is good any more.
    Void,
}

impl Pairing {
    /// With a first code, which `tell` shows to whoever sits at this machine.
    pub fn begin(now: Instant, tell: fn(&str)) -> Self {
        let token = super::digest::base64(&chance::bytes());
        let digits = digits();
        tell(&digits);
        Self {
            token,
            code: Mutex::new(Code {
                digits: Some(digits),
                until: now + GOOD_FOR,
                tries: TRIES,
            }),
            tell,
        }
    }

    /// The code that is good now, for tests.
    #[cfg(test)]
    pub fn code(&self) -> Option<String> {
        let code = self.code.lock().unwrap_or_else(PoisonError::into_inner);
        code.digits.clone()
    }

    /// Tries a code. A right one is spent, and the next one is told for a further device.
    pub fn tried(&self, typed: &str, now: Instant) -> Tried {
        let typed: String = typed
            .chars()
            .filter(|letter| !letter.is_whitespace())
            .collect();
        let mut code = self.code.lock().unwrap_or_else(PoisonError::into_inner);
        if now >= code.until || code.tries == 0 {
            code.digits = None;
        }
        let Some(good) = &code.digits else {
            return Tried::Void;
        };
        if same(good, &typed) {
            let next = digits();
            (self.tell)(&next);
            *code = Code {
                digits: Some(next),
                until: now + GOOD_FOR,
                tries: TRIES,
            };
            return Tried::Paired(format!(
                "{COOKIE}={}; HttpOnly; SameSite=Strict; Path=/; Max-Age={KNOWN_S}",
                self.token
            ));
        }
        code.tries -= 1;
        if code.tries == 0 {
            code.digits = None;
            return Tried::Void;
        }
        Tried::Wrong(code.tries)
    }

    /// Whether a request carries the cookie.
    fn knows(&self, headers: &HeaderMap) -> bool {
        headers
            .get_all(header::COOKIE)
            .iter()
            .filter_map(|cookies| cookies.to_str().ok())
            .flat_map(|cookies| cookies.split(';'))
            .filter_map(|cookie| cookie.trim().strip_prefix(COOKIE)?.strip_prefix('='))
            .any(|token| same(&self.token, token))
    }
}

/// Six digits, each as likely as any other: remainders of a number of 64 bits are even to 1 in 10^13.
fn digits() -> String {
    let drawn = chance::bytes();
    let mut word = [0; 8];
    word.copy_from_slice(&drawn[..8]);
    format!("{:06}", u64::from_le_bytes(word) % 1_000_000)
}

/// Whether two words are the same, in a time that does not depend on where they differ: their digests are
/// compared to the end.
fn same(one: &str, other: &str) -> bool {
    let digests = [one, other].map(|word| Sha256::digest(word.as_bytes()));
    let differs = digests[0]
        .iter()
        .zip(&digests[1])
        .fold(0, |differs, (a, b)| differs | (a ^ b));
    std::hint::black_box(differs) == 0
}

/// Lets a request in, or answers it with the page of the code.
pub async fn gate(desk: &Desk, request: Request) -> Result<Request, Response> {
    let Some(pairing) = &desk.pairing else {
        return Ok(request);
    };
    let from = request.extensions().get::<ConnectInfo<SocketAddr>>();
    let here = from.is_some_and(|ConnectInfo(from)| from.ip().is_loopback());
    let path = request.uri().path().to_owned();
    let looks = request.method() == Method::GET && OPEN.contains(&path.as_str());
    if here || looks || pairing.knows(request.headers()) {
        return Ok(request);
    }
    if path != PLACE || request.method() != Method::POST {
        return Err(ask(StatusCode::UNAUTHORIZED, None));
    }
    let body = to_bytes(request.into_body(), LONGEST)
        .await
        .unwrap_or_default();
    let body = String::from_utf8_lossy(&body);
    let typed = body.split('&').find_map(|part| part.strip_prefix("code="));
    let typed = typed
        .unwrap_or_default()
        .replace(['+', ' '], "")
        .replace("%20", "");
    Err(match pairing.tried(&typed, Instant::now()) {
        Tried::Paired(cookie) => {
            let mut answer = Redirect::to("/").into_response();
            if let Ok(cookie) = HeaderValue::from_str(&cookie) {
                answer.headers_mut().insert(header::SET_COOKIE, cookie);
            }
            answer
        }
        tried @ (Tried::Wrong(_) | Tried::Void) => ask(StatusCode::FORBIDDEN, Some(&tried)),
    })
}

/// The page of the code.
fn ask(status: StatusCode, tried: Option<&Tried>) -> Response {
    let body = html! {
        h1 { "Pair this device" }
        @match tried {
            Some(Tried::Void) => {
                p.lead role="alert" { "No code is good any more: it was typed wrongly too often, or its ten minutes are over." }
                p { "End the program at the machine of the notebook and begin it again: it shows a new code." }
            }
            other => {
                @if let Some(Tried::Wrong(left)) = other {
                    p.lead role="alert" { "That is not the code. Tries left: " (left) "." }
                }
                form method="post" action=(PLACE) {
                    p { "The machine on which the notebook is open shows six digits." }
                    p {
                        label for="code" { "Code" }
                        input #code type="text" name="code" inputmode="numeric" autocomplete="one-time-code"
                            maxlength="9" required;
                    }
                    p { button type="submit" { "Pair" } }
                }
                p.lead { "What goes between this device and the notebook is not encrypted: do this in a network that you trust." }
            }
        }
    };
    (status, page(&Shell::titled("Pair this device"), &body)).into_response()
}

/// The address of this machine in its network; none when it is in none. Nothing is sent: a socket is asked
/// from where it would send to an address that is set aside for examples (RFC 5737).
pub fn own_address() -> Option<std::net::IpAddr> {
    let socket = std::net::UdpSocket::bind(("0.0.0.0", 0)).ok()?;
    socket.connect(("192.0.2.1", 9)).ok()?;
    let own = socket.local_addr().ok()?.ip();
    (!own.is_loopback() && !own.is_unspecified()).then_some(own)
}

#[cfg(test)]
mod tests {
    use super::{GOOD_FOR, Pairing, TRIES, Tried, same};
    use std::time::{Duration, Instant};

    fn wrong(pairing: &Pairing) -> String {
        let good = pairing.code().expect("a code");
        if good == "000000" {
            "000001".to_owned()
        } else {
            "000000".to_owned()
        }
    }

    #[test]
    fn a_code_is_good_once() {
        let now = Instant::now();
        let pairing = Pairing::begin(now, |_| {});
        let code = pairing.code().expect("a code");
        assert_eq!(code.len(), 6);
        assert!(code.bytes().all(|byte| byte.is_ascii_digit()));
        let spaced = format!(" {} {} ", &code[..3], &code[3..]);
        assert!(matches!(pairing.tried(&spaced, now), Tried::Paired(_)));
        assert_eq!(pairing.tried(&code, now), Tried::Wrong(TRIES - 1));
    }

    #[test]
    fn a_code_is_void_after_five_wrong_ones() {
        let now = Instant::now();
        let pairing = Pairing::begin(now, |_| {});
        let (good, wrong) = (pairing.code().expect("a code"), wrong(&pairing));
        for left in (1..TRIES).rev() {
            assert_eq!(pairing.tried(&wrong, now), Tried::Wrong(left));
        }
        assert_eq!(pairing.tried(&wrong, now), Tried::Void);
        assert_eq!(
            pairing.tried(&good, now),
            Tried::Void,
            "the right one comes too late"
        );
    }

    #[test]
    fn a_code_is_void_after_ten_minutes() {
        let now = Instant::now();
        let pairing = Pairing::begin(now, |_| {});
        let good = pairing.code().expect("a code");
        let late = now + GOOD_FOR;
        assert!(GOOD_FOR == Duration::from_mins(10));
        assert_eq!(pairing.tried(&good, late), Tried::Void);
        assert_eq!(pairing.tried(&good, now), Tried::Void, "and stays so");
    }

    #[test]
    fn words_are_the_same_to_their_end() {
        assert!(same("123456", "123456"));
        for other in ["", "12345", "123457", "1234567", "023456"] {
            assert!(!same("123456", other), "{other}");
        }
    }
}

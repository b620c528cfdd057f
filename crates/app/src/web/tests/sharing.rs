//! Over the network: nobody comes in without the code, under another host, or with somebody else's cookie.

use super::{Served, Told, fake, folder};
use crate::web::desk::Desk;
use crate::web::router::router;
use crate::web::share::{Pairing, TRIES};
use crate::world::notebook::Notebook;
use axum::body::Body;
use axum::extract::ConnectInfo;
use axum::http::{Request, StatusCode, header};
use std::net::SocketAddr;
use std::sync::{Mutex, PoisonError};
use std::time::Instant;

const OWN: &str = "192.168.7.5:4700";
const PHONE: &str = "192.168.7.20:50000";
const HERE: &str = "127.0.0.1:50000";

/// Codes as they would stand in the terminal; one test at a time looks at them.
static TOLD: Mutex<Vec<String>> = Mutex::new(Vec::new());
static ONE: Mutex<()> = Mutex::new(());

fn tell(code: &str) {
    TOLD.lock().expect("told").push(code.to_owned());
}

fn code() -> String {
    TOLD.lock().expect("told").last().expect("a code").clone()
}

fn shared(name: &str) -> Served {
    let folder = folder(name).join("notebook");
    let mut desk = Desk::new(Notebook::at(folder.clone()), 4700);
    desk.importer = fake;
    desk.hosts.push(OWN.to_owned());
    desk.pairing = Some(Pairing::begin(Instant::now(), tell));
    Served {
        folder,
        app: router(desk),
    }
}

fn ask(served: &Served, from: &str, path: &str, form: Option<&str>, more: &[(&str, &str)]) -> Told {
    let host = if from == HERE { "127.0.0.1:4700" } else { OWN };
    let host = more
        .iter()
        .find(|(name, _)| *name == "host")
        .map_or(host, |(_, host)| host);
    let mut request = Request::builder()
        .method(if form.is_some() { "POST" } else { "GET" })
        .uri(path)
        .header(header::HOST, host)
        .header(header::CONTENT_TYPE, "application/x-www-form-urlencoded");
    for (name, value) in more.iter().filter(|(name, _)| *name != "host") {
        request = request.header(*name, *value);
    }
    let body = Body::from(form.unwrap_or_default().to_owned());
    let mut request = request.body(body).expect("a request");
    let from: SocketAddr = from.parse().expect("an address");
    request.extensions_mut().insert(ConnectInfo(from));
    served.ask(request)
}

#[test]
fn nothing_is_answered_before_the_code_but_the_page_that_asks_for_it() {
    let _one = ONE.lock().unwrap_or_else(PoisonError::into_inner);
    let served = shared("share-shut");
    for path in [
        "/",
        "/recipe/same-day-loaf",
        "/recipe/same-day-loaf/bench",
        "/explain/x",
        "/nothing",
    ] {
        let told = ask(&served, PHONE, path, None, &[]);
        assert_eq!(told.status, StatusCode::UNAUTHORIZED, "{path}");
        told.says("Pair this device");
        told.says("not encrypted");
    }
    assert_eq!(
        ask(&served, PHONE, "/demo", Some(""), &[]).status,
        StatusCode::UNAUTHORIZED
    );
    assert!(!served.folder.exists(), "nothing was written");
    assert_eq!(
        ask(&served, PHONE, "/style.css", None, &[]).status,
        StatusCode::OK
    );
    // This machine itself needs none.
    assert_eq!(ask(&served, HERE, "/", None, &[]).status, StatusCode::OK);
    // Who does not say from where is not let in.
    let unknown = served.get("/");
    assert_eq!(unknown.status, StatusCode::UNAUTHORIZED);
}

#[test]
fn the_code_lets_one_device_in_by_a_cookie_that_scripts_cannot_read() {
    let _one = ONE.lock().unwrap_or_else(PoisonError::into_inner);
    let served = shared("share-in");
    let good = code();
    let told = ask(&served, PHONE, "/pair", Some(&format!("code={good}")), &[]);
    assert_eq!(told.to(), "/");
    let cookie = told.header("set-cookie").to_owned();
    for word in ["HttpOnly", "SameSite=Strict", "Path=/"] {
        assert!(cookie.split("; ").any(|part| part == word), "{cookie}");
    }
    let known = cookie.split(';').next().expect("a cookie");
    let told = ask(&served, PHONE, "/", None, &[("cookie", known)]);
    assert_eq!(told.status, StatusCode::OK);
    assert_eq!(told.header("referrer-policy"), "same-origin");
    // A form of its own page; one of another site.
    let own = ("origin", "http://192.168.7.5:4700");
    assert_eq!(
        ask(&served, PHONE, "/demo", Some(""), &[("cookie", known), own]).status,
        StatusCode::SEE_OTHER
    );
    let foreign = ("origin", "http://bread.example");
    assert_eq!(
        ask(
            &served,
            PHONE,
            "/demo",
            Some(""),
            &[("cookie", known), foreign]
        )
        .status,
        StatusCode::FORBIDDEN
    );
    // The code is spent; the next one was told.
    assert_ne!(code(), good);
    let again = ask(&served, PHONE, "/pair", Some(&format!("code={good}")), &[]);
    assert_eq!(again.status, StatusCode::FORBIDDEN);
    again.says("That is not the code");
    for cookie in [
        "everyoven-paired=",
        "everyoven-paired=0",
        "everyoven-paired",
        &known[..known.len() - 1],
    ] {
        let told = ask(&served, PHONE, "/", None, &[("cookie", cookie)]);
        assert_eq!(told.status, StatusCode::UNAUTHORIZED, "{cookie}");
    }
    // A name that points here is still none of our hosts.
    let told = ask(
        &served,
        PHONE,
        "/",
        None,
        &[("cookie", known), ("host", "bread.example")],
    );
    assert_eq!(told.status, StatusCode::MISDIRECTED_REQUEST);
}

#[test]
fn five_wrong_codes_shut_the_door() {
    let _one = ONE.lock().unwrap_or_else(PoisonError::into_inner);
    let served = shared("share-wrong");
    let good = code();
    let wrong = if good == "111111" { "222222" } else { "111111" };
    for _ in 0..TRIES {
        let told = ask(&served, PHONE, "/pair", Some(&format!("code={wrong}")), &[]);
        assert_eq!(told.status, StatusCode::FORBIDDEN);
    }
    let told = ask(&served, PHONE, "/pair", Some(&format!("code={good}")), &[]);
    assert_eq!(told.status, StatusCode::FORBIDDEN);
    told.says("No code is good any more");
    let long = format!("code={}", "1".repeat(5_000));
    assert_eq!(
        ask(&served, PHONE, "/pair", Some(&long), &[]).status,
        StatusCode::FORBIDDEN
    );
}

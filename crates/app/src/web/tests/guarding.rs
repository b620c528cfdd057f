//! Who may ask: hosts, origins, sizes, names; and the headers that every answer carries.

use super::{HOST, Served, sent};
use axum::body::Body;
use axum::http::{Request, StatusCode, header};
use futures_util::{StreamExt, stream};
use std::convert::Infallible;

fn from(path: &str, method: &str, headers: &[(&str, &str)]) -> Request<Body> {
    let mut request = Request::builder().method(method).uri(path);
    for (name, value) in headers {
        request = request.header(*name, *value);
    }
    request.body(Body::empty()).expect("a request")
}

#[test]
fn only_our_own_hosts_are_answered() {
    let served = Served::new("hosts");
    for host in [HOST, "localhost:4700", "LOCALHOST:4700"] {
        let told = served.ask(from("/", "GET", &[("host", host)]));
        assert_eq!(told.status, StatusCode::OK, "{host}");
    }
    for host in [
        "127.0.0.1",
        "127.0.0.1:4701",
        "bread.example",
        "bread.example:4700",
        "127.0.0.1:4700.bread.example",
        "",
    ] {
        let told = served.ask(from("/", "GET", &[("host", host)]));
        assert_eq!(told.status, StatusCode::MISDIRECTED_REQUEST, "{host}");
        assert!(!told.text().contains(&served.folder.display().to_string()));
    }
    let none = served.ask(from("/", "GET", &[]));
    assert_eq!(none.status, StatusCode::MISDIRECTED_REQUEST);
    let two = served.ask(from(
        "/",
        "GET",
        &[("host", HOST), ("host", "bread.example")],
    ));
    assert_eq!(two.status, StatusCode::MISDIRECTED_REQUEST);
    let absolute = served.ask(from("http://bread.example/", "GET", &[("host", HOST)]));
    assert_eq!(absolute.status, StatusCode::MISDIRECTED_REQUEST);
}

#[test]
fn a_form_of_another_site_changes_nothing() {
    let served = Served::new("origins");
    let foreign: [&[(&str, &str)]; 4] = [
        &[("host", HOST), ("origin", "http://bread.example")],
        &[("host", HOST), ("origin", "http://127.0.0.1:4701")],
        &[("host", HOST), ("origin", "null")],
        &[("host", HOST), ("sec-fetch-site", "cross-site")],
    ];
    for headers in foreign {
        let told = served.ask(from("/demo", "POST", headers));
        assert_eq!(told.status, StatusCode::FORBIDDEN, "{headers:?}");
        told.says("nothing was changed");
        assert!(!served.folder.exists(), "{headers:?}");
    }
    // What a browser sends from our own page, which asks it to send no referrer.
    let own = [
        ("host", HOST),
        ("origin", "null"),
        ("sec-fetch-site", "same-origin"),
    ];
    assert_eq!(
        served.ask(from("/demo", "POST", &own)).status,
        StatusCode::SEE_OTHER
    );
    let own = [("host", HOST), ("origin", "http://127.0.0.1:4700")];
    assert_eq!(
        served.ask(from("/demo", "POST", &own)).status,
        StatusCode::SEE_OTHER
    );
}

#[test]
fn what_is_too_large_is_refused_with_a_page() {
    let served = Served::new("large");
    let told = served.paste(&"flour ".repeat(200_000));
    assert_eq!(told.status, StatusCode::PAYLOAD_TOO_LARGE);
    told.says("larger than 1 MiB");
    // Without a length said beforehand.
    let request = Request::post("/recipe/large")
        .header(header::HOST, HOST)
        .header(header::CONTENT_TYPE, "application/x-www-form-urlencoded")
        .body(Body::from(format!("seen=&text={}", "a".repeat(1_100_000))));
    let told = served.ask(request.expect("a request"));
    assert_eq!(told.status, StatusCode::PAYLOAD_TOO_LARGE);
    assert!(!served.folder.exists());
}

#[test]
fn a_paste_of_a_hundred_megabytes_is_taken_in_and_refused_with_a_page() {
    let served = Served::with_demo("huge");
    let before = served.read("same-day-loaf.toml");
    // A piece at a time, so that the test itself holds little; with and without its length said.
    for says_length in [true, false] {
        let mut request = Request::post("/paste")
            .header(header::HOST, HOST)
            .header(header::CONTENT_TYPE, "multipart/form-data; boundary=x");
        if says_length {
            request = request.header(header::CONTENT_LENGTH, 100 * PIECE);
        }
        let told = served.ask(request.body(pieces(100, true)).expect("a request"));
        assert_eq!(told.status, StatusCode::PAYLOAD_TOO_LARGE);
        told.says("larger than 1 MiB");
    }
    assert_eq!(served.read("same-day-loaf.toml"), before);
    assert_eq!(
        super::files(&served.folder),
        ["kitchens", "same-day-loaf.toml"]
    );
}

#[test]
fn what_never_comes_whole_is_not_waited_for() {
    let served = Served::with_demo("slow");
    let before = served.read("same-day-loaf.toml");
    for (path, pieces) in [
        ("/paste", pieces(0, false)),
        ("/recipe/same-day-loaf", pieces(3, false)),
    ] {
        let request = Request::post(path)
            .header(header::HOST, HOST)
            .header(header::CONTENT_TYPE, "application/x-www-form-urlencoded")
            .body(pieces);
        let told = served.ask(request.expect("a request"));
        assert_eq!(told.status, StatusCode::REQUEST_TIMEOUT, "{path}");
        told.says("came too slowly");
    }
    assert_eq!(served.read("same-day-loaf.toml"), before);
}

#[test]
fn what_is_no_text_is_refused_with_a_page() {
    let served = Served::with_demo("no-text");
    let archive: &[u8] = b"PK\x03\x04\x14\x00\x00\x00\x08\x00 recipe.docx";
    let packed: &[u8] = b"\x1f\x8b\x08\x00\x00\x00\x00\x00";
    for bytes in [
        archive,
        packed,
        b"%PDF-1.7\n\x00\x01",
        b"B\x00r\x00e\x00a\x00d\x00",
    ] {
        let told = served.paste_bytes(bytes);
        assert_eq!(told.status, StatusCode::UNSUPPORTED_MEDIA_TYPE);
        told.says("no plain text");
    }
    assert_eq!(
        super::files(&served.folder),
        ["kitchens", "same-day-loaf.toml"]
    );
    // An archive where scenes, a talk or another text is asked for has a page too.
    for path in [
        "/recipe/same-day-loaf/words",
        "/recipe/same-day-loaf/filming",
    ] {
        let told = served.send(path, &[("text", "PK\u{3}\u{4}\u{14}\0\u{8}\0")]);
        let told = match told.status {
            StatusCode::SEE_OTHER => served.over(&told),
            _ => told,
        };
        assert!(!told.status.is_server_error(), "{path}: {}", told.status);
        told.says("<h1>");
    }
}

const PIECE: usize = 1024 * 1024;

/// A body of so many pieces of letters, which ends after them or never.
fn pieces(count: usize, ends: bool) -> Body {
    let size = if ends { PIECE } else { 9 };
    let pieces = stream::repeat_with(move || Ok::<_, Infallible>(vec![b'a'; size])).take(count);
    if ends {
        Body::from_stream(pieces)
    } else {
        Body::from_stream(pieces.chain(stream::pending()))
    }
}

#[test]
fn names_lead_nowhere_but_into_the_notebook() {
    let served = Served::with_demo("names");
    std::fs::write(served.folder.with_file_name("secret.toml"), "secret = 1").expect("written");
    let names = [
        "..%2Fsecret",
        "%2e%2e%2fsecret",
        "..%5Csecret",
        "%00",
        ".hidden",
        "a%2Fb",
        "%2Fetc%2Fpasswd",
    ];
    for name in names {
        for below in ["", "/formula", "/papers", "/page/", "/file/recipe.toml"] {
            let told = served.get(&format!("/recipe/{name}{below}"));
            assert_eq!(told.status, StatusCode::NOT_FOUND, "{name}{below}");
            assert!(!told.text().contains("secret ="));
        }
        let told = served.post(&format!("/recipe/{name}"), "text=x&seen=");
        assert_eq!(told.status, StatusCode::NOT_FOUND, "{name}");
        assert_eq!(
            served.get(&format!("/pasted/{name}")).status,
            StatusCode::NOT_FOUND
        );
        let kitchen = served.get(&format!("/recipe/same-day-loaf?kitchen={name}"));
        assert_eq!(kitchen.status, StatusCode::NOT_FOUND, "{name}");
    }
    for file in ["..%2F..%2Fsecret.toml", "same-day-loaf.toml", "nothing.pdf"] {
        for place in ["page", "file"] {
            let told = served.get(&format!("/recipe/same-day-loaf/{place}/{file}"));
            assert_eq!(told.status, StatusCode::NOT_FOUND, "{place}/{file}");
        }
    }
    let beside = std::fs::read_to_string(served.folder.with_file_name("secret.toml"));
    assert_eq!(beside.expect("untouched"), "secret = 1");
}

#[test]
fn every_answer_carries_its_headers() {
    let served = Served::with_demo("headers");
    let paths = [
        "/",
        "/recipe/same-day-loaf",
        "/style.css",
        "/icon.svg",
        "/nothing",
    ];
    for path in paths {
        let told = served.get(path);
        assert_eq!(told.header("x-content-type-options"), "nosniff", "{path}");
        assert_eq!(told.header("referrer-policy"), "no-referrer", "{path}");
        let policy = told.header("content-security-policy");
        for word in [
            "default-src 'none'",
            "style-src 'self'",
            "script-src 'self'",
            "connect-src 'self'",
            "img-src 'self'",
            "form-action 'self'",
            "base-uri 'none'",
            "frame-ancestors 'none'",
        ] {
            assert!(
                policy.split("; ").any(|part| part == word),
                "{path}: {word}"
            );
        }
        assert!(!policy.contains("unsafe"), "{path}");
    }
}

#[test]
fn the_published_page_may_use_its_own_style_and_no_other() {
    let served = Served::with_demo("preview");
    let told = served.get("/recipe/same-day-loaf/page/?kitchen=studio");
    assert_eq!(told.status, StatusCode::OK);
    let page = told.text();
    let style = page
        .split("<style>")
        .nth(1)
        .and_then(|rest| rest.split("</style>").next());
    let hash = crate::web::digest::base64(style.expect("a style").as_bytes());
    let policy = told.header("content-security-policy");
    assert!(
        policy.contains(&format!("style-src 'sha256-{hash}'")),
        "{policy}"
    );
    assert!(policy.starts_with("default-src 'none'"), "{policy}");
}

#[test]
fn no_page_runs_anything() {
    let served = Served::with_demo("scripts");
    served.write(
        "bad.toml",
        "everyoven = 1\ntitle = \"<script>alert(1)</script>\"\nkind = \"soft\"\n",
    );
    let told = served.paste("<script>alert(1)</script>\n1 g \"><img src=x>");
    let pasted = told.to().to_owned();
    let said = sent("<script>");
    for path in [
        "/",
        "/recipe/bad",
        "/recipe/bad/findings",
        "/recipe/bad/formula",
        "/recipe/bad/text",
        &pasted,
        &format!("/recipe/bad?said=beside&other={said}"),
        &format!("/explain/{said}"),
    ] {
        // Our own scripts are files of their own; nothing runs that stands in a page.
        let text = served.get(path).text();
        let text = text.replace("<script type=\"module\" src=\"/script/", "");
        assert!(
            !text.contains("<script") && !text.contains("<img"),
            "{path}: {text}"
        );
    }
}

//! Breaks the wall once a line: `bars: world` marks what only `app` may do, `bars: bits` what nobody may.

use std::path::Path;

pub fn disk(path: &Path) -> usize {
    let text = std::fs::read_to_string(path); // bars: world std::fs::read_to_string
    let bytes = std::fs::read(path); // bars: world std::fs::read
    let there = path.exists(); // bars: world std::path::Path::exists
    let opened: Option<std::fs::File> = None; // bars: world std::fs::File
    usize::from(text.is_ok() | bytes.is_ok() | there | opened.is_some())
}

pub fn surroundings() -> bool {
    let name = std::env::var("NAME"); // bars: world std::env::var
    let here = std::env::current_dir(); // bars: world std::env::current_dir
    let peer: Option<std::net::TcpStream> = None; // bars: world std::net::TcpStream
    let other: Option<std::process::Command> = None; // bars: world std::process::Command
    name.is_ok() | here.is_ok() | peer.is_some() | other.is_some()
}

pub fn clock() -> bool {
    let started: Option<std::time::Instant> = None; // bars: world std::time::Instant
    let today: Option<std::time::SystemTime> = None; // bars: world std::time::SystemTime
    started.is_some() | today.is_some()
}

pub fn threads() {
    std::thread::sleep(std::time::Duration::ZERO); // bars: world std::thread::sleep
    std::thread::scope(|_| {}); // bars: world std::thread::scope
}

pub fn terminal() {
    println!("dough"); // bars: world std::println
    eprintln!("dough"); // bars: world std::eprintln
    let _screen = std::io::stdout(); // bars: world std::io::stdout
}

pub fn end() -> ! {
    std::process::exit(1) // bars: world std::process::exit
}

pub fn order() -> usize {
    let larder: Option<std::collections::HashMap<u8, u8>> = None; // bars: bits std::collections::HashMap
    let names: Option<std::collections::HashSet<u8>> = None; // bars: bits std::collections::HashSet
    usize::from(larder.is_some() | names.is_some())
}

pub fn bits(x: f64, y: f32) -> f64 {
    let grown = x.exp(); // bars: bits f64::exp
    let slowed = x.ln(); // bars: bits f64::ln
    let raised = x.powf(1.5); // bars: bits f64::powf
    let wave = x.sin(); // bars: bits f64::sin
    let fused = x.mul_add(2.0, 1.0); // bars: bits f64::mul_add
    let single = y.exp(); // bars: bits f32::exp
    let root = x.sqrt();
    let whole = x.floor().abs();
    grown + slowed + raised + wave + fused + f64::from(single) + root + whole
}

//! The system's browser, asked to show an address.

use std::process::{Command, Stdio};

/// Asks the system to show an address. When it cannot, nothing is said: the address is printed.
pub fn open(address: &str) {
    let mut command = if cfg!(target_os = "macos") {
        Command::new("open")
    } else if cfg!(windows) {
        let mut command = Command::new("cmd");
        command.args(["/C", "start", ""]);
        command
    } else {
        Command::new("xdg-open")
    };
    let started = command
        .arg(address)
        .stdin(Stdio::null())
        .stdout(Stdio::null())
        .stderr(Stdio::null())
        .spawn();
    if let Ok(mut child) = started {
        std::thread::spawn(move || child.wait());
    }
}

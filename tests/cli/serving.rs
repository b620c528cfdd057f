//! The served notebook from outside: its address, its end, and what it does when the world is against it.

use crate::running::{everyoven, folder, program, root};
use std::io::{BufRead, BufReader, Read, Write};
use std::net::TcpStream;
use std::process::{Child, ChildStdout, Command, Output, Stdio};

struct Served {
    program: Child,
    out: BufReader<ChildStdout>,
    address: String,
}

impl Served {
    fn new(mut command: Command) -> Self {
        let mut program = command
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .expect("everyoven starts");
        let mut out = BufReader::new(program.stdout.take().expect("its output"));
        let mut address = String::new();
        out.read_line(&mut address).expect("a line");
        Self {
            program,
            out,
            address: address.trim().to_owned(),
        }
    }

    fn host(&self) -> &str {
        let host = self.address.strip_prefix("http://").expect("an address");
        host.trim_end_matches('/')
    }

    /// Asks for the first page over the network.
    fn page(&self) -> String {
        let mut stream = TcpStream::connect(self.host()).expect("somebody listens");
        let host = self.host();
        write!(
            stream,
            "GET / HTTP/1.1\r\nhost: {host}\r\nconnection: close\r\n\r\n"
        )
        .expect("asked");
        let mut text = String::new();
        stream.read_to_string(&mut text).expect("answered");
        text
    }

    /// Ctrl-C, as the terminal sends it to this one process.
    fn interrupted(mut self) -> Output {
        let sent = Command::new("kill")
            .args(["-INT", &self.program.id().to_string()])
            .status()
            .expect("kill starts");
        assert!(sent.success());
        let mut rest = String::new();
        self.out.read_to_string(&mut rest).expect("its end");
        assert_eq!(rest, "", "the address is all that stdout is for");
        self.program.wait_with_output().expect("it ends")
    }
}

#[test]
fn it_says_its_address_answers_and_ends_at_ctrl_c() {
    let notebook = folder("address").join("notebook");
    let mut command = everyoven();
    command.arg("serve").arg(&notebook);
    let served = Served::new(command);
    assert!(
        served.address.starts_with("http://127.0.0.1:"),
        "{}",
        served.address
    );
    let page = served.page();
    assert!(page.starts_with("HTTP/1.1 200 OK"), "{page}");
    assert!(page.contains("Nothing is in it yet"));
    // An open connection does not keep it.
    let _idle = TcpStream::connect(served.host()).expect("somebody listens");
    let out = served.interrupted();
    assert_eq!(
        out.status.code(),
        Some(0),
        "{}",
        String::from_utf8_lossy(&out.stderr)
    );
    assert!(!notebook.exists(), "looking makes no folder");
}

#[test]
fn its_name_alone_serves_the_notebook_in_the_home_folder() {
    let home = folder("home");
    let mut command = everyoven();
    command.env("HOME", &home);
    let served = Served::new(command);
    assert!(served.page().contains("everyoven-notebook"));
    let out = served.interrupted();
    let said = String::from_utf8_lossy(&out.stderr).into_owned();
    assert!(
        said.contains(&home.join("everyoven-notebook").display().to_string()),
        "{said}"
    );
    assert_eq!(std::fs::read_dir(&home).expect("a folder").count(), 0);
}

#[test]
fn a_port_that_is_taken_and_a_notebook_that_is_a_file_are_said() {
    let folder = folder("against");
    let mut command = everyoven();
    command.arg("serve").arg(&folder);
    let served = Served::new(command);
    let port = served
        .address
        .trim_end_matches('/')
        .rsplit(':')
        .next()
        .expect("a port")
        .to_owned();
    let second = everyoven()
        .arg("serve")
        .arg(&folder)
        .args(["--port", &port])
        .output()
        .expect("it starts");
    assert_eq!(second.status.code(), Some(3));
    let said = String::from_utf8_lossy(&second.stderr).into_owned();
    assert!(
        said.contains(&format!("cannot listen on 127.0.0.1:{port}")),
        "{said}"
    );
    assert!(said.contains("Choose another port"), "{said}");
    served.interrupted();

    let file = folder.join("a-file");
    std::fs::write(&file, "").expect("written");
    let out = everyoven()
        .arg("serve")
        .arg(&file)
        .output()
        .expect("it starts");
    assert_eq!(out.status.code(), Some(3));
}

#[test]
fn many_readers_and_moving_dials_are_all_answered_and_memory_stays() {
    // How long they wait is told by `node benches/load.mjs`; here it is that none goes without.
    let out = Command::new("node")
        .arg(root().join("benches/load.mjs"))
        .arg(program())
        .arg("6")
        .output()
        .expect("node starts; tests/run installs it");
    let said = String::from_utf8_lossy(&out.stdout);
    assert!(
        out.status.success(),
        "{said}{}",
        String::from_utf8_lossy(&out.stderr)
    );
    assert!(said.contains("\n0 failed"), "{said}");
}

#[test]
fn slow_clients_keep_nobody_waiting() {
    let notebook = folder("slow").join("notebook");
    let mut command = everyoven();
    command.arg("serve").arg(&notebook);
    let served = Served::new(command);
    // Half a head, half a form: more of them than there are threads.
    let host = served.host();
    let halves: Vec<TcpStream> = (0..60)
        .map(|number| {
            let mut stream = TcpStream::connect(host).expect("somebody listens");
            let half = if number % 2 == 0 {
                format!("POST /paste HTTP/1.1\r\nhost: {host}\r\ncontent-le")
            } else {
                format!("POST /recipe/loaf HTTP/1.1\r\nhost: {host}\r\ncontent-length: 900\r\n\r\nseen=&te")
            };
            stream.write_all(half.as_bytes()).expect("sent");
            stream
        })
        .collect();
    for _ in 0..3 {
        assert!(served.page().starts_with("HTTP/1.1 200 OK"));
    }
    drop(halves);
    assert!(served.page().starts_with("HTTP/1.1 200 OK"));
    assert!(!notebook.exists(), "half a form keeps nothing");
}

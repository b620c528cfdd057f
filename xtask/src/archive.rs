//! One file to download: the program as built for use, its manual, completions, examples and all terms, with its digest.

use std::env::consts::{ARCH, OS};
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

/// Papers of the project that go in.
const PAPERS: [&str; 8] = [
    "README.md",
    "CHANGELOG.md",
    "LICENSE-MIT",
    "LICENSE-APACHE",
    "THIRD-PARTY.md",
    "SECURITY.md",
    "docs/guide.md",
    "docs/install.md",
];

/// Shells with completions, and the name of their file.
const SHELLS: [(&str, &str); 3] = [
    ("bash", "everyoven.bash"),
    ("zsh", "_everyoven"),
    ("fish", "everyoven.fish"),
];

/// Builds the program and packs everything; says where it is.
///
/// # Errors
/// When a program that is needed fails or a file cannot be written.
pub fn write(root: &Path) -> Result<String, String> {
    let root = root.canonicalize().map_err(|why| why.to_string())?;
    run(Command::new("cargo")
        .args(["build", "--release", "--locked"])
        .current_dir(&root))?;
    let target =
        std::env::var_os("CARGO_TARGET_DIR").map_or_else(|| root.join("target"), PathBuf::from);
    let program = target.join("release/everyoven");
    let name = format!(
        "everyoven-{}-{}-{ARCH}",
        env!("CARGO_PKG_VERSION"),
        OS.to_lowercase()
    );
    let out = target.join("archive");
    let folder = out.join(&name);
    let _ = fs::remove_dir_all(&folder);
    make(&folder)?;
    copy(&program, &folder.join("everyoven"))?;
    for paper in PAPERS {
        let file = paper.rsplit('/').next().unwrap_or(paper);
        copy(&root.join(paper), &folder.join(file))?;
    }
    tree(&root.join("examples"), &folder.join("examples"))?;
    let pages = folder.join("man/man1");
    run(Command::new(&program)
        .args(["manual", "pages", "--into"])
        .arg(&pages))?;
    make(&folder.join("completions"))?;
    for (shell, file) in SHELLS {
        let text = run(Command::new(&program).args(["manual", "completions", "--shell", shell]))?;
        fs::write(folder.join("completions").join(file), text).map_err(|why| why.to_string())?;
    }
    let packed = format!("{name}.tar.gz");
    // The same files give the same bytes: names in order, no times, nobody's name.
    run(Command::new("tar")
        .args([
            "--sort=name",
            "--mtime=@0",
            "--owner=0",
            "--group=0",
            "--numeric-owner",
        ])
        .args(["-I", "gzip -n -9", "-cf", &packed, &name])
        .current_dir(&out))?;
    let digest = run(Command::new("sha256sum").arg(&packed).current_dir(&out))?;
    fs::write(out.join(format!("{packed}.sha256")), &digest).map_err(|why| why.to_string())?;
    let bytes = fs::metadata(out.join(&packed))
        .map_err(|why| why.to_string())?
        .len();
    Ok(format!(
        "{} ({} MB)\n{}",
        out.join(&packed).display(),
        bytes / 1_000_000,
        String::from_utf8_lossy(&digest).trim()
    ))
}

fn run(command: &mut Command) -> Result<Vec<u8>, String> {
    let out = command
        .output()
        .map_err(|why| format!("{command:?}: {why}"))?;
    if out.status.success() {
        Ok(out.stdout)
    } else {
        Err(format!(
            "{command:?}: {}",
            String::from_utf8_lossy(&out.stderr)
        ))
    }
}

fn make(folder: &Path) -> Result<(), String> {
    fs::create_dir_all(folder).map_err(|why| format!("{}: {why}", folder.display()))
}

fn copy(from: &Path, to: &Path) -> Result<(), String> {
    fs::copy(from, to)
        .map_err(|why| format!("{}: {why}", from.display()))
        .map(|_| ())
}

fn tree(from: &Path, to: &Path) -> Result<(), String> {
    make(to)?;
    let entries = fs::read_dir(from).map_err(|why| format!("{}: {why}", from.display()))?;
    for entry in entries.filter_map(Result::ok) {
        let (path, into) = (entry.path(), to.join(entry.file_name()));
        if path.is_dir() {
            tree(&path, &into)?;
        } else {
            copy(&path, &into)?;
        }
    }
    Ok(())
}

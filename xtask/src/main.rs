//! Runs a chore by name: `cargo run -p xtask -- notices`.

use std::path::Path;
use std::process::ExitCode;

fn main() -> ExitCode {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("..");
    let chore = std::env::args().nth(1);
    let done = match chore.as_deref() {
        Some("notices") => xtask::notices::write(&root),
        Some("import-table") => xtask::import_table::write(&root),
        Some("kitchens-table") => xtask::kitchens_table::write(&root),
        Some("talk-table") => xtask::talk_table::write(&root),
        Some("talk-kept-back") => {
            let folder = std::env::args().nth(2);
            xtask::talk_table::kept_back(&root, folder.as_deref())
        }
        Some("talk-misses") => {
            let only = std::env::args().nth(2);
            xtask::talk_table::misses(&root, only.as_deref())
        },
        Some("talk-printed") => xtask::talk_table::printed::page(&root),
        Some("validation") => xtask::validation::write(&root),
        Some("finer-kitchens") => {
            let number = std::env::args().nth(2).and_then(|word| word.parse().ok());
            let only = std::env::args().nth(3);
            Ok(xtask::finer_kitchens::told(&root, number.unwrap_or(2000), only.as_deref()))
        }
        Some("under-way") => {
            let number = std::env::args().nth(2).and_then(|word| word.parse().ok());
            xtask::under_way::evidence::write(&root, number.unwrap_or(1000))
        }
        Some("teaching") => {
            let number = std::env::args().nth(2).and_then(|word| word.parse().ok());
            Ok(xtask::under_way::evidence::teaching(&root, number.unwrap_or(20)))
        }
        Some("rules") => xtask::rules::write(&root),
        Some("archive") => xtask::archive::write(&root),
        Some("judges") => xtask::judges::write(&root),
        Some("provenance") => xtask::provenance::write(&root),
        Some("schema") => xtask::schema::write(&root),
        _ => Err(
            "usage: cargo run -p xtask -- notices, import-table, kitchens-table, talk-table, talk-misses [FOLDER], talk-printed, validation, rules, schema, provenance, judges, archive, finer-kitchens [NUMBER [RECIPE]], under-way [NUMBER], or teaching [NUMBER]"
                .to_owned(),
        ),
    };
    match done {
        Ok(said) => {
            println!("{said}");
            ExitCode::SUCCESS
        }
        Err(why) => {
            eprintln!("{why}");
            ExitCode::FAILURE
        }
    }
}

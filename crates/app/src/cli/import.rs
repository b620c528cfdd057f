//! `import`: a pasted text or a saved page becomes a recipe file.

use super::{Outcome, Report, envelope::Envelope};
use crate::failure::Failure;
use crate::world::{new_file, read};
use recipe::import::{Imported, LineKind, Mark, import, is_page, saved_page};
use recipe::larder::Larder;
use std::io::Read;
use std::path::{Path, PathBuf};

/// Make a recipe file of a pasted text or a saved page, with an answer for every line
#[derive(clap::Args)]
#[command(after_help = "Example: everyoven import pasted.txt --as teacakes.toml")]
pub struct Args {
    /// The text, or a saved page; `-` reads what is typed or piped in
    #[arg(value_hint = clap::ValueHint::FilePath)]
    file: PathBuf,
    /// The recipe file to write, named after its title when left out; an existing one is never
    /// overwritten
    #[arg(long = "as", value_name = "RECIPE", value_hint = clap::ValueHint::FilePath)]
    recipe: Option<PathBuf>,
}

/// More is no recipe.
const MOST_BYTES: u64 = 2 * 1024 * 1024;

/// Reads the text and writes the file.
pub fn run(args: &Args) -> Outcome {
    let typed = args.file.as_os_str() == "-";
    let bytes = if typed {
        let mut bytes = Vec::new();
        let read = std::io::stdin().take(MOST_BYTES).read_to_end(&mut bytes);
        read.map_err(|error| Failure::world("read", Path::new("-"), &error))?;
        bytes
    } else {
        read::bytes(&args.file)?
    };
    let text = String::from_utf8_lossy(&bytes);
    let larder = Larder::open();
    let imported = if is_page(&text) {
        saved_page(&text, &larder)
    } else {
        import(&text, &larder)
    };
    let path = args
        .recipe
        .clone()
        .unwrap_or_else(|| named_after(&imported));
    let hint = "Choose another name with --as; nothing was changed.";
    new_file::write(&path, &imported.document, hint)?;
    let shown = path.display().to_string();
    let mut answer = press::terminal::import(&imported, &larder);
    answer.push_str(&format!(
        "\n{shown} written. Look it over: everyoven check {shown}\n"
    ));
    let source = args.file.display().to_string();
    let mut json = Envelope::new("import").with_text(&answer);
    json.file(shown);
    for line in &imported.lines {
        json.line(&source, line);
    }
    for assumed in &imported.assumed {
        json.assumed(assumed);
    }
    let open = |mark: Mark| {
        imported
            .lines
            .iter()
            .filter(|line| line.mark == mark && line.kind != LineKind::Blank)
            .count()
    };
    let (doubtful, dark) = (open(Mark::Doubtful), open(Mark::NotUnderstood));
    let notes = if doubtful + dark > 0 {
        format!("{doubtful} to decide, {dark} not understood; each is marked in the file.\n")
    } else {
        String::new()
    };
    Ok(Report {
        text: answer,
        notes,
        json,
        stops: false,
    })
}

/// A file name from the title: "fruited-teacakes.toml".
fn named_after(imported: &Imported) -> PathBuf {
    let title = imported
        .title
        .as_deref()
        .unwrap_or("pasted recipe")
        .to_lowercase();
    let words: Vec<&str> = title
        .split(|c: char| !c.is_alphanumeric())
        .filter(|word| !word.is_empty())
        .take(8)
        .collect();
    let name = if words.is_empty() {
        "pasted-recipe".to_owned()
    } else {
        words.join("-")
    };
    PathBuf::from(format!("{name}.toml"))
}

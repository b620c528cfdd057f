//! The command line: one file a command, one report for terminal and machine.

mod advise;
pub mod answers;
mod backup;
mod bake;
mod check;
mod dates;
pub mod day;
pub mod day_before;
pub mod day_said;
pub mod day_titles;
pub mod day_words;
mod demo;
mod envelope;
mod explain;
mod figures;
mod findings;
mod formula;
mod import;
pub mod kitchens;
mod label;
pub mod learn;
mod licences;
mod manual;
mod mix;
mod new;
pub mod publish;
pub mod reader;
pub mod reckoned;
mod report_trouble;
mod restore;
mod serve;
pub mod shoot;
mod shopping;
mod size;
mod talk;
mod variant;
pub mod work;

use crate::failure::Failure;
use clap::{Parser, Subcommand};
use recipe::measure::Market;
use std::io::Write;
use std::process::ExitCode;

/// Holds a bread recipe once, works out every figure of it, and publishes it.
#[derive(Parser)]
#[command(name = "everyoven", version, max_term_width = 80)]
#[command(after_help = "Example: everyoven publish examples/same-day-loaf.toml --into out")]
pub struct Cli {
    #[command(subcommand)]
    command: Option<Command>,

    /// Print the answer as JSON, under the schema of `everyoven manual schema`
    #[arg(long, global = true)]
    json: bool,
}

#[derive(Subcommand)]
enum Command {
    New(new::Args),
    Import(import::Args),
    Check(check::Args),
    Formula(formula::Args),
    Mix(mix::Args),
    Bake(bake::Args),
    Kitchens(kitchens::Args),
    Figures(figures::Args),
    Label(label::Args),
    Learn(learn::Args),
    Shoot(shoot::Args),
    Shopping(shopping::Args),
    Talk(talk::Args),
    Day(day::Args),
    Variant(variant::Args),
    Answers(answers::Args),
    Publish(publish::Args),
    Demo(demo::Args),
    Serve(serve::Args),
    Backup(backup::Args),
    Restore(restore::Args),
    ReportTrouble(report_trouble::Args),
    Explain(explain::Args),
    Licences(licences::Args),
    Manual(manual::Args),
}

impl Command {
    const fn name(&self) -> &'static str {
        match self {
            Self::New(_) => "new",
            Self::Import(_) => "import",
            Self::Check(_) => "check",
            Self::Formula(_) => "formula",
            Self::Mix(_) => "mix",
            Self::Bake(_) => "bake",
            Self::Kitchens(_) => "kitchens",
            Self::Figures(_) => "figures",
            Self::Label(_) => "label",
            Self::Learn(_) => "learn",
            Self::Shoot(_) => "shoot",
            Self::Shopping(_) => "shopping",
            Self::Talk(_) => "talk",
            Self::Day(_) => "day",
            Self::Variant(_) => "variant",
            Self::Answers(_) => "answers",
            Self::Publish(_) => "publish",
            Self::Demo(_) => "demo",
            Self::Serve(_) => "serve",
            Self::Backup(_) => "backup",
            Self::Restore(_) => "restore",
            Self::ReportTrouble(_) => "report-trouble",
            Self::Explain(_) => "explain",
            Self::Licences(_) => "licences",
            Self::Manual(_) => "manual",
        }
    }
}

/// What a command has to say.
pub struct Report {
    /// The result, for stdout.
    pub text: String,
    /// Everything else, for stderr.
    pub notes: String,
    /// The result for machines.
    pub json: envelope::Envelope,
    /// Whether the input has something to mend.
    pub stops: bool,
}

impl Report {
    /// About a piece of work: its findings stand beside the result only where something must be mended first.
    pub fn on(work: &work::Work, text: String, json: envelope::Envelope) -> Self {
        let stops = work.stops();
        let notes = if stops {
            findings::list(work, findings::For::Bake)
        } else {
            String::new()
        };
        Self {
            text,
            notes,
            json,
            stops,
        }
    }
}

/// Runs the program and says how it went.
pub fn main() -> ExitCode {
    let cli = match Cli::try_parse() {
        Ok(cli) => cli,
        Err(error) => {
            // clap prints help to stdout with code 0 and mistakes to stderr with code 2.
            let _ = error.print();
            return ExitCode::from(u8::try_from(error.exit_code()).unwrap_or(2));
        }
    };
    // Whoever names no command gets the notebook, in a browser when there is somebody to look.
    let command = cli
        .command
        .unwrap_or_else(|| Command::Serve(serve::Args::alone()));
    let name = command.name();
    let outcome = match command {
        Command::New(args) => new::run(&args),
        Command::Import(args) => import::run(&args),
        Command::Check(args) => check::run(&args),
        Command::Formula(args) => formula::run(&args),
        Command::Mix(args) => mix::run(&args),
        Command::Bake(args) => bake::run(&args),
        Command::Kitchens(args) => kitchens::run(&args),
        Command::Figures(args) => figures::run(&args),
        Command::Label(args) => label::run(&args),
        Command::Learn(args) => learn::run(&args),
        Command::Shoot(args) => shoot::run(&args),
        Command::Shopping(args) => shopping::run(&args),
        Command::Talk(args) => talk::run(&args),
        Command::Day(args) => day::run(&args),
        Command::Variant(args) => variant::run(&args),
        Command::Answers(args) => answers::run(&args),
        Command::Publish(args) => publish::run(&args),
        Command::Demo(args) => demo::run(&args),
        Command::Serve(args) => serve::run(&args, cli.json),
        Command::Backup(args) => backup::run(&args),
        Command::Restore(args) => restore::run(&args),
        Command::ReportTrouble(args) => report_trouble::run(&args),
        Command::Explain(args) => explain::run(&args),
        Command::Licences(args) => Ok(licences::run(&args)),
        Command::Manual(args) => manual::run(&args),
    };
    match outcome {
        Ok(report) => {
            let out = if cli.json {
                report.json.text()
            } else {
                report.text
            };
            // A reader that has seen enough (`| head`) is no failure.
            let _ = std::io::stderr().write_all(report.notes.as_bytes());
            let _ = std::io::stdout().write_all(out.as_bytes());
            ExitCode::from(u8::from(report.stops))
        }
        Err(failure) => {
            let _ = writeln!(std::io::stderr(), "everyoven: {failure}");
            if cli.json {
                let _ = writeln!(
                    std::io::stdout(),
                    "{}",
                    envelope::Envelope::failed(name, &failure).text()
                );
            }
            ExitCode::from(failure.exit_code())
        }
    }
}

/// The readers' country, by the language tag of its English.
pub fn market(tag: &str) -> Result<Market, String> {
    Market::of_tag(tag).ok_or_else(|| {
        let ours: Vec<_> = Market::ALL.iter().map(|market| market.tag()).collect();
        format!("English only, printed for {}", ours.join(", "))
    })
}

/// What every command gives back.
pub type Outcome = Result<Report, Failure>;

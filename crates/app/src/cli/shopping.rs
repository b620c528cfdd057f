//! `shopping`: what to buy for one or several recipes, times batches.

use super::check::envelope;
use super::findings::{For, list};
use super::{Outcome, Report, work};
use crate::failure::Failure;
use crate::world::read;
use bake::kitchen::Kitchen;
use edit::ledger::shopping::{self, Order, Pack};
use press::shopping::ListSize;
use recipe::document::read_prices_bytes;
use recipe::measure::Market;
use std::path::{Path, PathBuf};

/// Write the shopping list of one or several recipes, each so many times
#[derive(clap::Args)]
#[command(
    after_help = "Example: everyoven shopping examples/same-day-loaf.toml=2 \
                        examples/hearth-loaf.toml --prices examples/prices/receipts.toml --as shopping.pdf"
)]
pub struct Args {
    /// Recipe files, each with its batches after an equals sign: loaf.toml=2, buns.toml=1/2
    #[arg(required = true, value_name = "RECIPE[=BATCHES]")]
    recipes: Vec<String>,
    /// A file of your own prices, whose packs are then counted; without it packs are of common sizes
    #[arg(long, value_hint = clap::ValueHint::FilePath)]
    prices: Option<PathBuf>,
    /// Where the list goes: a file that ends in .pdf or .txt, or - for the terminal
    #[arg(long = "as", value_name = "FILE", default_value = "-")]
    target: PathBuf,
    /// The paper of a PDF
    #[arg(long, value_enum, default_value = "a5")]
    paper: PaperWord,
    /// Names as in the shops of a country: en-US, en-GB or en-AU
    #[arg(long = "for", value_name = "READERS", value_parser = market)]
    readers: Option<Market>,
}

#[derive(Clone, Copy, clap::ValueEnum)]
enum PaperWord {
    /// 148 × 210 mm
    A5,
    /// 210 × 297 mm
    A4,
    /// 8½ × 11 in
    Letter,
}

fn market(tag: &str) -> Result<Market, String> {
    Market::of_tag(tag).ok_or_else(|| {
        let known = Market::ALL.map(Market::tag).join(", ");
        format!("known are {known}")
    })
}

/// The most batches of one recipe.
const MOST_BATCHES: f64 = 1000.0;

/// Prints or writes the list.
pub fn run(args: &Args) -> Outcome {
    let as_pdf = ends_in(&args.target, "pdf");
    let to_terminal = args.target.as_os_str() == "-";
    if !as_pdf && !to_terminal && !ends_in(&args.target, "txt") {
        return Err(Failure::Usage(format!(
            "`--as {}` must end in .pdf or .txt, or be - for the terminal",
            args.target.display()
        )));
    }
    let mut works = Vec::new();
    for asked in &args.recipes {
        let (path, batches) = order(asked)?;
        let work = work::on_files_for(Path::new(path), None, args.readers)?;
        works.push((work, batches));
    }
    if works.iter().any(|(work, _)| work.stops()) {
        return Ok(to_mend(&works));
    }
    let kitchen = Kitchen::standard();
    let orders: Vec<Order> = works
        .iter()
        .filter_map(|(work, batches)| {
            let made = work.made.as_ref()?;
            let mut inputs = edit::Inputs::new(&made.recipe, &made.formula, &made.larder, &kitchen);
            inputs.market = args.readers;
            Some(Order {
                inputs,
                batches: *batches,
                again: &[],
            })
        })
        .collect();
    let packs = packs(&orders, args.prices.as_deref())?;
    let shopping = shopping::list(&orders, &packs);
    let mut json = super::envelope::Envelope::new("shopping");
    shopping.figures().for_each(|figure| json.figure(figure));
    let said = press::terminal::shopping(&shopping);
    let text = if to_terminal {
        said
    } else {
        let bytes = if as_pdf {
            pdf(args, &shopping, &works)?
        } else {
            said.into_bytes()
        };
        std::fs::write(&args.target, bytes)
            .map_err(|error| Failure::world("write", &args.target, &error))?;
        json.file(args.target.display().to_string());
        format!("{} written.\n", args.target.display())
    };
    Ok(Report {
        json: json.with_text(&text),
        text,
        notes: String::new(),
        stops: false,
    })
}

/// The packs of a file of prices, and common ones for what it does not name.
pub fn packs(orders: &[Order<'_>], prices: Option<&Path>) -> Result<Vec<Pack>, Failure> {
    let mut packs: Vec<Pack> = orders.iter().flat_map(shopping::common).collect();
    if let Some(path) = prices {
        let file = read_prices_bytes(&read::bytes(path)?);
        let Some(prices) = file.output else {
            return Err(Failure::Usage(format!(
                "{} cannot be read as prices: everyoven label RECIPE --prices {} says where",
                path.display(),
                path.display()
            )));
        };
        for order in orders {
            packs.extend(shopping::packs(order, &prices));
        }
    }
    Ok(packs)
}

/// What is to be mended before anything is bought.
fn to_mend(works: &[(work::Work, f64)]) -> Report {
    let mut notes = String::new();
    let mut json = super::envelope::Envelope::new("shopping");
    for (work, _) in works.iter().filter(|(work, _)| work.stops()) {
        notes.push_str(&list(work, For::Bake));
        json.append(envelope(work, "shopping"));
    }
    Report {
        text: "No list was made: mend the findings marked `mend` first.\n".to_owned(),
        notes,
        json,
        stops: true,
    }
}

fn pdf(
    args: &Args,
    shopping: &edit::ledger::model::Shopping,
    works: &[(work::Work, f64)],
) -> Result<Vec<u8>, Failure> {
    let size = match args.paper {
        PaperWord::A5 => ListSize::A5,
        PaperWord::A4 => ListSize::A4,
        PaperWord::Letter => ListSize::Letter,
    };
    // Several recipes have several versions: the line of origin then says the program alone.
    let imprint = match works {
        [(work, _)] => work.made.as_ref().map(|made| made.ledger.imprint.clone()),
        _ => None,
    };
    let imprint =
        imprint.unwrap_or_else(|| concat!("everyoven ", env!("CARGO_PKG_VERSION")).to_owned());
    let language = args.readers.map_or("en", Market::tag);
    press::shopping::list(shopping, &imprint, language, size)
        .map_err(|error| Failure::Usage(error.to_string()))
}

fn ends_in(path: &Path, ending: &str) -> bool {
    path.extension()
        .is_some_and(|own| own.eq_ignore_ascii_case(ending))
}

/// A recipe's path and its batches: `loaf.toml=2`. A path may have an equals sign of its own.
fn order(asked: &str) -> Result<(&str, f64), Failure> {
    let Some((path, count)) = asked.rsplit_once('=') else {
        return Ok((asked, 1.0));
    };
    match batches(count) {
        Some(batches) => Ok((path, batches)),
        None if Path::new(asked).exists() => Ok((asked, 1.0)),
        None => Err(Failure::Usage(format!(
            "`{count}` is no number of batches; write 2, 0.5 or 1/2, up to 1000"
        ))),
    }
}

fn batches(count: &str) -> Option<f64> {
    let count = count.trim().replace(',', ".");
    let number = match count.split_once('/') {
        Some((above, below)) => {
            above.trim().parse::<f64>().ok()? / below.trim().parse::<f64>().ok()?
        }
        None => count.parse::<f64>().ok()?,
    };
    (number > 0.0 && number <= MOST_BATCHES).then_some(number)
}

#[cfg(test)]
mod tests {
    use super::{batches, order};

    #[test]
    fn batches_stand_after_the_last_equals_sign() {
        assert_eq!(order("loaf.toml").ok(), Some(("loaf.toml", 1.0)));
        assert_eq!(order("a=b.toml=2").ok(), Some(("a=b.toml", 2.0)));
        assert_eq!(batches("1/2"), Some(0.5));
        assert_eq!(batches("1,5"), Some(1.5));
        for wrong in ["0", "-1", "1/0", "many", "1001", "NaN", ""] {
            assert_eq!(batches(wrong), None, "{wrong}");
        }
        assert!(order("loaf.toml=many").is_err());
    }
}

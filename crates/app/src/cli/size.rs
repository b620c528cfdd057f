//! The flags by which a recipe is wished in another size.

use crate::failure::Failure;
use recipe::measure::Unread;
use recipe::measure::read::read_mass;
use recipe::scale::{Eggs, To, Wish, for_product, read_tin};

/// Another size; one of these at a time
#[derive(clap::Args)]
#[group(multiple = false)]
pub struct Size {
    /// Half of everything
    #[arg(long, help_heading = "Another size")]
    half: bool,
    /// So many times everything: 1.5
    #[arg(long, value_name = "NUMBER", help_heading = "Another size")]
    times: Option<f64>,
    /// So much flour in the dough: 500g
    #[arg(long, value_name = "MASS", help_heading = "Another size")]
    flour: Option<String>,
    /// So much dough: 1kg
    #[arg(long, value_name = "MASS", help_heading = "Another size")]
    dough: Option<String>,
    /// So many whole eggs, the rest made to fit: 2
    #[arg(long, value_name = "NUMBER", help_heading = "Another size")]
    eggs: Option<u32>,
    /// So many pieces of the same size: 12, or buns=12
    #[arg(long, value_name = "NUMBER", help_heading = "Another size")]
    pieces: Option<String>,
    /// Another tin, filled as full: 950mL, "23 x 13 x 7 cm", "Ø 20 x 7 cm", or loaf=950mL
    #[arg(long, value_name = "TIN", help_heading = "Another size")]
    tin: Option<String>,
}

impl Size {
    /// The wish, when there is one.
    pub fn wish(&self, eggs: Eggs) -> Result<Option<Wish>, Failure> {
        let to = if self.half {
            Some(To::Times(0.5))
        } else if let Some(times) = self.times {
            Some(To::Times(times))
        } else if let Some(flour) = &self.flour {
            Some(To::Flour(read_mass(flour).map_err(usage)?))
        } else if let Some(dough) = &self.dough {
            Some(To::Dough(read_mass(dough).map_err(usage)?))
        } else if let Some(eggs) = self.eggs {
            Some(To::Eggs(eggs))
        } else if let Some(pieces) = &self.pieces {
            let (product, count) = for_product(pieces);
            let count = count.parse().map_err(|_| {
                Failure::Usage(format!(
                    "“{count}” is no number of pieces; write --pieces 12"
                ))
            })?;
            Some(To::Pieces { product, count })
        } else if let Some(tin) = &self.tin {
            let (product, words) = for_product(tin);
            let tin = read_tin(words).map_err(Failure::Usage)?;
            Some(To::Tin { product, tin })
        } else {
            None
        };
        Ok(to.map(|to| Wish { to, eggs }))
    }
}

/// A quantity on the command line that cannot be read.
fn usage(unread: Unread) -> Failure {
    let hint = unread
        .hint
        .map_or_else(String::new, |hint| format!(" {hint}"));
    Failure::Usage(format!("{}{hint}", unread.message))
}

//! A balance in one line, for whoever asks how a temperature was found.

use super::model::Balance;
use crate::wording::grams;
use numerics::decimal::fixed;

/// The balance in one line, for whoever asks how it was found.
pub fn account(balance: &Balance) -> String {
    let kj = |energy: numerics::quantity::Energy| fixed(energy.si() / 1000.0, 1);
    let shares: Vec<String> = balance
        .shares
        .iter()
        .map(|share| {
            format!(
                "{} {} at {}\u{a0}°C",
                grams(share.mass),
                share.what,
                fixed(share.at.celsius(), 0)
            )
        })
        .collect();
    format!(
        "{}; wetting the flour gives {} kJ, mixing {} kJ; dissolving takes {} kJ, melting butter {} kJ",
        shares.join(", "),
        kj(balance.hydration),
        kj(balance.friction),
        kj(balance.dissolution),
        kj(balance.melting),
    )
}

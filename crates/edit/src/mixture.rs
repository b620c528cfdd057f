//! What the liquids of a recipe must read in one kitchen, as strings that every face prints.

use crate::ledger::figure;
use crate::ledger::model::Figure;
use crate::ledger::say;
use bake::kitchen::Kitchen;
use bake::mix::{Balance, MixAnswer, WakeAnswer};
use numerics::quantity::{Energy, HeatCapacity, Mass, Temperature};
use recipe::provenance::{Had, Origin};

/// The mixes of a recipe in one kitchen.
#[derive(Clone, Debug, PartialEq)]
pub struct MixLines {
    /// Name of the kitchen.
    pub kitchen: String,
    /// Its room.
    pub room: Figure,
    /// Liquids that wake yeast, in written order.
    pub wakes: Vec<WakeLine>,
    /// Mixes with a wanted temperature, in written order.
    pub mixes: Vec<MixLine>,
}

/// A liquid that wakes yeast.
#[derive(Clone, Debug, PartialEq)]
pub struct WakeLine {
    /// Name of the stage.
    pub stage: String,
    /// Name of the liquid.
    pub liquid: String,
    /// What it must read when it is poured.
    pub pour_at: Figure,
    /// Where liquid, bowl and yeast settle as written.
    pub settles: Figure,
    /// The band in which the yeast wakes well.
    pub band: Figure,
}

/// A mix with a wanted temperature.
#[derive(Clone, Debug, PartialEq)]
pub struct MixLine {
    /// Name of the stage.
    pub stage: String,
    /// What the dough should end at.
    pub wanted: Figure,
    /// What it ends at with everything as written.
    pub as_written: Figure,
    /// What it ends at with the liquid so.
    pub ends: Figure,
    /// Whether that is what is wanted, to a degree.
    pub reached: bool,
    /// Name of the liquid that is adjusted, and what it must read.
    pub liquid: Option<(String, Figure)>,
    /// Ice in the place of as much of the liquid.
    pub ice: Option<Figure>,
    /// The balance behind it: (what, mass, temperature, heat that warms it by one degree).
    pub shares: Vec<(String, Figure, Figure, Figure)>,
    /// Heat set free or taken: ("work of the mixer", kJ).
    pub heats: Vec<(String, Figure)>,
}

impl MixLines {
    /// Every figure, in order.
    pub fn figures(&self) -> Vec<&Figure> {
        let mut all = vec![&self.room];
        for wake in &self.wakes {
            all.extend([&wake.pour_at, &wake.settles, &wake.band]);
        }
        for mix in &self.mixes {
            all.extend([&mix.wanted, &mix.as_written, &mix.ends]);
            all.extend(mix.liquid.iter().map(|(_, figure)| figure));
            all.extend(mix.ice.iter());
            for (_, mass, at, capacity) in &mix.shares {
                all.extend([mass, at, capacity]);
            }
            all.extend(mix.heats.iter().map(|(_, figure)| figure));
        }
        all
    }
}

/// Where the figures of a balance come from.
fn balance_origin() -> Origin {
    Origin::new(
        "enthalpy balance of the mix, docs/models/mix.md",
        Had::Derived,
    )
}

fn temperature(name: String, at: Temperature) -> Figure {
    figure(
        name,
        at.si(),
        Temperature::SI,
        say::temperature(at),
        balance_origin(),
    )
}

/// Writes the answers of a kitchen as strings.
pub fn lines(kitchen: &Kitchen, mixes: &[MixAnswer], wakes: &[WakeAnswer]) -> MixLines {
    MixLines {
        kitchen: kitchen.name.clone(),
        room: figure(
            "kitchen.room",
            kitchen.room.si(),
            Temperature::SI,
            say::temperature(kitchen.room),
            Origin::new("the kitchen file", Had::Written),
        ),
        wakes: wakes.iter().map(wake_line).collect(),
        mixes: mixes.iter().map(mix_line).collect(),
    }
}

fn wake_line(wake: &WakeAnswer) -> WakeLine {
    let name = |what: &str| format!("wake.{}.{}.{what}", wake.stage, wake.liquid);
    let middle = wake.band.low + (wake.band.high - wake.band.low) / 2.0;
    WakeLine {
        stage: wake.stage.clone(),
        liquid: wake.liquid.clone(),
        pour_at: temperature(name("pour-at"), wake.liquid_at),
        settles: temperature(name("settles"), wake.settles),
        band: figure(
            name("band"),
            middle.si(),
            Temperature::SI,
            say::temperature_range(wake.band),
            Origin::new("yeast rehydration bands, docs/models/mix.md", Had::Read),
        ),
    }
}

fn mix_line(mix: &MixAnswer) -> MixLine {
    let name = |what: &str| format!("mix.{}.{what}", mix.stage);
    let middle = mix.wanted.low + (mix.wanted.high - mix.wanted.low) / 2.0;
    let shown = mix.solved.as_ref().unwrap_or(&mix.as_written);
    MixLine {
        stage: mix.stage.clone(),
        wanted: figure(
            name("wanted"),
            middle.si(),
            Temperature::SI,
            say::temperature_range(mix.wanted),
            Origin::new("the recipe", Had::Written),
        ),
        ends: temperature(name("ends"), shown.ends),
        reached: (mix.wanted.low - shown.ends).si() <= 1.0
            && (shown.ends - mix.wanted.high).si() <= 1.0,
        as_written: temperature(name("as-written"), mix.as_written.ends),
        liquid: mix
            .liquid
            .clone()
            .zip(mix.liquid_at)
            .map(|(liquid, at)| (liquid, temperature(name("liquid"), at))),
        ice: mix.ice.map(|ice| {
            figure(
                name("ice"),
                ice.si(),
                Mass::SI,
                say::mass(ice),
                balance_origin(),
            )
        }),
        shares: shares(&name, shown),
        heats: heats(&name, shown),
    }
}

fn shares(
    name: &dyn Fn(&str) -> String,
    balance: &Balance,
) -> Vec<(String, Figure, Figure, Figure)> {
    balance
        .shares
        .iter()
        .chain([&balance.bowl])
        .map(|share| {
            let part = |what: &str| format!("{}.{what}", name(&share.what));
            (
                share.what.clone(),
                figure(
                    part("mass"),
                    share.mass.si(),
                    Mass::SI,
                    say::mass(share.mass),
                    balance_origin(),
                ),
                temperature(part("at"), share.at),
                figure(
                    part("heat-capacity"),
                    share.heat_capacity.si(),
                    HeatCapacity::SI,
                    say::heat_capacity(share.heat_capacity),
                    balance_origin(),
                ),
            )
        })
        .collect()
}

fn heats(name: &dyn Fn(&str) -> String, balance: &Balance) -> Vec<(String, Figure)> {
    [
        ("flour taking up water", balance.hydration),
        ("work of mixing", balance.friction),
        ("sugar and salt dissolving", -balance.dissolution),
        ("butter melting", -balance.melting),
        ("ice melting", -balance.ice),
    ]
    .into_iter()
    .filter(|(_, heat)| heat.si().abs() >= 5.0)
    .map(|(what, heat)| {
        let shown = say::energy(heat);
        (
            what.to_owned(),
            figure(name(what), heat.si(), Energy::SI, shown, balance_origin()),
        )
    })
    .collect()
}

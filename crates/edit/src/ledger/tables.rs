//! The tables of a ledger: the formula as a baker reads it, and the liquid in other rooms.

use super::model::{Figure, RoomTable};
use super::{figure, say};
use crate::Heard;
use numerics::quantity::{Fraction, Mass, Range, Temperature};
use recipe::formula::Formula;
use recipe::provenance::{Had, Origin};

fn sum_origin() -> Origin {
    Origin::new(
        "sum over the written items and the ingredient data",
        Had::Derived,
    )
}

fn share(name: &str, value: Fraction) -> Figure {
    figure(
        format!("formula.{name}"),
        value.si(),
        "1",
        say::percent(value),
        sum_origin(),
    )
}

fn grams(name: &str, value: Mass) -> Figure {
    figure(
        format!("formula.{name}"),
        value.si(),
        Mass::SI,
        say::mass_sum(value),
        sum_origin(),
    )
}

/// Sums of the dough in the order in which a baker reads them.
pub fn formula(formula: &Formula) -> Vec<(String, Figure)> {
    let dough = &formula.dough;
    let mut rows = vec![("Flour".to_owned(), grams("flour", dough.flour))];
    let mut add = |label: &str, name: &str, value: Option<Fraction>| {
        if let Some(value) = value.filter(|value| value.si() > 5e-5) {
            rows.push((label.to_owned(), share(name, value)));
        }
    };
    add(
        "Flour in preferments",
        "prefermented",
        Some(formula.prefermented_flour),
    );
    add("Water in all", "water", dough.of_flour(dough.water));
    add("Fat", "fat", dough.of_flour(dough.fat));
    add("Sugar", "sugar", dough.of_flour(dough.sugar));
    add("Sugar on water", "sugar-on-water", dough.sugar_on_water());
    add("Salt", "salt", dough.of_flour(dough.salt));
    add(
        "Yeast, as fresh",
        "yeast-as-fresh",
        dough.of_flour(dough.yeast_fresh),
    );
    add(
        "Milk solids",
        "milk-solids",
        dough.of_flour(dough.milk_solids),
    );
    add("Egg solids", "egg-solids", dough.of_flour(dough.egg_solids));
    add(
        "Protein of the flour",
        "flour-protein",
        dough.protein_of_blend(),
    );
    let pieces: Mass = formula.products.iter().map(|product| product.dough).sum();
    rows.push((
        "Dough".to_owned(),
        grams("dough", say::rounded_tenth(dough.mass)),
    ));
    rows.push(("In pieces".to_owned(), grams("pieces", pieces)));
    rows.push((
        "Left over".to_owned(),
        grams("trim", say::rounded_tenth(formula.trim)),
    ));
    rows
}

/// For each mix whose liquid is adjusted: what it must read in other rooms.
pub fn rooms(heard: &Heard) -> Vec<RoomTable> {
    heard
        .mixes
        .iter()
        .filter_map(|mix| {
            let liquid = mix.liquid.as_ref()?;
            let caption = format!(
                "{} for the {}, so that it ends at {}",
                say::capital(liquid),
                mix.stage,
                say::temperature_range(mix.wanted)
            );
            let rows = heard
                .rooms
                .iter()
                .filter_map(|(room, mixes)| {
                    let there = mixes.iter().find(|other| other.stage == mix.stage)?;
                    Some(row(&mix.stage, *room, there))
                })
                .collect();
            Some(RoomTable { caption, rows })
        })
        .collect()
}

/// Whether a mix misses what is wanted by more than a degree.
fn far(ends: Temperature, wanted: Range<Temperature>) -> bool {
    (wanted.low - ends).si() > 1.0 || (ends - wanted.high).si() > 1.0
}

fn row(
    stage: &str,
    room: Temperature,
    there: &bake::mix::MixAnswer,
) -> (Figure, String, Option<Figure>) {
    let name = format!("room.{stage}.{:.0}", room.celsius());
    let origin = || {
        Origin::new(
            "enthalpy balance of the mix, docs/models/mix.md",
            Had::Derived,
        )
    };
    let room = figure(
        format!("{name}.air"),
        room.si(),
        Temperature::SI,
        say::temperature(room),
        Origin::new("a room to compare with", Had::Written),
    );
    if let Some(ice) = there.ice {
        let ice = figure(
            format!("{name}.ice"),
            ice.si(),
            Mass::SI,
            say::mass(ice),
            origin(),
        );
        let text = format!("ice-cold, {} of it as ice", ice.shown);
        return (room, text, Some(ice));
    }
    match there.liquid_at {
        Some(at) => {
            let figure = figure(
                format!("{name}.liquid"),
                at.si(),
                Temperature::SI,
                say::temperature(at),
                origin(),
            );
            let ends = there.solved.as_ref().unwrap_or(&there.as_written).ends;
            let text = if far(ends, there.wanted) {
                format!(
                    "{}, and it ends at {}",
                    figure.shown,
                    say::temperature(ends)
                )
            } else {
                figure.shown.clone()
            };
            (room, text, Some(figure))
        }
        None => (
            room,
            "cannot be reached: warm flour and bowl".to_owned(),
            None,
        ),
    }
}

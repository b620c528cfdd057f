//! Lines about doughs that stand: chilled, risen, followed as bodies by the clock.

use super::relations::SALTED;
use super::rows::{Kind, Row, lines};
use bake::simulate::body::Body;
use bake::simulate::matter::{Holds, Matter};
use bake::simulate::shape::{self, Shape};
use bake::simulate::surround::Surround;
use bake::simulate::{Anchor, Grid, around};
use numerics::quantity::{Mass, Pressure, Temperature};
use recipe::document::model::Material;
use recipe::larder::YeastForm;

/// Lean dough of 62 % water with so much fresh yeast, share of the dough.
pub fn lean(yeast: f64, form: YeastForm) -> Holds {
    Holds {
        made_of: SALTED,
        milk_fat: 0.0,
        flour: 0.61,
        sugar: 0.0,
        yeast,
        form,
        woken: false,
        power: 1.0,
        protein: 0.12,
    }
}

fn matter(holds: Holds) -> Matter {
    Matter::of(holds, Pressure::from_si(101_325.0), Anchor::default())
}

/// A body that stands in still surroundings.
struct Standing {
    matter: Matter,
    body: Body<f64>,
    around: Surround<f64>,
    minute: u32,
}

impl Standing {
    fn new(matter: Matter, shape: Shape, celsius: f64, around: Surround<f64>) -> Self {
        let at = Temperature::from_celsius(celsius);
        let body = Body::new(shape.mesh, shape.room, &matter, at);
        Self {
            matter,
            body,
            around,
            minute: 0,
        }
    }

    /// One minute on.
    fn on(&mut self) {
        for _ in 0..4 {
            self.body.warm(&self.matter, &self.around, 15.0);
        }
        self.body.live(&self.matter, 60.0);
        self.minute += 1;
    }

    /// Hours until something holds, at most so many.
    fn hours_until(&mut self, most: u32, holds: impl Fn(&Self) -> bool) -> Option<f64> {
        while self.minute < 60 * most {
            if holds(self) {
                return Some(f64::from(self.minute) / 60.0);
            }
            self.on();
        }
        None
    }

    fn middle(&self) -> f64 {
        self.body.middle(&self.matter)
    }
}

/// Two pieces of 750 g in proofing baskets in an empty home refrigerator of 4 °C: minutes and what a home
/// baker read (a bakers' forum; read; nobody says how it was covered or where the probe stood).
pub const READINGS: [(u32, f64); 4] = [(60, 20.0), (165, 15.0), (240, 10.0), (420, 5.0)];

/// The middle of such a piece at those minutes, °C.
///
/// # Panics
/// Never: so much dough fills a bowl.
pub fn chilled() -> Vec<f64> {
    let matter = matter(lean(0.004, YeastForm::Instant));
    let shape = shape::in_bowl(Mass::from_grams(750.0), matter.density, Grid::Usual);
    let cold = Temperature::from_celsius(4.0);
    let around = around::resting(cold, "basket", Material::Wood, true);
    let shape = shape.expect("a bowl of dough");
    let mut piece = Standing::new(matter, shape, 24.0, around);
    READINGS
        .iter()
        .map(|(minute, _)| {
            while piece.minute < *minute {
                piece.on();
            }
            piece.middle()
        })
        .collect()
}

/// Two kilograms of lean dough of 25 °C in a steel bowl, half an hour in a refrigerator of 4 °C: the middle and
/// the mean of the outer 2 cm, °C.
///
/// # Panics
/// Never: so much dough fills a bowl.
pub fn half_an_hour_in_the_cold() -> (f64, f64) {
    let matter = matter(lean(0.0, YeastForm::Instant));
    let shape = shape::in_bowl(Mass::from_grams(2000.0), matter.density, Grid::Usual);
    let cold = Temperature::from_celsius(4.0);
    let around = around::resting(cold, "bowl", Material::Steel, true);
    let mut dough = Standing::new(matter, shape.expect("a bowl of dough"), 25.0, around);
    while dough.minute < 30 {
        dough.on();
    }
    (dough.middle(), dough.body.outer(&dough.matter, 0.02))
}

/// Hours to 7 °C in the middle of a round piece on a tray in a cold room of 2 °C, from 24 °C.
fn ball_to_seven(grams: f64) -> Option<f64> {
    let matter = matter(lean(0.004, YeastForm::Instant));
    let shape = shape::round(Mass::from_grams(grams), matter.density, Grid::Usual)?;
    let cold = Temperature::from_celsius(2.0);
    let around = around::resting(cold, "tray", Material::LightMetal, true);
    let mut piece = Standing::new(matter, shape, 24.0, around);
    piece.hours_until(24, |piece| piece.middle() <= 7.0)
}

/// Hours in which a kilogram of lean dough in a bowl doubles at a temperature.
pub fn doubles(yeast: f64, form: YeastForm, celsius: f64) -> Option<f64> {
    let matter = matter(lean(yeast, form));
    let shape = shape::in_bowl(Mass::from_grams(1000.0), matter.density, Grid::Coarse)?;
    let at = Temperature::from_celsius(celsius);
    let around = around::resting(at, "bowl", Material::Steel, true);
    let mut dough = Standing::new(matter, shape, celsius, around);
    let start = dough.body.volume();
    dough.hours_until(30, |dough| dough.body.volume() >= 2.0 * start)
}

/// All lines about doughs that stand.
pub fn doughs() -> Vec<Row> {
    let mut rows = Vec::new();
    let mut table = lines(
        &mut rows,
        Kind::Validation,
        "a home baker's readings in a bakers' forum (read); they are no smooth curve",
        ("°C", 1, 2.0),
    );
    for ((minute, read), found) in READINGS.iter().zip(chilled()) {
        table.one(
            format!("middle of 750 g in a basket, refrigerator 4 °C, after {minute} min"),
            *read,
            found,
        );
    }
    let mut table = lines(
        &mut rows,
        Kind::Validation,
        "a trade forum, cold room (read); the cold room's fan is not in our refrigerator",
        ("h", 1, 0.5),
    );
    for (grams, hours) in [(370.0, 2.0), (620.0, 3.0)] {
        table.add(
            format!("ball of {grams} g from 24 to 7 °C"),
            super::rows::Published::One(hours),
            ball_to_seven(grams),
        );
    }
    let mut table = lines(
        &mut rows,
        Kind::Verification,
        "moles of gas at one temperature, worked out by hand (no warming by the yeast, 8 % air)",
        ("h", 2, 0.20),
    );
    for (what, yeast, form, figures) in [
        (
            "2 % fresh yeast",
            0.0121,
            YeastForm::Fresh,
            [(21.0, 3.19), (24.0, 2.43), (27.0, 1.88), (32.0, 1.31)],
        ),
        (
            "1 % instant yeast",
            0.0182,
            YeastForm::Instant,
            [(21.0, 2.20), (24.0, 1.70), (27.0, 1.34), (32.0, 0.95)],
        ),
    ] {
        for (celsius, hours) in figures {
            table.add(
                format!("a kilogram of lean dough doubles, {what}, {celsius} °C"),
                super::rows::Published::One(hours),
                doubles(yeast, form, celsius),
            );
        }
    }
    let mut table = lines(
        &mut rows,
        Kind::Validation,
        "US Army TM 10-412, card D-010 (read): 2 h at 80 °F; its yeast is not known, 2 % fresh taken",
        ("h", 2, 0.5),
    );
    let ours = doubles(0.0121, YeastForm::Fresh, 26.7);
    table.add(
        "lean dough doubles at 26.7 °C",
        super::rows::Published::One(2.0),
        ours,
    );
    rows
}

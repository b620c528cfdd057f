//! Ten thousand kitchens run on the rough grid: how a kitchen departs from another must be what the usual grid says.

use crate::opened::opened;
use bake::kitchen::{Kitchen, Oven, in_room};
use bake::kitchens::setup_on;
use bake::simulate::{Anchor, Course, Grid, How, simulate};
use everyoven_tests::demos::DEMOS;
use numerics::quantity::{Length, Temperature, TemperatureDifference};
use recipe::document::model::Action;
use recipe::formula::Formula;

fn kitchens() -> [(&'static str, Kitchen); 4] {
    let usual = Kitchen::standard;
    let oven = |kelvin| Kitchen {
        oven: Oven {
            hotter: TemperatureDifference::from_si(kelvin),
            ..Oven::default()
        },
        ..usual()
    };
    [
        ("17 °C", in_room(&usual(), Temperature::from_celsius(17.0))),
        ("oven 15 °C colder", oven(-15.0)),
        ("oven 15 °C hotter", oven(15.0)),
        (
            "1600 m",
            Kitchen {
                altitude: Length::from_si(1600.0),
                ..usual()
            },
        ),
    ]
}

fn run(
    recipe: &recipe::document::model::Recipe,
    formula: &Formula,
    kitchen: &Kitchen,
    grid: Grid,
) -> Course {
    let how = How {
        grid,
        ..How::default()
    };
    simulate(recipe, formula, kitchen, &how).output
}

fn action(recipe: &recipe::document::model::Recipe, place: usize) -> &Action {
    let stages = recipe.stages.iter().flat_map(|stage| &stage.steps);
    let products = recipe.products.iter().flat_map(|product| &product.steps);
    let step = stages.chain(products).nth(place).expect("a step");
    &step.action
}

fn on_the_rack(recipe: &recipe::document::model::Recipe, place: usize) -> bool {
    matches!(action(recipe, place), Action::Cool { .. })
}

/// How much longer each step takes that a sign ends, against the usual kitchen: the rough grid's figure beside the
/// usual one's. A look in the oven is 30 s apart on the rough grid and in a rise a twenty-fifth of its time, so a
/// figure is no finer than that.
#[test]
fn departures_are_those_of_the_usual_grid() {
    let (mut count, mut sum, mut worst) = (0, 0.0, 0.0_f64);
    for (name, text) in DEMOS {
        let (recipe, formula) = opened(text);
        let grids = [Grid::Rough, Grid::Usual];
        let base = grids.map(|grid| run(&recipe, &formula, &Kitchen::standard(), grid));
        for (what, kitchen) in kitchens() {
            let there = grids.map(|grid| run(&recipe, &formula, &kitchen, grid));
            for place in 0..base[0].steps.len() {
                let cue = |course: &Course| {
                    course.steps[place]
                        .cue_after
                        .map(numerics::quantity::Duration::si)
                };
                let ratio = |at: usize| Some(cue(&there[at])? / cue(&base[at])?);
                let (Some(rough), Some(usual), Some(lasts)) = (ratio(0), ratio(1), cue(&base[1]))
                else {
                    continue;
                };
                // Nothing on the rack is judged in ten thousand kitchens.
                if lasts < 300.0 || on_the_rack(&recipe, place) {
                    continue;
                }
                let off = rough / usual - 1.0;
                let of = &base[0].steps[place].of;
                // High up, the middle of a loaf creeps to its two kelvin under boiling; how long that is
                // depends on the cells in the middle more than anything else does.
                let creeps = what == "1600 m" && of == "loaf";
                if off.abs() > 0.03 {
                    println!(
                        "{name}, {of}, {:.0} min, {what}: {rough:.3} times, usual {usual:.3}",
                        lasts / 60.0
                    );
                }
                count += 1;
                sum += off.abs();
                if creeps {
                    assert!(off.abs() < 0.10, "{of}, {what}: {off}");
                } else {
                    worst = worst.max(off.abs());
                }
            }
        }
    }
    let mean = sum / f64::from(count);
    println!(
        "{count} figures: {:.1} % off in the mean, {:.1} % at most",
        100.0 * mean,
        100.0 * worst
    );
    assert!(count > 80, "{count}");
    assert!(mean < 0.01, "{mean}");
    assert!(worst < 0.06, "{worst}");
}

/// Ten thousand kitchens hold some against a clock, so the rough grid's bake must not be late by itself: with its pace
/// the bread that is meant comes to its sign when it does on the usual grid, but for half the time between two looks.
#[test]
fn the_meant_bread_comes_to_its_sign_when_it_does_on_the_usual_grid() {
    let (mut count, mut sum, mut worst) = (0, 0.0, 0.0_f64);
    for (name, text) in DEMOS {
        let (recipe, formula) = opened(text);
        let [rough, usual] = [Grid::Rough, Grid::Usual].map(|grid| {
            let made = setup_on(&recipe, &formula, Anchor::default(), 0, grid);
            made.output.expect("it can be followed").course
        });
        for (place, (here, there)) in rough.steps.iter().zip(&usual.steps).enumerate() {
            let (Some(late), Some(meant)) = (here.cue_after, there.cue_after) else {
                continue;
            };
            if meant.si() < 300.0 || on_the_rack(&recipe, place) {
                continue;
            }
            // Half a look: 15 s in the oven, a fiftieth of the written time in a rise.
            let half_s = match action(&recipe, place) {
                Action::Bake { .. } => 15.0,
                _ => 0.02 * there.written.map_or(0.0, numerics::quantity::Duration::si),
            };
            let off = (late.si() - half_s) / meant.si() - 1.0;
            println!("{name}, {} {}: {off:+.3}", here.of, here.number);
            count += 1;
            sum += off;
            worst = worst.max(off.abs());
        }
    }
    let mean = sum / f64::from(count);
    println!(
        "{count} steps: {:.1} % off in the mean, {:.1} % at most",
        100.0 * mean,
        100.0 * worst
    );
    assert!(count > 15, "{count}");
    assert!(mean.abs() < 0.01, "{mean}");
    assert!(worst < 0.05, "{worst}");
}

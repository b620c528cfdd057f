//! The loop over time asks for no memory: counted by an allocator that counts.

use allocation_counter::measure;
use bake::kitchen::Kitchen;
use bake::physics::proximate::Proximate;
use bake::simulate::body::{Body, Room};
use bake::simulate::matter::{Holds, Matter};
use bake::simulate::surround::{Pan, Side, Surround};
use bake::simulate::{Anchor, Follows, Grid, How, simulate};
use numerics::lane::{Eight, Lane};
use numerics::quantity::{Pressure, Temperature};
use numerics::section::{Mesh, Solid};
use recipe::document::read_recipe;
use recipe::larder::{Larder, YeastForm};

fn body<L: Lane>(matter: &Matter) -> Body<L> {
    let mesh = Mesh::of(
        Solid::Round,
        Mesh::graded_to_end(0.05, 12, 0.7e-3),
        Mesh::graded_to_both(0.06, 24, 0.7e-3),
    )
    .expect("edges rise");
    Body::new(mesh, Room::Every, matter, Temperature::from_celsius(25.0))
}

/// Requests for memory in 400 steps of heat and 100 looks at yeast, gas, crumb and crust.
fn asked<L: Lane>() -> u64 {
    let holds = Holds {
        made_of: Proximate {
            water: 0.42,
            protein: 0.08,
            fat: 0.02,
            carbohydrate: 0.48,
            ..Proximate::default()
        },
        milk_fat: 0.01,
        flour: 0.6,
        sugar: 0.02,
        yeast: 0.01,
        form: YeastForm::Instant,
        woken: false,
        power: 1.0,
        protein: 0.12,
    };
    let matter = Matter::of(holds, Pressure::from_si(101_325.0), Anchor::default());
    let mut body = body::<L>(&matter);
    let bare = Side::still(200.0, 8.0, 0.9);
    let pan = bare.through(Pan {
        holds: L::splat(1845.0),
        touches: L::splat(200.0),
    });
    let around = Surround {
        bottom: pan,
        side: pan,
        top: bare,
    };
    measure(|| {
        for _ in 0..100 {
            for _ in 0..4 {
                body.warm(&matter, &around, 2.5);
            }
            body.live(&matter, 10.0);
        }
    })
    .count_total
}

#[test]
fn a_body_moves_on_without_asking_for_memory() {
    assert_eq!(asked::<f64>(), 0);
    assert_eq!(asked::<Eight>(), 0);
}

/// The counter counts: what does ask is seen.
#[test]
fn what_asks_is_counted() {
    assert_eq!(
        measure(|| drop(std::hint::black_box(vec![0_u8; 64]))).count_total,
        1
    );
}

/// A day asks for its tables, its bodies and what it notes. A rest eight times as long notes more moments, whose list
/// grows by doubling, and asks for nothing else.
#[test]
fn a_longer_day_asks_for_no_more() {
    let day = |rest: &str, bake: &str| {
        let text = format!(
            "everyoven = 1\ntitle = \"Day\"\nkind = \"lean\"\n[[stage]]\nname = \"dough\"\nitems = [\n\
             {{ of = \"bread flour\", take = \"500 g\" }},\n{{ of = \"water\", take = \"320 g\", at = \"20 °C\" }},\n\
             {{ of = \"instant yeast\", take = \"1 g\" }},\n]\n\
             [[stage.step]]\ndo = \"Mix [bread flour], [water] and [instant yeast].\"\nmix = {{ by = \"hand\", phases = [{{ speed = \"medium\", for = \"8 min\" }}] }}\n\
             [[stage.step]]\ndo = \"Rise.\"\nrest = {{ for = \"{rest}\", at = \"18 °C\", where = \"cool place\", in = \"bowl\", covered = \"lid\" }}\nuntil = {{ see = \"grown\", volume = \"9 times\" }}\n\
             [[stage.step]]\ndo = \"Cut.\"\ndivide = {{ into = [\"bread\"], for = \"2 min\" }}\n\
             [[product]]\nname = \"bread\"\nfrom = \"dough\"\ncount = 1\npiece = \"800 g\"\n\
             [[product.step]]\ndo = \"Bake.\"\nbake = {{ phases = [{{ at = \"220 °C\", for = \"{bake}\" }}], fan = false }}\n"
        );
        let recipe = read_recipe(&text).output.expect("it reads");
        let formula = recipe::formula::formula(&recipe, &Larder::open()).output;
        let how = How {
            follows: Follows::Clock,
            grid: Grid::Coarse,
            ..How::default()
        };
        let kitchen = Kitchen::standard();
        let mut steps = 0;
        let count = measure(|| {
            steps = std::hint::black_box(simulate(&recipe, &formula, &kitchen, &how))
                .output
                .work
                .steps;
        })
        .count_total;
        (count, steps)
    };
    let (short, few) = day("2 h", "10 min");
    let (long, many) = day("16 h", "80 min");
    println!("{short} requests in {few} steps, {long} in {many}");
    assert!(many > 5 * few, "{few} {many}");
    assert!(long <= short + 12, "{short} requests, then {long}");
}

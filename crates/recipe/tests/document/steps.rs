//! Any step: every action, every key there or not.

use crate::quantities::{celsius, length, located, minutes, nowhere, number, text, time, timing};
use numerics::quantity::{Duration, Range};
use proptest::collection::vec;
use proptest::option::of;
use proptest::prelude::*;
use recipe::document::model::{
    Action, Material, OvenPhase, Phase, Speed, Standing, Step, Tool, Until,
};
use recipe::source::Span;

pub fn action() -> impl Strategy<Value = Action> {
    let tool = prop::sample::select(Tool::ALL.to_vec());
    let phase =
        (prop::sample::select(Speed::ALL.to_vec()), timing()).prop_map(|(speed, timing)| Phase {
            speed: nowhere(speed),
            timing,
        });
    let oven = (
        celsius(100, 250),
        timing(),
        of(any::<bool>()),
        of(any::<bool>()),
    )
        .prop_map(|(at, timing, steam, foil)| OvenPhase {
            at: nowhere(at),
            timing,
            steam: steam.map(nowhere),
            foil: foil.map(nowhere),
        });
    let dough = (celsius(15, 30), celsius(15, 30)).prop_map(|(a, b)| {
        let (low, high) = if a <= b { (a, b) } else { (b, a) };
        nowhere(Range { low, high })
    });
    prop_oneof![
        (vec(text(), 0..3), time(), minutes()).prop_map(|(what, before, timing)| Action::Ready {
            what,
            before: nowhere(before),
            timing
        }),
        (
            text(),
            text(),
            prop::sample::select(Material::ALL.to_vec()),
            timing()
        )
            .prop_map(|(yeast, liquid, vessel, timing)| Action::Wake {
                yeast,
                liquid,
                vessel: nowhere(vessel),
                timing
            }),
        (tool, vec(phase, 1..4), of(dough), of(text())).prop_map(|(by, phases, dough, adjust)| {
            Action::Mix {
                by: nowhere(by),
                phases,
                dough,
                adjust,
            }
        }),
        (celsius(30, 120), timing()).prop_map(|(to, timing)| Action::Heat {
            to: nowhere(to),
            timing
        }),
        (
            timing(),
            celsius(-20, 50),
            prop::sample::select(Standing::ALL.to_vec()),
            text(),
            of(length(20)),
            of(text())
        )
            .prop_map(|(timing, at, place, vessel, thick, covered)| Action::Rest {
                timing,
                at: nowhere(at),
                place: nowhere(place),
                vessel,
                thick: thick.map(nowhere),
                covered
            }),
        (minutes(), vec(located(time()), 0..3))
            .prop_map(|(timing, into_rest)| Action::Fold { timing, into_rest }),
        (vec(text(), 0..3), minutes()).prop_map(|(into, timing)| Action::Divide { into, timing }),
        minutes().prop_map(|timing| Action::Shape { timing }),
        minutes().prop_map(|timing| Action::Finish { timing }),
        (celsius(100, 250), minutes()).prop_map(|(to, timing)| Action::Preheat {
            to: nowhere(to),
            timing
        }),
        (
            vec(oven, 1..3),
            any::<bool>(),
            of(text()),
            of(celsius(60, 100)),
            of(number(90))
        )
            .prop_map(|(phases, fan, rack, core, check)| Action::Bake {
                phases,
                fan: nowhere(fan),
                rack,
                core: core.map(nowhere),
                check: check.map(|n| nowhere(Duration::from_minutes(n.max(0.1))))
            }),
        (timing(), text(), celsius(0, 40)).prop_map(|(timing, vessel, at)| Action::Cool {
            timing,
            vessel,
            at: nowhere(at)
        }),
    ]
}

pub fn step() -> impl Strategy<Value = Step> {
    let height = (length(20), any::<bool>()).prop_map(|(l, below)| if below { -l } else { l });
    let until = (
        of(text()),
        of(number(8)),
        of(height),
        of(celsius(10, 100)),
        of(celsius(0, 90)),
    )
        .prop_map(|(see, volume, height, core, dough)| Until {
            see,
            volume: volume.map(|v| nowhere(v.max(0.5))),
            height: height.map(nowhere),
            core: core.map(nowhere),
            dough: dough.map(nowhere),
            span: Span::default(),
        });
    (text(), action(), of(until)).prop_map(|(text, action, until)| Step {
        text,
        action,
        until,
        span: Span::default(),
    })
}

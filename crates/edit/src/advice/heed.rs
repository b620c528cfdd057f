//! How readers' habits move when a word stands in the recipe: half of those whom it is for heed it.

use super::Kind;
use bake::kitchens::audience::Audience;
use bake::kitchens::variable::Variable;
use numerics::distribution::Distribution;

/// Of those whom a word is for, so many heed it (a judgement; nobody has counted).
pub const HEED: f64 = 0.5;

/// The audience of a recipe in which the word stands.
pub fn heeded(kind: Kind, audience: &Audience) -> Audience {
    let mut made = audience.clone();
    let mut of = |variable: Variable, change: &dyn Fn(&mut Distribution)| {
        change(&mut made.variables[variable.place()].distribution);
    };
    match kind {
        Kind::WeighFlour => of(Variable::Weighs, &more_yes),
        Kind::WeighPieces => of(Variable::PiecesWeighed, &more_yes),
        Kind::NameSalt => of(Variable::SaltKind, &|it| toward(it, 0)),
        Kind::GoBySign => of(Variable::FollowsClock, &fewer_yes),
        Kind::HeatOven => of(Variable::NotPreheated, &fewer_yes),
        Kind::MeasureTin => of(Variable::TinHolds, &|it| {
            let just = nearest_one(it);
            toward(it, just);
        }),
        // What these change is in the recipe alone.
        Kind::GiveSign
        | Kind::GiveDoughTemperature
        | Kind::WidenWindow
        | Kind::LookEarlier
        | Kind::CoolerOven
        | Kind::ColderButter
        | Kind::LessYeast => {}
    }
    made
}

/// Half of those who do not, do now. Yes stays at the upper end.
fn more_yes(of: &mut Distribution) {
    if let Distribution::OneOf(several) = of
        && several.len() == 2
    {
        let moved = HEED * several[0].0;
        several[0].0 -= moved;
        several[1].0 += moved;
    }
}

/// Half of those who do, do no more.
fn fewer_yes(of: &mut Distribution) {
    if let Distribution::OneOf(several) = of
        && several.len() == 2
    {
        let moved = HEED * several[1].0;
        several[1].0 -= moved;
        several[0].0 += moved;
    }
}

/// Half of all others go over to one.
fn toward(of: &mut Distribution, place: usize) {
    if let Distribution::OneOf(several) = of {
        let mut moved = 0.0;
        for (at, (share, _)) in several.iter_mut().enumerate() {
            if at != place {
                moved += HEED * *share;
                *share *= 1.0 - HEED;
            }
        }
        if let Some((share, _)) = several.get_mut(place) {
            *share += moved;
        }
    }
}

/// Of several, the one whose middle is nearest to just what is written.
fn nearest_one(of: &Distribution) -> usize {
    let Distribution::OneOf(several) = of else {
        return 0;
    };
    let off = |one: &Distribution| (one.quantile(0.5) - 1.0).abs();
    several
        .iter()
        .enumerate()
        .min_by(|(_, (_, one)), (_, (_, other))| off(one).total_cmp(&off(other)))
        .map_or(0, |(place, _)| place)
}

#[cfg(test)]
mod tests {
    use super::heeded;
    use crate::advice::Kind;
    use bake::kitchens::audience::ready;
    use bake::kitchens::variable::Variable;
    use numerics::distribution::Distribution;

    fn share(of: &Distribution, place: usize) -> f64 {
        match of {
            Distribution::OneOf(several) => several[place].0,
            _ => 1.0,
        }
    }

    #[test]
    fn half_of_those_whom_a_word_is_for_heed_it() {
        let us = ready("us").expect("ready");
        let weighs = |audience| {
            share(
                &bake::kitchens::audience::Audience::of(audience, Variable::Weighs).distribution,
                1,
            )
        };
        assert!((weighs(&us) - 0.35).abs() < 1e-12);
        assert!((weighs(&heeded(Kind::WeighFlour, &us)) - 0.675).abs() < 1e-12);
        let salt = heeded(Kind::NameSalt, &us);
        let kinds = &salt.of(Variable::SaltKind).distribution;
        let before = share(&us.of(Variable::SaltKind).distribution, 0);
        assert!((share(kinds, 0) - (before + 0.5 * (1.0 - before))).abs() < 1e-12);
        let all: f64 = (0..3).map(|place| share(kinds, place)).sum();
        assert!((all - 1.0).abs() < 1e-12);
    }

    #[test]
    fn shares_still_come_to_one_and_only_one_thing_moves() {
        let common = ready("common").expect("ready");
        for kind in Kind::ALL {
            let made = heeded(kind, &common);
            let moved = Variable::ALL
                .iter()
                .filter(|one| made.of(**one).distribution != common.of(**one).distribution)
                .count();
            assert!(moved <= 1, "{kind:?}");
            for varied in &made.variables {
                assert!(varied.distribution.can_be(), "{kind:?}");
            }
        }
    }
}

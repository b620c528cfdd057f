//! The sums that every cell of a body goes through, over lists side by side: as functions of slices, so that several cells go at once.

use super::super::matter::Matter;
use numerics::lane::Lane;

/// How near boiling, J/kg below, a cell with water in it is taken to stand still in a step.
const NEAR_BOILING: f64 = 500.0;

/// What a cell that stands still takes for a kelvin, J/K in a kilogram: as good as no end.
const STANDS_STILL: f64 = 1e7;

/// Least part of a boiling cell that heat still has to pass on either side of its middle, so that no
/// resistance is nothing.
const LEAST_LEFT: f64 = 0.02;

/// Most of the air's pressure that vapour takes in a bubble before the bubble opens, 1: 75 °C at the
/// sea, where pores are read to open (71 to 81 °C).
const MOST_STEAM: f64 = 0.38;

/// A list of cells multiplied by weights and added up, four sums side by side.
pub(super) fn sum<L: Lane>(values: &[L], weights: &[f64]) -> L {
    let mut sums = [L::splat(0.0); 4];
    let (fours, rest) = values.as_chunks::<4>();
    let (weights, rest_weights) = weights.as_chunks::<4>();
    for (values, weights) in fours.iter().zip(weights) {
        for at in 0..4 {
            sums[at] += values[at] * L::splat(weights[at]);
        }
    }
    for (value, weight) in rest.iter().zip(rest_weights) {
        sums[0] += *value * L::splat(*weight);
    }
    (sums[0] + sums[1]) + (sums[2] + sums[3])
}

/// What cells are as they stand: heat, J/kg; latent heat of the water that they have lost, J/kg; temperature, °C;
/// specific heat of the whole dough at it, J/(kg K), and one over it.
#[derive(Clone, Copy)]
pub(super) struct Stand<'a, L> {
    pub(super) heat: &'a [L],
    pub(super) dried: &'a [L],
    pub(super) capacity: &'a [L],
    pub(super) per_capacity: &'a [L],
}

/// What cells take for a kelvin now that some of their water has gone: J/(kg K), the same against the whole dough, and
/// one over that.
pub(super) fn hold<L: Lane>(
    matter: &Matter,
    stand: Stand<'_, L>,
    holds: &mut [L],
    whole: &mut [L],
    lifts: &mut [L],
) {
    let (zero, one) = (L::splat(0.0), L::splat(1.0));
    let near_boiling = L::splat(matter.heat.to_boiling - NEAR_BOILING);
    let all_water = L::splat(matter.heat.latent * (1.0 - 1e-6));
    let water = L::splat(matter.heat.water_per_latent);
    let still = L::splat(STANDS_STILL);
    let n = holds.len();
    let (heat, dried) = (&stand.heat[..n], &stand.dried[..n]);
    let (capacity, per_capacity) = (&stand.capacity[..n], &stand.per_capacity[..n]);
    let (whole, lifts) = (&mut whole[..n], &mut lifts[..n]);
    for cell in 0..n {
        let left = one - dried[cell] * water * per_capacity[cell];
        let hot = heat[cell].if_at_least(near_boiling, still, zero);
        let stands = dried[cell].if_at_least(all_water, zero, hot);
        holds[cell] = capacity[cell] * left + stands;
        whole[cell] = left;
        lifts[cell] = one / left;
    }
}

/// What cells conduct by: the gas-free dough, W/(m K), and what fills a bubble; the share that is bubbles; one over what
/// they conduct without water, m K/W.
#[derive(Clone, Copy)]
pub(super) struct Conducts<'a, L> {
    pub(super) solid: &'a [L],
    pub(super) bubble: &'a [L],
    pub(super) bubbles: &'a [L],
    pub(super) without_water: &'a [L],
}

/// One over what cells conduct, m K/W, from cell `from` on, inward and outward of their middles. In a cell that boils the dry part lies
/// outward of its boiling middle and the wet part inward, however much of it there is of each.
pub(super) fn resist<L: Lane>(
    matter: &Matter,
    stand: Stand<'_, L>,
    by: Conducts<'_, L>,
    from: usize,
    (inward, outward): (&mut [L], &mut [L]),
) {
    let (zero, one, two) = (L::splat(0.0), L::splat(1.0), L::splat(2.0));
    let per_latent = L::splat(1.0 / matter.heat.latent.max(1.0));
    let near = L::splat(matter.heat.to_boiling - NEAR_BOILING);
    let least = L::splat(LEAST_LEFT);
    let n = inward.len();
    let (heat, dried) = (&stand.heat[from..][..n], &stand.dried[from..][..n]);
    let (solids, bubbles) = (&by.solid[from..][..n], &by.bubble[from..][..n]);
    let (shares, dry) = (&by.bubbles[from..][..n], &by.without_water[from..][..n]);
    let outward = &mut outward[..n];
    for cell in 0..n {
        let (solid, bubble) = (solids[cell], bubbles[cell]);
        let twice = two * solid + bubble;
        let less = (solid - bubble) * shares[cell];
        let wet = (twice + less) / (solid * (twice - two * less));
        let without = dry[cell];
        let dryness = (dried[cell] * per_latent).within(zero, one);
        let mixed = wet + (without - wet) * dryness;
        let boils = heat[cell].if_at_least(near, one, zero);
        let boils = dryness.if_at_least(one, zero, boils);
        let outer = two * dryness.max(least) * without;
        let inner = two * (one - dryness).max(least) * wet;
        outward[cell] = mixed + (outer - mixed) * boils;
        inward[cell] = mixed + (inner - mixed) * boils;
    }
}

/// What a step needs to book: one over each cell's mass, 1/kg, its specific heat against the whole dough's and one over it.
#[derive(Clone, Copy)]
pub(super) struct Booked<'a, L> {
    pub(super) per_mass: &'a [f64],
    pub(super) whole: &'a [L],
    pub(super) lifts: &'a [L],
}

/// Books the heat of a sweep, J, and the water that it boils off: its latent heat into `goes`, J/kg.
pub(super) fn boil<L: Lane>(
    matter: &Matter,
    heat_j: &[L],
    by: Booked<'_, L>,
    heat: &mut [L],
    dried: &mut [L],
    goes: &mut [L],
) {
    let zero = L::splat(0.0);
    let boils_at = L::splat(matter.heat.to_boiling);
    let latent = L::splat(matter.heat.latent);
    let n = heat.len();
    let (heat_j, per_mass) = (&heat_j[..n], &by.per_mass[..n]);
    let (whole, lifts) = (&by.whole[..n], &by.lifts[..n]);
    let (dried, goes) = (&mut dried[..n], &mut goes[..n]);
    for cell in 0..n {
        let lift = lifts[cell];
        let now = heat[cell] + heat_j[cell] * L::splat(per_mass[cell]) * lift;
        let over = (now - boils_at).max(zero) * whole[cell];
        let went = over.min((latent - dried[cell]).max(zero));
        heat[cell] = now - went * lift;
        dried[cell] += went;
        goes[cell] = went;
    }
}

/// What lives in cells: yeast alive, starch swollen, volume against the gas-free dough, and how much the yeast works.
pub(super) struct Living<'a, L> {
    pub(super) alive: &'a mut [L],
    pub(super) set: &'a mut [L],
    pub(super) swollen: &'a mut [L],
    pub(super) works: &'a mut [L],
    pub(super) grows: &'a mut [L],
}

/// Moves on what lives in cells, s; `rates`: the dough's [`Matter::life`] at each cell's temperature, list by list, `kept`
/// the gas of the last look, mol/kg.
pub(super) fn live<L: Lane>(
    matter: &Matter,
    (step, kept): (L, L),
    celsius: &[L],
    rates: &[Vec<L>; 6],
    cells: Living<'_, L>,
) {
    let [warmth, dying, swelling, dissolves, vapour, growing] = rates;
    let Living {
        alive,
        set,
        swollen,
        works,
        grows,
    } = cells;
    age(step, (warmth, dying), (growing, alive), works, grows);
    swell(
        matter,
        (step, kept),
        (celsius, swelling),
        (dissolves, vapour),
        set,
        swollen,
    );
}

fn age<L: Lane>(
    step: L,
    (warmth, dying): (&[L], &[L]),
    (growing, alive): (&[L], &mut [L]),
    works: &mut [L],
    grows: &mut [L],
) {
    let one = L::splat(1.0);
    let n = alive.len();
    let (warmth, dying, growing) = (&warmth[..n], &dying[..n], &growing[..n]);
    let (works, grows) = (&mut works[..n], &mut grows[..n]);
    for cell in 0..n {
        let lives = alive[cell] / (one + step * dying[cell]);
        alive[cell] = lives;
        works[cell] = warmth[cell] * lives;
        grows[cell] = growing[cell] * lives;
    }
}

/// The bubbles that the gas makes at each cell's temperature; crumb that is set no longer moves.
fn swell<L: Lane>(
    matter: &Matter,
    (step, kept): (L, L),
    (celsius, swelling): (&[L], &[L]),
    (dissolves, vapour): (&[L], &[L]),
    set: &mut [L],
    swollen: &mut [L],
) {
    let (one, half, four) = (L::splat(1.0), L::splat(0.5), L::splat(4.0));
    let air = L::splat(matter.beaten_in / (1.0 - matter.beaten_in) / 298.15);
    let gas = L::splat(8.314_46 * matter.density / matter.pressure) * kept;
    let pressure = L::splat(matter.pressure);
    let most_steam = L::splat(matter.pressure * MOST_STEAM);
    let (water_volume, kelvin) = (L::splat(matter.water_volume), L::splat(273.15));
    let n = set.len();
    let (celsius, swelling) = (&celsius[..n], &swelling[..n]);
    let (dissolves, vapour) = (&dissolves[..n], &vapour[..n]);
    let swollen = &mut swollen[..n];
    for cell in 0..n {
        let sets = one - (one - set[cell]) / (one + step * swelling[cell]);
        set[cell] = sets;
        let kelvin = celsius[cell] + kelvin;
        let air = air * kelvin;
        let all = gas * kelvin;
        let b = air + dissolves[cell] * water_volume - all;
        let free = half * ((b * b + four * all * air).root() - b);
        let volume = one + (air + free) * pressure / (pressure - vapour[cell].min(most_steam));
        let before = swollen[cell];
        swollen[cell] = before + (volume - before) * (one - sets);
    }
}

/// The share of each cell that is bubbles, and one over what it conducts without water, m K/W.
pub(super) fn open<L: Lane>(
    matter: &Matter,
    swollen: &[L],
    bubbles: &mut [L],
    without_water: &mut [L],
) {
    let (one, two) = (L::splat(1.0), L::splat(2.0));
    let (solid, gas) = (
        L::splat(matter.heat.dry.solid),
        L::splat(matter.heat.dry.gas),
    );
    let solids = L::splat(1.0 - matter.heat.dry.water);
    let (twice, more, ratio) = (two * solid + gas, solid - gas, one / solid);
    let n = swollen.len();
    let (bubbles, without_water) = (&mut bubbles[..n], &mut without_water[..n]);
    for cell in 0..n {
        let share = one / swollen[cell];
        bubbles[cell] = one - share;
        let less = more * (one - share * solids);
        without_water[cell] = ratio * (twice + less) / (twice - two * less);
    }
}

//! Plane figures: arcs as points, and what the walls of cut-off pyramids and cones are when laid flat.
//!
//! All lengths are in one unit of the caller's choice; angles are in radians.

use crate::math;
use std::f64::consts::PI;

/// A place on paper: to the right, and down.
pub type Point = (f64, f64);

/// Points along an arc from one angle to another, both ends included. The angle grows from the
/// right towards the bottom. A step is so small that the chord leaves an arc in millimetres by no
/// more than 0.01 mm, a tenth of a printed hairline: r (1 − cos ½ step), by its series r step² / 8.
pub fn arc(centre: Point, radius: f64, from: f64, to: f64) -> Vec<Point> {
    const LEAVES_MM: f64 = 0.01;
    const LEAST_IN_A_TURN: f64 = 48.0;
    let turn = (to - from).abs() / (2.0 * PI);
    let step = (8.0 * LEAVES_MM / radius.max(LEAVES_MM)).sqrt();
    let in_a_turn = (2.0 * PI / step).clamp(LEAST_IN_A_TURN, 720.0);
    let steps = (turn * in_a_turn).ceil().max(1.0);
    let mut points = Vec::new();
    let mut at = 0.0;
    while at <= steps {
        let angle = from + (to - from) * (at / steps);
        points.push((
            centre.0 + radius * math::cos(angle),
            centre.1 + radius * math::sin(angle),
        ));
        at += 1.0;
    }
    points
}

/// The wall of a cut-off cone laid flat: a piece of a ring.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ConeWall {
    /// Radius of the ring's inner arc, which goes round the small end.
    pub inner: f64,
    /// Radius of its outer arc, which goes round the large end.
    pub outer: f64,
    /// Angle of the piece, radians.
    pub angle: f64,
}

/// Lays the wall of a cut-off cone flat; none when both ends are equal (the wall is then a
/// rectangle of 2 π r by the height) or when one of the figures is no length.
///
/// With R and r the radii of the ends and h the height, the wall is s = √(h² + (R − r)²) long.
/// The whole cone's wall is R s / (R − r) long to its point, and an arc of that radius has the
/// rim's length 2 π R at an angle of 2 π (R − r) / s. (Similar triangles; any book of descriptive
/// geometry. Checked against a cone that unrolls to half a ring.)
pub fn cone_wall(large_radius: f64, small_radius: f64, height: f64) -> Option<ConeWall> {
    let in_reach = (large_radius - small_radius) / height;
    let sound = small_radius > 0.0 && height > 0.0 && in_reach.is_finite();
    // Below a tenth of a degree the arcs' centre lies farther off than any table is long.
    if !sound || in_reach < 0.001_75 {
        return None;
    }
    let wall = slant(height, large_radius - small_radius);
    let inner = small_radius * wall / (large_radius - small_radius);
    Some(ConeWall {
        inner,
        outer: inner + wall,
        angle: 2.0 * PI * (large_radius - small_radius) / wall,
    })
}

/// Length of a wall that rises so far and leans out so far.
pub fn slant(height: f64, lean: f64) -> f64 {
    (height * height + lean * lean).sqrt()
}

/// How far each wall of a box leans in from rim to base, from the volume it holds; none when the
/// volume is not below the straight box's or no base would be left.
///
/// With L and W at the rim, depth D and a lean of t on each of the four sides, slices
/// (L − 2 t x)(W − 2 t x) summed from x = 0 to 1 give V / D = L W − (L + W) t + 4 t² / 3, which is
/// solved for the smaller t.
pub fn lean_of_box(length: f64, width: f64, depth: f64, volume: f64) -> Option<f64> {
    let straight = length * width;
    let missing = straight - volume / depth;
    let sum = length + width;
    let under = sum * sum - 16.0 / 3.0 * missing;
    // A figure that is no number passes neither comparison.
    let solvable = missing > 0.0 && under >= 0.0;
    if !solvable {
        return None;
    }
    let lean = (sum - under.sqrt()) * 3.0 / 8.0;
    (lean > 0.0 && 2.0 * lean < length.min(width)).then_some(lean)
}

/// Radius of the base of a cut-off cone, from rim, height and the volume it holds; none when the
/// volume is not below the cylinder's, or below that of a cone that ends in a point.
///
/// V = π h (R² + R r + r²) / 3, solved for r.
pub fn base_radius(rim_radius: f64, height: f64, volume: f64) -> Option<f64> {
    let sum = 3.0 * volume / (PI * height);
    let under = 4.0 * sum - 3.0 * rim_radius * rim_radius;
    if under.is_nan() || under < 0.0 {
        return None;
    }
    let base = (under.sqrt() - rim_radius) / 2.0;
    (base > 0.0 && base < rim_radius).then_some(base)
}

/// Thickness of a round rope that is closed to a ring of this outer diameter and has this volume;
/// none when no ring of that size can hold it.
///
/// Pappus: the rope's section π d² / 4 times the way of its middle, π (D − d). The volume grows
/// with d up to d = 2 D / 3, but a ring keeps a hole only below D / 2.
pub fn rope_of_ring(outer_diameter: f64, volume: f64) -> Option<f64> {
    let holds = |rope: f64| PI * PI / 4.0 * rope * rope * (outer_diameter - rope);
    let (mut low, mut high) = (0.0, outer_diameter / 2.0);
    let has_a_ring = volume > 0.0 && holds(high) >= volume;
    if !has_a_ring {
        return None;
    }
    for _ in 0..100 {
        let middle = f64::midpoint(low, high);
        if holds(middle) < volume {
            low = middle;
        } else {
            high = middle;
        }
    }
    Some(f64::midpoint(low, high))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn near(found: f64, wanted: f64) {
        assert!((found - wanted).abs() < 1e-9, "{found} is not {wanted}");
    }

    #[test]
    fn a_cone_of_two_to_one_unrolls_to_half_a_ring() {
        // R = 2, r = 1, h = √3: the wall is 2 long, the cone's point 4 from the rim, and
        // 2 π 2 / 4 = π.
        let wall = cone_wall(2.0, 1.0, 3.0_f64.sqrt()).expect("it leans");
        near(wall.inner, 2.0);
        near(wall.outer, 4.0);
        near(wall.angle, PI);
    }

    #[test]
    fn a_wall_laid_flat_keeps_rim_base_and_slant() {
        for (large, small, height) in [(102.0, 95.0, 75.0), (82.5, 80.0, 110.0), (30.0, 5.0, 4.0)] {
            let wall = cone_wall(large, small, height).expect("it leans");
            near(wall.outer * wall.angle, 2.0 * PI * large);
            near(wall.inner * wall.angle, 2.0 * PI * small);
            near(wall.outer - wall.inner, slant(height, large - small));
        }
        assert_eq!(cone_wall(10.0, 10.0, 5.0), None);
        assert_eq!(cone_wall(10.0, 9.0, 0.0), None);
    }

    #[test]
    fn leans_give_back_the_volume_they_came_from() {
        // A pyramid's frustum: h/3 (A + a + √(A a)) for similar ends; 40 x 40 over 20 x 20, 30 deep.
        let volume = 30.0 / 3.0 * (1600.0 + 400.0 + 800.0);
        near(lean_of_box(40.0, 40.0, 30.0, volume).expect("leans"), 10.0);
        assert_eq!(lean_of_box(40.0, 40.0, 30.0, 48_000.0), None);
        assert_eq!(lean_of_box(40.0, 40.0, 30.0, f64::NAN), None);
        let volume = PI * 7.0 / 3.0 * (100.0 + 80.0 + 64.0);
        near(base_radius(10.0, 7.0, volume).expect("leans"), 8.0);
        assert_eq!(base_radius(10.0, 7.0, PI * 701.0), None);
        assert_eq!(base_radius(10.0, 7.0, 1.0), None);
    }

    #[test]
    fn a_ring_holds_its_rope() {
        // A torus of mean diameter 20 and rope 4: 2 π² (10)(2²) = 80 π².
        near(rope_of_ring(24.0, 80.0 * PI * PI).expect("a ring"), 4.0);
        assert_eq!(rope_of_ring(10.0, 1e9), None);
        assert_eq!(rope_of_ring(10.0, 0.0), None);
    }

    #[test]
    fn an_arc_begins_and_ends_where_it_should_and_keeps_its_distance() {
        let points = arc((1.0, 2.0), 5.0, 0.0, PI);
        near(points[0].0, 6.0);
        near(points[points.len() - 1].0, -4.0);
        let from_centre = |(x, y): Point| slant(x - 1.0, y - 2.0);
        for point in &points {
            near(from_centre(*point), 5.0);
        }
        // The middle of a chord is where it leaves the arc most.
        for pair in points.windows(2) {
            let middle = (
                f64::midpoint(pair[0].0, pair[1].0),
                f64::midpoint(pair[0].1, pair[1].1),
            );
            let leaves = 5.0 - from_centre(middle);
            assert!((0.008..0.010_01).contains(&leaves), "{leaves}");
        }
    }
}

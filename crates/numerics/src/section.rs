//! A section through a body, cut into cells: how heat flows between them, whatever it is made of.
//!
//! The cells keep their mass; the body may swell, and then every length of the section is stretched
//! by one factor along each axis (a mesh of fixed topology). Finite volumes with the conductivity
//! of two cells in series, second order in space on a smooth mesh (S. V. Patankar, Numerical Heat
//! Transfer and Fluid Flow, 1980, section 4.2; from memory).

use crate::lane::Lane;

/// What a section stands for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Solid {
    /// A prism: the half from its middle plane outward, one metre deep.
    Prism,
    /// A body of revolution: from its axis outward, the whole turn.
    Round,
}

/// Edges of the cells as they lie before the body swells.
#[derive(Clone, Debug, PartialEq)]
pub struct Mesh {
    solid: Solid,
    /// From the middle outward, m; the first is 0.
    across_m: Vec<f64>,
    /// From the bottom up, m; the first is 0.
    up_m: Vec<f64>,
}

impl Mesh {
    /// A mesh from its edges; none when they do not rise from 0 or a direction has no cell.
    pub fn of(solid: Solid, across_m: Vec<f64>, up_m: Vec<f64>) -> Option<Self> {
        let rises = |edges: &[f64]| {
            edges.len() >= 2
                && edges[0].abs() < 1e-15
                && edges.iter().all(|edge| edge.is_finite())
                && edges.windows(2).all(|pair| pair[1] > pair[0])
        };
        (rises(&across_m) && rises(&up_m)).then_some(Self {
            solid,
            across_m,
            up_m,
        })
    }

    /// Edges from 0 to `length` in `cells` cells that grow from the far end inward by one ratio:
    /// the last is the thinnest, `thinnest` m, where that leaves room; even cells otherwise.
    pub fn graded_to_end(length: f64, cells: usize, thinnest: f64) -> Vec<f64> {
        let widths = graded(length, cells, thinnest);
        let mut edges = vec![0.0];
        let mut at = 0.0;
        for width in widths.iter().rev() {
            at += width;
            edges.push(at);
        }
        if let Some(last) = edges.last_mut() {
            *last = length;
        }
        edges
    }

    /// The same, thin at both ends: for a height from a hot bottom to a hot top.
    pub fn graded_to_both(length: f64, cells: usize, thinnest: f64) -> Vec<f64> {
        let below = cells / 2;
        let above = cells - below;
        let half = length * below as f64 / cells.max(1) as f64;
        let mut edges: Vec<f64> = Self::graded_to_end(half, below, thinnest)
            .iter()
            .rev()
            .map(|edge| half - edge)
            .collect();
        let upper = Self::graded_to_end(length - half, above, thinnest);
        edges.extend(upper.iter().skip(1).map(|edge| half + edge));
        edges
    }

    /// Cells from the middle outward.
    pub fn cells_across(&self) -> usize {
        self.across_m.len() - 1
    }

    /// Cells from the bottom up.
    pub fn cells_up(&self) -> usize {
        self.up_m.len() - 1
    }

    /// All cells.
    pub fn cells(&self) -> usize {
        self.cells_across() * self.cells_up()
    }

    /// The place of a cell in lists of cells: rows from the bottom up, each from the middle outward.
    pub fn place(&self, across: usize, up: usize) -> usize {
        up * self.cells_across() + across
    }

    /// What it stands for.
    pub const fn solid(&self) -> Solid {
        self.solid
    }

    /// Edges from the middle outward, m.
    pub fn across_m(&self) -> &[f64] {
        &self.across_m
    }

    /// Edges from the bottom up, m.
    pub fn up_m(&self) -> &[f64] {
        &self.up_m
    }

    /// Base area of a column of cells before swelling: m2 (of a prism: half, one metre deep).
    pub fn base_m2(&self, across: usize) -> f64 {
        let (inner, outer) = (self.across_m[across], self.across_m[across + 1]);
        match self.solid {
            Solid::Prism => outer - inner,
            Solid::Round => std::f64::consts::PI * (outer * outer - inner * inner),
        }
    }

    /// Volume of a cell before swelling, m3.
    pub fn volume_m3(&self, across: usize, up: usize) -> f64 {
        self.base_m2(across) * (self.up_m[up + 1] - self.up_m[up])
    }

    /// Area of the outer side of a row before swelling, m2.
    pub fn side_m2(&self, up: usize) -> f64 {
        let height = self.up_m[up + 1] - self.up_m[up];
        match self.solid {
            Solid::Prism => height,
            Solid::Round => {
                2.0 * std::f64::consts::PI * self.across_m[self.cells_across()] * height
            }
        }
    }
}

/// Widths from the thin end on.
fn graded(length: f64, cells: usize, thinnest: f64) -> Vec<f64> {
    let cells = cells.max(1);
    let even = length / cells as f64;
    if thinnest <= 0.0 || thinnest >= even {
        return vec![even; cells];
    }
    // The ratio whose geometric series comes to the length, by halving.
    let sum = |ratio: f64| -> f64 {
        let mut width = thinnest;
        let mut all = 0.0;
        for _ in 0..cells {
            all += width;
            width *= ratio;
        }
        all
    };
    let (mut low, mut high) = (1.0, 2.0);
    while sum(high) < length {
        high *= 2.0;
    }
    for _ in 0..80 {
        let middle = 0.5 * (low + high);
        if sum(middle) < length {
            low = middle;
        } else {
            high = middle;
        }
    }
    let mut width = thinnest;
    let mut widths = Vec::with_capacity(cells);
    for _ in 0..cells {
        widths.push(width);
        width *= low;
    }
    widths
}

/// How much longer the section is than its mesh, along each axis.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stretch<L> {
    /// From the middle outward.
    pub across: L,
    /// From the bottom up.
    pub up: L,
}

impl<L: Lane> Stretch<L> {
    /// No longer.
    pub fn none() -> Self {
        Self {
            across: L::splat(1.0),
            up: L::splat(1.0),
        }
    }

    /// How many times the area over the length of what conducts outward.
    pub fn outward(&self, solid: Solid) -> L {
        match solid {
            Solid::Prism => self.up / self.across,
            Solid::Round => self.up,
        }
    }

    /// How many times the area over the length of what conducts upward.
    pub fn upward(&self, solid: Solid) -> L {
        self.base(solid) / self.up
    }

    /// How many times the volume.
    pub fn volume(&self, solid: Solid) -> L {
        match solid {
            Solid::Prism => self.across * self.up,
            Solid::Round => self.across * self.across * self.up,
        }
    }

    /// How many times the area of a base.
    pub fn base(&self, solid: Solid) -> L {
        match solid {
            Solid::Prism => self.across,
            Solid::Round => self.across * self.across,
        }
    }

    /// How many times the area of a side.
    pub fn side(&self, solid: Solid) -> L {
        match solid {
            Solid::Prism => self.up,
            Solid::Round => self.across * self.up,
        }
    }
}

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

/// The faces between cells, worked out once for a mesh.
#[derive(Clone, Debug, PartialEq)]
pub struct Faces {
    solid: Solid,
    across: usize,
    up: usize,
    /// Area, and half widths of the inner and the outer cell, for each face across.
    between_columns: Vec<[f64; 2]>,
    heights: Vec<f64>,
    /// Half heights of the lower and the upper cell for each face up.
    between_rows: Vec<[f64; 2]>,
    bases: Vec<f64>,
}

impl Faces {
    /// The faces of a mesh.
    pub fn of(mesh: &Mesh) -> Self {
        let turn = |edge: f64| match mesh.solid {
            Solid::Prism => 1.0,
            Solid::Round => 2.0 * std::f64::consts::PI * edge,
        };
        let half = |edges: &[f64], cell: usize| 0.5 * (edges[cell + 1] - edges[cell]);
        let between_columns = (1..mesh.cells_across())
            .map(|edge| {
                // Half widths divided by the turn's length: area per height is folded in.
                let length = turn(mesh.across_m[edge]);
                [
                    half(&mesh.across_m, edge - 1) / length,
                    half(&mesh.across_m, edge) / length,
                ]
            })
            .collect();
        let between_rows = (1..mesh.cells_up())
            .map(|edge| [half(&mesh.up_m, edge - 1), half(&mesh.up_m, edge)])
            .collect();
        Self {
            solid: mesh.solid,
            across: mesh.cells_across(),
            up: mesh.cells_up(),
            between_columns,
            heights: mesh.up_m.windows(2).map(|pair| pair[1] - pair[0]).collect(),
            between_rows,
            bases: (0..mesh.cells_across())
                .map(|column| mesh.base_m2(column))
                .collect(),
        }
    }

    /// Moves heat on by one step along every row at once, implicitly; `rim` is the outer end of
    /// each row.
    ///
    /// Gives in `temperature` what it is at the end of the step by the capacities at its beginning,
    /// and adds to `heat_j` the heat that each cell has taken in, J: what leaves one cell enters the
    /// next, so nothing is lost when temperatures are read anew from the heat.
    pub fn along_rows<L: Lane>(&self, line: &mut Line<'_, L>, rim: &[Rim<L>]) {
        let sideways = match self.solid {
            Solid::Prism => line.stretch.up / line.stretch.across,
            Solid::Round => line.stretch.up,
        };
        let across = self.across;
        for (row, height) in self.heights.iter().enumerate() {
            let start = row * across;
            let area = L::splat(*height) * sideways * line.step_s;
            let mut before = L::splat(0.0);
            for cell in 0..across {
                let at = start + cell;
                let after = match self.between_columns.get(cell) {
                    Some([inner, outer]) => {
                        area / (L::splat(*inner) * line.resistivity[at]
                            + L::splat(*outer) * line.resistivity[at + 1])
                    }
                    None => L::splat(0.0),
                };
                let (mut own, mut known) = (
                    line.capacity[at] + before + after,
                    line.capacity[at] * line.temperature[at],
                );
                if cell + 1 == across {
                    own += rim[row].conductance * line.step_s;
                    known += rim[row].conductance * line.step_s * rim[row].outside;
                }
                line.eliminate(cell, own, known, before, after);
                before = after;
            }
            line.back(across, start, 1);
            let last = start + across - 1;
            let heat =
                rim[row].conductance * line.step_s * (rim[row].outside - line.temperature[last]);
            line.heat_j[last] += heat;
        }
    }

    /// The same along every column, between what is below and what is above.
    pub fn along_columns<L: Lane>(
        &self,
        line: &mut Line<'_, L>,
        below: &[Rim<L>],
        above: &[Rim<L>],
    ) {
        let upward = match self.solid {
            Solid::Prism => line.stretch.across / line.stretch.up,
            Solid::Round => line.stretch.across * line.stretch.across / line.stretch.up,
        };
        let across = self.across;
        for column in 0..across {
            let area = L::splat(self.bases[column]) * upward * line.step_s;
            let mut before = L::splat(0.0);
            for row in 0..self.up {
                let at = row * across + column;
                let after = match self.between_rows.get(row) {
                    Some([lower, upper]) => {
                        area / (L::splat(*lower) * line.resistivity[at]
                            + L::splat(*upper) * line.resistivity[at + across])
                    }
                    None => L::splat(0.0),
                };
                let (mut own, mut known) = (
                    line.capacity[at] + before + after,
                    line.capacity[at] * line.temperature[at],
                );
                if row == 0 {
                    own += below[column].conductance * line.step_s;
                    known += below[column].conductance * line.step_s * below[column].outside;
                }
                if row + 1 == self.up {
                    own += above[column].conductance * line.step_s;
                    known += above[column].conductance * line.step_s * above[column].outside;
                }
                line.eliminate(row, own, known, before, after);
                before = after;
            }
            line.back(self.up, column, across);
            for (at, rim) in [
                (column, below[column]),
                ((self.up - 1) * across + column, above[column]),
            ] {
                let heat = rim.conductance * line.step_s * (rim.outside - line.temperature[at]);
                line.heat_j[at] += heat;
            }
        }
    }
}

/// The outer end of a row or column: what it conducts to, W/K, and what is there, °C.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rim<L> {
    /// Conductance from the cell's middle outward, W/K.
    pub conductance: L,
    /// Temperature outside.
    pub outside: L,
}

/// What a step along lines works on.
pub struct Line<'a, L> {
    /// Seconds.
    pub step_s: L,
    /// How far the body is swollen.
    pub stretch: Stretch<L>,
    /// Temperatures, one a cell; new at the end.
    pub temperature: &'a mut [L],
    /// Heat capacities, J/K.
    pub capacity: &'a [L],
    /// One over conductivity, m K/W.
    pub resistivity: &'a [L],
    /// Heat taken in, J.
    pub heat_j: &'a mut [L],
    /// Room for as many numbers as the longer direction has cells, three times.
    pub scratch: &'a mut [[L; 3]],
}

impl<L: Lane> Line<'_, L> {
    /// One line of the elimination after L. H. Thomas.
    #[inline]
    fn eliminate(&mut self, cell: usize, own: L, known: L, before: L, after: L) {
        let (above, right) = if cell == 0 {
            (L::splat(0.0), L::splat(0.0))
        } else {
            (self.scratch[cell - 1][0], self.scratch[cell - 1][1])
        };
        let pivot = own - before * above;
        self.scratch[cell] = [after / pivot, (known + before * right) / pivot, after];
    }

    /// Reads the line from its end, and books what has flowed over each face.
    #[inline]
    fn back(&mut self, cells: usize, start: usize, step: usize) {
        let mut next = self.scratch[cells - 1][1];
        self.temperature[start + (cells - 1) * step] = next;
        for cell in (0..cells - 1).rev() {
            let [factor, right, face] = self.scratch[cell];
            let here = right + factor * next;
            let (at, beside) = (start + cell * step, start + (cell + 1) * step);
            self.temperature[at] = here;
            let flow = face * (next - here);
            self.heat_j[at] += flow;
            self.heat_j[beside] = self.heat_j[beside] - flow;
            next = here;
        }
    }
}

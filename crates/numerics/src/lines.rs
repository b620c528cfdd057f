//! Heat along many parallel lines of cells at once: implicit in time, all lines solved side by side.
//!
//! Each line is a tridiagonal system, solved by elimination after L. H. Thomas. The lines do not
//! touch, so the elimination goes cell by cell through all of them: what one line waits for, the
//! next one works through.

use crate::lane::Lane;
use crate::section::{Mesh, Solid};

/// Lines of cells through a section, worked out once for a mesh.
///
/// Lists of cells are read cell by cell, and of each cell line by line: `cell * lines + line`.
#[derive(Clone, Debug, PartialEq)]
pub struct Lines {
    cells: usize,
    side_by_side: usize,
    /// For each face along a line, the half widths before and behind it, m, over what its area is
    /// more than the line's own.
    halves: Vec<[f64; 2]>,
    /// What the faces of a line have in common: area, m2, or height, m.
    areas: Vec<f64>,
}

/// The outer end of a line: what it conducts to, W/K, and what is there, °C.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct End<L> {
    /// Conductance from the cell's middle outward, W/K.
    pub conductance: L,
    /// Temperature outside.
    pub outside: L,
}

impl<L: Lane> End<L> {
    /// An end that nothing passes.
    pub fn shut() -> Self {
        Self {
            conductance: L::splat(0.0),
            outside: L::splat(0.0),
        }
    }
}

/// What a step along lines works on; the lists in the order of [`Lines`].
pub struct Flow<'a, L> {
    /// Temperatures, °C; new at the end.
    pub temperature: &'a mut [L],
    /// Heat capacities, J/K.
    pub capacity: &'a [L],
    /// One over conductivity in each cell's half before its middle, m K/W.
    pub before: &'a [L],
    /// The same in its half behind it.
    pub after: &'a [L],
    /// Heat taken in by each cell, J: written anew.
    pub heat_j: &'a mut [L],
    /// Room to work in.
    pub scratch: &'a mut Scratch<L>,
}

/// Room for the elimination, as large as the section.
#[derive(Clone, Debug)]
pub struct Scratch<L> {
    factor: Vec<L>,
    right: Vec<L>,
    face: Vec<L>,
    area: Vec<L>,
}

impl<L: Lane> Scratch<L> {
    /// Room for a mesh.
    pub fn of(mesh: &Mesh) -> Self {
        let zero = L::splat(0.0);
        Self {
            factor: vec![zero; mesh.cells()],
            right: vec![zero; mesh.cells()],
            face: vec![zero; mesh.cells()],
            area: vec![zero; mesh.cells_across().max(mesh.cells_up())],
        }
    }
}

impl Lines {
    /// Rows of a mesh, from the middle outward: cell by cell outward, and of each the rows upward.
    pub fn across(mesh: &Mesh) -> Self {
        let edges = mesh.across_m();
        let half = |cell: usize| 0.5 * (edges[cell + 1] - edges[cell]);
        let halves = (1..mesh.cells_across())
            .map(|edge| {
                let turn = match mesh.solid() {
                    Solid::Prism => 1.0,
                    Solid::Round => 2.0 * std::f64::consts::PI * edges[edge],
                };
                [half(edge - 1) / turn, half(edge) / turn]
            })
            .collect();
        Self {
            cells: mesh.cells_across(),
            side_by_side: mesh.cells_up(),
            halves,
            areas: mesh
                .up_m()
                .windows(2)
                .map(|pair| pair[1] - pair[0])
                .collect(),
        }
    }

    /// Columns of a mesh, from the bottom up: in the order in which a mesh counts its cells.
    pub fn up(mesh: &Mesh) -> Self {
        let edges = mesh.up_m();
        let half = |cell: usize| 0.5 * (edges[cell + 1] - edges[cell]);
        Self {
            cells: mesh.cells_up(),
            side_by_side: mesh.cells_across(),
            halves: (1..mesh.cells_up())
                .map(|edge| [half(edge - 1), half(edge)])
                .collect(),
            areas: (0..mesh.cells_across())
                .map(|column| mesh.base_m2(column))
                .collect(),
        }
    }

    /// Moves heat on by one step, s, implicitly; `stretched`: area over length of the section as it
    /// lies, against its mesh. `first` and `last` are the ends of every line.
    ///
    /// Gives in `temperature` what it is at the end of the step by the capacities at its beginning,
    /// and in `heat_j` the heat that each cell has taken in: what leaves one cell enters the next, so
    /// nothing is lost when temperatures are read anew from the heat.
    pub fn step<L: Lane>(
        &self,
        step_s: L,
        stretched: L,
        work: &mut Flow<'_, L>,
        first: Option<&[End<L>]>,
        last: &[End<L>],
    ) {
        // A number of lines that is known before the program runs lets each row go through in a few strides.
        match self.side_by_side {
            3 => self.step_of::<3, L>(step_s, stretched, work, first, last),
            5 => self.step_of::<5, L>(step_s, stretched, work, first, last),
            6 => self.step_of::<6, L>(step_s, stretched, work, first, last),
            10 => self.step_of::<10, L>(step_s, stretched, work, first, last),
            _ => self.step_of::<0, L>(step_s, stretched, work, first, last),
        }
    }

    /// The step for `N` lines side by side; 0: as many as there are.
    fn step_of<const N: usize, L: Lane>(
        &self,
        step_s: L,
        stretched: L,
        work: &mut Flow<'_, L>,
        first: Option<&[End<L>]>,
        last: &[End<L>],
    ) {
        let (n, cells) = (self.lines::<N>(), self.cells);
        let scale = stretched * step_s;
        for (area, own) in work.scratch.area.iter_mut().zip(&self.areas) {
            *area = L::splat(*own) * scale;
        }
        for cell in 0..cells {
            self.eliminate::<N, L>(cell, work);
            if let (0, Some(first)) = (cell, first) {
                Self::open(0, n, step_s, first, work);
            }
            if cell + 1 == cells {
                Self::open(cell, n, step_s, last, work);
            }
            self.pivot::<N, L>(cell, work);
        }
        self.read_back::<N, L>(work);
        for (ends, cell) in [(first, 0), (Some(last), cells - 1)] {
            for (line, end) in ends.into_iter().flatten().enumerate() {
                let at = cell * n + line;
                work.heat_j[at] += end.conductance * step_s * (end.outside - work.temperature[at]);
            }
        }
    }

    #[inline]
    fn lines<const N: usize>(&self) -> usize {
        if N > 0 { N } else { self.side_by_side }
    }

    /// Sums of one cell's row, all lines: the diagonal into `factor`, what is known into `right`, the
    /// face to the next cell into `face`.
    #[inline]
    fn eliminate<const N: usize, L: Lane>(&self, cell: usize, work: &mut Flow<'_, L>) {
        let n = self.lines::<N>();
        let at = cell * n;
        let scratch = &mut *work.scratch;
        let (faces_before, faces) = scratch.face.split_at_mut(at);
        let (factors_before, factors) = scratch.factor.split_at_mut(at);
        let (rights_before, rights) = scratch.right.split_at_mut(at);
        let (faces, factors, rights) = (&mut faces[..n], &mut factors[..n], &mut rights[..n]);
        let capacity = &work.capacity[at..][..n];
        let temperature = &work.temperature[at..][..n];
        if let Some([inner, outer]) = self.halves.get(cell) {
            let (inner, outer) = (L::splat(*inner), L::splat(*outer));
            let area = &scratch.area[..n];
            let here = &work.after[at..][..n];
            let next = &work.before[at + n..][..n];
            for line in 0..n {
                faces[line] = area[line] / (inner * here[line] + outer * next[line]);
            }
        } else {
            faces.fill(L::splat(0.0));
        }
        if cell == 0 {
            for line in 0..n {
                factors[line] = capacity[line] + faces[line];
                rights[line] = capacity[line] * temperature[line];
            }
        } else {
            let faces_before = &faces_before[at - n..][..n];
            let factors_before = &factors_before[at - n..][..n];
            let rights_before = &rights_before[at - n..][..n];
            for line in 0..n {
                let before = faces_before[line];
                factors[line] =
                    capacity[line] + before + faces[line] - before * factors_before[line];
                rights[line] = capacity[line] * temperature[line] + before * rights_before[line];
            }
        }
    }

    /// Adds an end to the sums of a cell.
    #[inline]
    fn open<L: Lane>(cell: usize, n: usize, step_s: L, ends: &[End<L>], work: &mut Flow<'_, L>) {
        for (line, end) in ends.iter().enumerate() {
            let conducts = end.conductance * step_s;
            work.scratch.factor[cell * n + line] += conducts;
            work.scratch.right[cell * n + line] += conducts * end.outside;
        }
    }

    /// Turns the sums of a cell into factor and right side of its elimination.
    #[inline]
    fn pivot<const N: usize, L: Lane>(&self, cell: usize, work: &mut Flow<'_, L>) {
        let n = self.lines::<N>();
        let at = cell * n;
        let faces = &work.scratch.face[at..][..n];
        let factors = &mut work.scratch.factor[at..][..n];
        let rights = &mut work.scratch.right[at..][..n];
        let one = L::splat(1.0);
        for line in 0..n {
            let by = one / factors[line];
            factors[line] = faces[line] * by;
            rights[line] = rights[line] * by;
        }
    }

    /// Reads the lines from their ends, and books what has flowed over each face.
    #[inline]
    fn read_back<const N: usize, L: Lane>(&self, work: &mut Flow<'_, L>) {
        let (n, cells) = (self.lines::<N>(), self.cells);
        let end = (cells - 1) * n;
        work.temperature[end..].copy_from_slice(&work.scratch.right[end..]);
        work.heat_j[end..].fill(L::splat(0.0));
        for cell in (0..cells - 1).rev() {
            let at = cell * n;
            let (here, next) = work.temperature[at..].split_at_mut(n);
            let (heats, heats_next) = work.heat_j[at..].split_at_mut(n);
            let (next, heats_next) = (&next[..n], &mut heats_next[..n]);
            let factors = &work.scratch.factor[at..][..n];
            let rights = &work.scratch.right[at..][..n];
            let faces = &work.scratch.face[at..][..n];
            for line in 0..n {
                let now = rights[line] + factors[line] * next[line];
                here[line] = now;
                let flow = faces[line] * (next[line] - now);
                heats[line] = flow;
                heats_next[line] = heats_next[line] - flow;
            }
        }
    }
}

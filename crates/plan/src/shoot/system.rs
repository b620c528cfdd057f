//! Times that may differ by at most so much from one another: what is the latest, the earliest, the least wait.
//!
//! A set of inequalities t(v) − t(u) ≤ w has a solution exactly when the graph with an edge of that length
//! from u to v for each of them has no circle of negative length, and the shortest ways from a fixed point
//! are its latest solution (R. Bellman, Q. Appl. Math. 16 (1958) 87, from memory; differences after
//! T. H. Cormen and others, Introduction to Algorithms, chapter on shortest paths, from memory).

/// Further than any plan reaches.
pub const FAR: i64 = i64::MAX / 4;

/// A system of differences.
#[derive(Clone, Debug)]
pub struct System {
    count: usize,
    /// From, to, at most.
    edges: Vec<(usize, usize, i64)>,
}

impl System {
    /// So many unknown times, nothing said of them.
    pub const fn new(count: usize) -> Self {
        Self {
            count,
            edges: Vec::new(),
        }
    }

    /// t(later) − t(earlier) ≤ most.
    pub fn at_most(&mut self, earlier: usize, later: usize, most: i64) {
        self.edges.push((earlier, later, most));
    }

    /// t(later) − t(earlier) ≥ least.
    pub fn at_least(&mut self, earlier: usize, later: usize, least: i64) {
        self.edges.push((later, earlier, -least));
    }

    /// t(later) − t(earlier) = this.
    pub fn exactly(&mut self, earlier: usize, later: usize, minutes: i64) {
        self.at_most(earlier, later, minutes);
        self.at_least(earlier, later, minutes);
    }

    /// The most that each time can be after that of `from`; none when the system has no solution.
    /// [`FAR`] where nothing bounds it.
    pub fn most_after(&self, from: usize) -> Option<Vec<i64>> {
        let mut most = vec![FAR; self.count];
        most[from] = 0;
        for round in 0..=self.count {
            let mut changed = false;
            for &(u, v, w) in &self.edges {
                if most[u] < FAR && most[u] + w < most[v] {
                    most[v] = most[u] + w;
                    changed = true;
                }
            }
            if !changed {
                return Some(most);
            }
            if round == self.count || most[from] < 0 {
                return None;
            }
        }
        None
    }

    /// The least that each time can be after that of `from`; −[`FAR`] where nothing bounds it.
    pub fn least_after(&self, from: usize) -> Option<Vec<i64>> {
        let turned = Self {
            count: self.count,
            edges: self.edges.iter().map(|&(u, v, w)| (v, u, w)).collect(),
        };
        let most = turned.most_after(from)?;
        Some(most.into_iter().map(|most| -most).collect())
    }
}

#[cfg(test)]
mod tests {
    use super::{FAR, System};

    #[test]
    fn bounds_are_those_of_the_shortest_ways() {
        let mut system = System::new(4);
        system.at_least(0, 1, 10);
        system.at_most(0, 1, 30);
        system.exactly(1, 2, 5);
        assert_eq!(system.most_after(0), Some(vec![0, 30, 35, FAR]));
        assert_eq!(system.least_after(0), Some(vec![0, 10, 15, -FAR]));
    }

    #[test]
    fn what_contradicts_itself_has_no_solution() {
        let mut system = System::new(3);
        system.at_least(0, 1, 10);
        system.exactly(1, 2, 5);
        system.at_most(0, 2, 14);
        assert_eq!(system.most_after(0), None);
    }
}

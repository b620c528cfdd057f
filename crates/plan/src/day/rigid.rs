//! Tasks that always lie alike: what no play is between moves as one.

use super::problem::Problem;

/// Which tasks move as one, and how they lie in it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Rigid {
    /// Of every task the moment with which it moves.
    moment: Vec<usize>,
    /// Of every task how much later than that moment it begins, minutes.
    after: Vec<i32>,
    count: usize,
}

impl Rigid {
    /// Of a puzzle.
    pub fn new(problem: &Problem) -> Self {
        let tasks = problem.tasks.len();
        let fixed = || problem.gaps.iter().filter(|gap| gap.least == gap.most);
        let mut moment: Vec<Option<usize>> = vec![None; tasks];
        let mut after = vec![0; tasks];
        let mut count = 0;
        let mut line = Vec::new();
        for first in 0..tasks {
            if moment[first].is_some() {
                continue;
            }
            moment[first] = Some(count);
            line.push(first);
            while let Some(task) = line.pop() {
                for gap in fixed() {
                    let (other, by) = if gap.from == task {
                        (gap.to, gap.least)
                    } else if gap.to == task {
                        (gap.from, -gap.least)
                    } else {
                        continue;
                    };
                    if moment[other].is_none() {
                        moment[other] = Some(count);
                        after[other] = after[task] + by;
                        line.push(other);
                    }
                }
            }
            count += 1;
        }
        Self {
            moment: moment.into_iter().flatten().collect(),
            after,
            count,
        }
    }

    /// So many tasks.
    pub const fn tasks(&self) -> usize {
        self.moment.len()
    }

    /// So many moments.
    pub const fn count(&self) -> usize {
        self.count
    }

    /// With which moment a task moves, and how much later than it the task begins, minutes.
    pub fn of(&self, task: usize) -> (usize, i32) {
        (self.moment[task], self.after[task])
    }

    /// Where every moment lies when no task of it is to begin earlier than it does.
    pub fn moments(&self, starts: &[i32], moments: &mut Vec<i32>) {
        moments.clear();
        moments.resize(self.count, i32::MIN);
        for (task, start) in starts.iter().enumerate() {
            let (moment, after) = self.of(task);
            moments[moment] = moments[moment].max(start - after);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::Rigid;
    use crate::day::problem::{Gap, Problem, Task};

    #[test]
    fn what_has_no_play_between_it_moves_as_one() {
        let task = Task {
            lasts: 5,
            earliest: 0,
            latest: 100,
        };
        let gap = |from, to, least, most| Gap {
            from,
            to,
            least,
            best: most,
            most,
        };
        let problem = Problem {
            horizon: 200,
            tasks: vec![task; 5],
            // The third hangs on the second, which begins a dough; the fourth has play; the last hangs on the third.
            gaps: vec![
                gap(1, 2, 10, 10),
                gap(2, 3, 5, 8),
                gap(2, 4, 20, 20),
                gap(0, 4, 7, 40),
            ],
            ..Problem::default()
        };
        let rigid = Rigid::new(&problem);
        assert_eq!(rigid.count(), 3);
        let places: Vec<_> = (0..5).map(|task| rigid.of(task)).collect();
        assert_eq!(places, [(0, 0), (1, 0), (1, 10), (2, 0), (1, 30)]);
        let mut moments = Vec::new();
        rigid.moments(&[3, 0, 12, 20, 30], &mut moments);
        assert_eq!(moments, [3, 2, 20]);
    }
}

//! Which moments of a plan are best raised together: the part of a network that costs least to cut off.
//!
//! A cut of least cost is as much as can flow through, which is found layer by layer. What flows through a tie without
//! slack stays from step to step, so each step only looks for what is still to be sent.

use super::ties::Tie;

/// A network of ties.
#[derive(Debug)]
pub struct Network {
    nodes: usize,
    must: i64,
    /// Ties that hold whatever comes first, as far as they must, by where they begin.
    first: Vec<usize>,
    onward: Vec<usize>,
    always: usize,
    /// What must be of the other ties: of every node the first, and of every tie the next.
    others: Vec<usize>,
    next: Vec<usize>,
    spare: Vec<i32>,
    flow: Vec<i64>,
    /// What comes to a node more than leaves it.
    excess: Vec<i64>,
    /// Ties without slack: of every node where its list begins, and all lists.
    tight: Vec<usize>,
    ends: Vec<End>,
    layer: Vec<u32>,
    /// Of every node which of its list is tried next.
    turn: Vec<usize>,
    line: Vec<usize>,
    waits: Vec<bool>,
    /// Of every node the tie that raised it last.
    pushed_by: Vec<usize>,
    /// The ties by which something pushed itself, when it last did.
    pub ring: Vec<usize>,
}

/// One end of a tie without slack.
#[derive(Clone, Copy, Debug)]
struct End {
    tie: usize,
    other: usize,
    /// It begins here.
    begins: bool,
}

/// Not reached.
const NO_LAYER: u32 = u32::MAX;
/// None.
const NONE: usize = usize::MAX;

impl Network {
    /// Of so many nodes, some ties that are always there, and what a tie costs that must hold.
    pub fn new(nodes: usize, always: &[Tie], must: i64) -> Self {
        let mut first = vec![0; nodes + 1];
        let mut onward = Vec::new();
        for node in 0..nodes {
            let own = always.iter().enumerate();
            let own = own.filter(|(_, tie)| tie.from == node && tie.costs == must);
            onward.extend(own.map(|(place, _)| place));
            first[node + 1] = onward.len();
        }
        Self {
            nodes,
            must,
            first,
            onward,
            always: always.len(),
            others: Vec::new(),
            next: Vec::new(),
            spare: Vec::new(),
            flow: Vec::new(),
            excess: Vec::new(),
            tight: Vec::new(),
            ends: Vec::new(),
            layer: Vec::new(),
            turn: Vec::new(),
            line: Vec::new(),
            waits: Vec::new(),
            pushed_by: Vec::new(),
            ring: Vec::new(),
        }
    }

    /// What flows through a tie: what a minute less of it would bring, when nothing gains any more.
    pub fn flow(&self, tie: usize) -> i64 {
        self.flow[tie]
    }

    /// Raises moments until every tie that must hold does; whether that comes to an end. What pushes itself does not.
    pub fn possible(&mut self, ties: &[Tie], moments: &mut [i32]) -> bool {
        self.others.clear();
        self.others.resize(self.nodes, NONE);
        self.next.clear();
        for (place, tie) in ties[self.always..].iter().enumerate() {
            self.next.push(self.others[tie.from]);
            if tie.costs == self.must {
                self.others[tie.from] = place;
            }
        }
        self.pushed_by.clear();
        self.pushed_by.resize(self.nodes, NONE);
        self.waits.clear();
        self.waits.resize(self.nodes, true);
        // In the order of time most are raised once.
        self.line.clear();
        self.line.extend(0..self.nodes);
        self.line
            .sort_unstable_by_key(|node| (moments[*node], *node));
        let mut at = 0;
        while let Some(node) = self.line.get(at).copied() {
            at += 1;
            self.waits[node] = false;
            for place in self.first[node]..self.first[node + 1] {
                if !self.push(ties, self.onward[place], moments) {
                    return false;
                }
            }
            let mut other = self.others[node];
            while other != NONE {
                if !self.push(ties, self.always + other, moments) {
                    return false;
                }
                other = self.next[other];
            }
        }
        true
    }

    /// Raises the end of a tie that must hold; not when that pushes itself.
    fn push(&mut self, ties: &[Tie], place: usize, moments: &mut [i32]) -> bool {
        let tie = &ties[place];
        let least = moments[tie.from] + tie.least;
        if moments[tie.to] >= least {
            return true;
        }
        self.ring.clear();
        self.ring.push(place);
        let mut by = tie.from;
        while by != tie.to {
            self.ring.push(self.pushed_by[by]);
            let Some(other) = ties.get(self.pushed_by[by]) else {
                moments[tie.to] = least;
                self.pushed_by[tie.to] = place;
                if !self.waits[tie.to] {
                    self.waits[tie.to] = true;
                    self.line.push(tie.to);
                }
                return true;
            };
            by = other.from;
        }
        false
    }

    /// Begins where moments are, with what flowed before through ties that have no slack.
    pub fn begin(&mut self, ties: &[Tie], moments: &[i32], before: impl Fn(usize) -> i64) {
        self.excess.clear();
        self.excess.resize(self.nodes, 0);
        self.spare.clear();
        self.flow.clear();
        for (place, tie) in ties.iter().enumerate() {
            let spare = moments[tie.to] - moments[tie.from] - tie.least;
            let flow = match spare {
                0 => before(place).min(tie.costs),
                short if short < 0 => tie.costs,
                _ => 0,
            };
            self.spare.push(spare);
            self.flow.push(flow);
            self.excess[tie.to] += flow;
            self.excess[tie.from] -= flow;
        }
    }

    /// Raises what is best raised together, as far as it gains as much; whether that gains anything.
    pub fn gains(&mut self, ties: &[Tie], moments: &mut [i32]) -> bool {
        self.tighten(ties);
        while self.layers(ties) {
            self.turn.clear();
            self.turn.extend_from_slice(&self.tight[..self.nodes]);
            for node in 0..self.nodes {
                while self.layer[node] == 0 && self.excess[node] > 0 {
                    let through = self.send(ties, node, self.excess[node]);
                    if through == 0 {
                        break;
                    }
                    self.excess[node] -= through;
                }
            }
        }
        // What is still reached is raised.
        let mut by = i32::MAX;
        for (tie, spare) in ties.iter().zip(&self.spare) {
            let raised = |node: usize| self.layer[node] != NO_LAYER;
            match (raised(tie.from), raised(tie.to)) {
                (true, false) if *spare > 0 => by = by.min(*spare),
                (false, true) if *spare < 0 => by = by.min(-spare),
                _ => {}
            }
        }
        if by == i32::MAX {
            return false;
        }
        for (moment, layer) in moments.iter_mut().zip(&self.layer) {
            if *layer != NO_LAYER {
                *moment += by;
            }
        }
        for (tie, spare) in ties.iter().zip(&mut self.spare) {
            *spare = moments[tie.to] - moments[tie.from] - tie.least;
        }
        true
    }

    /// Lists ties without slack by their ends.
    fn tighten(&mut self, ties: &[Tie]) {
        self.tight.clear();
        self.tight.resize(self.nodes + 2, 0);
        self.line.clear();
        for (place, spare) in self.spare.iter().enumerate() {
            if *spare == 0 {
                self.line.push(place);
                self.tight[ties[place].from + 2] += 1;
                self.tight[ties[place].to + 2] += 1;
            }
        }
        for node in 2..self.nodes + 2 {
            self.tight[node] += self.tight[node - 1];
        }
        let none = End {
            tie: 0,
            other: 0,
            begins: true,
        };
        self.ends.clear();
        self.ends.resize(2 * self.line.len(), none);
        for place in &self.line {
            let Tie { from, to, .. } = ties[*place];
            for (node, other, begins) in [(from, to, true), (to, from, false)] {
                self.ends[self.tight[node + 1]] = End {
                    tie: *place,
                    other,
                    begins,
                };
                self.tight[node + 1] += 1;
            }
        }
    }

    /// What still goes through a tie from one of its ends.
    fn room(&self, ties: &[Tie], end: End) -> i64 {
        if end.begins {
            ties[end.tie].costs - self.flow[end.tie]
        } else {
            self.flow[end.tie]
        }
    }

    /// How far every node is from those to which more comes than leaves; whether one of the others is reached.
    fn layers(&mut self, ties: &[Tie]) -> bool {
        self.layer.clear();
        self.layer.resize(self.nodes, NO_LAYER);
        self.line.clear();
        for node in 0..self.nodes {
            if self.excess[node] > 0 {
                self.layer[node] = 0;
                self.line.push(node);
            }
        }
        let mut reached = false;
        let mut at = 0;
        while let Some(node) = self.line.get(at).copied() {
            at += 1;
            reached |= self.excess[node] < 0;
            for place in self.tight[node]..self.tight[node + 1] {
                let end = self.ends[place];
                if self.layer[end.other] == NO_LAYER && self.room(ties, end) > 0 {
                    self.layer[end.other] = self.layer[node] + 1;
                    self.line.push(end.other);
                }
            }
        }
        reached
    }

    /// Sends what goes through along layers, to any node from which more leaves than comes.
    fn send(&mut self, ties: &[Tie], node: usize, most: i64) -> i64 {
        if self.excess[node] < 0 {
            let through = most.min(-self.excess[node]);
            self.excess[node] += through;
            return through;
        }
        while self.turn[node] < self.tight[node + 1] {
            let end = self.ends[self.turn[node]];
            let room = self.room(ties, end);
            if room > 0 && self.layer[end.other] == self.layer[node] + 1 {
                let through = self.send(ties, end.other, most.min(room));
                if through > 0 {
                    self.flow[end.tie] += if end.begins { through } else { -through };
                    return through;
                }
            }
            self.turn[node] += 1;
        }
        0
    }
}

#[cfg(test)]
mod tests {
    use super::Network;
    use crate::day::ties::Tie;

    const fn tie(from: usize, to: usize, least: i32, costs: i64) -> Tie {
        Tie {
            from,
            to,
            least,
            costs,
        }
    }

    #[test]
    fn what_gains_more_than_it_tears_is_raised() {
        // By hand: raised by 3, the first gains 5 a minute and takes the second along, which loses 3 a minute; the third
        // would gain 2 and tear at 4.
        let ties = [
            tie(4, 0, 3, 5),
            tie(0, 1, 0, 100),
            tie(1, 4, 0, 3),
            tie(4, 2, 3, 2),
            tie(2, 3, 0, 4),
            tie(3, 4, 0, 9),
        ];
        let mut moments = [0; 5];
        let mut network = Network::new(5, &ties, 1000);
        network.begin(&ties, &moments, |_| 0);
        while network.gains(&ties, &mut moments) {}
        assert_eq!(moments, [3, 3, 0, 0, 0]);
        // What a minute less would bring: of the first wish what it gains besides what the second loses.
        assert_eq!(network.flow(1), 3);
        // The second loses more than the first gains.
        let ties = [tie(2, 0, 3, 5), tie(0, 1, 0, 100), tie(1, 2, 0, 6)];
        let mut moments = [0; 3];
        let mut network = Network::new(3, &ties, 1000);
        network.begin(&ties, &moments, |_| 0);
        while network.gains(&ties, &mut moments) {}
        assert_eq!(moments, [0; 3]);
    }

    #[test]
    fn what_pushes_itself_is_no_plan() {
        let mut moments = [0; 3];
        let always = [tie(0, 1, 5, 9), tie(1, 0, -7, 9)];
        let mut network = Network::new(3, &always, 9);
        assert!(network.possible(&always, &mut moments));
        assert_eq!(moments, [0, 5, 0]);
        // At least 8 by way of the third, at most 7.
        let ties = [always[0], always[1], tie(0, 2, 4, 9), tie(2, 1, 4, 9)];
        assert!(!network.possible(&ties, &mut moments));
        network.ring.sort_unstable();
        assert_eq!(network.ring, [1, 2, 3]);
    }
}

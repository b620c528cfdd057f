//! Which moments of a plan are best raised together: the part of a network that costs least to cut off.
//!
//! A cut of least cost is as much as can flow through, which is found layer by layer.

/// A network that is filled anew for each question.
#[derive(Debug, Default)]
pub struct Network {
    /// Of every node its first edge.
    first: Vec<Option<usize>>,
    edges: Vec<Edge>,
    /// What a node gains (below zero) or loses (above) when it is raised.
    alone: Vec<i64>,
    layer: Vec<u32>,
    /// Of every node the edge that is tried next.
    turn: Vec<Option<usize>>,
    line: Vec<usize>,
}

#[derive(Clone, Copy, Debug)]
struct Edge {
    to: usize,
    /// What still goes through.
    room: i64,
    next: Option<usize>,
}

/// Not reached.
const NO_LAYER: u32 = u32::MAX;

impl Network {
    /// Nothing in it but so many nodes.
    pub fn clear(&mut self, nodes: usize) {
        // Two more: where it comes from and where it goes.
        self.first.clear();
        self.first.resize(nodes + 2, None);
        self.edges.clear();
        self.alone.clear();
        self.alone.resize(nodes, 0);
    }

    /// Raising a node costs so much more.
    pub fn alone(&mut self, node: usize, costs: i64) {
        self.alone[node] += costs;
    }

    /// Raising one and leaving the other costs so much.
    pub fn parts(&mut self, raised: usize, left: usize, costs: i64) {
        self.edge(raised, left, costs);
    }

    fn edge(&mut self, from: usize, to: usize, room: i64) {
        for (from, to, room) in [(from, to, room), (to, from, 0)] {
            self.edges.push(Edge {
                to,
                room,
                next: self.first[from],
            });
            self.first[from] = Some(self.edges.len() - 1);
        }
    }

    /// The nodes that are best raised together, into `raised`; whether that gains anything.
    pub fn gains(&mut self, raised: &mut Vec<bool>) -> bool {
        let nodes = self.alone.len();
        let (source, sink) = (nodes, nodes + 1);
        let mut left = 0;
        for node in 0..nodes {
            match self.alone[node] {
                gain if gain < 0 => {
                    left -= gain;
                    self.edge(source, node, -gain);
                }
                0 => {}
                loss => self.edge(node, sink, loss),
            }
        }
        if left == 0 {
            return false;
        }
        while self.layers(source, sink) {
            self.turn.clone_from(&self.first);
            loop {
                let through = self.send(source, sink, i64::MAX);
                if through == 0 {
                    break;
                }
                left -= through;
            }
        }
        // What is still reached is raised.
        raised.clear();
        raised.extend(self.layer[..nodes].iter().map(|layer| *layer != NO_LAYER));
        left > 0
    }

    /// How far every node is from the source by edges with room; whether the sink is reached.
    fn layers(&mut self, source: usize, sink: usize) -> bool {
        self.layer.clear();
        self.layer.resize(self.first.len(), NO_LAYER);
        self.layer[source] = 0;
        self.line.clear();
        self.line.push(source);
        let mut next = 0;
        while let Some(node) = self.line.get(next).copied() {
            next += 1;
            let mut at = self.first[node];
            while let Some(edge) = at {
                let Edge { to, room, next } = self.edges[edge];
                if room > 0 && self.layer[to] == NO_LAYER {
                    self.layer[to] = self.layer[node] + 1;
                    self.line.push(to);
                }
                at = next;
            }
        }
        self.layer[sink] != NO_LAYER
    }

    /// Sends what goes through along layers.
    fn send(&mut self, node: usize, sink: usize, most: i64) -> i64 {
        if node == sink {
            return most;
        }
        while let Some(edge) = self.turn[node] {
            let Edge { to, room, next } = self.edges[edge];
            if room > 0 && self.layer[to] == self.layer[node] + 1 {
                let through = self.send(to, sink, most.min(room));
                if through > 0 {
                    self.edges[edge].room -= through;
                    self.edges[edge ^ 1].room += through;
                    return through;
                }
            }
            self.turn[node] = next;
        }
        0
    }
}

#[cfg(test)]
mod tests {
    use super::Network;

    #[test]
    fn what_gains_more_than_it_tears_is_raised() {
        let mut network = Network::default();
        let mut raised = Vec::new();
        // By hand: the first gains 5 and the second loses 3 with it, the third gains 2 and would tear at 4.
        network.clear(4);
        network.alone(0, -5);
        network.alone(1, 3);
        network.parts(0, 1, 100);
        network.alone(2, -2);
        network.parts(2, 3, 4);
        network.alone(3, 9);
        assert!(network.gains(&mut raised));
        assert_eq!(raised, [true, true, false, false]);
        // The second loses more than the first gains.
        network.clear(2);
        network.alone(0, -5);
        network.alone(1, 6);
        network.parts(0, 1, 100);
        assert!(!network.gains(&mut raised));
    }
}

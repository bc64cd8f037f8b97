//! Longest paths over difference constraints, and the ring that spoils them.

use std::collections::VecDeque;

use crate::Source;

/// `to` comes at least `weight` after `from`; a negative weight limits `from` from above.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Edge {
    pub(crate) from: usize,
    pub(crate) to: usize,
    pub(crate) weight: i64,
    pub(crate) source: Source,
}

/// Points in time and the edges between them.
pub(crate) struct Graph {
    edges: Vec<Edge>,
    /// The edges that leave a point, as places in `edges`.
    leaving: Vec<Vec<usize>>,
}

/// How far after a start every point comes at least.
pub(crate) struct Reach {
    /// None where no path leads.
    pub(crate) distance: Vec<Option<i64>>,
    /// The last edge of a longest path.
    by: Vec<Option<usize>>,
}

impl Graph {
    pub(crate) fn new(points: usize, edges: Vec<Edge>) -> Self {
        let mut leaving = vec![Vec::new(); points];
        for (number, edge) in edges.iter().enumerate() {
            leaving[edge.from].push(number);
        }
        Self { edges, leaving }
    }

    pub(crate) fn edges(&self) -> &[Edge] {
        &self.edges
    }

    /// The same with every edge turned round: its longest paths bound the points from above.
    pub(crate) fn reversed(&self) -> Self {
        let turned = |edge: &Edge| Edge {
            from: edge.to,
            to: edge.from,
            ..*edge
        };
        Self::new(self.leaving.len(), self.edges.iter().map(turned).collect())
    }

    /// Bellman-Ford with a queue: the longest paths from a point, or a ring of edges in walking
    /// order whose weights sum to more than nothing. The ring is simple.
    pub(crate) fn longest(&self, start: usize) -> Result<Reach, Vec<Edge>> {
        let points = self.leaving.len();
        let mut reach = Reach {
            distance: vec![None; points],
            by: vec![None; points],
        };
        reach.distance[start] = Some(0);
        let mut hops = vec![0; points];
        let mut queued = vec![false; points];
        let mut queue = VecDeque::from([start]);
        while let Some(from) = queue.pop_front() {
            queued[from] = false;
            for &number in &self.leaving[from] {
                let Edge { to, weight, .. } = self.edges[number];
                let there = reach.distance[from].map(|here| here + weight);
                if there <= reach.distance[to] {
                    continue;
                }
                reach.distance[to] = there;
                reach.by[to] = Some(number);
                hops[to] = hops[from] + 1;
                // So many edges in a row may pass a point twice; looking back tells.
                if hops[to] >= points {
                    hops[to] = self.depth(&reach, to)?;
                }
                if !queued[to] {
                    queued[to] = true;
                    queue.push_back(to);
                }
            }
        }
        Ok(reach)
    }

    /// The edges back to the start, counted, or the ring that is met on the way.
    fn depth(&self, reach: &Reach, to: usize) -> Result<usize, Vec<Edge>> {
        let mut at = to;
        for depth in 0..=self.leaving.len() {
            match reach.by[at] {
                Some(number) => at = self.edges[number].from,
                None => return Ok(depth),
            }
        }
        // More edges than points: `at` lies in the ring.
        let meets = at;
        let mut ring = Vec::new();
        while let Some(number) = reach.by[at] {
            ring.push(self.edges[number]);
            at = self.edges[number].from;
            if at == meets {
                break;
            }
        }
        ring.reverse();
        Err(ring)
    }

    /// The edges of the longest path to a point, first to last.
    pub(crate) fn path(&self, reach: &Reach, to: usize) -> Vec<Edge> {
        let mut path = Vec::new();
        let mut at = to;
        while let Some(number) = reach.by[at] {
            path.push(self.edges[number]);
            at = self.edges[number].from;
        }
        path.reverse();
        path
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The commuters of `dechter-1991`: a waits for b by at least, b for a by at most.
    fn commuters(drive: (i64, Option<i64>)) -> Graph {
        let spans = [
            (0, 1, (10, Some(20))),
            (1, 2, drive),
            (3, 2, (10, Some(20))),
            (3, 4, (40, Some(50))),
            (0, 4, (60, Some(70))),
        ];
        let edge = |from, to, weight| Edge {
            from,
            to,
            weight,
            source: Source::Now,
        };
        let edges = spans.iter().flat_map(|&(a, b, (least, most))| {
            [Some(edge(a, b, least)), most.map(|most| edge(b, a, -most))]
        });
        Graph::new(5, edges.flatten().collect())
    }

    /// Shortest paths by `NetworkX` 3.6.1, `floyd_warshall`.
    #[test]
    fn computed_commuters_all_pairs() {
        let shortest = [
            [0, 20, 50, 30, 70],
            [-10, 0, 40, 20, 60],
            [-40, -30, 0, -10, 30],
            [-20, -10, 20, 0, 50],
            [-60, -50, -20, -40, 0],
        ];
        let graph = commuters((30, Some(40)));
        for (start, _) in shortest.iter().enumerate() {
            let reach = graph.longest(start).ok().map(|reach| reach.distance);
            let row = shortest.iter().map(|row| Some(-row[start])).collect();
            assert_eq!(reach, Some(row), "from {start}");
        }
    }

    #[test]
    fn computed_commuters_by_bus_contradict_themselves() {
        let ring = commuters((60, None)).longest(0).err().unwrap();
        assert!(ring.iter().map(|edge| edge.weight).sum::<i64>() > 0);
        for (edge, next) in ring.iter().zip(ring.iter().cycle().skip(1)) {
            assert_eq!(edge.to, next.from);
        }
    }
}

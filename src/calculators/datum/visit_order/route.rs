//! The shortest way through a set of places: exact for few by dynamic programming over subsets (Held
//! and Karp 1962), for more by nearest neighbor, then 2-opt (Croes 1958) and Or-opt (Or 1976) until
//! neither shortens the way.

use crate::budget::go_on;
use crate::refusal::Refusal;

/// Up to so many places the way found is the shortest there is.
pub const EXACT_UP_TO: usize = 11;

/// How many of its nearest a place is tried beside.
const NEIGHBOURS: usize = 12;

/// A place on both axes.
type Place = (f64, f64);

/// The places with the travel between them; after the places come the start and, where the way has a fixed end, the
/// finish.
pub struct Way {
    /// How many places there are.
    places: usize,
    has_finish: bool,
    /// Travel from each to each.
    travel: Vec<f64>,
}

impl Way {
    /// Places in the order given, where the tool is at first, where it is wanted at last if that is fixed, and the travel
    /// for a move on the two axes.
    pub fn of(
        places: &[Place],
        start: Place,
        finish: Option<Place>,
        travel: fn(f64, f64) -> f64,
    ) -> Result<Self, Refusal> {
        let nodes: Vec<Place> = places.iter().copied().chain([start]).chain(finish).collect();
        let mut all = Vec::with_capacity(nodes.len() * nodes.len());
        for (ax, ay) in &nodes {
            go_on()?;
            all.extend(nodes.iter().map(|(bx, by)| travel(bx - ax, by - ay)));
        }
        Ok(Self { places: places.len(), has_finish: finish.is_some(), travel: all })
    }

    fn between(&self, a: usize, b: usize) -> f64 {
        self.travel[a * (self.places + 1 + usize::from(self.has_finish)) + b]
    }

    /// Travel of a tour of nodes.
    fn length(&self, tour: &[usize]) -> f64 {
        tour.windows(2).map(|pair| self.between(pair[0], pair[1])).sum()
    }

    fn tour(&self, order: impl Iterator<Item = usize>) -> Vec<usize> {
        let n = self.places;
        std::iter::once(n).chain(order).chain(self.has_finish.then_some(n + 1)).collect()
    }

    /// The best order found, as indices of the places; the order given where none is shorter.
    pub fn shortest(&self) -> Result<Vec<usize>, Refusal> {
        let n = self.places;
        let given = self.tour(0..n);
        let length = self.length(&given);
        // Ways that differ by no more than rounding are alike, and the first found stands.
        let slack = length * 1e-10;
        let mut best = (length, given.clone());
        let tries = if n <= EXACT_UP_TO {
            vec![self.exact(slack)?]
        } else {
            let neighbours = self.neighbours()?;
            let nearest = self.nearest_first(slack)?;
            vec![self.improved(given, &neighbours, slack)?, self.improved(nearest, &neighbours, slack)?]
        };
        for tour in tries {
            let length = self.length(&tour);
            if length + slack < best.0 {
                best = (length, tour);
            }
        }
        Ok(best.1.into_iter().filter(|node| *node < n).collect())
    }

    /// Every subset with every last place, its shortest way built from those one place smaller.
    fn exact(&self, slack: f64) -> Result<Vec<usize>, Refusal> {
        let n = self.places;
        // One table for all subsets, a row each.
        let mut least = vec![(f64::INFINITY, n); n << n];
        let at = |visited: usize, last: usize| visited * n + last;
        for last in 0..n {
            least[at(1 << last, last)] = (self.between(n, last), n);
        }
        for visited in 1usize..1 << n {
            if visited % 64 == 0 {
                go_on()?;
            }
            for last in (0..n).filter(|last| visited >> last & 1 == 1) {
                let so_far = least[at(visited, last)].0;
                for next in (0..n).filter(|next| visited >> next & 1 == 0) {
                    let length = so_far + self.between(last, next);
                    let known = &mut least[at(visited | 1 << next, next)];
                    if length + slack < known.0 {
                        *known = (length, last);
                    }
                }
            }
        }
        let mut visited = (1 << n) - 1;
        let home = |last: usize| if self.has_finish { self.between(last, n + 1) } else { 0.0 };
        let mut last = 0;
        for other in 1..n {
            if least[at(visited, other)].0 + home(other) + slack < least[at(visited, last)].0 + home(last) {
                last = other;
            }
        }
        let mut order = Vec::with_capacity(n);
        while last < n {
            order.push(last);
            let before = least[at(visited, last)].1;
            visited ^= 1 << last;
            last = before;
        }
        Ok(self.tour(order.into_iter().rev()))
    }

    fn nearest_first(&self, slack: f64) -> Result<Vec<usize>, Refusal> {
        let mut left: Vec<usize> = (0..self.places).collect();
        let mut order = Vec::with_capacity(left.len());
        let mut here = self.places;
        while !left.is_empty() {
            go_on()?;
            let mut nearest = 0;
            for at in 1..left.len() {
                if self.between(here, left[at]) + slack < self.between(here, left[nearest]) {
                    nearest = at;
                }
            }
            here = left.remove(nearest);
            order.push(here);
        }
        Ok(self.tour(order.into_iter()))
    }

    /// For each place its nearest others.
    fn neighbours(&self) -> Result<Vec<Vec<usize>>, Refusal> {
        let n = self.places;
        let of = |node: usize| {
            go_on()?;
            let mut others: Vec<(f64, usize)> =
                (0..n).filter(|other| *other != node).map(|other| (self.between(node, other), other)).collect();
            let nearer = |a: &(f64, usize), b: &(f64, usize)| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1));
            if others.len() > NEIGHBOURS {
                others.select_nth_unstable_by(NEIGHBOURS, nearer);
                others.truncate(NEIGHBOURS);
            }
            others.sort_unstable_by(nearer);
            Ok(others.into_iter().map(|(_, other)| other).collect())
        };
        (0..n).map(of).collect()
    }

    /// The tour after every 2-opt and Or-opt move that shortens it.
    fn improved(&self, mut tour: Vec<usize>, neighbours: &[Vec<usize>], slack: f64) -> Result<Vec<usize>, Refusal> {
        let mut search = Search { way: self, neighbours, at: vec![0; self.places + 2], slack };
        search.note(&tour);
        let end = self.places + 1;
        // Every move shortens the way by more than the slack, so a round without one comes; the
        // bound is a guard.
        for _ in 0..tour.len() + 100 {
            let mut moved = false;
            for position in 1..end {
                go_on()?;
                if let Some(change) = search.two_opt(&tour, position).or_else(|| search.or_opt(&tour, position, end)) {
                    change.make(&mut tour);
                    search.note(&tour);
                    moved = true;
                }
            }
            if !moved {
                break;
            }
        }
        Ok(tour)
    }
}

/// What is looked at while a tour is shortened.
struct Search<'s> {
    way: &'s Way,
    neighbours: &'s [Vec<usize>],
    /// Position of each node in the tour.
    at: Vec<usize>,
    slack: f64,
}

impl Search<'_> {
    fn note(&mut self, tour: &[usize]) {
        tour.iter().enumerate().for_each(|(position, node)| self.at[*node] = position);
    }

    /// Travel between two nodes of a tour; none beyond its open end.
    fn edge(&self, from: usize, to: Option<&usize>) -> f64 {
        to.map_or(0.0, |to| self.way.between(from, *to))
    }

    /// Two edges taken out, one of them at `position`, and the part between them turned round.
    fn two_opt(&self, tour: &[usize], position: usize) -> Option<Change> {
        for c in &self.neighbours[tour[position]] {
            let (low, high) = (position.min(self.at[*c]), position.max(self.at[*c]));
            // The edges after both, then the edges before both.
            for (from, to) in [(low + 1, high), (low, high - 1)] {
                if to <= from {
                    continue;
                }
                let (before, first, end, after) = (tour[from - 1], tour[from], tour[to], tour.get(to + 1));
                let out = self.way.between(before, first) + self.edge(end, after);
                let put_in = self.way.between(before, end) + self.edge(first, after);
                if put_in + self.slack < out {
                    return Some(Change::Turn { from, to });
                }
            }
        }
        None
    }

    /// Up to three places in a row from `from` put elsewhere, as they stand or turned round.
    fn or_opt(&self, tour: &[usize], from: usize, end: usize) -> Option<Change> {
        for to in from..(from + 3).min(end) {
            let (before, after) = (tour[from - 1], tour.get(to + 1));
            let taken = self.way.between(before, tour[from]) + self.edge(tour[to], after) - self.edge(before, after);
            for tip in [tour[from], tour[to]] {
                for c in self.neighbours[tip].iter().map(|c| self.at[*c]).filter(|c| !(from..=to).contains(c)) {
                    for left in [c, c - 1].into_iter().filter(|left| !(from - 1..=to).contains(left)) {
                        let (l, r) = (tour[left], tour.get(left + 1));
                        let gap = self.edge(l, r);
                        for (first, second, turned) in [(tour[from], tour[to], false), (tour[to], tour[from], true)] {
                            if self.way.between(l, first) + self.edge(second, r) - gap + self.slack < taken {
                                return Some(Change::Put { from, to, left, turned });
                            }
                        }
                    }
                }
            }
        }
        None
    }
}

/// A change of a tour.
enum Change {
    /// The part is turned round.
    Turn { from: usize, to: usize },
    /// The part is put behind the place at `left`.
    Put { from: usize, to: usize, left: usize, turned: bool },
}

impl Change {
    fn make(self, tour: &mut Vec<usize>) {
        match self {
            Change::Turn { from, to } => tour[from..=to].reverse(),
            Change::Put { from, to, left, turned } => {
                let mut part: Vec<usize> = tour.drain(from..=to).collect();
                if turned {
                    part.reverse();
                }
                let at = if left > to { left - part.len() } else { left } + 1;
                tour.splice(at..at, part);
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn straight(dx: f64, dy: f64) -> f64 {
        dx.hypot(dy)
    }

    /// Places strewn without a pattern.
    fn strewn(count: usize) -> Vec<(f64, f64)> {
        (1..=count).map(|at| at as f64).map(|at| ((at * 0.618_034).fract(), (at * at * 0.324_718).fract())).collect()
    }

    #[test]
    fn a_long_part_gone_backwards_is_turned_round() {
        // Thirty places on a circle, ten of them backwards: more than Or-opt moves at once.
        let places: Vec<_> = (0..30).map(|at| f64::from(at) * 0.2).map(|angle| (angle.cos(), angle.sin())).collect();
        let way = Way::of(&places, places[0], None, straight).unwrap();
        let (round, mut backwards) = (way.tour(0..30), way.tour(0..30));
        backwards[11..21].reverse();
        assert_eq!(way.improved(backwards, &way.neighbours().unwrap(), 1e-9).unwrap(), round);
    }

    #[test]
    fn no_move_that_is_tried_shortens_what_was_improved() {
        for count in 4..=12 {
            let places = strewn(count);
            for finish in [None, Some((0.5, 0.0))] {
                let way = Way::of(&places, (0.0, 0.0), finish, straight).unwrap();
                let tour = way.improved(way.tour(0..count), &way.neighbours().unwrap(), 1e-9).unwrap();
                let (length, end) = (way.length(&tour), count + 1);
                assert!(length <= way.length(&way.tour(0..count)) + 1e-9);
                for (from, to) in (1..end).flat_map(|from| (from..end).map(move |to| (from, to))) {
                    let mut turned = tour.clone();
                    turned[from..=to].reverse();
                    assert!(way.length(&turned) > length - 1e-8, "{count}: {from}..={to} turned");
                    for left in (0..tour.len()).filter(|left| to < from + 3 && !(from - 1..=to).contains(left)) {
                        // Nothing stands behind a fixed finish.
                        if finish.is_some() && left == tour.len() - 1 {
                            continue;
                        }
                        for turned in [false, true] {
                            let mut put = tour.clone();
                            Change::Put { from, to, left, turned }.make(&mut put);
                            assert!(way.length(&put) > length - 1e-8, "{count}: {from}..={to} behind {left}, {turned}");
                        }
                    }
                }
            }
        }
    }
}

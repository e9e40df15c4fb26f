//! What one result reaches while the corners of the tolerances are gone through one by one, and the spread that follows.

use super::{Method, Spread, Toleranced};

/// What one number reaches at the corners seen so far.
pub struct Reached {
    value: f64,
    /// The least and the greatest, each with its corner; none where the value itself is.
    least: (f64, Vec<f64>),
    greatest: (f64, Vec<f64>),
    /// Its derivatives with the worst case and the sum of squares that follow from them, as long as the straight line
    /// meets every point.
    smooth: Option<(Vec<f64>, Spread)>,
}

impl Reached {
    /// Before the first corner.
    pub fn of(value: f64, slopes: Option<Vec<f64>>, inputs: &[Toleranced]) -> Self {
        let smooth = slopes.map(|slopes| {
            let (mut minus, mut plus, mut squares) = (0.0, 0.0, 0.0);
            for (slope, input) in slopes.iter().zip(inputs) {
                let (down, up) = if *slope < 0.0 { (input.plus, input.minus) } else { (input.minus, input.plus) };
                minus += slope.abs() * down;
                plus += slope.abs() * up;
                squares += (slope * (input.plus + input.minus) / 2.0).powi(2);
            }
            let root_sum_square = squares.sqrt();
            (slopes, Spread { minus, plus, root_sum_square, most_from: 0, method: Method::Derivatives })
        });
        Self { value, least: (value, Vec::new()), greatest: (value, Vec::new()), smooth }
    }

    /// With one point more: a corner, or one that only shows whether the straight line holds.
    pub fn with(mut self, inputs: &[Toleranced], point: &[f64], is: f64, is_corner: bool) -> Self {
        if is_corner && is < self.least.0 {
            self.least = (is, point.to_vec());
        }
        if is_corner && is > self.greatest.0 {
            self.greatest = (is, point.to_vec());
        }
        let value = self.value;
        self.smooth = self.smooth.filter(|(slopes, spread)| {
            let moved = slopes.iter().zip(point).zip(inputs).map(|((slope, x), input)| slope * (x - input.value));
            // Smooth enough: the straight line misses no point by more than a fiftieth of the spread.
            let near = ((spread.plus + spread.minus) / 2.0) * 0.02 + value.abs() * 1e-12;
            (value + moved.sum::<f64>() - is).abs() <= near
        });
        self
    }

    /// Whether a straight line meets all that was seen.
    pub fn is_smooth(&self) -> bool {
        self.smooth.is_some()
    }

    /// The corners of the least and of the greatest; empty where no corner goes beyond the value itself.
    pub fn worst_corners(&self) -> [&[f64]; 2] {
        [&self.least.1, &self.greatest.1]
    }

    /// Its spread, from what each input does alone where it is not smooth.
    pub fn spread(self, inputs: &[Toleranced], alone: &[(f64, f64)]) -> Spread {
        let value = self.value;
        let effect = |(low, high): &(f64, f64)| (high - low).abs().max((low - value).abs()).max((high - value).abs());
        let most_from = (0..inputs.len())
            .max_by(|a, b| effect(&alone[*a]).total_cmp(&effect(&alone[*b])).then(b.cmp(a)))
            .unwrap_or_default();
        if let Some((_, spread)) = self.smooth {
            return Spread { most_from, ..spread };
        }
        let ends = alone.iter().flat_map(|(low, high)| [*low, *high]);
        let least = ends.clone().fold(self.least.0, f64::min);
        let greatest = ends.fold(self.greatest.0, f64::max);
        let squares: f64 = alone.iter().map(|ends| (effect(ends) / 2.0).powi(2)).sum();
        Spread {
            minus: value - least,
            plus: greatest - value,
            root_sum_square: squares.sqrt(),
            most_from,
            method: Method::Corners,
        }
    }
}

//! Where a straight wire that is free to tilt seats in the groove of a thread: it touches both flanks in
//! the plane across it that holds the axis of the screw, and its axis stands as near as it can. Derived
//! from the flank as a surface that is straight in every plane through the axis.

use crate::arithmetic::roots::root_between;

/// A groove and a wire; all lengths in one unit.
#[derive(Clone, Copy, Debug)]
pub struct Groove {
    /// Distance from one thread to the next.
    pub pitch: f64,
    /// Advance in one turn.
    pub lead: f64,
    /// Tangent of half the flank angle.
    pub slope: f64,
    /// Diameter of the wire.
    pub wire: f64,
}

/// How a wire lies.
#[derive(Clone, Copy, Debug)]
pub struct Seat {
    /// Radius at which it touches the flanks.
    pub radius: f64,
    /// Advance of the flank for its distance round, at that radius: lead over circumference.
    pub advance: f64,
    /// Length of the vector square to the flank whose part along the screw is 1.
    pub norm: f64,
    /// Angle round the screw, from the middle of the wire to the place of contact, in radians.
    pub turn: f64,
    /// Distance of the wire's axis from that of the screw.
    pub center: f64,
}

impl Groove {
    fn seat(&self, radius: f64) -> Seat {
        let advance = self.lead / (std::f64::consts::TAU * radius);
        let norm = (self.slope * self.slope + advance * advance + 1.0).sqrt();
        let half = self.wire / 2.0;
        let turn = (-(half * advance) / (norm * radius + half * self.slope)).atan();
        let (sin, cos) = turn.sin_cos();
        let center = radius * cos + half * (self.slope * cos - advance * sin) / norm;
        Seat { radius, advance, norm, turn, center }
    }

    /// How a wire lies in a thread of this pitch diameter; `None` where it touches no flank.
    pub fn at(&self, pitch_diameter: f64) -> Option<Seat> {
        let gap = |radius: f64| {
            let seat = self.seat(radius);
            let flank = self.lead * seat.turn / std::f64::consts::TAU
                + self.pitch / 4.0
                + (radius - pitch_diameter / 2.0) * self.slope;
            self.wire / 2.0 / seat.norm - flank
        };
        let reach = self.pitch / self.slope + self.wire;
        let least = (pitch_diameter / 2.0 - reach).max(pitch_diameter * 0.05);
        root_between(gap, least, pitch_diameter / 2.0 + reach).map(|radius| self.seat(radius))
    }

    /// Measurement over three wires at a pitch diameter.
    pub fn over(&self, pitch_diameter: f64) -> Option<f64> {
        self.at(pitch_diameter).map(|seat| 2.0 * seat.center + self.wire)
    }

    /// Pitch diameter that gives a measurement over three wires.
    pub fn pitch_diameter(&self, over: f64) -> Option<f64> {
        let most = over;
        let least = (over - 6.0 * self.wire).max(over * 0.1);
        // Where the wire touches nothing there is no measurement to compare.
        root_between(|e| self.over(e).map_or(f64::NAN, |found| found - over), least, most)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn without_a_lead_the_wire_lies_as_in_a_groove_of_rings() {
        // M = E + W (1 + csc α) - P/2 cot α.
        for (half, pitch, wire) in [(30f64, 0.05, 0.03), (14.5, 0.2, 0.1), (27.5, 0.0833, 0.05)] {
            let slope = half.to_radians().tan();
            let groove = Groove { pitch, lead: 0.0, slope, wire };
            let simple = 1.0 + wire * (1.0 + 1.0 / half.to_radians().sin()) - pitch / 2.0 / slope;
            assert!((groove.over(1.0).unwrap() - simple).abs() < 1e-14);
        }
    }

    #[test]
    fn the_way_back_is_the_way_there() {
        let groove = Groove { pitch: 0.2, lead: 0.8, slope: 14.5f64.to_radians().tan(), wire: 0.10024 };
        let over = groove.over(1.025).unwrap();
        assert!((groove.pitch_diameter(over).unwrap() - 1.025).abs() < 1e-12);
    }

    #[test]
    fn no_point_of_the_flanks_lies_inside_the_wire() {
        let groove = Groove { pitch: 1.0, lead: 2.0, slope: 14.5f64.to_radians().tan(), wire: 0.51 };
        let e = 3.6;
        let seat = groove.at(e).unwrap();
        // The wire leans as the flank does at the contact.
        let (sin, cos) = seat.turn.sin_cos();
        let lean = (groove.slope * sin + seat.advance * cos).atan();
        let along = [0.0, lean.cos(), lean.sin()];
        let mut nearest = f64::INFINITY;
        for i in -400..=400 {
            for j in -200..=200 {
                let turn = f64::from(i) * 0.0005;
                let radius = e / 2.0 + f64::from(j) * 0.001;
                let flank = groove.pitch / 4.0 + (radius - e / 2.0) * groove.slope;
                let z = groove.lead * turn / std::f64::consts::TAU + flank;
                let p = [radius * turn.cos() - seat.center, radius * turn.sin(), z];
                let t = p[1] * along[1] + p[2] * along[2];
                let square: f64 = p.iter().map(|x| x * x).sum::<f64>() - t * t;
                nearest = nearest.min(square.sqrt());
            }
        }
        assert!((nearest - groove.wire / 2.0).abs() < 2e-6, "{nearest}");
    }
}

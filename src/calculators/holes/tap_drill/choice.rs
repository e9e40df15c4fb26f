//! Which of the stock drills is taken: one whose hole lies within the class even if the drill cuts as large as
//! drills usually do, and then the one nearest to the percentage of thread.

use super::{TapDrillChosen, TapDrillRow};
use crate::calculators::prelude::*;
use crate::threading::{tell_usual_oversize, usual_oversize};

/// What the choice hangs on.
pub struct Choice {
    /// Height of thread wanted.
    pub wanted: ThreadPercent,
    /// Whether there are limits to keep.
    pub limited: bool,
    /// Whether the request says itself how much the drill cuts large.
    pub stated_oversize: bool,
    /// The drill that a table prints for the thread: tried in practice, so no room is asked of it.
    pub printed: Option<&'static str>,
}

impl Choice {
    /// The drill to take, with the choice on record.
    pub fn take(&self, rows: &[TapDrillRow], record: &mut Record) -> Option<TapDrillChosen> {
        let sound = |row: &&TapDrillRow| !self.limited || row.within_class == Some(true);
        let with_room = |row: &&TapDrillRow| sound(row) && self.has_room(row);
        let nearest = rows.iter().filter(with_room).min_by(|a, b| {
            let order = self.off(a).total_cmp(&self.off(b));
            order.then(b.diameter.get().value.total_cmp(&a.diameter.get().value))
        });
        if let Some(row) = nearest {
            let rule = match (self.limited, self.stated_oversize) {
                (true, false) => {
                    "of the drills within the class that leave room for the usual oversize, the one nearest to the \
                     percentage"
                }
                (true, true) => "of the drills within the class, the one nearest to the percentage",
                (false, _) => "the drill nearest to the percentage",
            };
            return Some(self.tell(row, rows, rule, record));
        }
        // The rows are sorted: the first leaves the most room.
        let row = rows.iter().find(sound)?;
        notes!(record => no_room_for_oversize:
            "No drill at hand leaves room for the usual oversize inside the class; of those within it this one leaves \
             the most. Drill a trial hole and measure it, or drill smaller and ream or bore.");
        Some(self.tell(row, rows, "of the drills within the class, the one that leaves the most room", record))
    }

    /// Whether a hole stays within the class if it comes out as much larger as holes usually do.
    fn has_room(&self, row: &TapDrillRow) -> bool {
        let Some(room) = row.room.filter(|_| self.limited && !self.stated_oversize) else { return true };
        self.printed == Some(row.name) || room.get().si() >= usual_oversize(row.diameter).get().si() - 1e-12
    }

    /// How far a row is from the percentage; what differs by rounding alone is one.
    fn off(&self, row: &TapDrillRow) -> f64 {
        let percent = row.thread_percent.map_or(0.0, |percent| percent.quantity().value);
        ((percent - self.wanted.quantity().in_unit(Unit::Percent)).abs() * 1e9).round()
    }

    fn tell(
        &self,
        row: &TapDrillRow,
        candidates: &[TapDrillRow],
        rule: &'static str,
        record: &mut Record,
    ) -> TapDrillChosen {
        let none = FoundThreadPercent::stated(0.0, Unit::Percent);
        tell!(record.choose("Share of thread of the drill to take", rule),
            q = candidates.thread_percent, w = thread_percent: self.wanted
            => "drill.thread_percent": row.thread_percent.unwrap_or(none));
        let same = "that of the same drill";
        tell!(record.choose("Its diameter", same), d = candidates.diameter => "drill.diameter": row.diameter);
        record.look_up("Its name", same).with("d", "drill.diameter", row.diameter).gives("drill.name", row.name);
        let usual = row.room.filter(|_| !self.stated_oversize).map(|_| usual_oversize(row.diameter));
        if let Some(room) = row.room {
            tell!(record.choose("Room that its hole leaves", same), r = candidates.room => "drill.room": room);
        }
        if usual.is_some() {
            tell_usual_oversize(("drill.diameter", row.diameter), "drill.usual_oversize", record);
        }
        TapDrillChosen {
            thread_percent: row.thread_percent,
            room: row.room,
            usual_oversize: usual,
            ..TapDrillChosen::of(row.name, row.diameter)
        }
    }
}

impl TapDrillChosen {
    /// A drill without what depends on thread and class.
    pub fn of(name: &'static str, diameter: FoundSize) -> Self {
        Self { name, diameter, thread_percent: None, room: None, usual_oversize: None }
    }
}

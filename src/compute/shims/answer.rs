//! A plan as other programs read it: numbers as text, exact, lashes in the unit of the window and shims in
//! their own.

use serde::ser::{Serialize, SerializeStruct, Serializer};

use super::{Line, Plan, Source};
use crate::quantity::exact_text;

impl Plan {
    /// The names of the valves that are not solved, in order.
    pub fn unsolved(&self) -> Vec<&str> {
        let open = self.lines.iter().filter(|line| line.source == Source::Unsolved);
        open.map(|line| line.valve.as_str()).collect()
    }

    /// The name of the valve that gives up its shim for a line.
    pub fn moved_from(&self, line: &Line) -> Option<&str> {
        let Source::Engine(place) = line.source else { return None };
        self.lines.get(place).map(|giver| giver.valve.as_str())
    }
}

/// A line together with the plan it stands in, which knows who gave up the shim.
struct Placed<'a>(&'a Plan, &'a Line);

impl Serialize for Placed<'_> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let Self(plan, line) = self;
        let from = match line.source {
            Source::Kept | Source::Unsolved => "kept",
            Source::Engine(_) => "engine",
            Source::Stock(_) => "stock",
        };
        let mut object = serializer.serialize_struct("Line", 6)?;
        object.serialize_field("valve", &line.valve)?;
        object.serialize_field("fitted", &exact_text(&line.fitted))?;
        object.serialize_field("shim", &exact_text(&line.shim))?;
        object.serialize_field("from", from)?;
        object.serialize_field("moved_from", &plan.moved_from(line))?;
        object.serialize_field("lash_after", &line.lash_after.as_ref().map(exact_text))?;
        object.end()
    }
}

impl Serialize for Plan {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let lines: Vec<_> = self.lines.iter().map(|line| Placed(self, line)).collect();
        let mut object = serializer.serialize_struct("Plan", 6)?;
        object.serialize_field("plan", &lines)?;
        object.serialize_field("bought", &self.bought)?;
        object.serialize_field("unsolved", &self.unsolved())?;
        object.serialize_field("target", &exact_text(&self.target))?;
        object.serialize_field("unit", self.unit.symbol())?;
        object.serialize_field("shim_unit", self.shim_unit.symbol())?;
        object.end()
    }
}

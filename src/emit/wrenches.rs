//! The torque wrenches that a base's gauges say there are, as a list to be read by the sum that chooses one.

use crate::model::Model;
use crate::quantity::{Kind, Shape, Value};

/// The largest marks of the torque wrenches among the gauges, the smallest first: `60 N·m, 110 N·m`; none where no
/// gauge measures torque.
pub fn torque_wrenches(model: &Model) -> Option<String> {
    let largest = |span: &Value| match span.shape() {
        Shape::Range { max, .. } => Some((span.unit().to_si(max.exact()), span.unit().after(max.text()))),
        _ => None,
    };
    let torque = model.gauges.values().filter(|gauge| gauge.measures.value.unit().kind() == Kind::Torque);
    let mut marks: Vec<_> = torque.filter_map(|gauge| largest(&gauge.measures.value)).collect();
    marks.sort_by(|(one, _), (other, _)| one.cmp(other));
    (!marks.is_empty()).then(|| marks.into_iter().map(|(_, text)| text).collect::<Vec<_>>().join(", "))
}

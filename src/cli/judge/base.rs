//! Builds, entries and gauges of a spec base.

use super::super::{Failure, unknown};
use super::facts::{Facts, Held, Shelf, Stated, no_limits};
use crate::compute::judge::{Accuracy, GaugeInHand, Limits};
use crate::model::{BuildId, EntryId, Form, GaugeId, Model, Printed, Statement};
use crate::quantity::Value;

impl Shelf for Model {
    fn facts(&self, build: &str, of: &str) -> Result<Facts, Failure> {
        let builds = self.builds.keys().map(BuildId::as_str);
        let build = self.builds.get(&BuildId::new(build)).ok_or_else(|| unknown("build", build, builds))?;
        let id = EntryId::new(of);
        let entries = self.entries.keys().map(EntryId::as_str);
        let entry = self.entries.get(&id).ok_or_else(|| unknown("entry", of, entries))?;
        Ok(Facts {
            of: of.to_owned(),
            below: entry.below.clone(),
            above: entry.above.clone(),
            stop: entry.stop,
            axes: entry.axes.clone(),
            states: entry.states.keys().cloned().collect(),
            needs_state: entry.needs_state.clone(),
            stated: build.of(&id).map(|statement| stated(self, statement)).collect(),
        })
    }

    fn gauge(&self, id: &str) -> Result<GaugeInHand, Failure> {
        let known = self.gauges.keys().map(GaugeId::as_str);
        let gauge = self.gauges.get(&GaugeId::new(id)).ok_or_else(|| unknown("gauge", id, known))?;
        Ok(GaugeInHand {
            title: gauge.title.clone(),
            sort: gauge.kind,
            span: gauge.measures.value.clone(),
            error: Accuracy::new(gauge.error.value.clone()),
        })
    }
}

fn stated(model: &Model, statement: &Statement) -> Stated {
    let values =
        |printed: &[Printed]| -> Vec<Value> { printed.iter().map(|one| one.value.clone()).collect() };
    let held = match &statement.form {
        _ if model.withholds(statement) => {
            Held::Nothing("it is withheld until a second reading confirms it".to_owned())
        }
        Form::Window { printed, .. } => Held::Limits(Limits::Window(values(printed))),
        Form::Fit { new, wear_limit } => {
            Held::Limits(Limits::Fit { new: values(new), wear_limit: values(wear_limit) })
        }
        Form::Absent(why) => no_limits(why.word()),
        other => no_limits(other.key()),
    };
    Stated { place: statement.identity.place.clone(), when: statement.identity.when.clone(), held }
}

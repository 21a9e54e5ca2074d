//! `torques-of-one-thread-differ`: two bolts alike take much the same torque; a row off, and they do not.

use std::collections::BTreeMap;

use crate::check::Subject;
use crate::diag::{Finding, Rule, Sink};
use crate::model::{Build, Form, Printed, Statement};
use crate::quantity::{Exact, Kind, Shape, parse_exact};

/// See the page beside this file.
pub static RULE: Rule = crate::rule!(
    "torques_of_one_thread_differ",
    "torques-of-one-thread-differ",
    Warning,
    Physics,
    "bolts of one thread, class and finish in one engine take very different torques"
);

/// Thread, class, state of the threads, what they go into.
type Alike<'a> = (&'a str, &'a str, Option<&'a str>, Option<&'a str>);

/// Every build: bolts alike, against the middle one of them.
pub fn check(subject: &Subject<'_>, sink: &mut Sink) {
    for build in subject.model.builds.values() {
        let mut alike: BTreeMap<Alike<'_>, Vec<(Exact, &Printed, &Statement)>> = BTreeMap::new();
        for (key, torque) in torques(build) {
            alike.entry(key).or_default().push(torque);
        }
        for (_, mut torques) in alike.into_iter().filter(|(_, torques)| torques.len() > 1) {
            torques.sort_by(|one, other| one.0.cmp(&other.0));
            odd_ones(&torques).into_iter().for_each(|finding| sink.push(finding));
        }
    }
}

/// The torques of bolts whose class is known. One with a note or footnote has a named reason to differ.
fn torques(build: &Build) -> impl Iterator<Item = (Alike<'_>, (Exact, &Printed, &Statement))> {
    build.statements.iter().filter_map(|statement| {
        let fastener = statement.fastener.as_ref()?;
        let key = (
            fastener.thread.as_deref()?,
            fastener.class.as_deref()?,
            fastener.threads.as_deref(),
            fastener.into.as_deref(),
        );
        let printed = whole_torque(&statement.form)?;
        let torque = printed.value.unit().to_si(printed.value.nominal()?);
        Some((key, (torque, printed, statement.as_ref())))
    })
}

/// The torque a bolt ends with; none where an angle follows it.
fn whole_torque(form: &Form) -> Option<&Printed> {
    let last = match form {
        Form::Setting(forms) => forms.first()?,
        Form::Stages(stages) => stages.last()?.first()?,
        _ => return None,
    };
    (last.value.unit().kind() == Kind::Torque && !matches!(last.value.shape(), Shape::Turn(_)))
        .then_some(last)
}

/// The torques more than 1.6 times off the middle one (common practice, no source).
fn odd_ones(torques: &[(Exact, &Printed, &Statement)]) -> Vec<Finding> {
    let Some((middle, beside, other)) = torques.get((torques.len() - 1) / 2) else { return Vec::new() };
    let factor = parse_exact("1.6").unwrap_or_default();
    let reason = |statement: &Statement| statement.note.is_some() || statement.provenance.footnote.is_some();
    let odd = torques.iter().filter(|(torque, ..)| *torque > middle * &factor || torque * &factor < *middle);
    odd.filter(|(_, _, statement)| !reason(statement) && !reason(other)).map(|(_, printed, statement)| {
        let of = &statement.identity.of;
        let alike = statement.fastener.as_ref().map_or_else(String::new, |one| {
            let words = [one.thread.as_deref(), one.class.as_deref(), one.threads.as_deref(), one.into.as_deref()];
            words.into_iter().flatten().collect::<Vec<_>>().join(", ")
        });
        let message = format!(
            "`{of}` takes `{}`, and `{}` of the same thread takes `{}` ({alike}): bolts alike are within 1.6 times of each other (common practice, no source)",
            printed.value.text(), other.identity.of, beside.value.text(),
        );
        let help = "look whether it is the row of another bolt; if they rightly differ, say why in `note`";
        Finding::new(&RULE, printed.span, message, help).with(beside.span, format!("`{}` is here", other.identity.of)).about(statement.span)
    }).collect()
}

//! `form-not-allowed`: a setting where a window belongs cannot be judged against.

use crate::check::Subject;
use crate::diag::{Finding, Rule, Sink};
use crate::model::{Form, FormName, Printed};
use crate::source::Span;

/// See the page beside this file.
pub static RULE: Rule = crate::rule!(
    "form_not_allowed",
    "form-not-allowed",
    Error,
    Reference,
    "a statement has a form that its entry does not take"
);

/// Every statement, against the forms of its entry.
pub fn check(subject: &Subject<'_>, sink: &mut Sink) {
    for statement in subject.statements() {
        let Some(entry) = subject.model.entries.get(&statement.identity.of) else { continue };
        let wrong = forms(&statement.form).into_iter().find(|form| !entry.forms.contains(form));
        if let Some(form) = wrong {
            let allowed: Vec<_> = entry.forms.iter().map(|form| format!("`{}`", form.key())).collect();
            let finding = Finding::new(
                &RULE,
                at(&statement.form, form).unwrap_or(statement.span),
                format!("`{}` is stated as `{}`, and takes {}", entry.id, form.key(), allowed.join(", ")),
                format!(
                    "state it as {}, or let the entry take `{}` in the catalogue",
                    allowed.join(" or "),
                    form.key()
                ),
            );
            sink.push(finding.with(entry.span, "the entry is defined here").about(statement.span));
        }
    }
}

/// Where a form of a value is first printed, if it is one that is printed.
fn at(form: &Form, wrong: FormName) -> Option<Span> {
    let printed: Option<&Printed> = match (form, wrong) {
        (Form::Fit { wear_limit, .. }, FormName::WearLimit) => wear_limit.first(),
        (Form::Points(points), _) => points.first().map(|point| &point.at),
        (Form::Interval { regular, .. }, _) => regular.first(),
        _ => form.alternatives().into_iter().flatten().next(),
    };
    printed.map(|printed| printed.span)
}

/// The forms that a value has; none where there is no value.
fn forms(form: &Form) -> Vec<FormName> {
    match form {
        Form::Window { .. } => vec![FormName::Window],
        Form::Fit { new, wear_limit } => {
            let given = [(new, FormName::New), (wear_limit, FormName::WearLimit)];
            given.into_iter().filter(|(list, _)| !list.is_empty()).map(|(_, form)| form).collect()
        }
        Form::Setting(_) => vec![FormName::Setting],
        Form::Stages(_) => vec![FormName::Stages],
        Form::Points(_) => vec![FormName::Points],
        Form::Direction { .. } => vec![FormName::Direction],
        Form::Interval { .. } => vec![FormName::Interval],
        Form::Selection(_) => vec![FormName::Selection],
        Form::Pins(_) => vec![FormName::Pins],
        Form::Text(_) => vec![FormName::Text],
        Form::Absent(_) => Vec::new(),
    }
}

//! `kind-missing`: without a kind no unit can be proved.

use crate::check::Subject;
use crate::diag::{Finding, Rule, Sink};
use crate::model::{Entry, FormName};

/// See the page beside this file.
pub static RULE: Rule = crate::rule!(
    "kind_missing",
    "kind-missing",
    Error,
    Units,
    "an entry takes quantities and does not say of what kind"
);

/// Every entry that takes quantities.
pub fn check(subject: &Subject<'_>, sink: &mut Sink) {
    let takes =
        |entry: &Entry, forms: &[FormName]| entry.forms.iter().find(|form| forms.contains(form)).copied();
    let quantities = [
        FormName::Window,
        FormName::New,
        FormName::WearLimit,
        FormName::Setting,
        FormName::Stages,
        FormName::Points,
    ];
    for entry in subject.model.entries.values() {
        if let Some(form) = takes(entry, &quantities).filter(|_| entry.kind.is_none() && entry.whole) {
            let message = format!("`{}` takes a `{}` and has no kind", entry.id, form.key());
            sink.push(Finding::new(&RULE, entry.span, message, "add `kind`, as `kind = \"length\"`"));
        }
        if takes(entry, &[FormName::Points]).is_some() && entry.input.is_none() && entry.whole {
            let message = format!("`{}` takes points and does not say at what they are read", entry.id);
            sink.push(Finding::new(&RULE, entry.span, message, "add `input`, as `input = \"temperature\"`"));
        }
    }
}

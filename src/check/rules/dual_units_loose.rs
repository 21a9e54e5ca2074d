//! `dual-units-loose`: a form that was rounded twice, or from another value, is worth a look.

use crate::quantity::{Grade, grade};
use crate::check::Subject;
use crate::diag::{Finding, Rule, Sink};

/// See the page beside this file.
pub static RULE: Rule =
    crate::rule!("dual_units_loose", "dual-units-loose", Note, Units, "two printed forms of one value agree only within their rounding");

/// Every further printed form that agrees with the first only within half a digit.
pub fn check(subject: &Subject<'_>, sink: &mut Sink) {
    for statement in subject.statements() {
        for forms in statement.form.alternatives() {
            let Some((first, others)) = forms.split_first() else { continue };
            for other in others.iter().filter(|other| grade(&first.value, &other.value) == Some(Grade::Loose)) {
                let (whole, printed) = (first.value.text(), other.value.text());
                let message = format!("`{printed}` agrees with `{whole}` only within its rounding");
                let finding = Finding::new(&RULE, other.span, message, "nothing need be done; look at the page if in doubt")
                    .with(first.span, "the maker's own unit is here");
                sink.push(finding.about(statement.span));
            }
        }
    }
}

//! `dual-units-loose`: a form that was rounded twice, or from another value, is worth a look.

use crate::check::Subject;
use crate::diag::{Finding, Rule, Sink};
use crate::model::Printed;
use crate::quantity::{Grade, disagreement, grade};

/// See the page beside this file.
pub static RULE: Rule = crate::rule!(
    "dual_units_loose",
    "dual-units-loose",
    Note,
    Units,
    "two printed forms of one value agree only within their rounding"
);

/// Every further printed form that agrees with the first only within half a digit.
pub fn check(subject: &Subject<'_>, sink: &mut Sink) {
    for statement in subject.statements() {
        for forms in statement.form.alternatives() {
            let Some((first, others)) = forms.split_first() else { continue };
            for other in others.iter().filter(|other| grade(&first.value, &other.value) == Some(Grade::Loose))
            {
                sink.push(finding(subject, first, other).about(statement.span));
            }
        }
    }
}

fn finding(subject: &Subject<'_>, first: &Printed, other: &Printed) -> Finding {
    let (whole, printed) = (first.value.text(), other.value.text());
    let part = disagreement(&first.value, &other.value);
    let inner = part.as_ref().map_or(0..other.typed.len(), |part| part.range.clone());
    let span = subject.sources.inside(other.span, &other.typed, inner);
    let comes_to = part.and_then(|part| part.expected).map_or_else(String::new, |expected| {
        format!(": converted it would be {}", other.value.unit().after(&expected))
    });
    let message = format!("`{printed}` agrees with `{whole}` only within its rounding{comes_to}");
    Finding::new(&RULE, span, message, "nothing need be done; look at the page if in doubt")
        .with(first.span, "the maker's own unit is here")
}

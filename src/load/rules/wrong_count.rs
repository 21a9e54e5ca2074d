//! `wrong-count`: a point has two members; a third would be lost.

use crate::diag::{Finding, Rule};
use crate::source::Span;

/// See the page beside this file.
pub static RULE: Rule =
    crate::rule!("wrong_count", "wrong-count", Error, Form, "a list has too many or too few members");

/// A list of `has` members where its key takes `least` to `most`, either end open.
pub fn finding(span: Span, list: &str, has: usize, (least, most): (Option<u64>, Option<u64>)) -> Finding {
    let wanted = match (least, most) {
        (Some(least), Some(most)) if least == most => format!("exactly {most}"),
        (Some(least), _) if u64::try_from(has).is_ok_and(|has| has < least) => format!("at least {least}"),
        (_, Some(most)) => format!("at most {most}"),
        _ => "another number".to_owned(),
    };
    let (members, help) = match has {
        0 => ("no members".to_owned(), format!("give it {wanted}, or leave it out")),
        1 => ("1 member".to_owned(), format!("give it {wanted}")),
        _ => (format!("{has} members"), format!("give it {wanted}")),
    };
    Finding::new(&RULE, span, format!("{list} has {members}, and takes {wanted}"), help)
}

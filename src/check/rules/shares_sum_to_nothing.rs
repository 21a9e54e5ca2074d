//! `shares-sum-to-nothing`: an order by share needs at least one cause with a share.

use crate::check::Subject;
use crate::diag::{Finding, Rule, Sink};
use crate::load::place::FileKind;
use crate::quantity::Exact;

/// See the page beside this file.
pub static RULE: Rule = crate::rule!(
    "shares_sum_to_nothing",
    "shares-sum-to-nothing",
    Error,
    Complaint,
    "the shares of a complaint give nothing to weigh by"
);

/// Every complaint: some cause that a check can show has a share above zero.
pub fn check(subject: &Subject<'_>, sink: &mut Sink) {
    for complaint in subject.model.complaints.values() {
        let weighed = complaint.causes.iter().any(|cause| !cause.residual && cause.share > Exact::default());
        if !weighed && !subject.damaged.contains(&FileKind::Complaint) {
            let message = format!("no cause of `{}` has a share above zero", complaint.id);
            sink.push(Finding::new(
                &RULE,
                complaint.span,
                message,
                "give each cause its share of past jobs, as a count or in percent",
            ));
        }
    }
}

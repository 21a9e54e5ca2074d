//! `far-from-peers`: a row of another model, a slipped unit, a lost digit: plausible in general, and unlike every other engine.

use crate::check::Subject;
use crate::check::peers::{Outlier, Peer, engines, outliers};
use crate::diag::{Finding, Rule, Sink};

/// See the page beside this file.
pub static RULE: Rule = crate::rule!(
    "far_from_peers",
    "far-from-peers",
    Warning,
    Physics,
    "a value is far from that of every other engine of its sort"
);

/// Every value with enough peers.
pub fn check(subject: &Subject<'_>, sink: &mut Sink) {
    outliers(subject).iter().filter_map(finding).for_each(|finding| sink.push(finding));
}

fn finding(outlier: &Outlier<'_>) -> Option<Finding> {
    let (value, peers) = (&outlier.value, &outlier.peers);
    let (least, most) = (peers.first()?, peers.last()?);
    let middle = peers.get(peers.len() / 2)?;
    let message = format!(
        "`{}` is far from what `{}` is elsewhere: {} other values lie from `{}` to `{}`, the middle one is `{}`",
        value.printed.value.text(),
        value.statement.identity.of,
        peers.len(),
        least.printed.value.text(),
        most.printed.value.text(),
        middle.printed.value.text(),
    );
    let named = engines(peers).iter().map(|engine| format!("`{engine}`")).collect::<Vec<_>>().join(", ");
    let help =
        format!("look at the page again: the row, the unit, the decimal point; it was compared with {named}");
    let finding = Finding::new(&RULE, value.printed.span, message, help).about(value.statement.span);
    let has = |peer: &Peer<'_>| format!("`{}` has `{}`", peer.engine, peer.printed.value.text());
    Some(finding.with(least.printed.span, has(least)).with(most.printed.span, has(most)))
}

//! `retired-id-lives`: an id means one thing for ever; a retired one is not used again.

use crate::check::Subject;
use crate::diag::{Finding, Rule, Sink};

/// See the page beside this file.
pub static RULE: Rule =
    crate::rule!("retired_id_lives", "retired-id-lives", Error, Reference, "a retired id is in use");

/// Every retired id.
pub fn check(subject: &Subject<'_>, sink: &mut Sink) {
    let live = subject.model.public_ids();
    for retired in subject.model.retired.iter().filter(|one| live.contains(&one.id)) {
        let message = format!("`{}` is retired here, and something goes by it", retired.id);
        let help = "give the new thing an id of its own, or take this entry out if the old one is back";
        sink.push(Finding::new(&RULE, retired.span, message, help));
    }
}

//! `retired-to-nowhere`: who follows a retired id must end at something that lives.

use crate::check::Subject;
use crate::diag::{Finding, Rule, Sink, nearest};
use crate::model::{Fate, Retired};
use crate::resolve::rules::span_reversed;

/// See the page beside this file.
pub static RULE: Rule = crate::rule!(
    "retired_to_nowhere",
    "retired-to-nowhere",
    Error,
    Reference,
    "a retired id leads to nothing that lives"
);

/// Every retired id.
pub fn check(subject: &Subject<'_>, sink: &mut Sink) {
    let live = subject.model.public_ids();
    // Years or serial numbers that run backwards leave builds out.
    let reversed = sink.found(&[&span_reversed::RULE], |_| true);
    let whole =
        !reversed && subject.damaged.is_empty() && subject.model.engines.values().all(|engine| engine.whole);
    for retired in &subject.model.retired {
        let wanted = match retired.fate {
            Fate::Moved => retired.to.len() == 1,
            Fate::Split => retired.to.len() > 1,
            Fate::Withdrawn => retired.to.is_empty(),
        };
        if !wanted {
            sink.push(fate(retired));
        }
        if in_a_circle(&retired.id, subject) {
            let help = "name an id that lives, or one that `ids.toml` leads on from".to_owned();
            let message = format!("`{}` leads round in a circle, back to itself", retired.id);
            sink.push(Finding::new(&RULE, retired.span, message, help));
        }
        let retired_too =
            |id: &str| subject.model.retired.iter().any(|one| one.id == id && one.id != retired.id);
        for (id, span) in retired.to.iter().filter(|(id, _)| !live.contains(id) && !retired_too(id)) {
            if whole {
                let near = nearest(id, live.iter().map(String::as_str));
                let help = near.map_or_else(
                    || "name an id that lives, or one that `ids.toml` leads on from".to_owned(),
                    |near| format!("did you mean `{near}`?"),
                );
                let message = format!("`{}` leads to `{id}`, which does not live", retired.id);
                sink.push(Finding::new(&RULE, *span, message, help));
            }
        }
    }
}

/// True if whoever follows an id comes back to it.
fn in_a_circle(id: &str, subject: &Subject<'_>) -> bool {
    let mut met: Vec<&str> = vec![id];
    let mut at = 0;
    while let Some(here) = met.get(at).copied() {
        at = at.saturating_add(1);
        for (next, _) in subject.model.retired.iter().filter(|one| one.id == here).flat_map(|one| &one.to) {
            if next == id {
                return true;
            }
            if !met.contains(&next.as_str()) {
                met.push(next);
            }
        }
    }
    false
}

fn fate(retired: &Retired) -> Finding {
    let (said, help) = match retired.fate {
        Fate::Moved => ("moved", "name the one id that took its place in `to`; for several, write `split`"),
        Fate::Split => ("split", "name the ids that took its place in `to`, two at least"),
        Fate::Withdrawn => ("withdrawn", "leave `to` out, or write `moved` or `split`"),
    };
    let message = format!("`{}` is {said}, and `to` names {}", retired.id, retired.to.len());
    Finding::new(&RULE, retired.fate_span, message, help)
}

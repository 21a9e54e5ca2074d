//! `id-vanished`: programs and notes hold on to public ids; one that goes must say where to.

use crate::check::Subject;
use crate::diag::{Finding, Rule, Sink, nearest};

/// See the page beside this file.
pub static RULE: Rule = crate::rule!(
    "id_vanished",
    "id-vanished",
    Error,
    Reference,
    "an id that was public is gone without a word in `ids.toml`"
);

/// Every id that the release before made public.
pub fn check(subject: &Subject<'_>, sink: &mut Sink) {
    // A part that could not be read would seem to be gone.
    if !subject.damaged.is_empty() || subject.model.engines.values().any(|engine| !engine.whole) {
        return;
    }
    let live = subject.model.public_ids();
    let told = |id: &str| subject.model.retired.iter().any(|one| one.id == id);
    // What becomes of a complaint or a set of codes becomes of its parts.
    let is_part_of_gone = |id: &str| id.split_once('/').is_some_and(|(whole, _)| !live.contains(whole));
    let gone = |id: &&String| !live.contains(*id) && !told(id) && !is_part_of_gone(id);
    for id in subject.public_before.iter().filter(gone) {
        let message = format!("`{id}` was public, is gone, and `ids.toml` does not say what became of it");
        let near = nearest(id, live.iter().map(String::as_str));
        let to = near.map_or_else(String::new, |near| format!("; it may be `{near}` now"));
        let help = format!("add it to `ids.toml` as `moved`, `split` or `withdrawn`{to}");
        sink.push(Finding::new(&RULE, subject.sources.start_of("ids.toml", "base.toml"), message, help));
    }
}

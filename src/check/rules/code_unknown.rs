//! `code-unknown`: the technician would look for a code that is not listed.

use crate::check::Subject;
use crate::diag::{Finding, Rule, Sink};
use crate::load::place::FileKind;
use crate::model::{Link, Piece};

/// See the page beside this file.
pub static RULE: Rule = crate::rule!(
    "code_unknown",
    "code-unknown",
    Error,
    Reference,
    "a procedure links a fault code that its set does not have"
);

/// Every link to a fault code.
pub fn check(subject: &Subject<'_>, sink: &mut Sink) {
    for procedure in subject.model.procedures.values() {
        for piece in &procedure.body {
            let Piece::Link { link: Link::Code(set, code), span, .. } = piece else { continue };
            let Some(known) = subject.model.codes.get(set) else { continue };
            let ids: Vec<_> = known.codes.iter().map(|one| one.id.as_str()).collect();
            if !ids.contains(&code.as_str()) && !subject.damaged.contains(&FileKind::Codes) {
                let message = format!("`{set}` has no code `{code}`");
                let help = format!("its codes are `{}`; write one as `code:{set}/…`", ids.join("`, `"));
                sink.push(Finding::new(&RULE, *span, message, help));
            }
        }
    }
}

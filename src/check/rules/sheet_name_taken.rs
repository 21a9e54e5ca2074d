//! `sheet-name-taken`: two sheets of one name would hide one another.

use crate::check::Subject;
use crate::diag::{Finding, Rule, Sink};

/// See the page beside this file.
pub static RULE: Rule = crate::rule!(
    "sheet_name_taken",
    "sheet-name-taken",
    Error,
    Procedure,
    "a procedure has the name of another sheet"
);

/// Sheets that every build has.
const TAKEN: [&str; 3] = ["card", "drawings", "engine"];

/// Every procedure, against the names of the other sheets of a build.
pub fn check(subject: &Subject<'_>, sink: &mut Sink) {
    for procedure in subject.model.procedures.values() {
        let id = procedure.id.as_str();
        if TAKEN.contains(&id) || id.starts_with("complaint-") {
            let message = format!("`{id}` is the name of another sheet of each build");
            let help = format!(
                "give the procedure another id, none of `{}` and none that begins with `complaint-`",
                TAKEN.join("`, `")
            );
            sink.push(Finding::new(&RULE, procedure.span, message, help));
        }
    }
}

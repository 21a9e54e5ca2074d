//! `critical-unconfirmed`: brakes, steering, wheels, fuel, heads and flywheels: a wrong number there can kill.

use crate::check::Subject;
use crate::diag::{Finding, Rule, Sink};

/// See the page beside this file.
pub static RULE: Rule = crate::rule!(
    "critical_unconfirmed",
    "critical-unconfirmed",
    Note,
    Provenance,
    "a critical value was read only once, and is withheld"
);

/// Every statement of a critical entry.
pub fn check(subject: &Subject<'_>, sink: &mut Sink) {
    for statement in subject.statements().filter(|one| one.has_value()) {
        let critical = subject.model.entries.get(&statement.identity.of).is_some_and(|entry| entry.critical);
        if critical && subject.model.withholds(statement) {
            let message = format!(
                "{} is critical and was read only once: sheet and bundle withhold it",
                statement.identity
            );
            let help = "let somebody else read it from the page: `baybook reread ENGINE --by INITIALS`";
            sink.push(Finding::new(&RULE, statement.span, message, help).about(statement.span));
        }
    }
}

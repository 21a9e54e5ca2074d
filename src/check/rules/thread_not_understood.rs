//! `thread-not-understood`: a torque is not held to a thread that nobody can make out.

use crate::check::Subject;
use crate::check::fastener::Thread;
use crate::diag::{Finding, Rule, Sink};

/// See the page beside this file.
pub static RULE: Rule = crate::rule!(
    "thread_not_understood",
    "thread-not-understood",
    Note,
    Physics,
    "a thread designation is not understood, and its torque is not checked"
);

/// Every fastener with a thread.
pub fn check(subject: &Subject<'_>, sink: &mut Sink) {
    for statement in subject.statements() {
        let thread = statement.fastener.as_ref().and_then(|fastener| fastener.thread.as_deref());
        if let Some(thread) = thread.filter(|thread| Thread::parse(thread).is_none()) {
            let message = format!(
                "the thread `{thread}` of {} is not understood, so its torque is not checked",
                statement.identity
            );
            let help = "write it as `M10x1.25`, `1/4-20 UNC` or `#10-24`";
            sink.push(Finding::new(&RULE, statement.span, message, help).about(statement.span));
        }
    }
}

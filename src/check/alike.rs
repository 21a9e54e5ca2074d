//! When two values, or two statements, say the same however they are written.

use std::mem::discriminant;

use crate::model::{Form, Printed, Statement};
use crate::quantity::{Limit, Value};

/// True if two values have the same exact limits, which one that is only turned by has not.
pub fn allow_the_same(one: &Value, other: &Value) -> bool {
    let end = |value: &Value, limit: Option<Limit>| {
        limit.map(|limit| (value.unit().to_si(&limit.exact), limit.inclusive))
    };
    let ends = |value: &Value| (end(value, value.min()), end(value, value.max()));
    let known = |(least, most): &(Option<_>, Option<_>)| least.is_some() || most.is_some();
    one == other || one.unit().converts_to(other.unit()) && known(&ends(one)) && ends(one) == ends(other)
}

/// True if a statement says nothing that another does not say: value, fastener, pattern and note. Where it was read and
/// what it is for are not compared; nor is a printed form that it leaves out.
pub fn says_no_more(new: &Statement, old: &Statement) -> bool {
    new.understood
        && old.understood
        && new.fastener == old.fastener
        && new.pattern == old.pattern
        && new.note == old.note
        && new.misprint == old.misprint
        && form_says_no_more(&new.form, &old.form)
}

fn form_says_no_more(new: &Form, old: &Form) -> bool {
    match (new, old) {
        (
            Form::Direction { turns: one, seen_from: here },
            Form::Direction { turns: other, seen_from: there },
        ) => one == other && here == there,
        (Form::Selection(one), Form::Selection(other)) => one == other,
        (Form::Pins(one), Form::Pins(other)) => one == other,
        (Form::Text(one), Form::Text(other)) => one == other,
        (Form::Absent(one), Form::Absent(other)) => one == other,
        // Whichever comes first: each of them counts, and none stands for another.
        (Form::Interval { .. }, Form::Interval { .. }) | (Form::Points(_), Form::Points(_)) => {
            let (new, old) = (new.printed(), old.printed());
            new.len() == old.len() && new.iter().zip(old).all(|(new, old)| alike(new, old))
        }
        _ => {
            let (all, known) = (new.alternatives(), old.alternatives());
            discriminant(new) == discriminant(old)
                && all.len() == known.len()
                && all.iter().zip(known).all(|(new, old)| no_other_form(new, old))
        }
    }
}

/// True if each printed form of a value is one of the other's.
fn no_other_form(new: &[Printed], old: &[Printed]) -> bool {
    new.is_empty() == old.is_empty() && new.iter().all(|new| old.iter().any(|old| alike(new, old)))
}

fn alike(one: &Printed, other: &Printed) -> bool {
    allow_the_same(&one.value, &other.value)
}

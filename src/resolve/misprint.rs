//! What a page prints wrongly, put right once, so that every later phase has what is meant.
//!
//! Invariant: a declared misprint is of exactly one printed form, told by its value and not by its spelling, and
//! that form then holds the value meant; or it is a finding.

use super::rules::misprint_unclear;
use super::values::Reader;
use crate::load::format::{self, Located};
use crate::model::{Form, Misprint};

/// The form with the misprint put right; none, with a finding, if it is not clear what is meant by it.
pub fn put_right(
    form: Option<Form>,
    misprint: Option<&Located<format::Misprint>>,
    reader: &mut Reader<'_>,
) -> Option<Form> {
    let Some(raw) = misprint.map(Located::get) else { return form };
    let meant = reader.printed(&raw.meant);
    let mut form = form?;
    let printed = reader.value(&raw.printed)?;
    let meant = meant?;
    let mut alike: Vec<_> = form.printed_mut().into_iter().filter(|one| one.value == printed).collect();
    let [wrong] = alike.as_mut_slice() else {
        let alike: Vec<_> = alike.iter().map(|one| one.span).collect();
        let all: Vec<_> = form.printed().iter().map(|one| one.typed.clone()).collect();
        let typed = raw.printed.as_str();
        reader.sink.push(misprint_unclear::finding(
            reader.span(&raw.printed),
            typed,
            &alike,
            form.key(),
            &all,
        ));
        return None;
    };
    let as_printed = std::mem::replace(*wrong, meant);
    wrong.misprinted = Some(Box::new(as_printed));
    Some(form)
}

/// The misprint as bundle and sheets tell of it.
pub fn kept(raw: &format::Misprint) -> Misprint {
    Misprint {
        printed: raw.printed.as_str().to_owned(),
        meant: raw.meant.as_str().to_owned(),
        because: raw.because.as_str().to_owned(),
        decided_by: raw.decided_by.as_str().to_owned(),
    }
}

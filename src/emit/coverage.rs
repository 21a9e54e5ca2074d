//! Coverage: which entries of the catalogue an engine states, and how far they are confirmed.

use crate::model::{Confirmation, Engine, EntryId, Form, Model, ServiceGroup, Statement};

/// Coverage of one service group by one engine.
#[derive(Debug)]
pub struct GroupCoverage<'a> {
    /// The group.
    pub group: &'a ServiceGroup,
    /// Statements with a value.
    pub stated: usize,
    /// Of these, confirmed by a second reading.
    pub confirmed: usize,
    /// Of these, read once or read differently.
    pub unconfirmed: Vec<&'a Statement>,
    /// Entries that the maker does not give, or that the engine does not have.
    pub absent: Vec<&'a EntryId>,
    /// Entries that nobody has read yet: left out, or said to be `not-read`.
    pub unread: Vec<&'a EntryId>,
}

/// Coverage of every service group by an engine, its variants included.
pub fn coverage<'a>(model: &'a Model, engine: &'a Engine) -> Vec<GroupCoverage<'a>> {
    model.groups.iter().map(|group| of_group(group, engine)).collect()
}

fn of_group<'a>(group: &'a ServiceGroup, engine: &'a Engine) -> GroupCoverage<'a> {
    let varied = engine.variants.iter().flat_map(|variant| &variant.statements);
    let all: Vec<&Statement> = engine.statements.iter().chain(varied).map(AsRef::as_ref).collect();
    let of =
        |entry: &EntryId| all.iter().filter(|one| one.identity.of == *entry).copied().collect::<Vec<_>>();
    let valued: Vec<_> = group.entries.iter().flat_map(of).filter(|one| one.has_value()).collect();
    let is_confirmed = |one: &&&Statement| matches!(one.confirmation, Confirmation::Confirmed { .. });
    let unread = |entry: &&EntryId| {
        let stated = of(entry);
        stated.iter().all(|one| matches!(one.form, Form::Absent(crate::model::Absence::NotRead)))
    };
    let absent = |entry: &&EntryId| !unread(entry) && of(entry).iter().all(|one| !one.has_value());
    GroupCoverage {
        group,
        stated: valued.len(),
        confirmed: valued.iter().filter(is_confirmed).count(),
        unconfirmed: valued.iter().filter(|one| !is_confirmed(one)).copied().collect(),
        absent: group.entries.iter().filter(absent).collect(),
        unread: group.entries.iter().filter(unread).collect(),
    }
}

//! `baybook coverage`

use std::io::Write;

use serde_json::{Value, json};

use super::args::CoverageArguments;
use super::{Failure, Status, base_of, is_json, write_json};
use crate::emit::coverage::{GroupCoverage, coverage};
use crate::model::{Engine, Model};

/// Writes what each engine states of the catalogue, and how far it is confirmed.
pub fn run(
    arguments: &CoverageArguments,
    out: &mut dyn Write,
    err: &mut dyn Write,
) -> Result<Status, Failure> {
    let Some(checked) = base_of(&arguments.base, is_json(arguments.format), out, err)? else {
        return Ok(Status::Errors);
    };
    let model = checked.model();
    let wanted = |engine: &&Engine| arguments.engine.as_ref().is_none_or(|id| engine.id.as_str() == id);
    let engines: Vec<_> = model.engines.values().filter(wanted).collect();
    if let (Some(id), true) = (&arguments.engine, engines.is_empty()) {
        return Err(super::no_engine(id, model));
    }
    if is_json(arguments.format) {
        let all: Vec<_> = engines.iter().map(|engine| as_json(model, engine)).collect();
        write_json(out, &json!({ "engines": all }))?;
    } else {
        for engine in engines {
            for_people(model, engine, out)?;
        }
    }
    Ok(Status::Answered)
}

fn as_json(model: &Model, engine: &Engine) -> Value {
    let group = |one: &GroupCoverage<'_>| {
        json!({
            "group": one.group.id,
            "stated": one.stated,
            "confirmed": one.confirmed,
            "unconfirmed": one.unconfirmed.iter().map(|one| one.identity.to_string()).collect::<Vec<_>>(),
            "absent": one.absent.iter().map(|id| id.as_str()).collect::<Vec<_>>(),
            "unread": one.unread.iter().map(|id| id.as_str()).collect::<Vec<_>>(),
        })
    };
    let groups: Vec<_> = coverage(model, engine).iter().map(group).collect();
    json!({ "engine": engine.id.as_str(), "groups": groups })
}

fn for_people(model: &Model, engine: &Engine, out: &mut dyn Write) -> Result<(), Failure> {
    let groups = coverage(model, engine);
    let sum = |of: fn(&GroupCoverage<'_>) -> usize| groups.iter().map(of).sum::<usize>();
    writeln!(
        out,
        "{} ({}): {} values, {} confirmed by a second reading",
        engine.title,
        engine.id,
        sum(|one| one.stated),
        sum(|one| one.confirmed)
    )?;
    for one in &groups {
        let unread =
            if one.unread.is_empty() { String::new() } else { format!(", {} not read", one.unread.len()) };
        writeln!(
            out,
            "  {:<18} {} values, {} confirmed{unread}",
            one.group.title, one.stated, one.confirmed
        )?;
        for statement in &one.unconfirmed {
            writeln!(out, "      read once: {}", statement.identity)?;
        }
        let unread: Vec<_> = one.unread.iter().map(|id| id.as_str()).collect();
        if !unread.is_empty() {
            writeln!(out, "      not read:  {}", unread.join(", "))?;
        }
    }
    writeln!(out)?;
    Ok(())
}

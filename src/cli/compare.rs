//! `baybook compare`

use std::io::Write;
use std::path::{Path, PathBuf};

use serde_json::json;

use super::args::{CompareArguments, Refused};
use super::{Failure, Status, base_at, is_json, write_json};
use crate::bundle::compare::{Change, Comparison, Step, compare};
use crate::bundle::{Bundle, BundleError, root_of};
use crate::emit::bundle::{Withheld, data};

/// Compares two bundles, or the spec bases they would be made from, and writes what changed.
pub fn run(
    arguments: &CompareArguments,
    out: &mut dyn Write,
    err: &mut dyn Write,
) -> Result<Status, Failure> {
    let is_bundle = |path: &PathBuf| root_of(path).is_some();
    // What is withheld can be compared only where both sides have it.
    let both_bases = !is_bundle(&arguments.old) && !is_bundle(&arguments.new);
    let withheld = if both_bases { Withheld::Kept } else { Withheld::LeftOut };
    let json = is_json(arguments.format);
    let Some(old) = side(&arguments.old, withheld, json, out, err)? else { return Ok(Status::Errors) };
    let Some(new) = side(&arguments.new, withheld, json, out, err)? else { return Ok(Status::Errors) };
    let comparison = compare(&old, &new);
    if json {
        write_json(out, &json!({ "changes": comparison.changes, "step": comparison.step.word() }))?;
    } else {
        for_people(&comparison, &new, out)?;
    }
    let refused = arguments.refuse == Some(Refused::Limits) && comparison.changes_limits();
    if refused && !json {
        writeln!(err, "baybook: limits changed, which --refuse limits refuses")?;
    }
    Ok(if refused { Status::Errors } else { Status::Answered })
}

/// A bundle, an output directory, or the bundle of a spec base; none if the base has errors, which have
/// been written.
pub fn side(
    path: &Path,
    withheld: Withheld,
    json: bool,
    out: &mut dyn Write,
    err: &mut dyn Write,
) -> Result<Option<Bundle>, Failure> {
    if root_of(path).is_some() {
        return Bundle::read(path).map(Some).map_err(|error| unreadable(path, error));
    }
    Ok(base_at(path, json, out, err)?.map(|checked| data(checked.model(), withheld)))
}

/// A bundle that is not one is an error of what was given, unless the machine failed.
pub fn unreadable(path: &Path, error: BundleError) -> Failure {
    match error {
        BundleError::Machine(error) => Failure::Machine(error),
        other => Failure::Input(
            format!("{}: {other}", path.display()),
            "`baybook compile` writes a bundle, `baybook verify` says whether one is whole".to_owned(),
        ),
    }
}

fn for_people(comparison: &Comparison, new: &Bundle, out: &mut dyn Write) -> Result<(), Failure> {
    if comparison.changes.is_empty() {
        return Ok(writeln!(out, "nothing changed")?);
    }
    for step in [Step::Major, Step::Minor, Step::Patch] {
        let of_step: Vec<_> = comparison.changes.iter().filter(|one| one.kind.step() == step).collect();
        if of_step.is_empty() {
            continue;
        }
        writeln!(out, "{} ({})", step.word(), of_step.len())?;
        let mut kind = None;
        for change in of_step {
            if kind.replace(change.kind) != Some(change.kind) {
                writeln!(out, "\n  {}: {}", change.kind.word(), change.kind.meaning())?;
            }
            writeln!(out, "    {}", whose(change, new))?;
            writeln!(out, "        {}", said(change))?;
        }
        writeln!(out)?;
    }
    Ok(writeln!(out, "step: {}", comparison.step.word())?)
}

/// What the change is in: build, entry with its title, place and condition.
fn whose(change: &Change, new: &Bundle) -> String {
    let build = match (&change.build, &change.engine) {
        (Some(build), _) => Some(build.clone()),
        (None, Some(engine)) if change.of.is_some() => Some(format!("{engine} (every build)")),
        (None, engine) => engine.clone(),
    };
    let of = change.of.as_ref().map(|of| match new.entry(of) {
        Some(entry) => format!("{of} ({})", entry.title),
        None => of.clone(),
    });
    let words = change.place.iter().chain(&change.when).map(|(key, word)| format!("{key} {word}"));
    let words: Vec<_> = words.collect();
    let words = (!words.is_empty()).then(|| words.join(", "));
    let parts: Vec<_> = [build, of, words].into_iter().flatten().collect();
    if parts.is_empty() { "the base itself".to_owned() } else { parts.join(", ") }
}

fn said(change: &Change) -> String {
    match (&change.before, &change.after) {
        (Some(before), Some(after)) => format!("{before}  →  {after}"),
        (Some(before), None) => format!("was {before}"),
        (None, Some(after)) => format!("now {after}"),
        (None, None) => "not said".to_owned(),
    }
}

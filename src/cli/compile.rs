//! `baybook compile`

use std::io::Write;
use std::path::Path;

use serde_json::json;

use super::args::{BaseDirectory, CompileArguments};
use super::compare::side;
use super::{Failure, Status, is_json, write_json};
use crate::bundle::Bundle;
use crate::bundle::sign::SigningKey;
use crate::diag::{Finding, Severity, human, json, nearest};
use crate::emit::bundle::Withheld;
use crate::emit::{self, Tree, disk, handbook};
use crate::load;

/// Checks a base, then writes handbook and bundle; nothing is written if there is an error.
pub fn run(
    arguments: &CompileArguments,
    out: &mut dyn Write,
    err: &mut dyn Write,
) -> Result<Status, Failure> {
    refuse_in_base(&arguments.out, &arguments.base.directory())?;
    let found = load::disk::read_base(&arguments.base.directory())?;
    let mut old = None;
    if let Some(path) = &arguments.since {
        old = side(path, Withheld::LeftOut, is_json(arguments.format), out, err)?;
        if old.is_none() {
            return Ok(Status::Errors);
        }
    }
    let public_before = old.as_ref().map(Bundle::public_ids).unwrap_or_default();
    let examined = crate::examine_since(found, load::disk::source_date()?, &public_before);
    let shown: Vec<Finding> =
        examined.findings.iter().filter(|finding| finding.severity() != Severity::Note).cloned().collect();
    if !is_json(arguments.format) {
        for finding in &shown {
            writeln!(err, "{}\n", human::finding(finding, &examined.sources))?;
        }
    }
    let Some(checked) = examined.checked else {
        if is_json(arguments.format) {
            write_json(out, &json::report(&shown, &examined.sources, examined.summary))?;
        } else {
            writeln!(err, "{}; nothing was written", human::summary(&shown, examined.summary))?;
        }
        return Ok(Status::Errors);
    };
    let mut tree =
        emit::compile_since(&checked, old.as_ref()).map_err(|error| Failure::Internal(error.to_string()))?;
    if let Some(build) = &arguments.single {
        return one_file(arguments, &tree, build, out);
    }
    if let Some(key) = &arguments.sign {
        sign(&mut tree, key)?;
    }
    disk::write(&tree, &arguments.out)?;
    let home = arguments.out.join("index.html");
    if is_json(arguments.format) {
        let answer = json!({
            "files": tree.len(),
            "handbook": home.display().to_string(),
            "bundle": arguments.out.join("bundle").display().to_string(),
        });
        write_json(out, &answer)?;
    } else {
        writeln!(out, "{}", human::summary(&shown, examined.summary))?;
        writeln!(out, "wrote {} files to {}", tree.len(), arguments.out.display())?;
        writeln!(out, "handbook: open {} in a browser", home.display())?;
        writeln!(out, "bundle:   {}", arguments.out.join("bundle").display())?;
    }
    Ok(Status::Answered)
}

/// Refuses an output in the base: the next check would read every sheet of it as a file of the base.
pub(super) fn refuse_in_base(out: &Path, base: &Path) -> Result<(), Failure> {
    if !disk::lies_in(out, base) {
        return Ok(());
    }
    let message = format!("cannot write {}: it lies in the spec base {}", out.display(), base.display());
    Err(Failure::Usage(message, "name a place outside of the base with --out".to_owned()))
}

/// Signs the bundle of a tree.
fn sign(tree: &mut Tree, key: &Path) -> Result<(), Failure> {
    let no_key = |because: String| {
        let help = "a secret key is made by any tool of the minisign format".to_owned();
        Failure::Usage(format!("cannot sign with {}: {because}", key.display()), help)
    };
    let text = load::disk::read_text(key)?.ok_or_else(|| no_key("there is no such file".to_owned()))?;
    let key = SigningKey::read(&text).map_err(no_key)?;
    emit::bundle::sign(tree, &key).map_err(|error| Failure::Internal(error.to_string()))
}

/// Writes one build as one file.
fn one_file(
    arguments: &CompileArguments,
    tree: &Tree,
    build: &str,
    out: &mut dyn Write,
) -> Result<Status, Failure> {
    let Some(page) = handbook::single(tree, build) else {
        let ids =
            || tree.keys().filter_map(|path| path.strip_prefix("builds/")?.strip_suffix("/engine.html"));
        let help = nearest(build, ids()).map_or_else(
            || format!("builds are {}", ids().collect::<Vec<_>>().join(", ")),
            |near| format!("did you mean `{near}`?"),
        );
        return Err(Failure::Usage(format!("there is no build `{build}`"), help));
    };
    disk::write_single(&arguments.out, &page)?;
    if is_json(arguments.format) {
        write_json(out, &json!({ "file": arguments.out.display().to_string(), "bytes": page.len() }))?;
    } else {
        writeln!(out, "wrote {} ({} bytes)", arguments.out.display(), page.len())?;
    }
    Ok(Status::Answered)
}

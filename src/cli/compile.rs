//! `baybook compile`

use std::io::Write;

use serde_json::json;

use super::args::{BaseDirectory, CompileArguments};
use super::{Failure, Status, is_json, write_json};
use crate::diag::{Finding, Severity, human, json, nearest};
use crate::emit::{self, Tree, disk, handbook};
use crate::load;

/// Checks a base, then writes handbook and bundle; nothing is written if there is an error.
pub fn run(
    arguments: &CompileArguments,
    out: &mut dyn Write,
    err: &mut dyn Write,
) -> Result<Status, Failure> {
    let found = load::disk::read_base(&arguments.base.directory())?;
    let examined = crate::examine(found, load::disk::source_date());
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
    let tree = emit::compile(&checked).map_err(|error| Failure::Internal(error.to_string()))?;
    if let Some(build) = &arguments.single {
        return one_file(arguments, &tree, build, out);
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
    disk::replace_file(&arguments.out, &page)?;
    if is_json(arguments.format) {
        write_json(out, &json!({ "file": arguments.out.display().to_string(), "bytes": page.len() }))?;
    } else {
        writeln!(out, "wrote {} ({} bytes)", arguments.out.display(), page.len())?;
    }
    Ok(Status::Answered)
}

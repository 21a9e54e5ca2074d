//! `baybook verify`

use std::io::Write;

use super::args::VerifyArguments;
use super::{Failure, Status, is_json, write_json};
use crate::bundle::sign::Signature;
use crate::bundle::verify::{Verified, verify};
use crate::load::disk::read_text;

/// Says whether a bundle is whole and as it was written.
pub fn run(arguments: &VerifyArguments, out: &mut dyn Write) -> Result<Status, Failure> {
    let key = match &arguments.key {
        None => None,
        Some(path) => Some(read_text(path)?.ok_or_else(|| {
            let help = "the public key is the file that ends with `.pub`".to_owned();
            Failure::Usage(format!("there is no key at {}", path.display()), help)
        })?),
    };
    let verified = verify(&arguments.bundle, key.as_deref())?;
    if is_json(arguments.format) {
        write_json(out, &serde_json::to_value(&verified).unwrap_or_default())?;
    } else {
        for_people(&verified, out)?;
    }
    Ok(if verified.whole { Status::Answered } else { Status::Errors })
}

fn for_people(verified: &Verified, out: &mut dyn Write) -> Result<(), Failure> {
    for problem in &verified.problems {
        writeln!(out, "{}: {}", problem.file, problem.message)?;
    }
    for recall in &verified.recall {
        let words = recall.place.iter().chain(&recall.when).map(|(key, word)| format!(" {key} {word}"));
        writeln!(
            out,
            "warning: recalled: {} {}{}: {} of release {} is wrong: {}",
            recall.engine,
            recall.of,
            words.collect::<String>(),
            recall.value,
            recall.releases.join(", "),
            recall.because
        )?;
    }
    let release = verified.release.as_deref().unwrap_or("unknown");
    let signed = match verified.signature {
        Signature::Good => "signed by this key",
        Signature::NotChecked => "signed; give --key to check by whom",
        Signature::None => "not signed",
        Signature::Missing | Signature::Bad | Signature::NoKey => "not signed by this key",
    };
    if verified.whole {
        writeln!(out, "whole: release {release}, {} files, {signed}", verified.files)?;
        writeln!(out, "content {}", verified.content_hash)?;
    } else {
        let count = verified.problems.len();
        let problems = if count == 1 { "problem" } else { "problems" };
        writeln!(out, "do not use this bundle: {count} {problems}, release {release}")?;
    }
    Ok(())
}

//! Arguments of `order`.

use std::path::PathBuf;

use clap::Args;

use super::super::args::Format;
use crate::compute::order::Outcome;

/// Arguments of `order`.
#[derive(Args, Debug)]
pub struct OrderArguments {
    /// Id of a complaint, or a TOML file that holds one
    #[arg(value_name = "COMPLAINT|FILE.toml")]
    pub complaint: String,
    /// The build it is asked for
    #[arg(long, value_name = "BUILD")]
    pub build: Option<String>,
    /// What a check has said so far, as load-test=clear or load-test=shown
    #[arg(long = "result", value_name = "CHECK=clear|shown", value_parser = result)]
    pub results: Vec<(String, Outcome)>,
    /// Directory of the spec base [default: specs]
    #[arg(long, value_name = "DIR", conflicts_with = "bundle")]
    pub specs: Option<PathBuf>,
    /// A compiled bundle, in place of the spec base
    #[arg(long, value_name = "DIR")]
    pub bundle: Option<PathBuf>,
    /// How the answer is written
    #[arg(long, value_enum, default_value_t)]
    pub format: Format,
}

/// `load-test=clear`
fn result(text: &str) -> Result<(String, Outcome), String> {
    match text.split_once('=').map(|(check, word)| (check.trim().to_owned(), word.trim())) {
        Some((check, "clear")) => Ok((check, Outcome::Clear)),
        Some((check, "shown")) => Ok((check, Outcome::Shown)),
        _ => Err("write a check and `clear` or `shown`, as load-test=clear".to_owned()),
    }
}

//! Arguments of `judge`.

use std::path::PathBuf;

use clap::{Args, ValueEnum};

use super::super::args::Format;

/// Arguments of `judge`.
#[derive(Args, Debug)]
pub struct JudgeArguments {
    /// What the gauge shows, as "0.014 in"; without a unit it is taken in that of the limits
    #[arg(allow_hyphen_values = true, conflicts_with_all = ["goes", "stops"])]
    pub reading: Option<String>,
    /// The thickest leaf that goes, in place of a reading
    #[arg(long, value_name = "LEAF")]
    pub goes: Option<String>,
    /// The thinnest leaf that does not go
    #[arg(long, value_name = "LEAF")]
    pub stops: Option<String>,
    /// Limits to set to or accept within; once for each printed form, the maker's own first
    #[arg(long, value_name = "VALUE", allow_hyphen_values = true, conflicts_with_all = ["new", "wear_limit", "build"])]
    pub window: Vec<String>,
    /// The fit of new parts
    #[arg(long, value_name = "VALUE", allow_hyphen_values = true, conflicts_with = "build")]
    pub new: Vec<String>,
    /// The end of use
    #[arg(long, value_name = "VALUE", allow_hyphen_values = true, conflicts_with = "build")]
    pub wear_limit: Vec<String>,
    /// The build whose limits hold
    #[arg(long, value_name = "BUILD", requires = "of")]
    pub build: Option<String>,
    /// The entry of the catalogue that was measured
    #[arg(long, value_name = "ENTRY", requires = "build")]
    pub of: Option<String>,
    /// The place, as cylinder=front
    #[arg(long = "where", value_name = "AXIS=WORD", value_parser = pair, requires = "build")]
    pub place: Vec<(String, String)>,
    /// The state it was measured in, as engine=cold
    #[arg(long, value_name = "STATE=WORD", value_parser = pair, requires = "build")]
    pub when: Vec<(String, String)>,
    /// The gauge it was measured with, as the base names it
    #[arg(long, value_name = "GAUGE")]
    pub gauge: Option<String>,
    /// How far the reading may be off either way, in place of the gauge's own limit of error
    #[arg(long, value_name = "VALUE", allow_hyphen_values = true)]
    pub accuracy: Option<String>,
    /// Whether the part is being fitted new or has been in use
    #[arg(long, value_enum, default_value_t)]
    pub fitting: Fitting,
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

/// Whether a part is new.
#[derive(Clone, Copy, Debug, Default, Eq, PartialEq, ValueEnum)]
pub enum Fitting {
    /// A part that has been in use
    #[default]
    Used,
    /// A part that is being fitted new
    New,
}

/// `cylinder=front`
fn pair(text: &str) -> Result<(String, String), String> {
    let parts = text.split_once('=').map(|(key, word)| (key.trim().to_owned(), word.trim().to_owned()));
    parts
        .filter(|(key, word)| !key.is_empty() && !word.is_empty())
        .ok_or_else(|| "write a name and its word, as engine=cold".to_owned())
}

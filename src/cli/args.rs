//! Every command and flag, once: the parser, the help and the README's table come from here.

use std::path::PathBuf;

use clap::{Args, Parser, Subcommand, ValueEnum};

use super::sums::SumCall;

/// Compiles a spec base into an offline handbook for the bench and an exact bundle for other programs.
#[derive(Debug, Parser)]
#[command(name = "baybook", version, propagate_version = true, arg_required_else_help = true)]
pub struct Arguments {
    /// What to do.
    #[command(subcommand)]
    pub command: Command,
}

/// The commands.
#[derive(Debug, Subcommand)]
pub enum Command {
    /// Prove a spec base, and say what is wrong with it
    Check(CheckArguments),
    /// Write the handbook and the bundle of a spec base that has no errors
    Compile(CompileArguments),
    /// Say what an engine states of the catalogue, and what a second reading confirms
    Coverage(CoverageArguments),
    /// Ask a second reader for each value from the cited page, without showing the first reading
    Reread(RereadArguments),
    /// Check and compile again after every change, until it is stopped
    Preview(PreviewArguments),
    /// Write the schemas that an editor completes and checks the files of this base with
    Editor(EditorArguments),
    /// Write the file of a new engine, every entry still open
    Draft(DraftArguments),
    /// Turn a table of a spreadsheet into statements, all of its rows or none
    Import(super::import::ImportArguments),
    /// Write every value of a base one way, without changing a digit
    Tidy(TidyArguments),
    /// Give a value in another unit, rounded so that no limit is widened
    Convert(ConvertArguments),
    /// Work out which shim goes into which valve, buying and moving as few as can be
    Shims(ShimsArguments),
    /// Torque: with an adapter, which wrench, turn of an angle, what a thread can take
    Torque(SumCall<0>),
    /// Screw adjusters and single shims: how far to turn, which to fit
    Screw(SumCall<1>),
    /// Sensors: curves both ways, sensors after a night, windings
    Sensor(SumCall<2>),
    /// Batteries at rest and under load, by kind, and what charges them
    Battery(SumCall<3>),
    /// Compression at altitude and side by side, leak-down, and both together
    Compression(SumCall<4>),
    /// Every sum of the bench; those of fuel, timing, drive and wear
    Sums(SumCall<5>),
    /// Judge a reading against the limits of a build, or against limits as typed
    Judge(super::judge::JudgeArguments),
    /// Order the checks of a complaint so that the cause is found soonest on average
    Order(super::order::OrderArguments),
    /// Count which causes past jobs had, from saved job records
    Shares(super::shares::SharesArguments),
    /// Say what changed between two bundles or spec bases, the worst first
    Compare(CompareArguments),
    /// Say whether a bundle is whole and as it was written
    Verify(VerifyArguments),
    /// Find a value, a procedure, a machine by words, numbers and years
    Lookup(super::lookup::LookupArguments),
    /// Explain a rule; without a name, list all rules
    Explain(ExplainArguments),
}

/// How an answer is written.
#[derive(Clone, Copy, Debug, Default, Eq, PartialEq, ValueEnum)]
pub enum Format {
    /// For people
    #[default]
    Human,
    /// For programs
    Json,
}

/// How findings are written.
#[derive(Clone, Copy, Debug, Default, Eq, PartialEq, ValueEnum)]
pub enum ReportFormat {
    /// For people
    #[default]
    Human,
    /// For programs
    Json,
    /// As workflow commands of a hosted build
    Github,
    /// As SARIF 2.1.0
    Sarif,
}

/// Which spec base.
#[derive(Args, Debug)]
pub struct BaseArguments {
    /// Directory of the spec base [default: specs]
    #[arg(value_name = "BASE", conflicts_with = "specs")]
    base: Option<PathBuf>,
    /// The same, as a flag
    #[arg(long, value_name = "DIR")]
    specs: Option<PathBuf>,
}

impl BaseDirectory for BaseArguments {
    fn directory(&self) -> PathBuf {
        self.base.clone().or_else(|| self.specs.clone()).unwrap_or_else(|| PathBuf::from("specs"))
    }
}

/// Arguments of `check`.
#[derive(Args, Debug)]
pub struct CheckArguments {
    /// Which base.
    #[command(flatten)]
    pub base: BaseArguments,
    /// How the findings are written
    #[arg(long, value_enum, default_value_t)]
    pub format: ReportFormat,
    /// In sentences, without drawings: for screen readers
    #[arg(long)]
    pub narrated: bool,
    /// An older release, as bundle or spec base: finds public ids that vanished
    #[arg(long, value_name = "OLD")]
    pub since: Option<PathBuf>,
    /// Show notes too
    #[arg(long)]
    pub notes: bool,
}

/// Arguments of `compile`.
#[derive(Args, Debug)]
pub struct CompileArguments {
    /// Which base.
    #[command(flatten)]
    pub base: BaseArguments,
    /// Directory that handbook and bundle are written to, whole or not at all; with --single the file
    #[arg(
        long,
        value_name = "DIR",
        default_value = "public",
        default_value_if("single", clap::builder::ArgPredicate::IsPresent, "build.html")
    )]
    pub out: PathBuf,
    /// An older release, as bundle or spec base: shows what changed, and finds ids that vanished
    #[arg(long, value_name = "OLD")]
    pub since: Option<PathBuf>,
    /// Sign the bundle with this secret key, in the minisign format
    #[arg(long, value_name = "KEY")]
    pub sign: Option<PathBuf>,
    /// Write one build only, as one file that holds all it needs
    #[arg(long, value_name = "BUILD", conflicts_with = "sign")]
    pub single: Option<String>,
    /// How the outcome is written
    #[arg(long, value_enum, default_value_t)]
    pub format: Format,
}

/// Arguments of `coverage`.
#[derive(Args, Debug)]
pub struct CoverageArguments {
    /// Which base.
    #[command(flatten)]
    pub base: BaseArguments,
    /// One engine only
    #[arg(long, value_name = "ENGINE")]
    pub engine: Option<String>,
    /// How the answer is written
    #[arg(long, value_enum, default_value_t)]
    pub format: Format,
}

/// Arguments of `reread`.
#[derive(Args, Debug)]
pub struct RereadArguments {
    /// The engine to read again
    pub engine: String,
    /// Initials of the second reader
    #[arg(long, value_name = "INITIALS", value_parser = initials)]
    pub by: String,
    /// Which base.
    #[command(flatten)]
    pub specs: SpecsArgument,
}

/// Arguments of `preview`.
#[derive(Args, Debug)]
pub struct PreviewArguments {
    /// Which base.
    #[command(flatten)]
    pub base: BaseArguments,
    /// Directory that handbook and bundle are written to, as by `compile`
    #[arg(long, value_name = "DIR", default_value = "public")]
    pub out: PathBuf,
    /// Stop after so many runs
    #[arg(long, value_name = "RUNS")]
    pub runs: Option<u32>,
}

/// Arguments of `editor`.
#[derive(Args, Debug)]
pub struct EditorArguments {
    /// Which base.
    #[command(flatten)]
    pub base: BaseArguments,
    /// Directory that the schemas are written to [default: `schemas` beside the base]
    #[arg(long, value_name = "DIR")]
    pub out: Option<PathBuf>,
}

/// Arguments of `draft`.
#[derive(Args, Debug)]
pub struct DraftArguments {
    /// Id of the new engine, as "ox-887"
    #[arg(value_parser = id)]
    pub engine: String,
    /// Id of its maker
    #[arg(long, value_name = "ID", value_parser = id)]
    pub maker: String,
    /// Title of the engine
    #[arg(long, value_parser = title)]
    pub title: String,
    /// Take the entries, places and states that this engine has, not all of the catalogue
    #[arg(long, value_name = "ENGINE")]
    pub like: Option<String>,
    /// Which base.
    #[command(flatten)]
    pub specs: SpecsArgument,
}

/// An id as the files spell it; it becomes part of a file name too.
fn id(text: &str) -> Result<String, String> {
    let part =
        |part: &str| !part.is_empty() && part.chars().all(|c| c.is_ascii_lowercase() || c.is_ascii_digit());
    if text.len() <= 60 && text.split(['-', '.']).all(part) {
        Ok(text.to_owned())
    } else {
        Err("an id is made of small letters and digits, with single hyphens between, as in `ox-887`"
            .to_owned())
    }
}

/// Arguments of `tidy`.
#[derive(Args, Debug)]
pub struct TidyArguments {
    /// Which base.
    #[command(flatten)]
    pub base: BaseArguments,
    /// Say what would be respelt, and write nothing; status 1 if there is any
    #[arg(long)]
    pub look: bool,
    /// How the outcome is written
    #[arg(long, value_enum, default_value_t)]
    pub format: Format,
}

/// A title that a sheet can be headed with.
fn title(text: &str) -> Result<String, String> {
    let title = text.trim();
    if title.is_empty() { Err("a title has at least one letter".to_owned()) } else { Ok(title.to_owned()) }
}

/// Initials become part of a file name, so they are letters, digits and hyphens.
fn initials(text: &str) -> Result<String, String> {
    let fits = |c: char| c.is_ascii_alphanumeric() || c == '-';
    if !text.is_empty() && text.len() <= 20 && text.chars().all(fits) {
        Ok(text.to_owned())
    } else {
        Err("initials are letters, digits and hyphens, 20 at most".to_owned())
    }
}

/// Which spec base, where the first argument is something else.
#[derive(Args, Clone, Debug)]
pub struct SpecsArgument {
    /// Directory of the spec base
    #[arg(long, value_name = "DIR", default_value = "specs")]
    specs: PathBuf,
}

/// Where a command finds the spec base.
pub trait BaseDirectory {
    /// The directory.
    fn directory(&self) -> PathBuf;
}

impl BaseDirectory for SpecsArgument {
    fn directory(&self) -> PathBuf {
        self.specs.clone()
    }
}

/// Arguments of `convert`.
#[derive(Args, Debug)]
pub struct ConvertArguments {
    /// The value as printed, as "58 ± 2 psi"
    #[arg(allow_hyphen_values = true)]
    pub value: String,
    /// The unit it is wanted in
    pub unit: String,
    /// How the answer is written
    #[arg(long, value_enum, default_value_t)]
    pub format: Format,
}

/// Arguments of `shims`.
#[derive(Args, Debug)]
pub struct ShimsArguments {
    /// The job: a TOML file with `window`, `stock` or `stock_steps`, and a `[[valves]]` table for each valve
    #[arg(value_name = "JOB.toml")]
    pub job: PathBuf,
    /// How the answer is written
    #[arg(long, value_enum, default_value_t)]
    pub format: Format,
}

/// Arguments of `compare`.
#[derive(Args, Debug)]
pub struct CompareArguments {
    /// A bundle, a directory that `compile` wrote, or a spec base
    pub old: PathBuf,
    /// The same, later
    pub new: PathBuf,
    /// Exit with 1 if such a change is found
    #[arg(long, value_enum)]
    pub refuse: Option<Refused>,
    /// How the answer is written
    #[arg(long, value_enum, default_value_t)]
    pub format: Format,
}

/// Changes that `compare` can refuse.
#[derive(Clone, Copy, Debug, Eq, PartialEq, ValueEnum)]
pub enum Refused {
    /// Any limit, setting or condition that is not what it was
    Limits,
}

/// Arguments of `verify`.
#[derive(Args, Debug)]
pub struct VerifyArguments {
    /// A bundle, or a directory that `compile` wrote
    pub bundle: PathBuf,
    /// Public key it must be signed by, in the minisign format
    #[arg(long, value_name = "FILE")]
    pub key: Option<PathBuf>,
    /// How the answer is written
    #[arg(long, value_enum, default_value_t)]
    pub format: Format,
}

/// Arguments of `explain`.
#[derive(Args, Debug)]
pub struct ExplainArguments {
    /// Name of the rule
    pub rule: Option<String>,
    /// How the answer is written
    #[arg(long, value_enum, default_value_t)]
    pub format: Format,
}

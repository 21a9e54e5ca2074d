//! `baybook torque`, `screw`, `sensor`, `battery`, `compression` and `sums`: the bench sums, each a subcommand.
//!
//! The subcommands and their flags come from the table of sums, so that a sum that is added there is a command
//! with its help at once.

use std::io::Write;
use std::path::PathBuf;

use clap::{Arg, ArgMatches, Command, FromArgMatches};
use serde_json::{Value, json};

use super::args::BaseDirectory;
use super::{Failure, Status, base_of, write_json};
use crate::compute::sums::{Group, Input, Outcome, Sort, Sum, SumError, all, of_group, work};
use crate::emit::torque_wrenches;

/// The input that a base can answer.
const WRENCHES: &str = "wrenches";
/// The flag that names the base.
const SPECS: &str = "specs";

/// A base by its directory.
struct SpecsOf<'a>(&'a PathBuf);

impl BaseDirectory for SpecsOf<'_> {
    fn directory(&self) -> PathBuf {
        self.0.clone()
    }
}

/// A call of one group: which sum, and what was typed for it.
#[derive(Debug)]
pub struct SumCall<const GROUP: usize> {
    sum: Option<&'static Sum>,
    matches: ArgMatches,
}

/// The group of a place in [`Group::ALL`].
const fn group(place: usize) -> Group {
    match place {
        0 => Group::Torque,
        1 => Group::Screw,
        2 => Group::Sensor,
        3 => Group::Battery,
        4 => Group::Compression,
        _ => Group::Sums,
    }
}

impl<const GROUP: usize> clap::Args for SumCall<GROUP> {
    fn augment_args(command: Command) -> Command {
        let command =
            format_of(command).subcommand_required(!lists(GROUP)).arg_required_else_help(!lists(GROUP));
        of_group(group(GROUP)).fold(command, |command, sum| command.subcommand(subcommand(sum)))
    }

    fn augment_args_for_update(command: Command) -> Command {
        Self::augment_args(command)
    }
}

/// `baybook sums` alone lists every sum.
fn lists(place: usize) -> bool {
    group(place) == Group::Sums
}

fn format_of(command: Command) -> Command {
    let format = Arg::new("format").long("format").global(true).value_parser(["human", "json"]);
    command.arg(format.default_value("human").help("How the answer is written"))
}

fn subcommand(sum: &'static Sum) -> Command {
    let mut after = format!("{}\nSource: {}\n", sum.formula, sum.source);
    for (signal, caution) in sum.cautions {
        after.push_str(&format!("{}: {caution}\n", signal.word()));
    }
    let command = Command::new(sum.id).about(sum.answers_what.trim_end_matches('.')).after_help(after);
    let command = sum.inputs.iter().fold(command, |command, input| command.arg(flag(input)));
    if asks_for_wrenches(sum) { command.arg(specs()) } else { command }
}

/// A sum whose wrenches may be those of a base.
fn asks_for_wrenches(sum: &Sum) -> bool {
    sum.inputs.iter().any(|input| input.key == WRENCHES)
}

fn specs() -> Arg {
    let arg = Arg::new(SPECS).long(SPECS).value_name("DIR").conflicts_with(WRENCHES);
    arg.value_parser(clap::value_parser!(PathBuf))
        .help("A spec base, whose gauges say which wrenches there are")
}

fn flag(input: &'static Input) -> Arg {
    let example = match input.unless {
        Some("") => format!("as \"{}\"; may be left out", input.example),
        Some(unless) => format!("{unless} if left out"),
        None => format!("as \"{}\"", input.example),
    };
    let words = match input.sort {
        Sort::Word { words } => format!(": {}", words.join(", ")),
        _ => String::new(),
    };
    let help = format!("{}{words} ({example})", input.heading());
    Arg::new(input.key)
        .long(input.key)
        .value_name(input.key)
        .help(help)
        .required(input.unless.is_none() && input.key != WRENCHES)
        .allow_hyphen_values(true)
        .action(clap::ArgAction::Append)
}

impl<const GROUP: usize> FromArgMatches for SumCall<GROUP> {
    fn from_arg_matches(matches: &ArgMatches) -> Result<Self, clap::Error> {
        let called = matches.subcommand();
        let sum = called.and_then(|(id, _)| of_group(group(GROUP)).find(|sum| sum.id == id));
        Ok(Self { sum, matches: called.map_or(matches, |(_, matches)| matches).clone() })
    }

    fn update_from_arg_matches(&mut self, matches: &ArgMatches) -> Result<(), clap::Error> {
        *self = Self::from_arg_matches(matches)?;
        Ok(())
    }
}

/// Works out the sum that was called, or lists all.
pub fn run<const GROUP: usize>(
    call: &SumCall<GROUP>,
    out: &mut dyn Write,
    err: &mut dyn Write,
) -> Result<Status, Failure> {
    let json = call.matches.get_one::<String>("format").is_some_and(|format| format == "json");
    let Some(sum) = call.sum else { return list(json, out) };
    let mut wrenches = None;
    if asks_for_wrenches(sum)
        && let Some(specs) = call.matches.get_one::<PathBuf>(SPECS)
    {
        let Some(checked) = base_of(&SpecsOf(specs), json, out, err)? else { return Ok(Status::Errors) };
        wrenches = torque_wrenches(checked.model());
        if wrenches.is_none() {
            return Err(Failure::Usage(
                format!("no gauge of {} measures torque", specs.display()),
                "say the largest marks with `--wrenches`".to_owned(),
            ));
        }
    }
    let typed = |key: &str| {
        if key == WRENCHES && wrenches.is_some() {
            return wrenches.clone();
        }
        let all = call.matches.get_many::<String>(key)?;
        Some(all.cloned().collect::<Vec<_>>().join(", "))
    };
    let outcome = work(sum, &typed).map_err(refused)?;
    if json {
        write_json(out, &answer(sum, &outcome)?)?;
    } else {
        write!(out, "{}", for_people(sum, &outcome))?;
    }
    Ok(Status::Answered)
}

fn refused(error: SumError) -> Failure {
    let message =
        error.input.map_or_else(|| error.message.clone(), |key| format!("--{key}: {}", error.message));
    Failure::Input(message, error.help)
}

fn answer(sum: &Sum, outcome: &Outcome) -> Result<Value, Failure> {
    let mut answer = json!({
        "sum": sum.id,
        "formula": sum.formula,
        "source": sum.source,
        "cautions": sum.cautions.iter().map(|(signal, text)| json!({ "signal": signal, "text": text })).collect::<Vec<_>>(),
    });
    let worked = serde_json::to_value(outcome).map_err(|error| Failure::Internal(error.to_string()))?;
    if let (Some(answer), Value::Object(worked)) = (answer.as_object_mut(), worked) {
        answer.extend(worked);
    }
    Ok(answer)
}

fn for_people(sum: &Sum, outcome: &Outcome) -> String {
    let mut text = format!("{}\n\n", sum.title);
    for found in &outcome.results {
        let of = found.of.as_ref().map_or_else(String::new, |of| format!("{of}: "));
        let word = found.word.map_or_else(String::new, |word| format!(": {word}"));
        text.push_str(&format!("  {of}{} {}{word}\n", found.title, found.text));
    }
    if !outcome.notes.is_empty() {
        text.push('\n');
    }
    for note in &outcome.notes {
        text.push_str(&format!("{note}\n"));
    }
    text.push('\n');
    for (signal, caution) in sum.cautions {
        text.push_str(&format!("{}: {caution}\n", signal.word()));
    }
    text.push_str(&format!(
        "{}\nSource: {}\nThe maker's current manual comes first.\n",
        sum.formula, sum.source
    ));
    text
}

fn list(json: bool, out: &mut dyn Write) -> Result<Status, Failure> {
    if json {
        let one = |sum: &Sum| json!({ "sum": sum.id, "command": sum.group.word(), "title": sum.title, "formula": sum.formula, "source": sum.source });
        write_json(out, &json!({ "sums": all().map(one).collect::<Vec<_>>() }))?;
        return Ok(Status::Answered);
    }
    for group in Group::ALL {
        writeln!(out, "{}", group.title())?;
        for sum in of_group(group) {
            writeln!(out, "  baybook {} {:<12} {}", group.word(), sum.id, sum.answers_what)?;
        }
    }
    writeln!(
        out,
        "\n`baybook <command> <sum> --help` says what each asks, its formula, its source and its cautions."
    )?;
    Ok(Status::Answered)
}

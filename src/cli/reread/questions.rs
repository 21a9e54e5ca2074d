//! The questions put to a second reader. They name the entry and the page, never a value.

use std::io::{BufRead, Write};

use crate::cli::Failure;
use crate::model::{Domain, Entry, Form, Model, Statement};
use crate::quantity::Value;

/// What the reader answered.
pub enum Answer {
    /// TOML keys and their values, as they go into the file.
    Given(Vec<(&'static str, toml::Value)>),
    /// Nothing for this value.
    Skipped,
    /// The input ended.
    Ended,
}

/// Asks for one value.
pub fn ask(
    model: &Model,
    statement: &Statement,
    position: &str,
    input: &mut dyn BufRead,
    out: &mut dyn Write,
) -> Result<Answer, Failure> {
    let Some(entry) = model.entries.get(&statement.identity.of) else { return Ok(Answer::Skipped) };
    let page = statement.provenance.page.as_deref().unwrap_or("not given");
    writeln!(out, "\n{position}  {} ({})", entry.title, entry.id)?;
    writeln!(out, "     {}, page {page}", super::source_title(model, statement))?;
    let mut talk = Talk { input, out };
    let Some(value) = talk.value(&statement.form)? else { return Ok(Answer::Ended) };
    if value.is_empty() {
        return Ok(Answer::Skipped);
    }
    let mut given = Vec::new();
    for (key, question) in [("where", places(entry)), ("when", conditions(entry))] {
        let Some(question) = question else { continue };
        match talk.words(key, &question)? {
            Some(words) if words.is_empty() => {}
            Some(words) => given.push((key, toml::Value::Table(words))),
            None => return Ok(Answer::Ended),
        }
    }
    given.extend(value);
    if entry.critical {
        let Some(fastening) = talk.fastening(statement)? else { return Ok(Answer::Ended) };
        given.extend(fastening);
    }
    for key in ["row", "column", "footnote"] {
        match talk.line(&format!("{key} (its label as printed, empty if none)"))? {
            Some(text) if text.is_empty() => {}
            Some(text) => given.push((key, toml::Value::String(text))),
            None => return Ok(Answer::Ended),
        }
    }
    Ok(Answer::Given(given))
}

fn places(entry: &Entry) -> Option<String> {
    let axes: Vec<_> =
        entry.axes.iter().map(|(axis, places)| format!("{axis} = {}", places.join(" or "))).collect();
    (!axes.is_empty())
        .then(|| format!("place, as `axis = word, …` ({}; empty for everywhere)", axes.join("; ")))
}

fn conditions(entry: &Entry) -> Option<String> {
    let state = |(state, domain): (&String, &Domain)| match domain {
        Domain::Words(words) => format!("{state} = {}", words.join(" or ")),
        Domain::Kind(kind) => format!("{state} = a {}", kind.title()),
    };
    let states: Vec<_> = entry.states.iter().map(state).collect();
    (!states.is_empty())
        .then(|| format!("condition, as `state = word, …` ({}; empty for any)", states.join("; ")))
}

/// What a value is asked for under: its key, and what stands there.
fn keys(form: &Form) -> Vec<(&'static str, &'static str)> {
    match form {
        Form::Window { .. } => {
            vec![("window", "limits"), ("set_to", "the value to set to, if the page names one")]
        }
        Form::Fit { .. } => vec![("new", "new parts"), ("wear_limit", "wear limit")],
        Form::Setting(_) => vec![("setting", "value")],
        Form::Stages(_) => vec![("stages", "steps in order")],
        Form::Interval { .. } => {
            vec![("interval", "interval"), ("first", "first interval"), ("severe", "interval in severe use")]
        }
        _ => Vec::new(),
    }
}

/// A conversation by lines.
pub(super) struct Talk<'a> {
    input: &'a mut dyn BufRead,
    pub(super) out: &'a mut dyn Write,
}

impl Talk<'_> {
    /// One answer; none at the end of input.
    fn line(&mut self, question: &str) -> Result<Option<String>, Failure> {
        write!(self.out, "     {question}: ")?;
        self.out.flush()?;
        let mut line = String::new();
        let read = self.input.read_line(&mut line)?;
        Ok((read > 0).then(|| line.trim().to_owned()))
    }

    /// The value in the keys of its form; empty if skipped, none at the end of input.
    fn value(&mut self, form: &Form) -> Result<Option<Vec<(&'static str, toml::Value)>>, Failure> {
        match form {
            Form::Direction { .. } => self.direction(),
            Form::Points(_) => self.rows("points", "one point a line, as `20 °C = 2.45 kΩ`", 2),
            Form::Selection(selection) => self.selection(selection.by.len()),
            Form::Pins(_) => self.pins(),
            Form::Text(_) => self.text(),
            other => self.quantities(&keys(other)),
        }
    }

    fn quantities(
        &mut self,
        keys: &[(&'static str, &str)],
    ) -> Result<Option<Vec<(&'static str, toml::Value)>>, Failure> {
        let mut given = Vec::new();
        for (number, (key, what)) in keys.iter().enumerate() {
            let optional = if number == 0 { "" } else { ", empty if none" };
            let question =
                format!("{what}: every form the page prints, `;` between them{optional}\n     value");
            let Some(forms) = self.forms(&question)? else { return Ok(None) };
            if !forms.is_empty() {
                given.push((*key, toml::Value::Array(forms)));
            } else if number == 0 && *key != "new" {
                break;
            }
        }
        Ok(Some(given))
    }

    /// Printed forms that read as values; what does not is asked again.
    fn forms(&mut self, question: &str) -> Result<Option<Vec<toml::Value>>, Failure> {
        loop {
            let Some(line) = self.line(question)? else { return Ok(None) };
            let texts: Vec<_> = line.split(';').map(str::trim).filter(|text| !text.is_empty()).collect();
            let wrong = texts.iter().find_map(|text| Some((text, Value::parse(text).err()?)));
            match wrong {
                Some((text, error)) => {
                    writeln!(self.out, "     {}: {}", error.message(), error.help_for(text))?;
                }
                None => return Ok(Some(texts.into_iter().map(toml::Value::from).collect())),
            }
        }
    }

    fn direction(&mut self) -> Result<Option<Vec<(&'static str, toml::Value)>>, Failure> {
        loop {
            let Some(turns) = self.line("value: `clockwise` or `counter-clockwise`")? else {
                return Ok(None);
            };
            if turns.is_empty() {
                return Ok(Some(Vec::new()));
            }
            if !["clockwise", "counter-clockwise"].contains(&turns.as_str()) {
                writeln!(self.out, "     `{turns}` is neither")?;
                continue;
            }
            let Some(seen) = self.line("seen from where")? else { return Ok(None) };
            let mut given = vec![("direction", toml::Value::from(turns))];
            if !seen.is_empty() {
                given.push(("seen_from", toml::Value::from(seen)));
            }
            return Ok(Some(given));
        }
    }

    fn text(&mut self) -> Result<Option<Vec<(&'static str, toml::Value)>>, Failure> {
        let line = self.line("value: the words")?;
        Ok(line
            .map(|text| if text.is_empty() { Vec::new() } else { vec![("text", toml::Value::from(text))] }))
    }

    /// Rows of a table, one a line with `=` between its members, up to an empty line.
    pub(super) fn table(
        &mut self,
        question: &str,
        members: usize,
    ) -> Result<Option<Vec<Vec<String>>>, Failure> {
        writeln!(self.out, "     {question}; an empty line ends the table")?;
        let mut rows = Vec::new();
        loop {
            let Some(line) = self.line("value")? else { return Ok(None) };
            if line.is_empty() {
                return Ok(Some(rows));
            }
            let row: Vec<_> = line.split('=').map(|part| part.trim().to_owned()).collect();
            if row.len() == members && row.iter().all(|part| !part.is_empty()) {
                rows.push(row);
            } else {
                writeln!(self.out, "     `{line}` has not {members} members with `=` between them")?;
            }
        }
    }

    fn rows(
        &mut self,
        key: &'static str,
        question: &str,
        members: usize,
    ) -> Result<Option<Vec<(&'static str, toml::Value)>>, Failure> {
        let rows = self.table(question, members)?;
        Ok(rows.map(|rows| if rows.is_empty() { Vec::new() } else { vec![(key, toml::Value::from(rows))] }))
    }

    fn selection(&mut self, inputs: usize) -> Result<Option<Vec<(&'static str, toml::Value)>>, Failure> {
        let Some(by) =
            self.line(&format!("value: headings of the {inputs} columns that choose, `;` between them"))?
        else {
            return Ok(None);
        };
        if by.is_empty() {
            return Ok(Some(Vec::new()));
        }
        let by: Vec<_> = by.split(';').map(|one| one.trim().to_owned()).collect();
        let Some(rows) = self.table("one row a line, as `A = 1 = brown`", by.len() + 1)? else {
            return Ok(None);
        };
        let table = toml::Table::from_iter([("by".to_owned(), by.into()), ("rows".to_owned(), rows.into())]);
        Ok(Some(vec![("selection", toml::Value::Table(table))]))
    }

    fn pins(&mut self) -> Result<Option<Vec<(&'static str, toml::Value)>>, Failure> {
        let question = "one cavity a line, as `1 = black/yellow = sensor ground`";
        let Some(rows) = self.table(question, 3)? else { return Ok(None) };
        let pin = |row: Vec<String>| {
            let keys = ["cavity", "wire", "function"].map(ToOwned::to_owned);
            toml::Value::Table(keys.into_iter().zip(row.into_iter().map(toml::Value::from)).collect())
        };
        let pins: Vec<_> = rows.into_iter().map(pin).collect();
        Ok(Some(if pins.is_empty() { Vec::new() } else { vec![("pins", toml::Value::Array(pins))] }))
    }

    /// `axis = word, …` as a table; what does not read so is asked again.
    pub(super) fn words(&mut self, key: &str, question: &str) -> Result<Option<toml::Table>, Failure> {
        loop {
            let Some(line) = self.line(question)? else { return Ok(None) };
            let pairs = line.split(',').map(str::trim).filter(|pair| !pair.is_empty());
            let split = |pair: &str| {
                let (name, word) = pair.split_once('=')?;
                Some((name.trim().to_owned(), toml::Value::from(word.trim())))
            };
            match pairs.map(split).collect::<Option<toml::Table>>() {
                Some(table) => return Ok(Some(table)),
                None => writeln!(
                    self.out,
                    "     `{key}` is written as `name = word`, with commas between several"
                )?,
            }
        }
    }
}

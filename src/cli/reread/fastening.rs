//! What a second reader is asked of a critical torque beside its value: what it tightens, and in which order.

use super::questions::Talk;
use crate::cli::Failure;
use crate::model::Statement;

/// The keys of a fastener, and the words that one of them is held to; none where any will do.
const KEYS: [(&str, &[&str]); 7] = [
    ("thread", &[]),
    ("class", &[]),
    ("threads", &[]),
    ("hand", &["right", "left"]),
    ("count", &[]),
    ("reuse", &["never", "if-good", "yes"]),
    ("into", &[]),
];

impl Talk<'_> {
    /// The fastener and the pattern of a statement that has them; none at the end of input.
    pub(super) fn fastening(
        &mut self,
        statement: &Statement,
    ) -> Result<Option<Vec<(&'static str, toml::Value)>>, Failure> {
        let mut given = Vec::new();
        if let Some(first) = &statement.fastener {
            let keys: Vec<_> = first.words().into_iter().map(|(key, _)| key).collect();
            let question = format!("fastener, as `thread = …, class = …` ({})", keys.join(", "));
            let Some(fastener) = self.fastener(&question)? else { return Ok(None) };
            if !fastener.is_empty() {
                given.push(("fastener", toml::Value::Table(fastener)));
            }
        }
        if !statement.pattern.is_empty() {
            let Some(bolts) = self.bolts()? else { return Ok(None) };
            if !bolts.is_empty() {
                given.push(("pattern", toml::Value::Array(bolts)));
            }
        }
        Ok(Some(given))
    }

    /// The words of a fastener as its file takes them; what does not read so is asked again.
    fn fastener(&mut self, question: &str) -> Result<Option<toml::Table>, Failure> {
        loop {
            let Some(words) = self.words("fastener", question)? else { return Ok(None) };
            match words.into_iter().map(part).collect::<Result<toml::Table, String>>() {
                Ok(fastener) => return Ok(Some(fastener)),
                Err(wrong) => writeln!(self.out, "     {wrong}")?,
            }
        }
    }

    /// Bolt centres; what is no pair of numbers is asked again.
    fn bolts(&mut self) -> Result<Option<Vec<toml::Value>>, Failure> {
        loop {
            let question = "bolt centres in tightening order, in mm, one a line, as `-45 = 40`";
            let Some(rows) = self.table(question, 2)? else { return Ok(None) };
            let bolts = rows.iter().map(|row| {
                let numbers = row.iter().map(|one| one.parse().ok().filter(|one: &f64| one.is_finite()));
                numbers
                    .map(|one| one.map(toml::Value::from))
                    .collect::<Option<Vec<_>>>()
                    .map(toml::Value::Array)
            });
            match bolts.collect::<Option<Vec<_>>>() {
                Some(bolts) => return Ok(Some(bolts)),
                None => writeln!(self.out, "     a centre is two numbers")?,
            }
        }
    }
}

/// One key of a fastener, or what is wrong with it.
fn part((key, word): (String, toml::Value)) -> Result<(String, toml::Value), String> {
    let Some((_, choices)) = KEYS.iter().find(|(known, _)| *known == key) else {
        let known = KEYS.map(|(known, _)| known).join("`, `");
        return Err(format!("a fastener has no `{key}`: it has `{known}`"));
    };
    let text = word.as_str().unwrap_or_default().to_owned();
    if !choices.is_empty() && !choices.contains(&text.as_str()) {
        return Err(format!("`{key}` is one of `{}`", choices.join("`, `")));
    }
    if key != "count" {
        return Ok((key, word));
    }
    match text.parse::<u8>() {
        Ok(count) if (1..=200).contains(&count) => Ok((key, toml::Value::from(i64::from(count)))),
        _ => Err("`count` is a number of bolts".to_owned()),
    }
}

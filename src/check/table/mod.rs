//! Selection tables read as numbers: the size each row leads to, and where it stands in the file.

use crate::check::Subject;
use crate::model::{Entry, Form, Selection, Statement};
use crate::quantity::{Number, Value};
use crate::source::Span;

/// One row of a table.
#[derive(Debug)]
pub struct Row<'a> {
    /// The inputs.
    pub inputs: &'a [String],
    /// The part as typed.
    pub part: &'a str,
    /// Where the part is typed; the statement where that cannot be told.
    pub span: Span,
}

/// Every statement that is a table, with its entry and its rows.
pub fn tables<'a>(subject: &Subject<'a>) -> Vec<(&'a Statement, &'a Entry, &'a Selection, Vec<Row<'a>>)> {
    let model = subject.model;
    let statements = model.engines.values().flat_map(|engine| {
        let varied = engine.variants.iter().flat_map(|variant| &variant.statements);
        engine.statements.iter().chain(varied).map(AsRef::as_ref)
    });
    let tables = statements.filter_map(|statement: &Statement| match &statement.form {
        Form::Selection(selection) => {
            let entry = model.entries.get(&statement.identity.of)?;
            Some((statement, entry, selection, rows(subject, statement, selection)))
        }
        _ => None,
    });
    tables.collect()
}

/// The rows with the spans of their parts, found by reading on from the statement to the next one.
fn rows<'a>(subject: &Subject<'a>, statement: &'a Statement, selection: &'a Selection) -> Vec<Row<'a>> {
    let file = subject.sources.get(statement.span.file);
    let text = file.map_or("", |file| file.text());
    let end = text
        .get(statement.span.end..)
        .and_then(|rest| rest.find("\n[["))
        .map_or(text.len(), |at| statement.span.end + at);
    let mut at = statement.span.end;
    let mut next = |typed: &str| {
        let quoted = format!("\"{typed}\"");
        let start = text.get(at..end)?.find(&quoted)? + at;
        at = start + quoted.len();
        Some(Span::new(statement.span.file, start..at))
    };
    let row = |(inputs, part): &'a (Vec<String>, String)| {
        inputs.iter().for_each(|input| _ = next(input));
        let span = next(part).unwrap_or(statement.span);
        Row { inputs: inputs.as_slice(), part: part.as_str(), span }
    };
    selection.rows.iter().map(row).collect()
}

impl Row<'_> {
    /// The part as a quantity.
    pub fn value(&self) -> Option<Value> {
        Value::parse(self.part).ok()
    }

    /// The part as a number: of a quantity its nominal, of a bare number itself.
    pub fn number(&self) -> Option<crate::quantity::Exact> {
        let value = self.value().and_then(|value| value.nominal().map(|nominal| value.unit().to_si(nominal)));
        value.or_else(|| Number::parse(self.part).ok().map(|number| number.exact().clone()))
    }
}

//! Texts of a file turned into values, days and spans of years, with findings inside the string.

use super::rules::{
    not_a_day, span_reversed, unit_ambiguous, unit_unknown, unknown_kind, value_not_understood,
};
use crate::diag::Sink;
use crate::load::format::{Located, SerialSpan, Text};
use crate::model::{Date, Printed, SerialRange, Years};
use crate::quantity::{Kind, Unit, Value, ValueProblem, likely_text, mending};
use crate::source::{FileId, Sources, Span};

/// One file being understood: where its spans point, and where findings go.
pub struct Reader<'a> {
    /// The texts, for spans inside strings.
    pub sources: &'a Sources,
    /// The file.
    pub file: FileId,
    /// Where findings go.
    pub sink: &'a mut Sink,
}

impl Reader<'_> {
    /// The span of a located thing of this file.
    pub const fn span<T>(&self, located: &Located<T>) -> Span {
        Span::new(self.file, located.range())
    }

    /// A value, or a finding at what is wrong in it.
    pub fn value(&mut self, text: &Text) -> Option<Value> {
        self.value_among(text, 0, &[])
    }

    /// A value, or a finding that says what it was probably meant as: its other printed forms tell.
    fn value_among(&mut self, text: &Text, place: usize, others: &[&Value]) -> Option<Value> {
        match Value::parse(text.as_str()) {
            Ok(value) => Some(value),
            Err(error) => {
                let span = self.sources.inside(self.span(text), text.as_str(), error.range.clone());
                let typed = text.as_str();
                // What is plain is no slip to be guessed at.
                let slip = mending(typed).is_none().then(|| likely_text(typed, place, others)).flatten();
                let finding = match error.problem {
                    // A date is no unit either, but is what happened.
                    ValueProblem::UnknownUnit { .. } if slip.is_none() => {
                        unit_unknown::finding(span, &error, typed)
                    }
                    ValueProblem::AmbiguousUnit { .. } => unit_ambiguous::finding(span, &error, typed),
                    _ => value_not_understood::finding(span, &error, typed, slip),
                };
                self.sink.push(finding);
                None
            }
        }
    }

    /// A printed form.
    pub fn printed(&mut self, text: &Text) -> Option<Printed> {
        let value = self.value(text)?;
        Some(self.as_typed(text, value))
    }

    fn as_typed(&self, text: &Text, value: Value) -> Printed {
        Printed { value, span: self.span(text), typed: text.as_str().to_owned(), misprinted: None }
    }

    /// A list of printed forms; none if any of them is not understood, so that no form is lost.
    pub fn forms(&mut self, texts: &[Text]) -> Option<Vec<Printed>> {
        let read: Vec<_> = texts.iter().map(|text| Value::parse(text.as_str()).ok()).collect();
        let all: Vec<_> = texts
            .iter()
            .enumerate()
            .map(|(place, text)| {
                let others: Vec<&Value> = read.iter().flatten().collect();
                let value = self.value_among(text, place, &others)?;
                Some(self.as_typed(text, value))
            })
            .collect();
        all.into_iter().collect()
    }

    /// A list of printed forms that may be left out.
    pub fn optional_forms(&mut self, texts: Option<&Vec<Text>>) -> Option<Vec<Printed>> {
        texts.map_or_else(|| Some(Vec::new()), |texts| self.forms(texts))
    }

    /// A kind of quantity.
    pub fn kind(&mut self, text: &Text) -> Option<Kind> {
        let kind = Kind::parse(text.as_str());
        if kind.is_none() {
            self.sink.push(unknown_kind::finding(self.span(text), text.as_str()));
        }
        kind
    }

    /// A unit that stands alone.
    pub fn unit(&mut self, text: &Text) -> Option<Unit> {
        Unit::parse(text.as_str()).ok().or_else(|| {
            // Read as a value, a unit gives the finding that says what is wrong with it.
            let error = Value::parse(&format!("1 {}", text.as_str())).err()?;
            self.sink.push(unit_unknown::finding(self.span(text), &error, text.as_str()));
            None
        })
    }

    /// A day of the calendar.
    pub fn day(&mut self, text: &Text) -> Option<Date> {
        let day = text.as_str().parse().ok();
        if day.is_none() {
            self.sink.push(not_a_day::finding(self.span(text), text.as_str()));
        }
        day
    }

    /// A span of model years; one that is still open ends at `open`.
    pub fn years(&mut self, text: &Text, open: u16) -> Option<Years> {
        let year = |part: &str| part.parse::<u16>().ok();
        let years = match text.as_str().split_once("..") {
            None => year(text.as_str()).map(|one| Years { from: one, to: one }),
            Some((from, "")) => year(from).map(|from| Years { from, to: open.max(from) }),
            Some((from, to)) => year(from).zip(year(to)).map(|(from, to)| Years { from, to }),
        }?;
        if years.from > years.to {
            self.sink.push(span_reversed::finding(self.span(text), "the years", text.as_str()));
            return None;
        }
        Some(years)
    }

    /// A span of serial numbers.
    pub fn serial(&mut self, span: &Located<SerialSpan>) -> Option<SerialRange> {
        let serial = span.get();
        let from = serial.from.as_ref().map(|from| *from.get());
        let to = serial.to.as_ref().map(|to| *to.get());
        if let (Some(from), Some(to)) = (from, to)
            && from > to
        {
            let typed = format!("{from} to {to}");
            self.sink.push(span_reversed::finding(self.span(span), "the serial numbers", &typed));
            return None;
        }
        Some(SerialRange::Span { prefix: serial.prefix.as_str().to_owned(), from, to })
    }
}

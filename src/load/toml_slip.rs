//! What was probably typed where a file is no TOML: a bent quote, a colon for the equals sign, a day of another country.
//!
//! The parser says where it stopped; what people did there is read from the line itself.

use std::ops::Range;

use super::day::day_meant;

/// A slip: what is wrong, how to mend it, and the bytes of the text that are wrong.
pub struct Slip {
    /// What is wrong, in the user's own words.
    pub message: String,
    /// How to mend it.
    pub help: String,
    /// What to underline.
    pub range: Range<usize>,
}

/// The line that the parser stopped at, and where it stopped.
struct Stop<'a> {
    /// The line, without its end.
    line: &'a str,
    /// Where it begins in the text.
    start: usize,
    /// Where the parser stopped, in the line.
    at: usize,
    complaint: &'a str,
}

/// What was probably typed at `range` of `text`, where the parser has the `complaint`.
pub fn slip(text: &str, range: &Range<usize>, complaint: &str) -> Option<Slip> {
    let start = text.get(..range.start)?.rfind('\n').map_or(0, |at| at + 1);
    let line = text.get(start..)?.lines().next()?;
    let stop = Stop { line, start, at: range.start - start, complaint };
    let typed = text.get(range.clone())?;
    stop.bent_quote()
        .or_else(|| stop.strange_space())
        .or_else(|| stop.twice(typed, range))
        .or_else(|| stop.heading())
        .or_else(|| stop.equals())
        .or_else(|| stop.separator())
        .or_else(|| stop.brackets())
        .or_else(|| stop.bare())
}

impl Stop<'_> {
    fn said(&self, at: usize, length: usize, message: String, help: impl Into<String>) -> Slip {
        let start = self.start + at;
        Slip { message, help: help.into(), range: start..start + length }
    }

    /// The first of some letters outside straight quotes and remarks.
    fn outside(&self, letters: &[char]) -> Option<(usize, char)> {
        let mut open = None;
        for (at, letter) in self.line.char_indices() {
            match (open, letter) {
                (None, '#') => return None,
                (None, '"' | '\'') => open = Some(letter),
                (Some(quote), letter) if quote == letter => open = None,
                (None, letter) if letters.contains(&letter) => return Some((at, letter)),
                _ => {}
            }
        }
        None
    }

    /// `window = [“0.13 mm”]`, and a straight quote that is closed by a bent one.
    fn bent_quote(&self) -> Option<Slip> {
        const BENT: [char; 8] = ['“', '”', '„', '‘', '’', '«', '»', '´'];
        let unclosed = self.complaint.starts_with("invalid basic string")
            || self.complaint.starts_with("invalid literal string");
        let last =
            || self.line.char_indices().rfind(|(_, letter)| BENT.contains(letter)).filter(|_| unclosed);
        let (at, letter) = self.outside(&BENT).or_else(last)?;
        let help =
            "write straight quotes, `\"`: a word processor bends them, so keep these files to a plain editor";
        Some(self.said(at, letter.len_utf8(), format!("`{letter}` opens and closes no text"), help))
    }

    /// A space that only looks like one.
    fn strange_space(&self) -> Option<Slip> {
        const SPACES: [char; 7] =
            ['\u{a0}', '\u{2007}', '\u{2009}', '\u{202f}', '\u{200b}', '\u{feff}', '\u{3000}'];
        let (at, letter) = self.outside(&SPACES)?;
        let message = format!("a space that is no plain one (U+{:04X}) stands here", u32::from(letter));
        let help = "take it out and type a plain space: copying from a page or a chat brings it along";
        Some(self.said(at, letter.len_utf8(), message, help))
    }

    /// A key or a heading that is given twice.
    fn twice(&self, typed: &str, range: &Range<usize>) -> Option<Slip> {
        if !self.complaint.starts_with("duplicate key") {
            return None;
        }
        let help = if self.line.trim_start().starts_with('[') {
            format!(
                "keep one of the two; where several may stand, each heading has double brackets, `[[{typed}]]`, the first too"
            )
        } else {
            "keep one of the two; a second `[[spec]]` begins a new statement".to_owned()
        };
        Some(self.said(range.start - self.start, range.len(), format!("`{typed}` is given twice"), help))
    }

    /// `[spec]]`
    fn heading(&self) -> Option<Slip> {
        let head = self.line.trim();
        let wrong = self.complaint.starts_with("unexpected key or value")
            && head.starts_with('[')
            && !head.contains('=');
        let name = head.trim_matches(['[', ']']).trim();
        let at = self.line.len() - self.line.trim_start().len();
        let message = format!("`{head}` is no heading");
        if wrong {
            Some(self.said(
                at,
                head.len(),
                message,
                format!("write `[[{name}]]` or `[{name}]`, alone on its line"),
            ))
        } else {
            None
        }
    }

    /// `page: "4-18"`, `page == "4-18"`
    fn equals(&self) -> Option<Slip> {
        if self.complaint.starts_with("extra `=`") {
            return Some(self.said(
                self.at,
                1,
                "`=` stands twice".to_owned(),
                "write one `=` between a key and its value",
            ));
        }
        let due = self.complaint.starts_with("invalid unquoted key");
        let (at, _) = self.outside(&[':']).filter(|_| due)?;
        let rest = self.line.get(at + 1..)?;
        let key = self.line.get(..at)?.rsplit(['{', ',', ' ', '\t']).next()?.trim();
        let known =
            !key.is_empty() && key.chars().all(|one| one.is_ascii_alphanumeric() || one == '_' || one == '-');
        if !known || !(rest.is_empty() || rest.starts_with([' ', '\t', '"'])) {
            return None;
        }
        Some(self.said(at, 1, "`:` stands where `=` is due".to_owned(), format!("write `{key} = …`")))
    }

    /// `["0.13 mm"; "0.005 in"]`
    fn separator(&self) -> Option<Slip> {
        let due = ["missing comma", "string values", "unexpected key or value", "unclosed"]
            .iter()
            .any(|one| self.complaint.starts_with(one));
        let (at, _) = self.outside(&[';']).filter(|_| due)?;
        if self.complaint.starts_with("unexpected key or value") {
            return Some(self.said(
                at,
                1,
                "`;` stands after the value".to_owned(),
                "take it out: a line ends by itself, and remarks begin with `#`",
            ));
        }
        Some(self.said(
            at,
            1,
            "`;` stands where a comma is due".to_owned(),
            "lists are written `[\"a\", \"b\"]`, and remarks begin with `#`",
        ))
    }

    /// `("0.13 mm")`, `{"0.13 mm", "0.005 in"}`
    fn brackets(&self) -> Option<Slip> {
        let (at, letter) = self.outside(&['(', '{'])?;
        let value = self.line.get(..at)?.trim_end().ends_with('=');
        let pairs = self.line.get(at + 1..)?.contains('=');
        if !value || pairs {
            return None;
        }
        Some(self.said(
            at,
            1,
            format!("`{letter}` begins no list"),
            "lists stand in square brackets: `[\"a\", \"b\"]`",
        ))
    }

    /// A value without quotes: a day, a truth, a page, a range.
    fn bare(&self) -> Option<Slip> {
        const COMPLAINTS: [&str; 6] = [
            "string values",
            "invalid",
            "unexpected leading zero",
            "unexpected key or value",
            "missing opening quote",
            "unquoted",
        ];
        if !COMPLAINTS.iter().any(|one| self.complaint.starts_with(one)) {
            return None;
        }
        let (equals, _) = self.outside(&['='])?;
        let rest = self.line.get(equals + 1..)?;
        let value = rest.split(" #").next()?.trim();
        let at = equals + 1 + (rest.len() - rest.trim_start().len());
        let say = |message: String, help: String| Some(self.said(at, value.len(), message, help));
        if value.starts_with(['[', '{', '"', '\'']) || value.is_empty() {
            return None;
        }
        if let Some(day) = day_meant(value) {
            return say(
                format!("`{value}` is not how a day is written"),
                format!("write year, month, day: `{day}`"),
            );
        }
        let truth = match value.to_lowercase().as_str() {
            "yes" | "true" | "on" => Some("true"),
            "no" | "false" | "off" => Some("false"),
            _ => None,
        };
        if let Some(truth) = truth {
            return say(
                format!("`{value}` is neither `true` nor `false`"),
                format!("write `{truth}`, in small letters"),
            );
        }
        if value.ends_with('"') {
            return say(
                format!("`{value}` ends with a quote that nothing opens"),
                format!("write `\"{value}`"),
            );
        }
        let day = value.find('-') == Some(4);
        let page = !day
            && value.contains('-')
            && value.chars().all(|one| one.is_ascii_digit() || one == '-')
            && value.len() < 8;
        if page || value.contains("..") {
            return say(format!("`{value}` stands here without quotes"), format!("write `\"{value}\"`"));
        }
        None
    }
}

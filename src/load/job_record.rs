//! The record of a job that the handbook saves as a file: of its parts, what a count of causes needs.
//!
//! `site/bench/record.js` writes and reads the same; `DEVELOPERS.md` says every key. What was read from a file is
//! never trusted: whatever is otherwise is refused, in words that say what it is instead.

use std::collections::BTreeMap;

use serde::Deserialize;
use serde_json::Value;

/// The form that is written now.
const FORMAT: &str = "baybook job record 2";
/// The first form, which knows no complaints.
const FIRST: &str = "baybook job record 1";
/// What every form begins with.
const FAMILY: &str = "baybook job record ";

/// One job.
#[derive(Clone, Debug, Deserialize)]
pub struct JobRecord {
    /// Its id: two records of one id are of one job.
    pub id: String,
    /// The handbook it was made with.
    pub base: RecordBase,
    /// The build it was done on.
    pub build: RecordBuild,
    /// When it was begun, ISO 8601.
    pub begun: String,
    /// When it was closed; none while it is open.
    #[serde(deserialize_with = "null_or")]
    pub closed: Option<String>,
    /// What was checked for each complaint, by its id.
    #[serde(default)]
    pub complaints: BTreeMap<String, CheckedComplaint>,
}

/// The handbook that a record was made with.
#[derive(Clone, Debug, Deserialize)]
pub struct RecordBase {
    /// Title of its base.
    pub title: String,
    /// Its release.
    pub release: String,
}

/// The build that a job was done on.
#[derive(Clone, Debug, Deserialize)]
pub struct RecordBuild {
    /// Its id.
    pub id: String,
}

/// What was checked for one complaint.
#[derive(Clone, Debug, Deserialize)]
pub struct CheckedComplaint {
    /// Its title.
    pub title: String,
    /// The cause; none before it was found.
    #[serde(deserialize_with = "null_or")]
    pub found: Option<FoundCause>,
    /// When the repair was proved to have cured it, ISO 8601; none before.
    #[serde(deserialize_with = "null_or")]
    pub confirmed: Option<String>,
}

/// The cause that was found.
#[derive(Clone, Debug, Deserialize)]
pub struct FoundCause {
    /// Its id in the complaint.
    pub cause: String,
    /// Its title.
    pub title: String,
}

/// A key that may be null, yet must be there.
fn null_or<'de, T: Deserialize<'de>, D: serde::Deserializer<'de>>(from: D) -> Result<Option<T>, D::Error> {
    Option::deserialize(from)
}

/// A job record from the bytes of its file.
///
/// # Errors
///
/// Says what the file is instead, or which part of the record is damaged.
pub fn read(bytes: &[u8]) -> Result<JobRecord, String> {
    let text = std::str::from_utf8(bytes).map_err(|_| "it is no text in UTF-8".to_owned())?;
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    if text.trim().is_empty() {
        return Err("it is empty".to_owned());
    }
    let read: Value = serde_json::from_str(text).map_err(|error| {
        let what = if error.is_eof() { "it breaks off" } else { "it is not JSON" };
        format!("{what} (line {}, column {})", error.line(), error.column())
    })?;
    let format = read.get("format").and_then(Value::as_str);
    match format {
        Some(FORMAT | FIRST) => {}
        Some(other) if other.starts_with(FAMILY) => {
            return Err(format!("it is a `{other}`, and this baybook reads `{FORMAT}` and before"));
        }
        Some(_) | None => return Err(format!("its `format` is not `{FORMAT}`")),
    }
    if format == Some(FORMAT) && read.get("complaints").is_none() {
        return Err("it is damaged: missing field `complaints`".to_owned());
    }
    if !read.get("readings").is_some_and(Value::is_array) {
        return Err("it is damaged: it has no list of `readings`".to_owned());
    }
    serde_json::from_value(read).map_err(|error| format!("it is damaged: {error}"))
}

#[cfg(test)]
mod tests {
    use super::read;

    const WHOLE: &str = r#"{"format":"baybook job record 2","id":"a","base":{"title":"B","release":"1","date":"","content":""},
        "build":{"id":"e","hash":"","engine":"","machine":""},"begun":"2026-11-25","closed":null,"readings":[],
        "complaints":{"flat":{"title":"Flat","checks":[],"found":{"cause":"old","title":"Old","by":"said","time":""},"confirmed":null}}}"#;

    #[test]
    fn a_record_is_read_and_each_damage_is_named() {
        let job = read(WHOLE.as_bytes()).expect("whole");
        assert_eq!(job.complaints["flat"].found.as_ref().expect("found").cause, "old");
        let said = |from: &str, to: &str| read(WHOLE.replacen(from, to, 1).as_bytes()).expect_err(from);
        for (from, to, wanted) in [
            (
                "record 2",
                "record 3",
                "it is a `baybook job record 3`, and this baybook reads `baybook job record 2` and before",
            ),
            ("baybook job", "some other", "its `format` is not `baybook job record 2`"),
            (
                r#""confirmed":null"#,
                r#""confirmed":7"#,
                "it is damaged: invalid type: integer `7`, expected a string",
            ),
            (r#","confirmed":null"#, "", "it is damaged: missing field `confirmed`"),
            (r#""readings":[]"#, r#""readings":{}"#, "it is damaged: it has no list of `readings`"),
            (r#""complaints""#, r#""complaint""#, "it is damaged: missing field `complaints`"),
            (r#""found":{"#, r#""found":[{"#, "it is not JSON (line 3, column 130)"),
        ] {
            assert_eq!(said(from, to), wanted);
        }
        let half = &WHOLE.as_bytes()[..WHOLE.len() / 2];
        assert!(read(half).expect_err("cut").starts_with("it breaks off (line "));
        assert_eq!(read(b"").expect_err("empty"), "it is empty");
        assert_eq!(read(b"\xff\xfe").expect_err("bytes"), "it is no text in UTF-8");
        assert_eq!(read(b"[]").expect_err("a list"), "its `format` is not `baybook job record 2`");
        let deep = "[".repeat(100_000);
        assert!(read(deep.as_bytes()).is_err());
    }

    #[test]
    fn a_record_of_the_first_form_knows_no_complaints() {
        let first = WHOLE.replacen("record 2", "record 1", 1).replacen(r#""complaints""#, r#""others""#, 1);
        assert!(read(first.as_bytes()).expect("read").complaints.is_empty());
    }
}

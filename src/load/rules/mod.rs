//! Rules about the form of files: each finds something that keeps a file, or a part of it, from
//! being read.

pub mod file_out_of_place;
pub mod malformed_text;
pub mod missing_front_matter;
pub mod missing_key;
pub mod no_base_file;
pub mod no_files;
pub mod not_a_choice;
pub mod not_utf8;
pub mod number_out_of_range;
pub mod one_form_only;
pub mod toml_syntax;
pub mod too_large;
pub mod unknown_key;
pub mod wrong_count;
pub mod wrong_type;

use crate::diag::Rule;

/// Every rule of this phase.
pub static RULES: &[&Rule] = &[
    &file_out_of_place::RULE,
    &malformed_text::RULE,
    &missing_front_matter::RULE,
    &missing_key::RULE,
    &no_base_file::RULE,
    &no_files::RULE,
    &not_a_choice::RULE,
    &not_utf8::RULE,
    &number_out_of_range::RULE,
    &one_form_only::RULE,
    &toml_syntax::RULE,
    &too_large::RULE,
    &unknown_key::RULE,
    &wrong_count::RULE,
    &wrong_type::RULE,
];

/// The first sentence of the schema, made to stand within another: lower case first letter, no full stop.
pub(super) fn sentence(text: &str) -> String {
    let text = text.lines().next().unwrap_or(text);
    let text = text.split(". ").next().unwrap_or(text).trim_end_matches('.');
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_lowercase().chain(letters).collect())
}

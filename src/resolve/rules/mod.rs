//! Rules about references and values: each finds something that keeps a part from being understood.

pub mod direction_seen_from_nowhere;
pub mod duplicate_id;
pub mod link_not_understood;
pub mod misprint_unclear;
pub mod not_a_day;
pub mod not_markdown;
pub mod pattern_not_of_its_bolts;
pub mod reread_by_same_reader;
pub mod reread_differs;
pub mod reread_from_elsewhere;
pub mod reread_incomplete;
pub mod reread_without_statement;
pub mod span_reversed;
pub mod statement_twice;
pub mod unit_ambiguous;
pub mod unit_unknown;
pub mod unknown_kind;
pub mod unknown_reference;
pub mod value_not_understood;

use crate::diag::Rule;

/// Every rule of this phase.
pub static RULES: &[&Rule] = &[
    &direction_seen_from_nowhere::RULE,
    &duplicate_id::RULE,
    &link_not_understood::RULE,
    &misprint_unclear::RULE,
    &not_a_day::RULE,
    &not_markdown::RULE,
    &pattern_not_of_its_bolts::RULE,
    &reread_by_same_reader::RULE,
    &reread_differs::RULE,
    &reread_from_elsewhere::RULE,
    &reread_incomplete::RULE,
    &reread_without_statement::RULE,
    &span_reversed::RULE,
    &statement_twice::RULE,
    &unit_ambiguous::RULE,
    &unit_unknown::RULE,
    &unknown_kind::RULE,
    &unknown_reference::RULE,
    &value_not_understood::RULE,
];

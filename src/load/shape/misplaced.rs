//! A waiver at the other place than its own: for a value in `base.toml`, for a text in the file of an engine.

use toml::Spanned;
use toml::de::{DeTable, DeValue};

use super::Shape;
use crate::diag::Finding;
use crate::load::place::FileKind;
use crate::load::rules::unknown_key;
use crate::load::tree::{self, Step};

/// What `on` of a waiver for a value has, and only that.
const OF_A_VALUE: [&str; 4] = ["of", "where", "when", "value"];
/// What `on` of a waiver for a text has, and only that.
const OF_A_TEXT: [&str; 2] = ["file", "text"];

impl Shape<'_> {
    /// Every waiver of a file that belongs elsewhere by all the keys of its `on`: where it stands, and its finding.
    pub(super) fn misplaced_waivers(&self, root: &DeTable<'_>) -> Vec<(Vec<Step>, Finding)> {
        let (theirs, own): (&[&str], &[&str]) = match self.kind {
            FileKind::Base => (&OF_A_VALUE, &OF_A_TEXT),
            FileKind::Engine => (&OF_A_TEXT, &OF_A_VALUE),
            _ => return Vec::new(),
        };
        let Some(DeValue::Array(waivers)) = root.get("waive").map(Spanned::get_ref) else {
            return Vec::new();
        };
        let misplaced = |place: usize| {
            let waiver = vec![Step::Key("waive".to_owned()), Step::Item(place)];
            let on: Vec<_> = waiver.iter().cloned().chain([Step::Key("on".to_owned())]).collect();
            let DeValue::Table(keys) = tree::value_at(root, &on)?.get_ref() else { return None };
            let has = |key: &&str| keys.contains_key(*key);
            let stray: Vec<&str> = theirs.iter().copied().filter(has).collect();
            let elsewhere = !stray.is_empty() && !own.iter().any(has);
            elsewhere
                .then(|| (waiver, unknown_key::misplaced_waiver(self.at(root, &on), self.kind, &stray, own)))
        };
        (0..waivers.len()).filter_map(misplaced).collect()
    }
}

//! The relations that Baybook carries: what the trade checks, for every base whose catalogue has the entries.
//!
//! They are the files of the demo base, so that whoever reads or changes them there sees all there is.

use std::sync::LazyLock;

use super::format::RelationsFile;

/// The files, as embedded.
const TEXTS: [&str; 4] = [
    include_str!("../../specs/catalogue/relations-engine.toml"),
    include_str!("../../specs/catalogue/relations-fuel-and-fluids.toml"),
    include_str!("../../specs/catalogue/relations-electrical.toml"),
    include_str!("../../specs/catalogue/relations-machine.toml"),
];

/// The relations that Baybook carries. A file that could not be read would give none of its own; a test rules it out.
pub fn relations() -> &'static [RelationsFile] {
    static ALL: LazyLock<Vec<RelationsFile>> =
        LazyLock::new(|| TEXTS.iter().filter_map(|text| toml::from_str(text).ok()).collect());
    &ALL
}

#[cfg(test)]
mod tests {
    use super::{TEXTS, relations};

    #[test]
    fn every_file_is_read() {
        assert_eq!(relations().len(), TEXTS.len());
    }
}

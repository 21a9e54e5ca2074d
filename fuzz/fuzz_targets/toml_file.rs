//! Any bytes as any TOML file of a base: findings with sound places, or a handbook.
#![no_main]

use baybook_fuzz::examine_with;
use libfuzzer_sys::fuzz_target;

/// One place of each kind.
const PLACES: [&str; 11] = [
    "base.toml",
    "catalogue/top-end.toml",
    "hazards.toml",
    "sources.toml",
    "gauges.toml",
    "machines/quarrick.toml",
    "engines/quarrick/engine-a.toml",
    "rereads/quarrick/engine-a.toml",
    "codes/blink.toml",
    "complaints/starts-badly.toml",
    "ids.toml",
];

fuzz_target!(|bytes: &[u8]| {
    let Some((pick, text)) = bytes.split_first() else { return };
    examine_with(PLACES[usize::from(*pick) % PLACES.len()], text);
});

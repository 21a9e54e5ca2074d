//! Any bytes as a procedure: front matter, Markdown and our links, with sound places, or a sheet.
#![no_main]

use baybook_fuzz::examine_with;
use libfuzzer_sys::fuzz_target;

fuzz_target!(|bytes: &[u8]| {
    // Half of all inputs are only the steps, so that the fuzzer need not find the front matter first.
    let Some((pick, text)) = bytes.split_first() else { return };
    let head = "+++\nid = \"tried\"\ntitle = \"Tried\"\nfits = { has = [\"lash.exhaust\"] }\nhazards = [\"hot-parts\"]\n+++\n";
    let whole = if pick % 2 == 0 { text.to_vec() } else { [head.as_bytes(), text].concat() };
    examine_with("procedures/tried.md", &whole);
});

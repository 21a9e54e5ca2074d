//! What the targets share: a sound base in which one file is replaced, and what holds of any examination.

use std::path::Path;
use std::sync::LazyLock;

use baybook::diag::{human, json};
use baybook::load::disk::{self, Content, Found};

/// The files of the small base that examples start from.
static SOUND: LazyLock<Vec<(String, Vec<u8>)>> = LazyLock::new(|| {
    let folder = Path::new(concat!(env!("CARGO_MANIFEST_DIR"), "/../tests/rule-base"));
    let found = disk::read_base(folder).expect("the base is there");
    let bytes = |one: Found| match one.content {
        Content::Bytes(bytes) => (one.path, bytes),
        _ => panic!("the base holds plain files"),
    };
    found.into_iter().map(bytes).collect()
});

/// Examines the base with `bytes` at `path`, and what passes is rendered too.
pub fn examine_with(path: &str, bytes: &[u8]) {
    let kept = SOUND.iter().filter(|(other, _)| other != path).cloned();
    let mut found: Vec<_> = kept
        .chain([(path.to_owned(), bytes.to_vec())])
        .map(|(path, bytes)| Found { path, content: Content::Bytes(bytes) })
        .collect();
    found.sort_by(|one, other| one.path.cmp(&other.path));
    let examined = baybook::examine(found, None);
    for finding in &examined.findings {
        let file = examined.sources.get(finding.span.file).expect("a finding stands in a file");
        assert!(file.text().get(finding.span.range()).is_some(), "a span cuts a letter or leaves its file");
        assert!(!finding.help.is_empty(), "a finding without help");
        let _ = human::finding(finding, &examined.sources);
    }
    let _ = json::report(&examined.findings, &examined.sources, examined.summary);
    if let Some(checked) = examined.checked {
        baybook::emit::compile(&checked).expect("what passed is rendered");
    }
}

//! Clean data gives no finding: fourteen engines by somebody who has not seen the catalogue's plausible spans.
//!
//! They lie inside the ordinary range of practice: large and small, race and utility, a slow diesel of more than a litre, a
//! racing fifty, another that shares its oil with the gearbox, an old twin in inches alone. A finding here is a false alarm: a span or a rule is too narrow, never the
//! engine.

use std::path::Path;

use baybook::diag::Severity;
use baybook::load::disk::{self, Found};

fn read(folder: &str) -> Vec<Found> {
    disk::read_base(&Path::new(env!("CARGO_MANIFEST_DIR")).join(folder)).expect("there")
}

#[test]
fn engines_from_elsewhere_give_no_finding() {
    let shared = |found: &Found| {
        found.path.starts_with("catalogue/") || ["hazards.toml", "gauges.toml"].contains(&found.path.as_str())
    };
    let mut all = read("tests/elsewhere");
    all.extend(read("specs").into_iter().filter(shared));
    let examined = baybook::examine(all, None);
    assert_eq!(examined.summary.engines, 14);
    assert!(examined.summary.statements >= 600, "{}", examined.summary.statements);
    let found: Vec<_> = examined
        .findings
        .iter()
        .filter(|finding| finding.severity() != Severity::Note)
        .map(|finding| format!("{}: {}", finding.rule.name, finding.message))
        .collect();
    assert!(found.is_empty(), "{}", found.join("\n"));
}

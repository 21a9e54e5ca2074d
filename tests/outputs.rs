//! Findings for a hosted build and for a screen reader: the gravest first, what is left out counted, whole sentences.

mod shared;

use baybook::Examined;
use baybook::diag::{github, narrated};
use baybook::load::disk::Content;

const ENGINE: &str = "engines/quarrick/engine-a.toml";

/// The small base with so many implausible values, which are warnings, before so many unknown units, which are errors.
fn with(warnings: usize, errors: usize) -> Examined {
    let mut base = shared::rule_base();
    let Some(Content::Bytes(bytes)) = base.get_mut(ENGINE) else { panic!("no {ENGINE}") };
    let mut put = |of: &str, count: usize, value: &str| {
        let place = format!("when = {{ engine = \"hot\", air = \"{count} °C\" }}");
        bytes.extend_from_slice(
            format!("\n[[spec]]\nof = \"{of}\"\n{place}\nwindow = [\"{value}\"]\npage = \"1\"\n").as_bytes(),
        );
    };
    (0..warnings).for_each(|count| put("lash.exhaust", count, "1.8..2.8 mm"));
    (0..errors).for_each(|count| put("lash.exhaust", 100 + count, "0.20..0.30 milimetres"));
    shared::examine(base)
}

fn lines(examined: &Examined) -> Vec<String> {
    let report = github::report(&examined.findings, &examined.sources, "specs");
    report.lines().map(ToOwned::to_owned).collect()
}

#[test]
fn a_hosted_build_sees_the_gravest_first_and_how_many_it_does_not_see() {
    let examined = with(25, 12);
    assert_eq!(examined.findings.len(), 37, "{}", shared::printed(&examined.findings, &examined.sources));
    let lines = lines(&examined);
    assert!(
        lines[..12]
            .iter()
            .all(|line| line.starts_with("::error file=specs/engines/quarrick/engine-a.toml,line="))
    );
    assert!(lines[12..30].iter().all(|line| line.starts_with("::warning ")));
    assert_eq!(lines[30..], ["::notice title=baybook::7 not shown; run `baybook check` for all"]);
}

#[test]
fn a_hosted_build_that_sees_all_is_told_of_none_hidden() {
    assert_eq!(lines(&with(0, 2)).len(), 2);
    assert!(lines(&with(0, 0)).is_empty());
}

#[test]
fn a_screen_reader_hears_sentences_and_no_drawing() {
    let examined = with(1, 1);
    for finding in &examined.findings {
        let text = narrated::finding(finding, &examined.sources);
        for part in [&finding.help, finding.rule.name, "engines/quarrick/engine-a.toml, line "] {
            assert!(text.contains(part), "{part} is not said: {text}");
        }
        assert!(!text.contains("^^") && !text.contains("-->") && !text.contains(" | "), "{text}");
        let said: Vec<&str> =
            text.lines().filter(|line| !line.contains(": ") || line.starts_with("What")).collect();
        assert!(said.iter().all(|line| line.ends_with(['.', '?'])), "{text}");
        assert!(text.lines().all(|line| !line.ends_with("?.")), "{text}");
    }
}

//! The templates, embedded, and the engine that renders them with every value escaped.

use tera::Tera;

macro_rules! table {
    ($($name:literal),* $(,)?) => {
        &[$(($name, include_str!(concat!("../../../templates/", $name)))),*]
    };
}

/// Every template; a test holds it and the folder `templates/` together.
const TABLE: &[(&str, &str)] = table![
    "base.html",
    "parts/components.html",
    "parts/hazard.html",
    "parts/hazards-named.html",
    "parts/readings.html",
    "parts/row.html",
    "parts/tightening.html",
    "parts/turn.html",
    "parts/value.html",
    "about.html",
    "az.html",
    "card.html",
    "changes.html",
    "code-set.html",
    "codes.html",
    "complaint.html",
    "complaints.html",
    "coverage.html",
    "drawings.html",
    "engine-coverage.html",
    "engine.html",
    "entry.html",
    "gauges.html",
    "groups.html",
    "home.html",
    "job.html",
    "machine.html",
    "machines.html",
    "procedure.html",
    "rules.html",
    "source.html",
    "sources.html",
    "sums.html",
];

/// The engine with every template read; all of them escape.
pub(super) fn engine() -> tera::TeraResult<Tera> {
    let mut tera = Tera::default();
    tera.autoescape_on([".html"]);
    tera.add_raw_templates(TABLE.iter().copied())?;
    Ok(tera)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_table_and_the_folder_agree() {
        let root = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("templates");
        let files = walkdir::WalkDir::new(&root).into_iter().map(|entry| entry.expect("readable"));
        let mut found: Vec<String> = files
            .filter(|entry| entry.file_type().is_file())
            .map(|entry| {
                entry.path().strip_prefix(&root).expect("below").to_string_lossy().replace('\\', "/")
            })
            .collect();
        found.sort();
        let mut listed: Vec<&str> = TABLE.iter().map(|(name, _)| *name).collect();
        listed.sort_unstable();
        assert_eq!(found, listed);
    }

    #[test]
    fn only_drawings_and_rendered_markdown_are_let_through() {
        for (name, text) in TABLE {
            for line in text.lines().filter(|line| line.contains("| safe")) {
                let known = [
                    "drawing | safe",
                    "card_style | safe",
                    "address[1] | safe",
                    "pattern | safe",
                    "body | safe",
                    "how_to | safe",
                    "page | safe",
                ];
                assert!(known.iter().any(|one| line.contains(one)), "{name}: {line}");
            }
            assert!(!text.contains("='{{") && !text.contains("style="), "{name}");
        }
    }
}

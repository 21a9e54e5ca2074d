//! What a rule is: its name, how grave it is, and the page that explains it.

/// How grave a finding is. The order is that of a report: the gravest first.
#[derive(Clone, Copy, Debug, Eq, Ord, PartialEq, PartialOrd)]
pub enum Severity {
    /// Nothing is compiled until it is mended; cannot be waived.
    Error,
    /// Probably wrong; may be waived with a reason and a date.
    Warning,
    /// Worth knowing; shown only on request.
    Note,
}

impl Severity {
    /// The word that findings and schemas use.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Error => "error",
            Self::Warning => "warning",
            Self::Note => "note",
        }
    }
}

/// What a rule is about.
#[derive(Clone, Copy, Debug, Eq, Ord, PartialEq, PartialOrd)]
pub enum Group {
    /// Files, TOML, keys and types.
    Form,
    /// Numbers and units.
    Units,
    /// Ids, identities, variants.
    Reference,
    /// Sources, pages, readings.
    Provenance,
    /// What an experienced eye checks.
    Physics,
    /// Steps, links, hazards.
    Procedure,
    /// Causes and checks of a complaint.
    Complaint,
}

impl Group {
    /// Heading of the group.
    pub const fn title(self) -> &'static str {
        match self {
            Self::Form => "Form",
            Self::Units => "Units",
            Self::Reference => "Reference",
            Self::Provenance => "Provenance",
            Self::Physics => "Physics",
            Self::Procedure => "Procedure",
            Self::Complaint => "Complaint",
        }
    }
}

/// One rule. Each stands in a file of its own, with its page beside it.
#[derive(Debug)]
pub struct Rule {
    /// Kebab-case name that states the problem.
    pub name: &'static str,
    /// How grave it is.
    pub severity: Severity,
    /// What it is about.
    pub group: Group,
    /// One sentence: what it finds.
    pub summary: &'static str,
    /// Its page: what it does, why, wrong, right, how to fix.
    pub page: &'static str,
    /// The findings of its wrong example, as printed.
    pub printed: &'static str,
}

/// Declares the static of a rule whose page and printed example stand beside the file.
#[macro_export]
macro_rules! rule {
    ($file:literal, $name:literal, $severity:ident, $group:ident, $summary:literal) => {
        $crate::diag::Rule {
            name: $name,
            severity: $crate::diag::Severity::$severity,
            group: $crate::diag::Group::$group,
            summary: $summary,
            page: include_str!(concat!($file, ".md")),
            printed: include_str!(concat!($file, ".txt")),
        }
    };
}

//! Which kind of file stands where in a spec base, and which are read on their own.

/// The kinds of file that are read.
#[derive(Clone, Copy, Debug, Eq, Ord, PartialEq, PartialOrd)]
pub enum FileKind {
    /// `base.toml`
    Base,
    /// `catalogue/relations*.toml`
    Relations,
    /// `catalogue/*.toml`, those of relations aside
    Catalogue,
    /// `hazards.toml`
    Hazards,
    /// `sources.toml`
    Sources,
    /// `gauges.toml`
    Gauges,
    /// `machines/*.toml`
    Machines,
    /// `engines/<maker>/<engine>.toml`
    Engine,
    /// `codes/*.toml`
    Codes,
    /// `procedures/*.md`
    Procedure,
    /// `complaints/*.toml`
    Complaint,
    /// `rereads/<maker>/<engine>.toml`
    Rereads,
    /// `ids.toml`
    Ids,
    /// A job of shims, which stands in no base.
    Shims,
}

impl FileKind {
    /// Every kind; of two whose places take in a path, the narrower stands first.
    pub const ALL: [Self; 14] = [
        Self::Base,
        Self::Relations,
        Self::Catalogue,
        Self::Hazards,
        Self::Sources,
        Self::Gauges,
        Self::Machines,
        Self::Engine,
        Self::Codes,
        Self::Procedure,
        Self::Complaint,
        Self::Rereads,
        Self::Ids,
        Self::Shims,
    ];

    /// Where such a file stands in a base; `*` is any name. None for one that stands in no base.
    pub const fn pattern(self) -> Option<&'static str> {
        Some(match self {
            Self::Base => "base.toml",
            Self::Relations => "catalogue/relations*.toml",
            Self::Catalogue => "catalogue/*.toml",
            Self::Hazards => "hazards.toml",
            Self::Sources => "sources.toml",
            Self::Gauges => "gauges.toml",
            Self::Machines => "machines/*.toml",
            Self::Engine => "engines/*/*.toml",
            Self::Codes => "codes/*.toml",
            Self::Procedure => "procedures/*.md",
            Self::Complaint => "complaints/*.toml",
            Self::Rereads => "rereads/*/*.toml",
            Self::Ids => "ids.toml",
            Self::Shims => return None,
        })
    }

    /// Name of its schema: `schemas/<name>.schema.json`.
    pub const fn schema_name(self) -> &'static str {
        match self {
            Self::Base => "base",
            Self::Relations => "relations",
            Self::Catalogue => "catalogue",
            Self::Hazards => "hazards",
            Self::Sources => "sources",
            Self::Gauges => "gauges",
            Self::Machines => "machines",
            Self::Engine => "engine",
            Self::Codes => "codes",
            Self::Procedure => "procedure",
            Self::Complaint => "complaint",
            Self::Rereads => "rereads",
            Self::Ids => "ids",
            Self::Shims => "shims",
        }
    }

    /// The kind of the file at a path, if it is a place where one stands.
    pub fn at(path: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|kind| kind.pattern().is_some_and(|pattern| matches(pattern, path)))
    }
}

/// True if every part of the path fits its part of the pattern.
fn matches(pattern: &str, path: &str) -> bool {
    let (wanted, parts) = (pattern.split('/'), path.split('/'));
    wanted.clone().count() == parts.clone().count()
        && wanted.zip(parts).all(|(want, part)| match want.split_once('*') {
            Some(("", ending)) => part.len() > ending.len() && part.ends_with(ending),
            Some((start, ending)) => part.strip_prefix(start).is_some_and(|rest| rest.ends_with(ending)),
            None => want == part,
        })
}

#[cfg(test)]
mod tests {
    use super::FileKind;

    #[test]
    fn a_path_has_the_kind_of_its_place() {
        assert_eq!(FileKind::at("engines/oxbarrow/ox-887.toml"), Some(FileKind::Engine));
        assert_eq!(FileKind::at("engines/ox-887.toml"), None);
        assert_eq!(FileKind::at("procedures/lash.md"), Some(FileKind::Procedure));
        assert_eq!(FileKind::at("procedures/lash.toml"), None);
        assert_eq!(FileKind::at("catalogue/.toml"), None);
        assert_eq!(FileKind::at("catalogue/relations.toml"), Some(FileKind::Relations));
        assert_eq!(FileKind::at("catalogue/relations-of-ours.toml"), Some(FileKind::Relations));
        assert_eq!(FileKind::at("catalogue/top-end.toml"), Some(FileKind::Catalogue));
    }
}

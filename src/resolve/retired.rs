//! Retired ids and recalled values as typed: what they name may be long gone, so nothing is looked up.

use crate::load::Loaded;
use crate::load::format::{IdsFile, Located, Text, Words};
use crate::model;
use crate::source::{FileId, Span};

/// The retired ids, in file order.
pub fn ids(loaded: &Loaded) -> Vec<model::Retired> {
    let retired = |file: &FileId, raw: &IdsFile| {
        let file = *file;
        let one = |one: &crate::load::format::RetiredId| model::Retired {
            id: owned(&one.id),
            span: Span::new(file, one.id.range()),
            fate: *one.fate.get(),
            fate_span: Span::new(file, one.fate.range()),
            to: one.to.iter().map(|id| (owned(id), Span::new(file, id.range()))).collect(),
            because: owned(&one.because),
            release: owned(&one.release),
        };
        raw.retired.iter().map(Located::get).map(one).collect()
    };
    loaded.ids.as_ref().map(|ids| retired(&ids.file, &ids.data)).unwrap_or_default()
}

/// The recalled values, in file order.
pub fn recalls(loaded: &Loaded) -> Vec<model::Recall> {
    let Some(ids) = &loaded.ids else { return Vec::new() };
    let at = |text: &Text| Span::new(ids.file, text.range());
    let one = |one: &crate::load::format::Recall| model::Recall {
        engine: owned(&one.engine),
        engine_span: at(&one.engine),
        of: owned(&one.of),
        of_span: at(&one.of),
        place: words(&one.place),
        when: words(&one.when),
        value: owned(&one.value),
        value_span: at(&one.value),
        typed: one.place.iter().chain(&one.when).map(|(key, word)| (owned(key), at(word))).collect(),
        releases: one.releases.iter().map(owned).collect(),
        because: owned(&one.because),
    };
    ids.data.recall.iter().map(Located::get).map(one).collect()
}

fn owned(text: &Text) -> String {
    text.as_str().to_owned()
}

fn words(words: &Words) -> model::Words {
    words.iter().map(|(key, word)| (owned(key), owned(word))).collect()
}

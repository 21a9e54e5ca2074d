//! Whatever stands in a base, it is examined to the end: no panic, and every finding in its place.
//!
//! The small base of `rule-base/` and the files of `cases/clean/all-kinds-of-files` are broken at random,
//! by byte, by line and by words that are known to mean something. More cases are asked for with
//! `PROPTEST_CASES`.

mod shared;

use std::sync::LazyLock;

use baybook::diag::{Finding, human, json};
use baybook::load::disk::Content;
use proptest::prelude::*;
use proptest::sample::Index;

use shared::Base;

/// The files that are broken, in order of path.
static FILES: LazyLock<Vec<(String, Vec<u8>)>> = LazyLock::new(|| {
    let base = shared::read(&shared::tests("cases/clean/all-kinds-of-files/base"));
    let bytes = |content| if let Content::Bytes(bytes) = content { Some(bytes) } else { None };
    base.into_iter().filter_map(|(path, content)| Some((path, bytes(content)?))).collect()
});

/// Pieces that mean something somewhere: signs, brackets, links, values, keys, and what no text holds.
const PIECES: [&[u8]; 44] = [
    b"\"",
    b"'",
    b"\"\"\"",
    b"[",
    b"]",
    b"[[",
    b"{",
    b"}",
    b"=",
    b"#",
    b"\n",
    b"\r\n",
    b"\r",
    b"\0",
    b"\xff",
    b"\xef\xbb\xbf",
    b"+++\n",
    b"](",
    b"[](spec:",
    b"[](turn:crank 90\xc2\xb0)",
    b"<b>",
    b"<!--",
    b"![",
    b"|",
    b"> ",
    b"^",
    b"\\",
    "±".as_bytes(),
    "½".as_bytes(),
    "🔧".as_bytes(),
    "e\u{301}".as_bytes(),
    "\u{202e}".as_bytes(),
    b"1e400",
    b"inf",
    b"-0",
    b"..",
    b"9999999999999999999",
    b"[[spec]]\n",
    b"[[variant]]\n",
    b"where = { x = \"y\" }\n",
    b"\"\"",
    b" mm",
    b"\x1b[31m",
    b"page = 1\n",
];

/// One way to break a file.
#[derive(Clone, Debug)]
enum Break {
    Flip(Index, u8),
    Delete(Index, usize),
    Insert(Index, Vec<u8>),
    SwapLines(Index, Index),
    RepeatLine(Index, usize),
    DropLine(Index),
    Cut(Index),
    /// A piece of another file.
    Graft(Index, Index, Index, usize),
}

fn any_break() -> impl Strategy<Value = Break> {
    let at = any::<Index>;
    prop_oneof![
        1 => (at(), any::<u8>()).prop_map(|(at, byte)| Break::Flip(at, byte)),
        1 => (at(), 1..40_usize).prop_map(|(at, count)| Break::Delete(at, count)),
        4 => (at(), prop::sample::select(PIECES.to_vec())).prop_map(|(at, piece)| Break::Insert(at, piece.to_vec())),
        1 => (at(), prop::collection::vec(any::<u8>(), 1..6)).prop_map(|(at, bytes)| Break::Insert(at, bytes)),
        2 => (at(), at()).prop_map(|(one, other)| Break::SwapLines(one, other)),
        1 => (at(), 1..4_usize).prop_map(|(at, times)| Break::RepeatLine(at, times)),
        2 => at().prop_map(Break::DropLine),
        1 => at().prop_map(Break::Cut),
        1 => (at(), at(), at(), 1..200_usize).prop_map(|(at, file, from, count)| Break::Graft(at, file, from, count)),
    ]
}

impl Break {
    fn apply(&self, bytes: &mut Vec<u8>) {
        let place = |at: &Index, length: usize| at.index(length + 1);
        match self {
            Self::Flip(at, byte) => {
                let at = place(at, bytes.len());
                if let Some(one) = bytes.get_mut(at) {
                    *one ^= byte;
                }
            }
            Self::Delete(at, count) => {
                let from = place(at, bytes.len());
                bytes.drain(from..bytes.len().min(from + count));
            }
            Self::Insert(at, piece) => {
                let at = place(at, bytes.len());
                bytes.splice(at..at, piece.iter().copied());
            }
            Self::Cut(at) => bytes.truncate(place(at, bytes.len())),
            Self::Graft(at, file, from, count) => {
                let (_, other) = &FILES[file.index(FILES.len())];
                let from = place(from, other.len());
                let piece = other[from..other.len().min(from + count)].to_vec();
                let at = place(at, bytes.len());
                bytes.splice(at..at, piece);
            }
            Self::SwapLines(..) | Self::RepeatLine(..) | Self::DropLine(_) => {
                let mut lines: Vec<Vec<u8>> =
                    bytes.split_inclusive(|byte| *byte == b'\n').map(<[u8]>::to_vec).collect();
                if !lines.is_empty() {
                    self.apply_to_lines(&mut lines);
                }
                *bytes = lines.concat();
            }
        }
    }

    fn apply_to_lines(&self, lines: &mut Vec<Vec<u8>>) {
        let count = lines.len();
        match self {
            Self::SwapLines(one, other) => lines.swap(one.index(count), other.index(count)),
            Self::RepeatLine(at, times) => {
                let at = at.index(count);
                let line = lines[at].clone();
                lines.splice(at..at, std::iter::repeat_n(line, *times));
            }
            Self::DropLine(at) => _ = lines.remove(at.index(count)),
            _ => {}
        }
    }
}

/// Breaks of one file each, by its place among the files.
fn any_breaks() -> impl Strategy<Value = Vec<(Index, Break)>> {
    prop::collection::vec((any::<Index>(), any_break()), 1..6)
}

fn broken(breaks: &[(Index, Break)]) -> Base {
    let mut files = FILES.clone();
    for (file, one) in breaks {
        let file = file.index(files.len());
        one.apply(&mut files[file].1);
    }
    files.into_iter().map(|(path, bytes)| (path, Content::Bytes(bytes))).collect()
}

fn hold(base: Base) {
    let examined = shared::examine(base);
    for finding in &examined.findings {
        shared::hold_to_promises(finding, &examined.sources);
        assert!(!human::finding(finding, &examined.sources).is_empty());
    }
    assert!(json::report(&examined.findings, &examined.sources, examined.summary).is_object());
    let mut seen: Vec<&Finding> = Vec::new();
    for finding in &examined.findings {
        let twice = seen.iter().any(|one| {
            one.rule.name == finding.rule.name && one.span == finding.span && one.message == finding.message
        });
        assert!(!twice, "found twice: {}", finding.message);
        seen.push(finding);
    }
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(cases()) })]

    #[test]
    fn a_broken_base_is_examined_to_the_end(breaks in any_breaks()) {
        hold(broken(&breaks));
    }

    #[test]
    fn a_file_of_nothing_but_pieces_is_examined_to_the_end(
        file in any::<Index>(),
        pieces in prop::collection::vec(prop::sample::select(PIECES.to_vec()), 0..40),
    ) {
        let mut files = FILES.clone();
        let file = file.index(files.len());
        files[file].1 = pieces.concat();
        hold(files.into_iter().map(|(path, bytes)| (path, Content::Bytes(bytes))).collect());
    }
}

fn cases() -> u32 {
    std::env::var("PROPTEST_CASES").ok().and_then(|cases| cases.parse().ok()).unwrap_or(150)
}

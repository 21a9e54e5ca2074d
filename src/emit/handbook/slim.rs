//! Style sheets and scripts as they are written: the same to a browser, and fewer bytes.

use oxc_allocator::Allocator;
use oxc_codegen::{Codegen, CodegenOptions};
use oxc_minifier::{Minifier, MinifierOptions};
use oxc_parser::Parser;
use oxc_span::SourceType;

/// Style sheets and scripts without the comments, spaces and long names that only we read: a memory stick has no
/// compression. What cannot be slimmed is written as it is; `tests/browser/weight.test.js` compares what both mean.
pub(super) fn slim(name: &str, text: &str) -> String {
    let slimmed = match name.rsplit_once('.') {
        Some((_, "css")) => minifier::css::minify(text).map(|text| closer(&text.to_string())).ok(),
        Some((_, "js")) => slim_script(text),
        _ => None,
    };
    slimmed.unwrap_or_else(|| text.to_owned())
}

/// A script with its own names shortened, and nothing else of it changed.
fn slim_script(text: &str) -> Option<String> {
    let allocator = Allocator::default();
    let parsed = Parser::new(&allocator, text, SourceType::script()).parse();
    if !parsed.diagnostics.is_empty() {
        return None;
    }
    let mut program = parsed.program;
    let options = MinifierOptions { compress: None, ..MinifierOptions::default() };
    let scoping = Minifier::new(options).minify(&allocator, &mut program).scoping;
    let code =
        Codegen::new().with_options(CodegenOptions::minify()).with_scoping(scoping).build(&program).code;
    Some(code + "\n")
}

/// A style sheet without the last semicolon of a rule and the zero before a point, which a reader of style sheets does
/// without. What stands between quotation marks is left alone, and so is a declaration with a variable, whose text a
/// browser keeps as it is.
fn closer(style: &str) -> String {
    let parts = style.split('"').enumerate().map(|(at, part)| match at % 2 {
        0 => part.replace(";}", "}").split_inclusive([';', '{', '}']).map(pointed).collect(),
        _ => part.to_owned(),
    });
    parts.collect::<Vec<_>>().join("\"")
}

/// `gap:.5rem` of `gap:0.5rem`.
fn pointed(declaration: &str) -> String {
    if declaration.contains("--") {
        return declaration.to_owned();
    }
    let before = [":", " ", "(", ",", "-"];
    let short = |text: String, before: &str| text.replace(&format!("{before}0."), &format!("{before}."));
    before.iter().fold(declaration.to_owned(), |text, before| short(text, before))
}

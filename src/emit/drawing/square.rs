//! A square code (QR Code, ISO/IEC 18004) that a phone reads from a printed card.

use std::fmt::Write as _;

use qrcodegen::{QrCode, QrCodeEcc};

use super::svg::{Drawing, escape};

/// Light modules that the standard asks for around a code.
const QUIET: i32 = 4;

/// The code of a text; none where the text is too long for one.
pub fn draw(text: &str, label: &str) -> Option<Drawing> {
    let code = QrCode::encode_text(text, QrCodeEcc::Medium).ok()?;
    let size = code.size();
    let mut dark = String::new();
    for y in 0..size {
        let mut x = 0;
        while x < size {
            let run = (x..size).take_while(|x| code.get_module(*x, y)).count();
            let length = i32::try_from(run).unwrap_or(0);
            if length > 0 {
                let _ = write!(dark, "M{x} {y}h{length}v1h-{length}z");
            }
            x += length.max(1);
        }
    }
    let whole = size + 2 * QUIET;
    Some(Drawing::of(format!(
        r##"<svg class="square" viewBox="-{QUIET} -{QUIET} {whole} {whole}" role="img" aria-label="{}"><path fill="#fff" d="M-{QUIET} -{QUIET}h{whole}v{whole}h-{whole}z"/><path fill="#000" d="{dark}"/></svg>"##,
        escape(label),
    )))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_three_finders_are_where_the_standard_has_them() {
        let drawing = draw("https://handbook.example/builds/e/engine.html", "code").expect("short enough");
        // ISO/IEC 18004: a finder is seven modules wide, at three corners (from memory).
        assert!(drawing.as_str().contains("M0 0h7v1h-7z"), "{}", drawing.as_str());
        assert!(drawing.as_str().contains("M0 6h7v1h-7z"));
        assert!(drawing.as_str().contains("M22 0h7v1h-7z") || drawing.as_str().contains("M26 0h7v1h-7z"));
    }

    #[test]
    fn a_text_too_long_makes_no_code() {
        assert!(draw(&"x".repeat(5000), "code").is_none());
    }
}

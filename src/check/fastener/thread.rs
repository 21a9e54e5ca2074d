//! A thread by its designation: `M9x1.25`, `M10`, `1/4-20 UNC`, `#10-24`.

use super::constant;
use crate::quantity::{Exact, Number};

/// A thread: diameter and pitch in millimetres.
#[derive(Clone, Debug, Eq, PartialEq)]
pub struct Thread {
    diameter: Exact,
    pitch: Exact,
    unified: bool,
}

/// Coarse pitches of ISO 261, which a designation may leave out: diameter and pitch in millimetres.
const COARSE: [(&str, &str); 22] = [
    ("1.6", "0.35"),
    ("2", "0.4"),
    ("2.5", "0.45"),
    ("3", "0.5"),
    ("3.5", "0.6"),
    ("4", "0.7"),
    ("5", "0.8"),
    ("6", "1"),
    ("7", "1"),
    ("8", "1.25"),
    ("10", "1.5"),
    ("12", "1.75"),
    ("14", "2"),
    ("16", "2"),
    ("18", "2.5"),
    ("20", "2.5"),
    ("22", "2.5"),
    ("24", "3"),
    ("27", "3"),
    ("30", "3.5"),
    ("33", "3.5"),
    ("36", "4"),
];

impl Thread {
    /// Reads a designation; none where it is not understood. `left` and tolerance classes behind it are left aside.
    pub fn parse(text: &str) -> Option<Self> {
        let text = text.trim();
        match text.strip_prefix(['M', 'm']) {
            Some(rest) if rest.starts_with(|c: char| c.is_ascii_digit()) => Self::metric(rest),
            _ => Self::unified(text),
        }
    }

    fn metric(rest: &str) -> Option<Self> {
        let rest = rest.split("LH").next()?.split(" - ").next()?.split("-6").next()?.trim();
        let (diameter, pitch) = match rest.split_once(['x', 'X', '×', '*']) {
            Some((diameter, pitch)) => (number(diameter)?, number(pitch)?),
            None => {
                let diameter = number(rest)?;
                let coarse = COARSE.iter().find(|(known, _)| constant(known) == diameter)?;
                (diameter, constant(coarse.1))
            }
        };
        Self::sound(Self { diameter, pitch, unified: false })
    }

    /// Unified threads: a fraction of an inch or a number, a hyphen, threads to the inch.
    fn unified(text: &str) -> Option<Self> {
        let word =
            text.split_whitespace().take_while(|word| !word.starts_with("UN")).collect::<Vec<_>>().join(" ");
        let (size, threads) = word.rsplit_once(['-', '–'])?;
        let size = size.trim().trim_end_matches(['"', '″']).trim_end_matches("in").trim();
        let numbered = size.strip_prefix('#').or_else(|| size.strip_prefix("No."));
        let inches = match numbered {
            Some(number_of) => constant("0.060") + constant("0.013") * number(number_of)?,
            None => number(size)?,
        };
        let threads = number(threads)?;
        let inch = constant("25.4");
        let pitch = if threads > Exact::default() { &inch / threads } else { return None };
        Self::sound(Self { diameter: inches * inch, pitch, unified: true })
    }

    /// Only what a bolt can be: a pitch that leaves a core.
    fn sound(self) -> Option<Self> {
        let sound = self.pitch > Exact::default()
            && self.diameter > &self.pitch * constant("2")
            && self.diameter < constant("200");
        sound.then_some(self)
    }

    /// Nominal diameter in millimetres.
    pub const fn diameter(&self) -> &Exact {
        &self.diameter
    }

    /// Pitch in millimetres.
    pub const fn pitch(&self) -> &Exact {
        &self.pitch
    }

    /// Stress area in mm². Metric (ISO 898-1): π/4·((d₂ + d₃)/2)² with H = √3/2·P, d₂ = d − ¾H, d₁ = d − 5/4·H and
    /// d₃ = d₁ − H/6 (ISO 724). Unified (ASME B1.1): π/4·(d − 0.9743/N)².
    pub fn stress_area(&self) -> Exact {
        let core = if self.unified {
            &self.diameter - constant("0.9743") * &self.pitch
        } else {
            let height = constant("1.7320508075688772935") / constant("2") * &self.pitch;
            let pitch_diameter = &self.diameter - constant("0.75") * &height;
            let minor = &self.diameter - constant("1.25") * &height;
            let root = minor - height / constant("6");
            (pitch_diameter + root) / constant("2")
        };
        constant("3.14159265358979323846") / constant("4") * &core * &core
    }
}

fn number(text: &str) -> Option<Exact> {
    Number::parse(text.trim()).ok().map(|number| number.exact().clone())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::decimal_text;

    fn area(text: &str) -> String {
        Thread::parse(text).map_or_else(|| "none".to_owned(), |thread| decimal_text(&thread.stress_area(), 2))
    }

    #[test]
    fn spellings_are_one_thread() {
        for text in ["M10x1.5", "M10×1.5", "m10 x 1.5", "M10", "M10x1.5 LH", "M10x1.5-6g"] {
            assert_eq!(area(text), "57.99", "{text}");
        }
        assert_eq!(area("1/4-20 UNC"), area("1/4\"-20"));
        assert_eq!(Thread::parse("#10-24 UNC"), Thread::parse("No. 10-24"));
    }

    #[test]
    fn what_is_no_thread_is_none() {
        for text in ["", "M", "M9.3", "M10x0", "M10x8", "G 1/4", "1/4", "-20", "big", "M10xx", "1/4-0"] {
            assert_eq!(area(text), "none", "{text}");
        }
    }
}

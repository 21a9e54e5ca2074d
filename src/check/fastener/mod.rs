//! Fasteners: what a thread designation and a property class say about the torque a bolt can take.
//!
//! Everything is exact; π and √3 are rationals of twenty digits. Formulas: ISO 724 and ISO 898-1 for metric threads,
//! ASME B1.1 for unified ones, T = `K·d·0.75·F_p` for the torque that preloads a bolt to three quarters of its proof load.

mod strength;
mod thread;

pub use strength::{Class, proof_strength};
pub use thread::Thread;

use crate::quantity::{Exact, parse_exact};

/// The least and the greatest nut factor K that threads in some state have.
///
/// Handbook values are 0.12 with anti-seize, 0.18 lubricated, 0.20 zinc-plated and 0.30 black; the spans leave room for
/// scatter and for bolts that are tightened beyond three quarters of their proof load (common practice, no source).
pub fn nut_factors(threads: Option<&str>) -> (Exact, Exact) {
    let said = threads.unwrap_or_default().to_lowercase();
    let says = |words: &[&str]| words.iter().any(|word| said.contains(word));
    let (least, most) = if says(&["anti-seize", "antiseize", "molybdenum", "moly", "copper"]) {
        ("0.10", "0.22")
    } else if says(&["oil", "grease", "lubricat", "wax"]) {
        ("0.12", "0.30")
    } else {
        ("0.15", "0.30")
    };
    (constant(least), constant(most))
}

/// The torque in N·m that loads a bolt to three quarters of its proof load, at a nut factor of one.
pub fn torque_per_factor(thread: &Thread, class: Class) -> Exact {
    let newtons = thread.stress_area() * proof_strength(class, thread) * constant("0.75");
    newtons * thread.diameter() / constant("1000")
}

/// A constant of a formula, written out.
fn constant(digits: &str) -> Exact {
    parse_exact(digits).unwrap_or_default()
}

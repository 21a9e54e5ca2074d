//! `variant-fits-nothing`: a bulletin that reaches no machine changes nothing, and nobody is told.

use crate::check::Subject;
use crate::diag::{Finding, Rule, Sink};
use crate::model::{Engine, Fit, Reach, Variant};

/// See the page beside this file.
pub static RULE: Rule = crate::rule!(
    "variant_fits_nothing",
    "variant-fits-nothing",
    Warning,
    Reference,
    "a variant applies to years or a machine the engine was never fitted in"
);

/// Every reach of every variant, against the machines its engine is fitted to.
pub fn check(subject: &Subject<'_>, sink: &mut Sink) {
    if !super::fittings_are_known(subject) {
        return;
    }
    for engine in subject.model.engines.values() {
        let builds: Vec<_> =
            subject.model.builds.values().filter(|build| build.engine == engine.id).collect();
        let fits: Vec<_> = subject
            .model
            .fits
            .iter()
            .filter(|fit| builds.iter().any(|build| build.id == fit.build))
            .collect();
        for variant in &engine.variants {
            for reach in &variant.reach {
                let same = |fit: &&&Fit| fit.machine == reach.machine;
                let meets = |fit: &&Fit| {
                    same(&fit)
                        && reach
                            .years
                            .is_none_or(|years| years.from <= fit.years.to && fit.years.from <= years.to)
                };
                if !fits.iter().any(meets) {
                    sink.push(finding(engine, variant, reach, fits.iter().any(|fit| same(&fit))));
                }
            }
        }
    }
}

fn finding(engine: &Engine, variant: &Variant, reach: &Reach, fitted: bool) -> Finding {
    let (message, help) = if fitted {
        let years = reach.years.map_or_else(String::new, |years| years.to_string());
        (
            format!("`{}` applies in {years}, when `{}` did not have this engine", variant.id, reach.machine),
            "look at the years here and in `machines/`",
        )
    } else {
        (
            format!("`{}` applies to `{}`, which never has `{}`", variant.id, reach.machine, engine.id),
            "name a machine that has this engine, or add `[[machine.fitted]]` to it",
        )
    };
    Finding::new(&RULE, reach.span, message, help)
}

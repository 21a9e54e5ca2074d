//! `teeth-unlike-ratio`: teeth are whole, so their quotient is the printed ratio to its last digit.

use crate::check::Subject;
use crate::diag::{Finding, Rule, Sink};
use crate::model::{Build, Form, Statement};
use crate::quantity::{Exact, decimal_text};

/// See the page beside this file.
pub static RULE: Rule = crate::rule!(
    "teeth_unlike_ratio",
    "teeth-unlike-ratio",
    Warning,
    Physics,
    "the quotient of the teeth is not the printed ratio"
);

/// Every drive with teeth and a ratio, of one place.
pub fn check(subject: &Subject<'_>, sink: &mut Sink) {
    for build in subject.model.builds.values() {
        for teeth in of(build, "drive.teeth") {
            let Form::Text(text) = &teeth.form else { continue };
            let same = of(build, "drive.ratio").find(|ratio| ratio.identity.place == teeth.identity.place);
            if let (Some(quotient), Some(ratio)) = (quotient(text), same) {
                finding(text, teeth, &quotient, ratio).into_iter().for_each(|one| sink.push(one));
            }
        }
    }
}

fn of<'a>(build: &'a Build, entry: &'static str) -> impl Iterator<Item = &'a Statement> {
    build
        .statements
        .iter()
        .map(AsRef::as_ref)
        .filter(move |one: &&Statement| one.identity.of.as_str() == entry)
}

/// `38 over 13`, `38/13`, `38:13`, several of them times each other.
fn quotient(text: &str) -> Option<Exact> {
    let mut product = Exact::from_integer(1.into());
    for pair in text.split(['×', '*', ',']) {
        let (driven, driving) = ["over", "/", ":"].iter().find_map(|sign| pair.split_once(sign))?;
        let whole = |part: &str| {
            part.trim()
                .parse::<u16>()
                .ok()
                .filter(|teeth| *teeth > 0)
                .map(|teeth| Exact::from_integer(teeth.into()))
        };
        product *= whole(driven)? / whole(driving)?;
    }
    Some(product)
}

fn finding(text: &str, teeth: &Statement, quotient: &Exact, ratio: &Statement) -> Option<Finding> {
    let Form::Setting(forms) = &ratio.form else { return None };
    let printed = forms.first()?;
    let value = printed.value.unit().to_si(printed.value.nominal()?);
    let half = printed.value.ulp() / Exact::from_integer(2.into());
    if *quotient >= &value - &half && *quotient <= value + half {
        return None;
    }
    let message = format!(
        "the teeth `{text}` make {}, not `{}`",
        decimal_text(quotient, printed.value.decimals() + 2),
        printed.value.text()
    );
    let help = "look at both rows again: the driven wheel stands over the driving one";
    Some(
        Finding::new(&RULE, printed.span, message, help)
            .with(teeth.span, "the teeth are here")
            .about(ratio.span),
    )
}

//! `stages-out-of-order`: a stage lost, or an angle read as a torque, and the bolt is never tight.

use crate::check::Subject;
use crate::check::fastener::Thread;
use crate::diag::{Finding, Rule, Sink};
use crate::model::{Form, Printed, Statement};
use crate::quantity::{Exact, Kind, Shape, Unit, decimal_text, parse_exact};

/// See the page beside this file.
pub static RULE: Rule = crate::rule!(
    "stages_out_of_order",
    "stages-out-of-order",
    Warning,
    Physics,
    "the stages of a torque do not rise, or an angle stretches a bolt too little or too far"
);

/// Every torque applied in stages.
pub fn check(subject: &Subject<'_>, sink: &mut Sink) {
    for statement in subject.statements() {
        let Form::Stages(stages) = &statement.form else { continue };
        let stages: Vec<&Printed> = stages.iter().filter_map(|forms| forms.first()).collect();
        let (turns, torques): (Vec<&Printed>, Vec<&Printed>) =
            stages.iter().copied().partition(|one| matches!(one.value.shape(), Shape::Turn(_)));
        for pair in torques.windows(2) {
            if let [first, second] = pair
                && si(second).zip(si(first)).is_some_and(|(second, first)| second <= first)
            {
                let message = format!(
                    "the stage `{}` is no more than the stage before it, `{}`",
                    second.value.text(),
                    first.value.text()
                );
                let help = "look at the page again: the order of the stages, and their units";
                sink.push(
                    Finding::new(&RULE, second.span, message, help)
                        .with(first.span, "the stage before it")
                        .about(statement.span),
                );
            }
        }
        if let Some(finding) = advance(statement, &turns) {
            sink.push(finding.about(statement.span));
        }
    }
}

fn si(printed: &Printed) -> Option<Exact> {
    printed.value.nominal().map(|nominal| printed.value.unit().to_si(nominal))
}

/// A turn in degrees, whether it is printed as an angle or in turns.
fn degrees(turn: &Printed) -> Option<Exact> {
    let whole = if turn.value.unit().kind() == Kind::Turns { 360 } else { 1 };
    Some(si(turn)? * Exact::from_integer(whole.into()))
}

/// How far the turns together screw the bolt in: pitch × angle / 360, plausibly 0.1 to 1 mm (common practice, no source).
fn advance(statement: &Statement, turns: &[&Printed]) -> Option<Finding> {
    let last = turns.last()?;
    let named = statement.fastener.as_ref()?.thread.as_deref()?;
    let thread = Thread::parse(named)?;
    let degrees: Exact = turns.iter().filter_map(|one| degrees(one)).sum();
    let advance = &degrees * thread.pitch() / Exact::from_integer(360.into());
    let within = parse_exact("0.1")? <= advance && advance <= parse_exact("1")?;
    let degrees =
        Unit::parse("°").map_or_else(|_| String::new(), |unit| unit.after(&decimal_text(&degrees, 0)));
    let message = format!(
        "turning {named} by {degrees} screws it in by {} mm, pitch {} mm × angle / 360: 0.1 to 1 mm stretch a bolt (common practice, no source)",
        decimal_text(&advance, 2),
        decimal_text(thread.pitch(), 2),
    );
    let help = "look at the page again: the angles, the thread, and whether one of them is a torque";
    (!within).then(|| Finding::new(&RULE, last.span, message, help))
}

//! `torque-unlike-thread`: pound-inches read as pound-feet break the bolt, and the other way round it comes loose.

use crate::check::Subject;
use crate::check::fastener::{Class, Thread, nut_factors, proof_strength, torque_per_factor};
use crate::diag::{Finding, Rule, Sink};
use crate::model::{Entry, Fastener, Form, Printed};
use crate::quantity::{Exact, Kind, Shape, Unit, Value, decimal_text, parse_exact};

/// See the page beside this file.
pub static RULE: Rule = crate::rule!(
    "torque_unlike_thread",
    "torque-unlike-thread",
    Warning,
    Physics,
    "a torque is not what the thread and class of its fastener take"
);

/// Every torque of a fastener with a thread.
pub fn check(subject: &Subject<'_>, sink: &mut Sink) {
    for statement in subject.statements() {
        let Some(entry) = subject.model.entries.get(&statement.identity.of) else { continue };
        let Some(fastener) = &statement.fastener else { continue };
        let Some(thread) = fastener.thread.as_deref().and_then(Thread::parse) else { continue };
        let Some((printed, angle_follows)) = last_torque(&statement.form) else { continue };
        let span = bounds(entry, fastener, &thread);
        let si = |end: Option<crate::quantity::Limit>| end.map(|end| printed.value.unit().to_si(&end.exact));
        let (least, most) = (si(printed.value.min()), si(printed.value.max()));
        let high = least.is_some_and(|least| least > span.most);
        let low =
            most.is_some_and(|most| span.least.as_ref().is_some_and(|bound| most < *bound)) && !angle_follows;
        if high || low {
            sink.push(finding(printed, &span, fastener, &thread).about(statement.span));
        }
    }
}

/// What a torque may be, in N·m.
struct Bounds {
    least: Option<Exact>,
    most: Exact,
    /// Nut factors and class they follow from; none for a spark plug.
    from: Option<(Exact, Exact, Class)>,
}

/// The last torque of a statement, and whether an angle follows it.
fn last_torque(form: &Form) -> Option<(&Printed, bool)> {
    let is_turn = |printed: &&Printed| matches!(printed.value.shape(), Shape::Turn(_));
    let printed = match form {
        Form::Setting(forms) | Form::Window { printed: forms, .. } => (forms.first()?, false),
        Form::Stages(stages) => {
            let stages: Vec<_> = stages.iter().filter_map(|forms| forms.first()).collect();
            let last = stages.iter().rfind(|one| !is_turn(one))?;
            (*last, stages.last().is_some_and(is_turn))
        }
        _ => return None,
    };
    (printed.0.value.unit().kind() == Kind::Torque).then_some(printed)
}

fn bounds(entry: &Entry, fastener: &Fastener, thread: &Thread) -> Bounds {
    if let Some((least, most)) = of_plug(entry, thread) {
        return Bounds { least: Some(least), most, from: None };
    }
    let class = fastener.class.as_deref().and_then(Class::parse);
    let bears = class.is_some() && holds_full_load(entry, fastener);
    let strongest = class.unwrap_or(Class::STRONGEST);
    let (least, most) = nut_factors(fastener.threads.as_deref());
    let torque = torque_per_factor(thread, strongest);
    Bounds {
        least: bears.then(|| &torque * &least),
        most: torque * &most,
        from: Some((least, most, strongest)),
    }
}

/// Where the bounds of a torque come from: the class they are worked out for, and the formula.
fn because(bounds: &Bounds, fastener: &Fastener, thread: &Thread) -> (String, String) {
    let Some((least, most, class)) = &bounds.from else {
        return ("a spark plug with a gasket takes".to_owned(), "common practice, no source".to_owned());
    };
    let named = fastener.class.as_deref().filter(|named| Class::parse(named).is_some()).map_or_else(
        || "even the strongest class, 12.9, takes".to_owned(),
        |named| format!("a bolt of class {named} takes"),
    );
    let formula = format!(
        "K·d·0.75·F_p, K {} to {}, {} mm², {} MPa",
        decimal_text(least, 2),
        decimal_text(most, 2),
        decimal_text(&thread.stress_area(), 1),
        decimal_text(&proof_strength(*class, thread), 0),
    );
    (named, formula)
}

/// True where the thread is cut into something as strong as the bolt, and nothing but the bolt is tightened. Plugs, jets,
/// hollow bolts and threads in light alloy rightly take far less.
fn holds_full_load(entry: &Entry, fastener: &Fastener) -> bool {
    let strong = fastener
        .into
        .as_deref()
        .is_some_and(|into| ["steel", "cast iron"].iter().any(|word| into.to_lowercase().contains(word)));
    let weak = ["plug", "jet", "hollow", "banjo", "hose", "pipe", "sensor", "filter", "locknut", "battery"];
    let names = std::iter::once(&entry.title).chain(&entry.aka).map(|name| name.to_lowercase());
    let names: Vec<_> = names.chain([entry.id.to_string()]).collect();
    strong && !weak.iter().any(|word| names.iter().any(|name| name.contains(word)))
}

/// What a spark plug takes by its thread, in N·m (common practice, no source).
fn of_plug(entry: &Entry, thread: &Thread) -> Option<(Exact, Exact)> {
    let spans = [("10", "6", "16"), ("12", "10", "25"), ("14", "15", "35")];
    let span =
        spans.iter().find(|(diameter, ..)| parse_exact(diameter).as_ref() == Some(thread.diameter()))?;
    entry.id.as_str().contains("spark-plug").then(|| Some((parse_exact(span.1)?, parse_exact(span.2)?)))?
}

fn finding(printed: &Printed, span: &Bounds, fastener: &Fastener, thread: &Thread) -> Finding {
    let value = &printed.value;
    let unit = value.unit();
    let shown = |torque: &Exact| {
        let torque = unit.from_si(torque);
        decimal_text(&torque, u32::from(torque < Exact::from_integer(20.into())))
    };
    let least =
        span.least.as_ref().map_or_else(|| "up to ".to_owned(), |least| format!("{} to ", shown(least)));
    let state = fastener.threads.as_deref().map_or_else(String::new, |threads| format!(", {threads}"));
    let bounds = unit.after(&format!("{least}{}", shown(&span.most)));
    let name = fastener.thread.as_deref().unwrap_or_default();
    let (takes, formula) = because(span, fastener, thread);
    let message =
        format!("`{}` is not a torque for {name}{state}: {takes} {bounds} ({formula})", value.text());
    let help = probable(value, span).map_or_else(
        || "look at the page again: the unit, the row of the bolt, its thread and class".to_owned(),
        |meant| format!("look at the page again: {meant}"),
    );
    Finding::new(&RULE, printed.span, message, help)
}

/// The slip that would explain it: another unit, or a decimal point.
fn probable(value: &Value, span: &Bounds) -> Option<String> {
    let number = value.nominal()?;
    let fits =
        |torque: &Exact| *torque <= span.most && span.least.as_ref().is_none_or(|least| torque >= least);
    let worth = |unit: Unit, number: &Exact| unit.to_si(number);
    let tenth = number / Exact::from_integer(10.into());
    let ten = number * Exact::from_integer(10.into());
    let unit = Unit::of(Kind::Torque)
        .find(|unit| *unit != value.unit() && span.least.is_some() && fits(&worth(*unit, number)));
    match unit {
        Some(unit) => Some(format!("the same number in `{unit}` would fit")),
        None if fits(&worth(value.unit(), &tenth)) => {
            Some("a tenth of it would fit, so a decimal point may have moved".to_owned())
        }
        None if span.least.is_some() && fits(&worth(value.unit(), &ten)) => {
            Some("ten times it would fit, so a decimal point may have moved".to_owned())
        }
        None => None,
    }
}

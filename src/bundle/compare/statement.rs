//! How one statement differs from what it was: value, condition, confirmation, source, words.

use super::Change;
use super::kind::ChangeKind;
use super::value::{limits, rows, shown, whole};
use crate::bundle::{Printed, Range, Spec};

/// The changes between two states of a statement; its identity is filled in by the caller.
pub fn changes(old: &Spec, new: &Spec) -> Vec<Change> {
    let mut all = values(old, new);
    let value_changed = !all.is_empty();
    all.extend(fastener(old, new));
    all.extend(confirmation(old, new));
    if !value_changed && (old.source != new.source || old.variant != new.variant || read_again(old, new)) {
        all.push(Change::new(ChangeKind::SourceOnly, Some(source(old)), Some(source(new))));
    }
    all.extend(words(old, new));
    all
}

/// The changes in the value.
fn values(old: &Spec, new: &Spec) -> Vec<Change> {
    let both = |kind| Change::new(kind, value_text(old), value_text(new));
    match (&old.absent, &new.absent) {
        (Some(one), Some(other)) if one == other => return Vec::new(),
        (Some(_), Some(_)) => return vec![both(ChangeKind::Absence)],
        (Some(_), None) => return vec![both(ChangeKind::Added)],
        (None, Some(_)) => return vec![both(ChangeKind::Withdrawn), both(ChangeKind::Absence)],
        (None, None) => {}
    }
    match (value_text(old), value_text(new)) {
        (Some(_), Some(_)) => shown_values(old, new),
        // Shown or no longer shown: the confirmation says so, unless it is what it was.
        (None, Some(_)) if old.confirmation.state == new.confirmation.state => vec![both(ChangeKind::Added)],
        (Some(_), None) if old.confirmation.state == new.confirmation.state => {
            vec![both(ChangeKind::Withdrawn)]
        }
        // Of what is withheld, and withheld still, nothing can be said either.
        _ => Vec::new(),
    }
}

fn shown_values(old: &Spec, new: &Spec) -> Vec<Change> {
    let mut all = Vec::new();
    for part in [
        |spec: &Spec| spec.window.clone(),
        |spec: &Spec| spec.new.clone(),
        |spec: &Spec| spec.wear_limit.clone(),
    ] {
        all.extend(limit_part(part(old).as_ref(), part(new).as_ref()));
    }
    all.extend(set_part(old.set_to.as_ref(), new.set_to.as_ref(), "set to "));
    all.extend(set_part(old.setting.as_ref(), new.setting.as_ref(), ""));
    all.extend(row_part(&stages(old), &stages(new), ChangeKind::Stages, " then "));
    if old.pattern != new.pattern {
        all.push(Change::new(ChangeKind::Stages, pattern(old), pattern(new)));
    }
    all.extend(row_part(&points(old), &points(new), ChangeKind::Points, ", "));
    if (&old.direction, &old.seen_from) != (&new.direction, &new.seen_from) {
        all.push(Change::new(ChangeKind::Direction, direction(old), direction(new)));
    }
    for part in [
        |spec: &Spec| spec.interval.clone(),
        |spec: &Spec| spec.first.clone(),
        |spec: &Spec| spec.severe.clone(),
    ] {
        all.extend(row_part(&part(old).map(singly), &part(new).map(singly), ChangeKind::Setting, " or "));
    }
    if old.selection != new.selection || old.pins != new.pins {
        all.push(Change::new(ChangeKind::Setting, value_text(old), value_text(new)));
    }
    all
}

/// A part that is limits to judge by.
fn limit_part(old: Option<&Range>, new: Option<&Range>) -> Vec<Change> {
    let kinds = match (old, new) {
        (None, None) => return Vec::new(),
        (None, Some(_)) => [ChangeKind::LimitAdded].into(),
        (Some(_), None) => [ChangeKind::LimitRemoved].into(),
        (Some(old), Some(new)) => limits(old, new),
    };
    let text = |range: Option<&Range>| range.map(|range| shown(&range.printed));
    kinds.into_iter().map(|kind| Change::new(kind, text(old), text(new))).collect()
}

/// A part that is set or applied.
fn set_part(old: Option<&Range>, new: Option<&Range>, lead: &str) -> Option<Change> {
    let kind = match (old, new) {
        (Some(old), Some(new)) => whole(&old.printed, &new.printed, ChangeKind::Setting),
        (None, None) => None,
        _ => Some(ChangeKind::Setting),
    };
    let text = |range: Option<&Range>| range.map(|range| format!("{lead}{}", shown(&range.printed)));
    kind.map(|kind| Change::new(kind, text(old), text(new)))
}

/// Rows of values, each with its printed forms; none where the statement has no such part.
type Rows = Option<Vec<Vec<Printed>>>;

fn row_part(old: &Rows, new: &Rows, changed: ChangeKind, joint: &str) -> Option<Change> {
    let slices = |rows: &Rows| -> Vec<Vec<Printed>> { rows.clone().unwrap_or_default() };
    let (one, other) = (slices(old), slices(new));
    let view = |rows: &'_ Vec<Vec<Printed>>| rows.iter().map(Vec::as_slice).collect::<Vec<_>>().len();
    let kind = if old.is_some() == new.is_some() && view(&one) == view(&other) {
        let one: Vec<_> = one.iter().map(Vec::as_slice).collect();
        let other: Vec<_> = other.iter().map(Vec::as_slice).collect();
        rows(&one, &other, changed)
    } else {
        Some(changed)
    };
    let text = |rows: &Rows| {
        rows.as_ref().map(|rows| rows.iter().map(|row| shown(row)).collect::<Vec<_>>().join(joint))
    };
    kind.map(|kind| Change::new(kind, text(old), text(new)))
}

fn stages(spec: &Spec) -> Rows {
    spec.stages.as_ref().map(|stages| stages.iter().map(|stage| stage.printed.clone()).collect())
}

/// A point is two rows: what it is read at, and what is read.
fn points(spec: &Spec) -> Rows {
    let both = |point: &crate::bundle::Point| [vec![point.at.clone()], vec![point.reads.clone()]];
    spec.points.as_ref().map(|points| points.iter().flat_map(both).collect())
}

fn singly(forms: Vec<Printed>) -> Vec<Vec<Printed>> {
    forms.into_iter().map(|form| vec![form]).collect()
}

fn pattern(spec: &Spec) -> Option<String> {
    let bolts = spec.pattern.as_ref()?.iter().map(|[across, up]| format!("({across}, {up})"));
    Some(format!("bolts in the order {}", bolts.collect::<Vec<_>>().join(" ")))
}

fn direction(spec: &Spec) -> Option<String> {
    let turns = spec.direction.as_ref()?;
    let from = spec.seen_from.as_ref().map(|from| format!(", seen from the {from}"));
    Some(format!("{turns}{}", from.unwrap_or_default()))
}

/// The changes in the fastener a torque is for.
fn fastener(old: &Spec, new: &Spec) -> Option<Change> {
    if old.fastener == new.fastener || is_left_out(old) || is_left_out(new) {
        return None;
    }
    let text = |spec: &Spec| {
        let fastener = spec.fastener.as_ref()?;
        let count = fastener.count.map(|count| count.to_string());
        let words = [
            ("thread", &fastener.thread),
            ("class", &fastener.class),
            ("threads", &fastener.threads),
            ("hand", &fastener.hand),
            ("count", &count),
            ("reuse", &fastener.reuse),
            ("into", &fastener.into),
        ];
        let said = words.iter().filter_map(|(name, word)| word.as_ref().map(|word| format!("{name} {word}")));
        Some(said.collect::<Vec<_>>().join(", "))
    };
    Some(Change::new(ChangeKind::Condition, text(old), text(new)))
}

fn confirmation(old: &Spec, new: &Spec) -> Option<Change> {
    let (one, other) = (old.confirmation.state.as_str(), new.confirmation.state.as_str());
    let kind = match (one, other) {
        _ if one == other || [one, other].contains(&"not-needed") => return None,
        (_, "confirmed") => ChangeKind::Confirmed,
        _ => ChangeKind::Unconfirmed,
    };
    Some(Change::new(kind, Some(one.to_owned()), Some(other.to_owned())))
}

/// True if the second reading is another one with the same outcome.
fn read_again(old: &Spec, new: &Spec) -> bool {
    old.confirmation.state == new.confirmation.state && old.confirmation != new.confirmation
}

/// True if the value is left out of the bundle, and all that may carry parts of it.
fn is_left_out(spec: &Spec) -> bool {
    spec.withheld.is_some() && value_text(spec).is_none()
}

fn source(spec: &Spec) -> String {
    let source = &spec.source;
    let found = spec.confirmation.found.clone().unwrap_or_default();
    let parts = [
        ("", &source.id),
        ("page ", &source.page),
        ("row ", &source.row),
        ("column ", &source.column),
        ("footnote ", &source.footnote),
        ("read by ", &source.read_by),
        ("again by ", &spec.confirmation.by),
        ("on ", &spec.confirmation.on),
        ("in ", &found.id),
        ("on page ", &found.page),
        ("in row ", &found.row),
        ("in column ", &found.column),
        ("by bulletin ", &spec.variant),
    ];
    let said = parts.iter().filter_map(|(lead, part)| part.as_ref().map(|part| format!("{lead}{part}")));
    said.collect::<Vec<_>>().join(", ")
}

/// The changes in words: text, remark, misprint, waivers.
fn words(old: &Spec, new: &Spec) -> Vec<Change> {
    if is_left_out(old) || is_left_out(new) {
        return Vec::new();
    }
    let misprint = |spec: &Spec| {
        spec.misprint.as_ref().map(|one| {
            format!("printed {}, meant {}: {} ({})", one.printed, one.meant, one.because, one.decided_by)
        })
    };
    let waivers = |spec: &Spec| {
        let said =
            spec.waivers.iter().map(|one| format!("{} until {}: {}", one.rule, one.until, one.because));
        (!spec.waivers.is_empty()).then(|| said.collect::<Vec<_>>().join("; "))
    };
    let pairs = [
        (old.text.clone(), new.text.clone()),
        (old.note.clone(), new.note.clone()),
        (misprint(old), misprint(new)),
        (waivers(old), waivers(new)),
    ];
    let changed = pairs.into_iter().filter(|(before, after)| before != after);
    changed.map(|(before, after)| Change::new(ChangeKind::Text, before, after)).collect()
}

/// The value as a person reads it; none where it is left out.
pub fn value_text(spec: &Spec) -> Option<String> {
    let range = |range: &Option<Range>, lead: &str| {
        range.as_ref().map(|range| format!("{lead}{}", shown(&range.printed)))
    };
    let joined = |rows: Rows, joint: &str| {
        rows.map(|rows| rows.iter().map(|row| shown(row)).collect::<Vec<_>>().join(joint))
    };
    let pins = spec.pins.as_ref().map(|pins| {
        let pin = |pin: &crate::bundle::Pin| {
            let wire = pin.wire.as_ref().map(|wire| format!(" ({wire})")).unwrap_or_default();
            let expect = pin.expect.iter().map(|(state, reads)| format!(", {state}: {reads}"));
            format!("{}{wire}: {}{}", pin.cavity, pin.function, expect.collect::<String>())
        };
        pins.iter().map(pin).collect::<Vec<_>>().join("; ")
    });
    let selection = spec.selection.as_ref().map(|selection| {
        let row = |row: &crate::bundle::Choice| format!("{}: {}", row.inputs.join(" and "), row.part);
        let rows = selection.rows.iter().map(row).collect::<Vec<_>>().join("; ");
        format!("by {}: {rows}", selection.by.join(" and "))
    });
    let intervals = |forms: &Option<Vec<Printed>>, lead: &str| {
        forms.as_ref().map(|forms| {
            let texts: Vec<_> = forms.iter().map(|form| form.text.as_str()).collect();
            format!("{lead}{}", texts.join(" or "))
        })
    };
    let parts = [
        range(&spec.window, ""),
        range(&spec.new, "new "),
        range(&spec.wear_limit, "wear limit "),
        range(&spec.set_to, "set to "),
        range(&spec.setting, ""),
        joined(stages(spec), " then "),
        joined(points(spec), ", "),
        direction(spec),
        intervals(&spec.interval, ""),
        intervals(&spec.first, "first "),
        intervals(&spec.severe, "in severe use "),
        selection,
        pins,
        spec.text.clone(),
        spec.absent.clone(),
    ];
    let said: Vec<_> = parts.into_iter().flatten().collect();
    (!said.is_empty()).then(|| said.join(", "))
}

//! `tolerance-unlike-peers`: a decimal point that slips in a tolerance leaves the value plausible, and the window
//! ten times too wide or too narrow.

use std::collections::BTreeMap;

use num_traits::{Signed, Zero};

use super::dual_units_disagree::contradict;
use crate::check::{Subject, witnesses};
use crate::diag::{Finding, Rule, Sink};
use crate::model::{EntryId, Printed, Statement};
use crate::quantity::{Exact, Shape, Value, likely_slip_alone};

/// See the page beside this file.
pub static RULE: Rule = crate::rule!(
    "tolerance_unlike_peers",
    "tolerance-unlike-peers",
    Warning,
    Physics,
    "a window is many times as wide, or as narrow, as any other of its entry"
);

/// So many other windows must be there before one is odd among them.
const ENOUGH: usize = 4;
/// So many times beyond the widest, or below the narrowest, is odd.
const ODD: i64 = 5;
/// What no page prints, a tolerance with more decimals than its value, is odd among fewer, and sooner.
const ENOUGH_FOR_FINE: usize = 2;
/// See [`ENOUGH_FOR_FINE`]: so many times below the narrowest.
const ODD_IF_FINE: i64 = 3;
/// So many times beyond that of every other is odd for the width as a share of the middle.
const ODD_BY_SHARE: i64 = 2;
/// Within so many times of the next is as it should be.
const USUAL: i64 = 3;

/// A window with both ends, and how wide it is in SI.
struct Window<'a> {
    statement: &'a Statement,
    printed: &'a Printed,
    /// Its place in [`crate::model::Form::alternatives`].
    place: usize,
    width: Exact,
    /// The width as a share of the middle; none where that is zero.
    share: Option<Exact>,
}

/// Every window with both ends, against all others of its entry and its role.
pub fn check(subject: &Subject<'_>, sink: &mut Sink) {
    let mut groups: BTreeMap<(&EntryId, usize), Vec<Window<'_>>> = BTreeMap::new();
    for statement in subject.statements() {
        for (place, forms) in statement.form.alternatives().into_iter().enumerate() {
            let Some(printed) = forms.first().filter(|_| !contradict(forms)) else { continue };
            let Some(width) = width(&printed.value) else { continue };
            let share = share(&printed.value);
            let group = groups.entry((&statement.identity.of, place)).or_default();
            group.push(Window { statement, printed, place, width, share });
        }
    }
    let odd = groups.into_values().flat_map(|group| odd_ones(subject, group));
    odd.for_each(|finding| sink.push(finding));
}

/// How far apart both ends are; none where they are one, or one is missing.
fn width(value: &Value) -> Option<Exact> {
    let (min, max) = (value.min()?.exact, value.max()?.exact);
    (max > min).then(|| (max - min) * value.unit().factor())
}

/// How far apart both ends are beside the middle between them.
fn share(value: &Value) -> Option<Exact> {
    let (min, max) = (value.min()?.exact, value.max()?.exact);
    let middle = (&min + &max).abs() / Exact::from_integer(2.into());
    (!middle.is_zero()).then(|| (max - min) / middle)
}

/// Whether a window is as odd by its share as it is by its width: a coil of 4 Ω has a wider one than those of 0.4 Ω.
fn is_odd_by_share(window: &Window<'_>, group: &[Window<'_>], how: &str) -> bool {
    let others = group.iter().filter(|other| other.printed.span != window.printed.span);
    let mut shares = others.filter_map(|other| other.share.as_ref());
    let Some(share) = &window.share else { return true };
    let odd = Exact::from_integer(ODD_BY_SHARE.into());
    shares.all(|other| if how == "narrow" { share * &odd <= *other } else { *share >= other * &odd })
}

/// Whether the tolerance is printed with more decimals than what it is the tolerance of: `5.0 ± 0.02 V`.
fn is_finer_than_its_value(value: &Value) -> bool {
    match value.shape() {
        Shape::Tolerance { nominal, plus, minus } => {
            plus.decimals() > nominal.decimals() && minus.decimals() > nominal.decimals()
        }
        _ => false,
    }
}

fn odd_ones(subject: &Subject<'_>, mut group: Vec<Window<'_>>) -> Vec<Finding> {
    group.sort_by(|one, other| one.width.cmp(&other.width));
    let pairs =
        [(group.first().zip(group.get(1)), "narrow"), (group.last().zip(group.iter().nth_back(1)), "wide")];
    let odd = pairs.into_iter().filter_map(|(pair, how)| {
        let (window, next) = pair?;
        let (less, more) = if how == "narrow" { (window, next) } else { (next, window) };
        let is_fine = how == "narrow" && is_finer_than_its_value(&window.printed.value);
        let (enough, odd) = if is_fine { (ENOUGH_FOR_FINE, ODD_IF_FINE) } else { (ENOUGH, ODD) };
        let is_odd = group.len() > enough && &less.width * Exact::from_integer(odd.into()) < more.width;
        let is_odd = is_odd && is_odd_by_share(window, &group, how);
        is_odd.then(|| finding(subject, window, next, how, group.len() - 1))
    });
    odd.collect()
}

fn finding(
    subject: &Subject<'_>,
    window: &Window<'_>,
    next: &Window<'_>,
    how: &str,
    others: usize,
) -> Finding {
    let message = format!(
        "`{}` of {} is {how} beside the {others} other windows of this entry; the next is `{}`",
        window.printed.value.text(),
        window.statement.identity,
        next.printed.value.text(),
    );
    // Meant is what differs from the next by no more than windows of one entry do.
    let like = |meant: &Value| {
        let (Some(width), usual) = (width(meant), Exact::from_integer(USUAL.into())) else { return false };
        width <= &next.width * &usual && &width * &usual >= next.width
    };
    let known = witnesses::of(subject, window.statement, window.place);
    let help = likely_slip_alone(&window.printed.value, &known, like).map_or_else(
        || "look at the page again: the decimal point of the tolerance, or of either limit".to_owned(),
        |slip| {
            format!(
                "look at the page again: probably {}; write `{}` if the page says so",
                slip.what, slip.offer
            )
        },
    );
    let finding = Finding::new(&RULE, window.printed.span, message, help);
    finding.with(next.printed.span, "the next is here").about(window.statement.span)
}

//! The rules that look at a resolved base, one a file.

pub mod access_in_a_circle;
pub mod access_never_needed;
pub mod arithmetic_broken;
pub mod bigger_when_higher;
pub mod cause_never_shown;
pub mod code_is_not_size;
pub mod code_unknown;
pub mod codes_without_source;
pub mod complaint_fits_nothing;
pub mod critical_unconfirmed;
pub mod direction_in_prose;
pub mod dual_units_disagree;
pub mod dual_units_loose;
pub mod engine_not_fitted;
pub mod entry_contradicts_itself;
pub mod far_from_its_pair;
pub mod far_from_peers;
pub mod file_name_differs;
pub mod form_not_allowed;
pub mod gauge_impossible;
pub mod hazard_not_declared;
pub mod id_too_long;
mod id_vanished;
pub mod interval_impossible;
pub mod intervals_out_of_order;
pub mod kind_missing;
pub mod limits_far_apart;
pub mod min_for_max;
pub mod missing_in_build;
pub mod name_means_two_things;
pub mod never_used;
pub mod number_in_prose;
pub mod outside_plausible;
pub mod page_missing;
pub mod pin_expects_no_reading;
pub mod point_off_curve;
pub mod procedure_fits_nothing;
pub mod recall_of_nothing;
mod recalled_value_stated;
pub mod relation_broken;
pub mod relation_not_understood;
mod retired_id_lives;
mod retired_to_nowhere;
pub mod set_to_outside_window;
pub mod shares_sum_to_nothing;
pub mod sheet_name_taken;
pub mod sides_differ;
pub mod single_value_as_limit;
pub mod source_missing;
pub mod stages_out_of_order;
pub mod step_unknown;
pub mod stop_never_cited;
pub mod superseded_source;
pub mod table_contradicts_itself;
pub mod table_out_of_step;
pub mod teeth_unlike_ratio;
pub mod thread_not_understood;
pub mod tolerance_unlike_peers;
pub mod torque_unlike_thread;
pub mod torques_of_one_thread_differ;
pub mod unit_of_another_kind;
pub mod unknown_condition;
pub mod unknown_place;
pub mod variant_changes_nothing;
pub mod variant_fits_nothing;
pub mod variant_replaces_itself;
pub mod variants_collide;
pub mod waiver_lapsed;
pub mod waiver_not_allowed;
pub mod wear_limit_within_new;

use std::collections::BTreeSet;

use super::Subject;
use crate::diag::{Rule, Sink};
use crate::load::place::FileKind;

/// False if some machine is not known to have any engine: what it was to have has its finding already, and
/// nothing is said of what then fits nothing.
pub(super) fn fittings_are_known(subject: &Subject<'_>) -> bool {
    let fitted: BTreeSet<_> = subject.model.fits.iter().map(|fit| &fit.machine).collect();
    !subject.damaged.contains(&FileKind::Machines)
        && subject.model.machines.keys().all(|machine| fitted.contains(machine))
}

/// A rule with the function that looks for what it finds.
pub struct Check {
    /// The rule.
    pub rule: &'static Rule,
    /// Looks at the whole base.
    pub run: fn(&Subject<'_>, &mut Sink),
}

/// Joins a rule's static and its function.
macro_rules! checks {
    ($($name:ident)*) => { &[$(Check { rule: &$name::RULE, run: $name::check }),*] };
}

/// Rules that look at what the others found.
pub static LAST: &[&Rule] = &[&waiver_lapsed::RULE, &waiver_not_allowed::RULE];

/// Every rule that looks at the base.
pub static CHECKS: &[Check] = checks! {
    access_in_a_circle
    access_never_needed
    arithmetic_broken
    bigger_when_higher
    cause_never_shown
    code_is_not_size
    code_unknown
    codes_without_source
    complaint_fits_nothing
    critical_unconfirmed
    direction_in_prose
    dual_units_disagree
    dual_units_loose
    engine_not_fitted
    entry_contradicts_itself
    far_from_its_pair
    far_from_peers
    file_name_differs
    form_not_allowed
    gauge_impossible
    hazard_not_declared
    id_too_long
    id_vanished
    interval_impossible
    intervals_out_of_order
    kind_missing
    limits_far_apart
    min_for_max
    missing_in_build
    name_means_two_things
    never_used
    number_in_prose
    outside_plausible
    page_missing
    pin_expects_no_reading
    point_off_curve
    procedure_fits_nothing
    recall_of_nothing
    recalled_value_stated
    relation_broken
    relation_not_understood
    retired_id_lives
    retired_to_nowhere
    set_to_outside_window
    shares_sum_to_nothing
    sheet_name_taken
    sides_differ
    single_value_as_limit
    source_missing
    stages_out_of_order
    step_unknown
    stop_never_cited
    superseded_source
    table_contradicts_itself
    table_out_of_step
    teeth_unlike_ratio
    thread_not_understood
    tolerance_unlike_peers
    torque_unlike_thread
    torques_of_one_thread_differ
    unit_of_another_kind
    unknown_condition
    unknown_place
    variant_changes_nothing
    variant_fits_nothing
    variant_replaces_itself
    variants_collide
    wear_limit_within_new
};

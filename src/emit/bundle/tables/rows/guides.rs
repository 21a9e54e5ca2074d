//! Complaints with causes, access and checks; fault codes.

use super::{Cell, Column, Holds, Reference, Table, places, row, table};
use crate::bundle::{Bundle, Code, Complaint, Fitting};

/// Complaints.
pub fn complaints(bundle: &Bundle) -> Vec<Table> {
    let mut filled = Complaints::new();
    bundle.complaints.complaints.iter().for_each(|one| filled.complaint(one));
    let Complaints { heads, aka, causes, access, access_needs, checks, shows, needs, hazards, fits, builds } =
        filled;
    vec![heads, aka, causes, access, access_needs, checks, shows, needs, hazards, fits, builds]
}

struct Complaints {
    heads: Table,
    aka: Table,
    causes: Table,
    access: Table,
    access_needs: Table,
    checks: Table,
    shows: Table,
    needs: Table,
    hazards: Table,
    fits: Table,
    builds: Table,
}

impl Complaints {
    fn new() -> Self {
        Self {
            heads: table! { "complaint" "What owners report" key("id") refers[]
            Text id '!' "Id"; Text title '!' "What the owner says"; Text fits_cycle '?' "four-stroke or two-stroke engines only";
            Text fits_fuel '?' "petrol or diesel engines only"; },
            aka: table! { "complaint_name" "Other words for complaints" key("complaint", "place") refers[("complaint" "complaint" "id")]
            Text complaint '!' "Complaint"; Integer place '!' "Place"; Text name '!' "Other words"; },
            causes: table! { "cause" "Causes of complaints" key("complaint", "id") refers[("complaint" "complaint" "id")]
            Text complaint '!' "Complaint"; Text id '!' "Id in the complaint"; Integer place '!' "Place"; Text title '!' "What is wrong";
            Text share '!' "Share of past jobs as written, exact"; Boolean residual '!' "True for what is left when no check shows it"; },
            access: table! { "access" "Access steps that checks share" key("complaint", "id") refers[("complaint" "complaint" "id")]
            Text complaint '!' "Complaint"; Text id '!' "Id in the complaint"; Integer place '!' "Place";
            Text title '?' "What is opened or taken off"; Text minutes '!' "Minutes, exact"; },
            access_needs: table! { "access_need" "Access steps that come before another" key("complaint", "access", "place") refers[("complaint" "complaint" "id")]
            Text complaint '!' "Complaint"; Text access '!' "Access step"; Integer place '!' "Place"; Text needs '!' "Access step before it"; },
            checks: table! { "complaint_check" "Checks that show causes, as they are written" key("complaint", "id") refers[("complaint" "complaint" "id")]
            Text complaint '!' "Complaint"; Text id '!' "Id in the complaint"; Integer place '!' "Place";
            Text title '!' "What is looked at or measured"; Text minutes '!' "Minutes, access aside, exact";
            Text procedure '?' "Procedure that says how"; Text state '!' "cold, hot or any";
            Boolean voids_cold '!' "True if the engine is no longer cold after it"; },
            shows: table! { "check_shows" "Causes that a check shows" key("complaint", "check_id", "place") refers[("complaint" "complaint" "id")]
            Text complaint '!' "Complaint"; Text check_id '!' "Check"; Integer place '!' "Place"; Text cause '!' "Cause"; },
            needs: table! { "check_need" "Access steps that a check needs" key("complaint", "check_id", "place") refers[("complaint" "complaint" "id")]
            Text complaint '!' "Complaint"; Text check_id '!' "Check"; Integer place '!' "Place"; Text access '!' "Access step"; },
            hazards: table! { "check_hazard" "Cautions of checks themselves; those of their procedures come on top" key("complaint", "check_id", "place") refers[("complaint" "complaint" "id") ("hazard" "hazard" "id")]
            Text complaint '!' "Complaint"; Text check_id '!' "Check"; Integer place '!' "Place"; Text hazard '!' "Hazard"; },
            fits: table! { "complaint_fits" "What a build must have or be for a complaint to fit" key("complaint", "sort", "place") refers[("complaint" "complaint" "id")]
            Text complaint '!' "Complaint"; Text sort '!' "has (an entry) or engine"; Integer place '!' "Place"; Text id '!' "Entry or engine"; },
            builds: table! { "complaint_build" "Builds that a complaint fits" key("complaint", "build") refers[("complaint" "complaint" "id") ("build" "build" "id")]
            Text complaint '!' "Complaint"; Text build '!' "Build"; },
        }
    }

    fn complaint(&mut self, one: &Complaint) {
        self.heads.rows.push(row![&one.id, &one.title, one.fits.cycle.as_ref(), one.fits.fuel.as_ref(),]);
        self.aka.rows.extend(places(&one.aka).map(|(place, name)| row![&one.id, place, name]));
        for (place, cause) in places(&one.causes) {
            let share = cause.share.as_str();
            self.causes.rows.push(row![&one.id, &cause.id, place, &cause.title, share, cause.residual]);
        }
        for (place, access) in places(&one.access) {
            let minutes = access.minutes.as_str();
            self.access.rows.push(row![&one.id, &access.id, place, access.title.as_ref(), minutes]);
            let needs = places(&access.needs).map(|(at, needs)| row![&one.id, &access.id, at, needs]);
            self.access_needs.rows.extend(needs);
        }
        for (place, check) in places(&one.checks) {
            self.checks.rows.push(row![
                &one.id,
                &check.id,
                place,
                &check.title,
                check.minutes.as_str(),
                check.procedure.as_ref(),
                &check.state,
                check.voids.iter().any(|state| state == "cold"),
            ]);
            let shows = places(&check.shows).map(|(at, cause)| row![&one.id, &check.id, at, cause]);
            self.shows.rows.extend(shows);
            let needs = places(&check.needs).map(|(at, access)| row![&one.id, &check.id, at, access]);
            self.needs.rows.extend(needs);
            let hazards = places(&check.hazards).map(|(at, hazard)| row![&one.id, &check.id, at, hazard]);
            self.hazards.rows.extend(hazards);
        }
        self.fits.rows.extend(fitting_rows(&one.id, &one.fits));
        self.builds.rows.extend(one.builds.iter().map(|build| row![&one.id, build]));
    }
}

/// A row for every entry and engine that a fitting names.
pub fn fitting_rows(id: &str, fits: &Fitting) -> Vec<Vec<Cell>> {
    let has = places(&fits.has).map(|(place, entry)| row![id, "has", place, entry]);
    has.chain(places(&fits.engines).map(|(place, engine)| row![id, "engine", place, engine])).collect()
}

/// Fault codes.
pub fn codes(bundle: &Bundle) -> Vec<Table> {
    let mut sets = table! { "code_set" "Sets of fault codes" key("id") refers[("source" "source" "id")]
    Text id '!' "Id"; Text title '!' "Title"; Text how_read '!' "How they are read"; Text how_cleared '!' "How they are cleared";
    Text source '?' "Manual"; Text page '?' "Page"; };
    let mut engines = table! { "code_set_engine" "Engines that give codes" key("code_set", "place") refers[("code_set" "code_set" "id") ("engine" "engine" "id")]
    Text code_set '!' "Set of codes"; Integer place '!' "Place"; Text engine '!' "Engine"; };
    let mut codes = table! { "code" "Fault codes" key("code_set", "id") refers[("code_set" "code_set" "id")]
    Text code_set '!' "Set of codes"; Text id '!' "Id in the set"; Integer place '!' "Place"; Text title '!' "What it says";
    Text set_when '!' "When it is set"; };
    let mut raises = table! { "code_raises" "Causes that a code raises" key("code_set", "code", "place") refers[("code_set" "code_set" "id") ("complaint" "complaint" "id")]
    Text code_set '!' "Set of codes"; Text code '!' "Code"; Integer place '!' "Place"; Text complaint '!' "Complaint"; Text cause '!' "Cause"; };
    let mut measure = table! { "code_measure" "Entries to measure at a code" key("code_set", "code", "place") refers[("code_set" "code_set" "id") ("entry" "entry" "id")]
    Text code_set '!' "Set of codes"; Text code '!' "Code"; Integer place '!' "Place"; Text entry '!' "Entry"; };
    for set in &bundle.codes.sets {
        sets.rows.push(row![
            &set.id,
            &set.title,
            &set.read,
            &set.clear,
            set.source.as_ref(),
            set.page.as_ref(),
        ]);
        engines.rows.extend(places(&set.engines).map(|(place, engine)| row![&set.id, place, engine]));
        for (place, code) in places(&set.codes) {
            codes.rows.push(row![&set.id, &code.id, place, &code.title, &code.set_when]);
            raises.rows.extend(raised(&set.id, code));
            let entries = places(&code.measure).map(|(at, entry)| row![&set.id, &code.id, at, entry]);
            measure.rows.extend(entries);
        }
    }
    vec![sets, engines, codes, raises, measure]
}

fn raised(set: &str, code: &Code) -> Vec<Vec<Cell>> {
    places(&code.raises).map(|(at, one)| row![set, &code.id, at, &one.complaint, &one.cause]).collect()
}

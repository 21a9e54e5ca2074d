//! Ids that moved: followed before anything is compared, and told as changes of their own.

use super::Change;
use super::kind::ChangeKind;
use crate::bundle::{Bundle, Spec};

/// The old bundle with every id that moved to one other written as it is now.
///
/// A thing that was split, or withdrawn, keeps its old id.
pub fn renamed(old: &Bundle, new: &Bundle) -> Bundle {
    let mut bundle = old.clone();
    let now = |id: &mut String| {
        if let [one] = new.ids.now(id).as_slice() {
            id.clone_from(one);
        }
    };
    for engine in &mut bundle.engines {
        let was = engine.id.clone();
        now(&mut engine.id);
        for build in &mut engine.builds {
            rename_build(&mut build.id, &was, &engine.id, &now);
            build.specs.iter_mut().for_each(|spec| rename_spec(spec, &now));
        }
    }
    for fit in bundle.machines.machines.iter_mut().flat_map(|machine| &mut machine.fits) {
        let was = fit.build.split('~').next().unwrap_or_default().to_owned();
        let mut engine = was.clone();
        now(&mut engine);
        rename_build(&mut fit.build, &was, &engine, &now);
        now(&mut fit.machine);
    }
    bundle.machines.machines.iter_mut().for_each(|one| now(&mut one.id));
    bundle.machines.makers.iter_mut().for_each(|one| now(&mut one.id));
    bundle.catalogue.groups.iter_mut().flat_map(|group| &mut group.entries).for_each(|one| now(&mut one.id));
    bundle.sources.sources.iter_mut().for_each(|one| now(&mut one.id));
    bundle.hazards.hazards.iter_mut().for_each(|one| now(&mut one.id));
    bundle.gauges.gauges.iter_mut().for_each(|one| now(&mut one.id));
    bundle.procedures.procedures.iter_mut().for_each(|one| now(&mut one.id));
    bundle.complaints.complaints.iter_mut().for_each(|one| now(&mut one.id));
    bundle.codes.sets.iter_mut().for_each(|one| now(&mut one.id));
    let everywhere = |list: &mut Vec<String>| list.iter_mut().for_each(&now);
    for entry in bundle.catalogue.groups.iter_mut().flat_map(|group| &mut group.entries) {
        everywhere(&mut entry.hazards);
        entry.gauge.iter_mut().for_each(&now);
    }
    for procedure in &mut bundle.procedures.procedures {
        [&mut procedure.hazards, &mut procedure.uses, &mut procedure.gauges].into_iter().for_each(everywhere);
        procedure.builds.iter_mut().for_each(&now);
    }
    bundle
}

/// A build goes by its own entry, else by its engine's.
fn rename_build(id: &mut String, was: &str, engine: &str, now: &dyn Fn(&mut String)) {
    let before = id.clone();
    now(id);
    if *id == before
        && let Some(variants) = before.strip_prefix(was)
    {
        *id = format!("{engine}{variants}");
    }
}

fn rename_spec(spec: &mut Spec, now: &dyn Fn(&mut String)) {
    now(&mut spec.of);
    spec.source.id.iter_mut().for_each(now);
}

/// Ids that are retired, and values that are recalled, since the old bundle.
pub fn changes(old: &Bundle, new: &Bundle) -> Vec<Change> {
    let fresh = new.ids.retired.iter().filter(|one| !old.ids.retired.iter().any(|known| known.id == one.id));
    let moved = fresh.filter(|one| one.fate != "withdrawn").map(|one| {
        let engine = new
            .engines
            .iter()
            .find(|engine| one.to.iter().any(|to| to.split('~').next() == Some(&engine.id)));
        let change = Change::new(ChangeKind::IdMoved, Some(one.id.clone()), Some(one.to.join(", ")));
        Change { engine: engine.map(|engine| engine.id.clone()), ..change.of(&one.id) }
    });
    let recalled = new.ids.recall.iter().filter(|one| !old.ids.recall.contains(one)).map(|one| Change {
        engine: Some(one.engine.clone()),
        of: Some(one.of.clone()),
        place: one.place.clone(),
        when: one.when.clone(),
        ..Change::new(
            ChangeKind::Withdrawn,
            Some(one.value.clone()),
            Some(format!("recalled: {}", one.because)),
        )
    });
    moved.chain(recalled).collect()
}

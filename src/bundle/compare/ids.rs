//! Ids that moved: followed before anything is compared, and told as changes of their own.

use super::Change;
use super::kind::ChangeKind;
use crate::bundle::{Build, Bundle, Engine, Fit, Fitting, Part, Procedure};

/// The old bundle with every id that moved to one other written as it is now, wherever it is named.
///
/// A thing that was split, or withdrawn, keeps its old id.
pub fn renamed(old: &Bundle, new: &Bundle) -> Bundle {
    let mut bundle = old.clone();
    let now = Now { new };
    bundle.engines.iter_mut().for_each(|one| now.engine(one));
    for machine in &mut bundle.machines.machines {
        now.all([&mut machine.id, &mut machine.maker]);
        machine.fits.iter_mut().for_each(|fit| now.fit(fit));
    }
    now.all(bundle.machines.makers.iter_mut().map(|one| &mut one.id));
    for entry in bundle.catalogue.groups.iter_mut().flat_map(|group| &mut group.entries) {
        now.id(&mut entry.id);
        now.all(entry.hazards.iter_mut().chain(&mut entry.gauge));
    }
    for source in &mut bundle.sources.sources {
        now.id(&mut source.id);
        now.all(&mut source.supersedes);
    }
    now.all(bundle.hazards.hazards.iter_mut().map(|one| &mut one.id));
    for gauge in &mut bundle.gauges.gauges {
        now.id(&mut gauge.id);
        now.all(&mut gauge.hazards);
    }
    bundle.procedures.procedures.iter_mut().for_each(|one| now.procedure(one));
    for complaint in &mut bundle.complaints.complaints {
        now.id(&mut complaint.id);
        for check in &mut complaint.checks {
            now.all(check.procedure.iter_mut().chain(&mut check.hazards));
        }
        now.fitting(&mut complaint.fits);
        complaint.builds.iter_mut().for_each(|build| now.build(build));
    }
    for set in &mut bundle.codes.sets {
        now.all([&mut set.id].into_iter().chain(&mut set.engines).chain(&mut set.source));
        for code in &mut set.codes {
            now.all(code.measure.iter_mut().chain(code.raises.iter_mut().map(|one| &mut one.complaint)));
        }
    }
    for relation in &mut bundle.relations.relations {
        relation.holds = now.formula(&relation.holds);
        now.all(relation.fits.has.iter_mut().chain(&mut relation.fits.lacks));
        relation.fits.says = std::mem::take(&mut relation.fits.says)
            .into_iter()
            .map(|(mut id, words)| {
                now.id(&mut id);
                (id, words)
            })
            .collect();
    }
    for recall in &mut bundle.ids.recall {
        now.all([&mut recall.engine, &mut recall.of]);
    }
    bundle
}

/// Writes ids as they are now.
struct Now<'a> {
    new: &'a Bundle,
}

impl Now<'_> {
    fn id(&self, id: &mut String) {
        if let [one] = self.new.ids.now(id).as_slice() {
            id.clone_from(one);
        }
    }

    fn all<'i>(&self, ids: impl IntoIterator<Item = &'i mut String>) {
        ids.into_iter().for_each(|id| self.id(id));
    }

    /// A build goes by its own entry, else by its engine's.
    fn build(&self, id: &mut String) {
        let before = id.clone();
        self.id(id);
        let engine = before.split('~').next().unwrap_or_default();
        if *id == before
            && let Some(variants) = before.strip_prefix(engine)
        {
            let mut engine = engine.to_owned();
            self.id(&mut engine);
            *id = format!("{engine}{variants}");
        }
    }

    /// A formula with the entries it names.
    fn formula(&self, text: &str) -> String {
        let is_part = |c: char| c.is_ascii_alphanumeric() || ".-".contains(c);
        let mut written = String::with_capacity(text.len());
        let mut rest = text;
        while let Some(start) = rest.find(is_part) {
            let (before, from) = rest.split_at(start);
            let (word, after) = from.split_at(from.find(|c| !is_part(c)).unwrap_or(from.len()));
            let mut word = word.to_owned();
            self.id(&mut word);
            written.push_str(before);
            written.push_str(&word);
            rest = after;
        }
        written + rest
    }

    fn fit(&self, fit: &mut Fit) {
        self.id(&mut fit.machine);
        self.build(&mut fit.build);
    }

    fn fitting(&self, fits: &mut Fitting) {
        self.all(fits.has.iter_mut().chain(&mut fits.engines));
    }

    fn engine(&self, engine: &mut Engine) {
        self.all([&mut engine.id, &mut engine.maker]);
        for variant in &mut engine.variants {
            self.all(variant.source.iter_mut().chain(variant.applies.iter_mut().map(|one| &mut one.machine)));
        }
        for Build { id, fits, specs, .. } in &mut engine.builds {
            self.build(id);
            fits.iter_mut().for_each(|fit| self.fit(fit));
            for spec in specs {
                self.id(&mut spec.of);
                self.all(&mut spec.source.id);
            }
        }
    }

    fn procedure(&self, procedure: &mut Procedure) {
        self.id(&mut procedure.id);
        self.all(procedure.hazards.iter_mut().chain(&mut procedure.uses).chain(&mut procedure.gauges));
        self.fitting(&mut procedure.fits);
        procedure.builds.iter_mut().for_each(|build| self.build(build));
        for Part { of, hazard, procedure, complaint, set, .. } in
            procedure.body.iter_mut().flat_map(|block| &mut block.parts)
        {
            self.all([of, hazard, procedure, complaint, set].into_iter().flatten());
        }
    }
}

/// Ids that are retired, and values that are recalled, since the old bundle, whose ids are written as they are now.
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

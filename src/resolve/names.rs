//! Every id that something refers to, gathered before anything is resolved.

use super::registry::Registry;
use crate::diag::Sink;
use crate::load::Loaded;
use crate::load::place::FileKind;

/// The registries of a base.
pub struct Names {
    /// Catalogue entries.
    pub entries: Registry,
    /// Service groups.
    pub groups: Registry,
    /// Hazards.
    pub hazards: Registry,
    /// Manuals and bulletins.
    pub manuals: Registry,
    /// Gauges.
    pub gauges: Registry,
    /// Makers that machines are listed under.
    pub makers: Registry,
    /// Machines.
    pub machines: Registry,
    /// Engines.
    pub engines: Registry,
    /// Procedures.
    pub procedures: Registry,
    /// Complaints.
    pub complaints: Registry,
    /// Sets of fault codes.
    pub codes: Registry,
}

impl Names {
    /// Gathers the ids of a base; an id defined twice is a finding.
    pub fn gather(loaded: &Loaded, sink: &mut Sink) -> Self {
        let whole = |kind| !loaded.damaged.contains(&kind);
        let mut names = Self {
            entries: Registry::new("an entry", "`catalogue/`", whole(FileKind::Catalogue)),
            groups: Registry::new("a service group", "`catalogue/`", whole(FileKind::Catalogue)),
            hazards: Registry::new("a hazard", "`hazards.toml`", whole(FileKind::Hazards)),
            manuals: Registry::new("a source", "`sources.toml`", whole(FileKind::Sources)),
            gauges: Registry::new("a gauge", "`gauges.toml`", whole(FileKind::Gauges)),
            makers: Registry::new("a maker", "`machines/`", whole(FileKind::Machines)),
            machines: Registry::new("a machine", "`machines/`", whole(FileKind::Machines)),
            engines: Registry::new("an engine", "`engines/`", whole(FileKind::Engine)),
            procedures: Registry::new("a procedure", "`procedures/`", whole(FileKind::Procedure)),
            complaints: Registry::new("a complaint", "`complaints/`", whole(FileKind::Complaint)),
            codes: Registry::new("a set of codes", "`codes/`", whole(FileKind::Codes)),
        };
        for file in &loaded.catalogue {
            names.groups.define(file.file, &file.data.group, sink);
            for entry in &file.data.entry {
                names.entries.define(file.file, &entry.get().id, sink);
            }
        }
        for file in &loaded.hazards {
            file.data.hazard.iter().for_each(|one| _ = names.hazards.define(file.file, &one.get().id, sink));
        }
        for file in &loaded.manuals {
            file.data.source.iter().for_each(|one| _ = names.manuals.define(file.file, &one.get().id, sink));
        }
        for file in &loaded.gauges {
            file.data.gauge.iter().for_each(|one| _ = names.gauges.define(file.file, &one.get().id, sink));
        }
        for file in &loaded.machines {
            names.makers.define(file.file, &file.data.maker, sink);
            file.data
                .machine
                .iter()
                .for_each(|one| _ = names.machines.define(file.file, &one.get().id, sink));
        }
        for file in &loaded.engines {
            names.engines.define(file.file, &file.data.id, sink);
        }
        for file in &loaded.complaints {
            names.complaints.define(file.file, &file.data.id, sink);
        }
        for file in &loaded.codes {
            names.codes.define(file.file, &file.data.id, sink);
        }
        for file in &loaded.procedures {
            names.procedures.define(file.head.file, &file.head.data.id, sink);
        }
        names
    }
}

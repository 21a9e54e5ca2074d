//! Ids of things that exist in the model.

use std::fmt;

/// Declares the id types; each is a string that only this crate can make.
macro_rules! ids {
    ($($(#[$doc:meta])* $name:ident)*) => {$(
        $(#[$doc])*
        #[derive(Clone, Debug, Eq, Hash, Ord, PartialEq, PartialOrd)]
        pub struct $name(String);

        impl $name {
            pub(crate) fn new(id: impl Into<String>) -> Self {
                Self(id.into())
            }

            /// The id as typed.
            pub fn as_str(&self) -> &str {
                &self.0
            }
        }

        impl fmt::Display for $name {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str(&self.0)
            }
        }

        impl std::borrow::Borrow<str> for $name {
            fn borrow(&self) -> &str {
                &self.0
            }
        }
    )*};
}

ids! {
    /// Id of a catalogue entry, as `lash.exhaust`.
    EntryId
    /// Id of a relation between values.
    RelationId
    /// Id of a hazard.
    HazardId
    /// Id of a manual or bulletin.
    SourceId
    /// Id of a gauge.
    GaugeId
    /// Id of a maker.
    MakerId
    /// Id of a machine.
    MachineId
    /// Id of an engine.
    EngineId
    /// Id of a variant, unique in its engine.
    VariantId
    /// Id of a build: `engine~variant~variant`, the variants sorted.
    BuildId
    /// Id of a procedure.
    ProcedureId
    /// Id of a complaint.
    ComplaintId
    /// Id of a set of fault codes.
    CodeSetId
}
